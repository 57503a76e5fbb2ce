/* What the shipped options promise beyond what every trade folder must: the first option of a need
 * is what its jobs do by themselves, and each join has two sides. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/arena.h"
#include "library/trade.h"

#include <math.h>
#include <string.h>

static int set_up(void **state)
{
    static struct arena a;
    static struct trade t;
    struct trade_faults faults;
    struct fail fail = {0};
    a = arena_open(256 << 20);
    *state = &t;
    return trade_load_dir(&a, TRADE_DIR, &t, &faults, &fail) ? 0 : -1;
}

static const struct trade_option *first_of(const struct trade *t, int need)
{
    for (int i = 0; i < t->n_options; i++)
        if (t->options[i].need == need) return &t->options[i];
    return NULL;
}

static double bought(const struct trade_buy *buys, int count, int part)
{
    double sum = 0;
    for (int i = 0; i < count; i++)
        if (buys[i].part == part) sum += buys[i].count;
    return sum;
}

static void the_first_option_is_what_the_jobs_do(void **state)
{
    const struct trade *t = *state;
    for (int n = 0; n < t->n_needs; n++) {
        const struct trade_need *need = &t->needs[n];
        if (need->n_jobs == 0) continue;
        const struct trade_option *o = first_of(t, n);
        struct points hours = {0};
        for (int k = 0; k < need->n_jobs; k++) {
            const struct points h = t->jobs[need->jobs[k]].hours;
            hours =
                (struct points){hours.low + h.low, hours.middle + h.middle, hours.high + h.high};
        }
        if (fabs(hours.low - o->hours.low) > 1e-9 || fabs(hours.middle - o->hours.middle) > 1e-9 ||
            fabs(hours.high - o->hours.high) > 1e-9)
            fail_msg("%s: hours of '%s' are not those of its jobs", need->head.id, o->head.id);
        for (int p = 0; p < t->n_parts; p++) {
            double jobs = 0;
            for (int k = 0; k < need->n_jobs; k++) {
                const struct trade_job *j = &t->jobs[need->jobs[k]];
                jobs += bought(j->parts, j->n_parts, p);
            }
            if (fabs(jobs - bought(o->parts, o->n_parts, p)) > 1e-9)
                fail_msg("%s: '%s' has another count of '%s' than its jobs", need->head.id,
                         o->head.id, t->parts[p].head.id);
        }
        if (o->n_brings > 0) fail_msg("%s: '%s' brings needs", need->head.id, o->head.id);
    }
}

static bool at_join(const struct trade_end *ends, int count, int join)
{
    for (int i = 0; i < count; i++)
        if (ends[i].join == join) return true;
    return false;
}

static void each_join_is_given_and_taken(void **state)
{
    const struct trade *t = *state;
    for (int j = 0; j < t->n_joins; j++) {
        bool given = false, taken = false;
        for (int i = 0; i < t->n_options; i++) {
            const struct trade_option *o = &t->options[i];
            given = given || at_join(o->gives, o->n_gives, j);
            taken = taken || at_join(o->takes, o->n_takes, j);
        }
        for (int i = 0; i < t->n_fittings; i++) {
            const struct trade_fitting *f = &t->fittings[i];
            given = given || at_join(f->gives, f->n_gives, j);
            taken = taken || at_join(f->takes, f->n_takes, j);
        }
        if (!given || !taken)
            fail_msg("join '%s' is not %s", t->joins[j].head.id, given ? "taken" : "given");
    }
}

/* What is known of two ends rules their meeting out. */
static bool clash(const struct trade_join *j, const struct trade_end *gives,
                  const struct trade_end *takes)
{
    if (gives->is && takes->is) return strcmp(gives->is, takes->is) != 0;
    if (j->rule == JOIN_NEAR) return fabs(gives->least - takes->least) > j->within;
    return gives->least < takes->least || gives->most > takes->most; /* not known: neither */
}

static bool ends_clash(const struct trade *t, const struct trade_option *giver,
                       const struct trade_option *taker)
{
    for (int i = 0; i < giver->n_gives; i++)
        for (int k = 0; k < taker->n_takes; k++)
            if (giver->gives[i].join == taker->takes[k].join &&
                clash(&t->joins[giver->gives[i].join], &giver->gives[i], &taker->takes[k]))
                return true;
    return false;
}

static void what_is_brought_can_be_met(void **state)
{
    const struct trade *t = *state;
    for (int i = 0; i < t->n_options; i++) {
        const struct trade_option *o = &t->options[i];
        for (int b = 0; b < o->n_brings; b++) {
            bool met = false;
            for (int k = 0; k < t->n_options && !met; k++) {
                const struct trade_option *other = &t->options[k];
                met = other->need == o->brings[b] && !ends_clash(t, o, other) &&
                      !ends_clash(t, other, o);
            }
            if (!met)
                fail_msg("'%s' brings '%s', and no option of it agrees with it", o->head.id,
                         t->needs[o->brings[b]].head.id);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_first_option_is_what_the_jobs_do),
        cmocka_unit_test(each_join_is_given_and_taken),
        cmocka_unit_test(what_is_brought_can_be_met),
    };
    return cmocka_run_group_tests(tests, set_up, NULL);
}
