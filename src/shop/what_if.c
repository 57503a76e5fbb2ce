#include "shop/what_if.h"

#include "shop/plan_chart.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* Every WHAT_IF_SECTIONS-th run from `section` on. */
static double section_quantile(double *sample, const double *column, int runs, int section,
                               double share)
{
    size_t n = 0;
    for (int i = section; i < runs; i += WHAT_IF_SECTIONS) sample[n++] = column[i];
    return quantile_of(sample, n, share);
}

static double whole_quantile(double *sample, const double *column, int runs, double share)
{
    memcpy(sample, column, (size_t)runs * sizeof *sample);
    return quantile_of(sample, (size_t)runs, share);
}

struct what_if_difference what_if_differ(struct arena scratch, const double *as_is,
                                         const double *changed, int runs, double share)
{
    double *sample = ARENA_ARRAY(&scratch, double, runs);
    double before = whole_quantile(sample, as_is, runs, share);
    double after = whole_quantile(sample, changed, runs, share);
    struct what_if_difference d = {.kind = isinf(before) && isinf(after) ? NEVER_BOTH
                                           : isinf(before)               ? NEVER_BEFORE
                                           : isinf(after)                ? NEVER_NOW
                                                                         : DIFFERS};
    if (d.kind != DIFFERS) return d;
    double sum = 0, squares = 0;
    int n = 0;
    for (int i = 0; i < WHAT_IF_SECTIONS && i < runs; i++) {
        double by = section_quantile(sample, changed, runs, i, share) -
                    section_quantile(sample, as_is, runs, i, share);
        if (!isfinite(by)) continue; /* near the share that never ends */
        sum += by;
        squares += by * by;
        n++;
    }
    d.by = after - before;
    /* Too few sections end to say how sure it is. */
    d.error = n < WHAT_IF_SECTIONS / 2 ? (double)INFINITY
                                       : sqrt(fmax(0, squares / n - sum / n * (sum / n)) / (n - 1));
    d.tells = d.by != 0 && fabs(d.by) >= 2 * d.error;
    return d;
}

/* From with, runs, finish and cost. */
static void sum_side(struct arena *a, struct what_if_side *s)
{
    double *moments = ARENA_ARRAY(a, double, s->runs);
    int never = 0;
    for (int i = 0; i < s->runs; i++) {
        moments[i] = (s->finish[i] - s->with.start) * MINUTES_A_DAY;
        never += isinf(moments[i]);
    }
    s->never = (double)never / s->runs;
    s->finished = quantiles_of(s->finish, (size_t)s->runs, *a);
    s->bill = quantiles_of(s->cost, (size_t)s->runs, *a);
    plan_fan(moments, s->runs, s->fan);
}

bool what_if_side_of(struct arena *a, const struct shop_ask *ask, const struct facts *facts,
                     const struct taken *taken, bool detail, struct what_if_side *out,
                     struct reckoned *r, struct fail *f)
{
    struct shop_ask how = *ask;
    int direction = reckoning_direction(facts, ask->trade);
    if (how.runs > WHAT_IF_RUNS) how.runs = WHAT_IF_RUNS;
    if (!reckoning_run(a, &how, facts, taken, direction, NULL, detail, r, f)) return false;
    *out = (struct what_if_side){
        .with = {r->model.calendar.hours_a_week, r->model.first, facts->a_month, "", direction},
        .runs = how.runs,
        .cost = r->forecast.cost,
        .finish = reckoning_finishes(a, &r->forecast)};
    memcpy(out->with.currency, r->model.currency, sizeof out->with.currency);
    for (int i = 0; i < out->runs; i++)
        out->finish[i] = r->model.first + out->finish[i] / MINUTES_A_DAY;
    sum_side(a, out);
    return true;
}

static bool reckon_side(struct arena *a, const struct shop_ask *ask, const struct facts *facts,
                        struct what_if_side *out, const char **after, struct fail *f)
{
    struct taken *taken;
    struct reckoned r;
    struct shop_ask how = *ask;
    if (how.runs > WHAT_IF_RUNS) how.runs = WHAT_IF_RUNS;
    return reckoning_taken(a, &how, facts, &taken, after, f) &&
           what_if_side_of(a, &how, facts, taken, false, out, &r, f);
}

static bool read_facts(struct arena *a, const struct shop_ask *ask, struct facts **out,
                       struct fail *f)
{
    *out = ARENA_NEW(a, struct facts);
    if (!facts_read(ask->garage, a, ask->trade, ask->vehicle, *out, f)) return false;
    if (ask->direction >= 0) (*out)->direction = ask->direction;
    return true;
}

bool what_if_as_is(struct arena *a, const struct shop_ask *ask, struct what_if_side *out,
                   struct fail *f)
{
    struct facts *facts;
    const char *after;
    return read_facts(a, ask, &facts, f) && reckon_side(a, ask, facts, out, &after, f);
}

bool what_if_reckon(struct arena *a, const struct shop_ask *ask, const struct override *said,
                    const struct what_if_side *as_is, struct what_if *out, struct fail *f)
{
    struct facts *facts, changed;
    struct shop_ask how = *ask;
    how.override = said;
    *out = (struct what_if){.trade = ask->trade,
                            .seed = ask->seed,
                            .as_of = ask->today,
                            .said = *said,
                            .as_is = *as_is};
    if (!read_facts(a, ask, &facts, f)) return false;
    changed = override_facts(a, facts, said, ask->today);
    if (!reckon_side(a, &how, &changed, &out->changed, &out->after, f)) return false;
    out->vehicle = facts->name;
    const struct what_if_side *x = &out->as_is, *y = &out->changed;
    assert(x->runs == y->runs);
    out->days_p50 = what_if_differ(*a, x->finish, y->finish, x->runs, 0.5);
    out->days_p80 = what_if_differ(*a, x->finish, y->finish, x->runs, 0.8);
    out->money_p50 = what_if_differ(*a, x->cost, y->cost, x->runs, 0.5);
    out->money_p80 = what_if_differ(*a, x->cost, y->cost, x->runs, 0.8);
    return true;
}

/* ---- as bytes: what was reckoned, runs, finishes, costs ---- */

struct packed {
    struct what_if_now with;
    int runs;
};

void what_if_pack(struct arena *a, const struct what_if_side *side, char **data, size_t *n)
{
    struct packed head = {0}; /* its gaps too, so that the same side gives the same bytes */
    size_t column = (size_t)side->runs * sizeof *side->finish;
    head.with = side->with;
    head.runs = side->runs;
    *n = sizeof head + 2 * column;
    *data = ARENA_ARRAY(a, char, *n);
    memcpy(*data, &head, sizeof head);
    memcpy(*data + sizeof head, side->finish, column);
    memcpy(*data + sizeof head + column, side->cost, column);
}

bool what_if_unpack(struct arena *a, const char *data, size_t n, struct what_if_side *out)
{
    struct packed head;
    if (n < sizeof head) return false;
    memcpy(&head, data, sizeof head);
    if (head.runs < 1 || head.runs > WHAT_IF_RUNS) return false;
    size_t column = (size_t)head.runs * sizeof *out->finish;
    if (n != sizeof head + 2 * column) return false;
    *out = (struct what_if_side){.with = head.with,
                                 .runs = head.runs,
                                 .finish = ARENA_ARRAY(a, double, head.runs),
                                 .cost = ARENA_ARRAY(a, double, head.runs)};
    memcpy(out->finish, data + sizeof head, column);
    memcpy(out->cost, data + sizeof head + column, column);
    sum_side(a, out);
    return true;
}
