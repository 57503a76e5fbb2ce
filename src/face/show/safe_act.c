#include "face/show/safe_act.h"

#include "garage/kinds.h"

bool safe_find(const struct trade *t, enum subject s, const char *word, int *out, struct fail *f)
{
    *out = trade_find(t, s, word);
    const char *near = *out < 0 ? trade_nearest(t, s, word) : NULL;
    return *out >= 0 || fail_set(f, FAIL_INPUT, "safe: none of the %s is called '%.60s'; %s%s%s",
                                 subject_name(s), word, near ? "did you mean '" : "see fettle safe",
                                 near ? near : "", near ? "'?" : "");
}

static const char *text_of_day(struct arena *a, day d)
{
    struct text t = {.arena = a};
    day_print(&t, d);
    return text_get(&t);
}

static bool add(struct arena *a, const struct shop_ask *ask, const struct record_kind *k,
                const char *const (*fields)[2], struct fail *f)
{
    struct record *r = record_new(a, k);
    if (!record_set(a, r, "vehicle", ask->vehicle, NULL, f) ||
        !record_set(a, r, "date", text_of_day(a, ask->today), NULL, f))
        return false;
    for (; (*fields)[0]; fields++)
        if ((*fields)[1] && *(*fields)[1] && !record_set(a, r, (*fields)[0], (*fields)[1], NULL, f))
            return false;
    return record_valid(r, f) && garage_add(ask->garage, r, f);
}

/* Within an act: what is judged is what is stored. */
static bool add_opened(struct arena *a, const struct shop_ask *ask, int gate, const char *reason,
                       struct fail *f)
{
    struct safe x;
    if (!safe_reckon(a, ask, &x, f)) return false;
    const struct safe_gate *s = &x.gates[gate];
    if (reason) {
        const char *const fields[][2] = {{"gate", s->gate->head.id},
                                         {"reason", reason},
                                         {"missing", safe_ids(a, s, false)},
                                         {NULL, NULL}};
        return add(a, ask, &kind_gate_override, fields, f);
    }
    if (s->missing > 0)
        return fail_set(f, FAIL_NO, "safe: %s stays shut; missing: %s", s->gate->head.id,
                        safe_ids(a, s, false));
    const char *const fields[][2] = {
        {"gate", s->gate->head.id},
        {"retest", s->retest != DAY_NONE ? text_of_day(a, s->retest) : NULL},
        {"proved", safe_ids(a, s, true)},
        {NULL, NULL}};
    return add(a, ask, &kind_gate_opened, fields, f);
}

static bool act(struct arena *a, const struct shop_ask *ask, int gate, const char *reason,
                const struct record_kind *kind, const char *const (*fields)[2], struct fail *f)
{
    if (!garage_begin(ask->garage, f)) return false;
    if ((kind ? add(a, ask, kind, fields, f) : add_opened(a, ask, gate, reason, f)) &&
        garage_commit(ask->garage, f))
        return true;
    garage_rollback(ask->garage);
    return false;
}

bool safe_open(struct arena *a, const struct shop_ask *ask, int gate, struct fail *f)
{
    return act(a, ask, gate, NULL, NULL, NULL, f);
}

bool safe_override(struct arena *a, const struct shop_ask *ask, int gate, const char *reason,
                   struct fail *f)
{
    if (!reason || !*reason)
        return fail_set(f, FAIL_INPUT,
                        "safe override: needs a written reason: fettle safe override %s 'reason'",
                        ask->trade->gates[gate].head.id);
    return act(a, ask, gate, reason, NULL, NULL, f);
}

bool safe_check(struct arena *a, const struct shop_ask *ask, int check, const char *note,
                struct fail *f)
{
    const char *const fields[][2] = {
        {"check", ask->trade->checks[check].head.id}, {"note", note}, {NULL, NULL}};
    return act(a, ask, -1, NULL, &kind_session_check, fields, f);
}

bool safe_prove(struct arena *a, const struct shop_ask *ask, int proof, const struct safe_found *x,
                struct fail *f)
{
    const struct trade_proof *p = &ask->trade->proofs[proof];
    if (p->unit && (!x->value || !*x->value))
        return fail_set(f, FAIL_INPUT, "measurement.value: what was measured, in %s?", p->unit);
    const char *const measured[][2] = {{"what", p->head.id},
                                       {"value", x->value},
                                       {"unit", x->unit && *x->unit ? x->unit : p->unit},
                                       {"where", x->where},
                                       {"low", x->low},
                                       {"high", x->high},
                                       {"source", x->source},
                                       {"retest", x->retest},
                                       {"note", x->note},
                                       {NULL, NULL}};
    const char *const seen[][2] = {{"what", p->head.id},  {"holds", x->holds}, {"by", x->by},
                                   {"worker", x->worker}, {"fit", x->fit},     {"note", x->note},
                                   {NULL, NULL}};
    return act(a, ask, -1, NULL, p->unit ? &kind_measurement : &kind_witnessed,
               p->unit ? measured : seen, f);
}
