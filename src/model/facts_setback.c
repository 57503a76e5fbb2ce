#include "model/facts_setback.h"

#include "garage/kinds.h"
#include "model/facts_worth.h"

#include <math.h>
#include <string.h>

/* How much stuckness matters, on the scale of log odds (mark: practice): of two steps of even odds
 * the second then works in about two of five where the first was in vain. */
static const double STUCK = 1;

static int step_called(const struct trade_setback *s, const char *word, size_t n)
{
    for (int i = 0; i < s->n_ladder; i++)
        if ((n == 1 && word[0] == '1' + i) ||
            (s->ladder[i].called && strlen(s->ladder[i].called) == n &&
             strncmp(s->ladder[i].called, word, n) == 0))
            return i;
    return -1;
}

bool setback_tried(const struct trade_setback *s, const char *typed, unsigned *tried,
                   unsigned *worse, struct fail *f)
{
    *tried = *worse = 0;
    for (const char *p = typed; p && *p;) {
        size_t n = strcspn(p, ", ");
        const bool bad = n > 1 && p[n - 1] == '!';
        if (n > 0) {
            const int step = step_called(s, p, n - bad);
            if (step < 0)
                return fail_set(f, FAIL_INPUT,
                                "tried: '%.*s' is no step of it; give its number, 1 to %d, or its "
                                "word as the ladder has it",
                                n > 60 ? 60 : (int)n, p, s->n_ladder);
            *tried |= 1u << step;
            if (bad) *worse |= 1u << step;
        }
        p += n + strspn(p + n, ", ");
    }
    return true;
}

static int setback_called(const struct trade *t, const char *word)
{
    for (int i = 0; i < t->n_setbacks; i++) {
        const struct entry *e = &t->setbacks[i].head;
        if (text_same_word(e->id, word) || text_same_word(e->name, word)) return i;
        for (int k = 0; k < e->n_also; k++)
            if (text_same_word(e->also[k], word)) return i;
    }
    return -1;
}

static bool find_job(const struct trade *t, const char *word, struct fact_setback *out,
                     struct fail *f)
{
    const struct trade_setback *s = &t->setbacks[out->setback];
    out->job = s->at[0].job;
    if (!word) return true;
    for (int i = 0; i < t->n_jobs; i++)
        if (text_same_word(t->jobs[i].head.id, word) || text_same_word(t->jobs[i].head.name, word))
            return out->job = i, true;
    const char *near = trade_nearest(t, SUBJECT_JOBS, word);
    return fail_set(f, FAIL_INPUT, "job: there is no job '%.60s'; %s%s%s", word,
                    near ? "did you mean '" : "see fettle trade list jobs", near ? near : "",
                    near ? "'?" : "");
}

bool fact_setback_of(struct arena *a, const struct trade *t, const struct record *r,
                     struct fact_setback *out, struct fail *f)
{
    const char *word = record_text(r, "setback", ""), *thread = record_text(r, "thread", NULL),
               *component = record_text(r, "component", NULL);
    const struct value *drill = record_get(r, "drill"), *state = record_get(r, "state");
    *out = (struct fact_setback){.id = arena_copy(a, r->id),
                                 .setback = setback_called(t, word),
                                 .job = -1,
                                 .component = component ? arena_copy(a, component) : NULL,
                                 .thread = thread ? arena_copy(a, thread) : NULL};
    if (out->setback < 0) {
        const char *near = trade_nearest(t, SUBJECT_SETBACKS, word);
        return fail_set(f, FAIL_INPUT, "setback: there is none called '%.60s'; %s%s%s", word,
                        near ? "did you mean '" : "see fettle trade list setbacks",
                        near ? near : "", near ? "'?" : "");
    }
    for (int b = 0; b < BROKEN_DRILL; b++) {
        const struct value *v = record_get(r, broken_name((enum broken)b));
        out->is[b] = v->set ? (int)v->integer : -1;
    }
    out->is[BROKEN_DRILL] = drill->set ? !drill->integer : -1;
    if (state->set) out->state = (enum setback_state)state->integer;
    return find_job(t, record_text(r, "job", NULL), out, f) &&
           setback_tried(&t->setbacks[out->setback], record_text(r, "tried", NULL), &out->tried,
                         &out->worse, f);
}

bool facts_setback_read(struct garage *g, struct arena *a, const struct trade *t,
                        const char *vehicle, struct facts_setback *out, struct fail *f)
{
    struct record *r;
    int n;
    *out = (struct facts_setback){0};
    if (!garage_list(g, a, &kind_setback, vehicle, &r, &n, f)) return false;
    out->items = ARENA_ARRAY(a, struct fact_setback, n);
    out->loose = ARENA_ARRAY(a, const char *, n);
    for (int i = 0; i < n; i++) {
        struct fail why = {0};
        if (fact_setback_of(a, t, &r[i], &out->items[out->n], &why))
            out->n++;
        else
            out->loose[out->n_loose++] = arena_copy(a, why.text);
    }
    return true;
}

static bool can_be_done(const struct trade_step *step, const struct fact_setback *x)
{
    for (int b = 0; b < BROKEN_COUNT; b++)
        if (step->when[b] && x->is[b] >= 0 && !(step->when[b] >> x->is[b] & 1)) return false;
    return true;
}

struct ladder setback_ladder(const struct trade_setback *s, const struct fact_setback *x)
{
    struct ladder l = {.n = s->n_ladder, .stuck = STUCK, .stop = (double)INFINITY};
    for (int i = 0; i < l.n; i++) {
        const struct trade_step *step = &s->ladder[i];
        const int leaves = step->worse.leaves > 0 ? step->worse.leaves : 1;
        l.steps[i] = (struct ladder_step){
            .works = step->works,
            .worse = step->worse.chance,
            .ends = (1u << i) - 1, /* a ladder is climbed up: what was passed over stays so */
            .worse_ends = leaves < l.n ? (1u << (l.n - leaves)) - 1 : 0,
            .needs = step->after > 0 ? 1u << (step->after - 1) : 0};
        if (i < l.n - 1 && !can_be_done(step, x)) l.gone |= 1u << i;
    }
    return l;
}

ladder_state setback_state(const struct ladder *l, const struct fact_setback *x)
{
    ladder_state s = ladder_start(l);
    for (int i = 0; i < l->n - 1; i++) /* the last always ends it: it is never in vain */
        if (x->tried >> i & 1) s = ladder_after(l, s, i, x->worse >> i & 1);
    return s;
}

double setback_hour(const struct trade *t, const struct facts *facts, const struct figures *figures,
                    const char *currency)
{
    if (facts->own_rate > 0) return facts->own_rate;
    int digits = 2;
    currency_digits(currency, &digits);
    const double rate = t->n_parts > 0 ? facts_rate(facts, t->parts[0].currency, currency) : 1;
    return figures->ladder_hour * pow(10, digits) * (rate > 0 ? rate : 1);
}

void setback_costs(struct ladder *l, const struct trade_setback *s, double hour,
                   setback_money *money, void *context)
{
    for (int i = 0; i < l->n; i++) {
        const struct trade_step *step = &s->ladder[i];
        const struct points *h = &step->hours, *worse = &step->worse.hours;
        l->steps[i].cost = (h->middle > 0 ? hour * points_mean(*h) : 0) +
                           money(context, step->parts, step->n_parts);
        l->steps[i].worse_cost = (worse->middle > 0 ? hour * points_mean(*worse) : 0) +
                                 money(context, step->worse.parts, step->worse.n_parts);
    }
}
