#include "face/show/setback_keep.h"

#include "face/show/show_setback.h"
#include "garage/kinds.h"

static const char *day_text(struct arena *a, day d)
{
    struct text t = {.arena = a};
    day_print(&t, d);
    return text_get(&t);
}

/* Within an act: the records, and the facts that they are; what the trade data does not know is
 * left out of both. */
static bool read_open(struct arena *a, const struct shop_ask *ask, struct record ***records,
                      struct fact_setback **facts, int *n, struct fail *f)
{
    struct record *all;
    int count;
    *n = 0;
    if (!garage_list(ask->garage, a, &kind_setback, ask->vehicle, &all, &count, f)) return false;
    *records = ARENA_ARRAY(a, struct record *, count);
    *facts = ARENA_ARRAY(a, struct fact_setback, count);
    for (int i = count - 1; i >= 0; i--) {
        struct fail unknown = {0};
        struct fact_setback *to = &(*facts)[*n];
        if (!fact_setback_of(a, ask->trade, &all[i], to, &unknown) || to->state != SETBACK_OPEN)
            continue;
        (*records)[(*n)++] = &all[i];
    }
    return true;
}

bool setback_open(struct arena *a, const struct shop_ask *ask, struct fact_setback **out, int *n,
                  struct fail *f)
{
    struct record **records;
    return read_open(a, ask, &records, out, n, f);
}

static bool same_setback(struct arena *a, const struct shop_ask *ask, const char *word,
                         const struct fact_setback *x, bool *same, struct fail *f)
{
    struct fact_setback asked;
    struct record *r = record_new(a, &kind_setback);
    if (!record_set(a, r, "setback", word, NULL, f) ||
        !fact_setback_of(a, ask->trade, r, &asked, f))
        return false;
    *same = asked.setback == x->setback;
    return true;
}

bool setback_say(struct arena *a, const struct shop_ask *ask, const char *word,
                 const struct setback_word *said, int n_said, struct record **out,
                 struct fact_setback *fact, struct fail *f)
{
    struct record **records;
    struct fact_setback *facts;
    const char *job = NULL;
    int n;
    *out = NULL;
    for (int i = 0; i < n_said; i++)
        if (text_is(said[i].field, "job")) job = said[i].value;
    if (!read_open(a, ask, &records, &facts, &n, f)) return false;
    for (int i = 0; i < n && !*out; i++) {
        bool same;
        if (!same_setback(a, ask, word, &facts[i], &same, f)) return false;
        if (same && (!job || !*job || text_is(job, ask->trade->jobs[facts[i].job].head.id)))
            *out = records[i];
    }
    if (!*out) {
        *out = record_new(a, &kind_setback);
        if (!record_set(a, *out, "vehicle", ask->vehicle, NULL, f) ||
            !record_set(a, *out, "setback", word, NULL, f) ||
            !record_set(a, *out, "date", day_text(a, ask->today), NULL, f))
            return false;
    }
    for (int i = 0; i < n_said; i++) {
        if (record_field(&kind_setback, said[i].field) < 0)
            return fail_set(f, FAIL_INPUT,
                            "setback: it has no '%.40s'; say is, in, hole, drill, thread, job, "
                            "component, tried or note",
                            said[i].field);
        if (!record_set(a, *out, said[i].field, said[i].value, NULL, f)) return false;
    }
    if (!fact_setback_of(a, ask->trade, *out, fact, f)) return false;
    /* What is stored has the trade data's own words, whatever was typed. */
    return record_set(a, *out, "setback", ask->trade->setbacks[fact->setback].head.id, NULL, f) &&
           record_set(a, *out, "job", ask->trade->jobs[fact->job].head.id, NULL, f) &&
           record_valid(*out, f);
}

/* The record as it is told stands in it; before: as it was, or NULL. */
static bool keep(struct arena *a, const struct shop_ask *ask, struct record *r,
                 const struct fact_setback *before, struct setback *out, struct fail *f)
{
    struct fact_setback after;
    return (r->id[0] ? garage_change(ask->garage, r, f) : garage_add(ask->garage, r, f)) &&
           fact_setback_of(a, ask->trade, r, &after, f) &&
           setback_reckon(a, ask, &after, before, true, out, f);
}

static bool tell(struct arena *a, const struct shop_ask *ask, const char *word,
                 const struct setback_word *said, int n_said, struct setback *out, struct fail *f)
{
    struct record *r;
    struct fact_setback fact;
    return setback_say(a, ask, word, said, n_said, &r, &fact, f) && keep(a, ask, r, NULL, out, f);
}

static bool end_act(const struct shop_ask *ask, bool good, struct fail *f)
{
    if (good && garage_commit(ask->garage, f)) return true;
    garage_rollback(ask->garage);
    return false;
}

bool setback_tell(struct arena *a, const struct shop_ask *ask, const char *word,
                  const struct setback_word *said, int n_said, struct setback *out, struct fail *f)
{
    return garage_begin(ask->garage, f) &&
           end_act(ask, tell(a, ask, word, said, n_said, out, f), f);
}

/* ---- what came of a step ---- */

static bool find_step(struct arena *a, const struct setback *x, const char *word, int *out,
                      struct fail *f)
{
    unsigned tried, worse;
    *out = x->best;
    if (!word || !*word) return true;
    if (!setback_tried(x->setback, word, &tried, &worse, f)) return false;
    for (*out = 0; !(tried >> *out & 1); (*out)++) {
    }
    const char *called = setback_step_word(a, x->setback, *out);
    if (x->steps[*out].how == STEP_OPEN) return true;
    return fail_set(f, FAIL_INPUT, "setback: the step '%s' is not open: %s", called,
                    x->steps[*out].how == STEP_LATER    ? "it comes after another"
                    : x->steps[*out].how == STEP_PASSED ? "it does not fit here, or was passed over"
                                                        : "it was tried already");
}

static const char *tried_text(struct arena *a, const struct trade_setback *s,
                              const struct fact_setback *x)
{
    struct text t = {.arena = a};
    for (int i = 0; i < s->n_ladder; i++)
        if (x->tried >> i & 1)
            text_print(&t, "%s%s%s", t.length ? "," : "", setback_step_word(a, s, i),
                       x->worse >> i & 1 ? "!" : "");
    return text_get(&t);
}

static bool set_outcome(struct arena *a, const struct shop_ask *ask, const char *outcome,
                        const char *step, const struct fact_setback *before, struct record *r,
                        struct fail *f)
{
    static const char *const words[LADDER_OUTCOMES] = {"cured", "same", "worse"};
    struct setback x;
    int which, at;
    if (text_is(outcome, "stopped")) return record_set(a, r, "state", "stopped", NULL, f);
    for (which = 0; which < LADDER_OUTCOMES && !text_is(outcome, words[which]); which++) {
    }
    if (which == LADDER_OUTCOMES)
        return fail_set(f, FAIL_INPUT,
                        "setback: '%.40s' is no outcome; say cured, same, worse or stopped",
                        outcome);
    if (!setback_reckon(a, ask, before, NULL, false, &x, f) || !find_step(a, &x, step, &at, f))
        return false;
    if (which == LADDER_CURED) return record_set(a, r, "state", "cured", NULL, f);
    if (at == x.n_steps - 1)
        return fail_set(f, FAIL_INPUT,
                        "setback: '%s' is the last step and ends the matter; say cured, or "
                        "stopped if it stays as it is",
                        setback_step_word(a, x.setback, at));
    const struct fact_setback after = setback_after(before, at, (enum ladder_outcome)which);
    return record_set(a, r, "tried", tried_text(a, x.setback, &after), NULL, f);
}

static bool tell_outcome(struct arena *a, const struct shop_ask *ask, const char *outcome,
                         const char *step, const char *word, struct setback *out, struct fail *f)
{
    struct record **records;
    struct fact_setback *facts;
    int n, at = 0;
    bool same;
    if (!read_open(a, ask, &records, &facts, &n, f)) return false;
    const bool named = word && *word;
    while (named && at < n && !text_is(facts[at].id, word)) at++;
    for (int i = 0; named && at == n && i < n; i++) {
        if (!same_setback(a, ask, word, &facts[i], &same, f)) return false;
        if (same) at = i;
    }
    if (at >= n)
        return fail_set(
            f, FAIL_INPUT,
            "setback: none%s%.60s is open; report one first: fettle setback snapped-stud",
            named ? " called " : "", named ? word : "");
    return set_outcome(a, ask, outcome, step, &facts[at], records[at], f) &&
           keep(a, ask, records[at], &facts[at], out, f);
}

bool setback_outcome(struct arena *a, const struct shop_ask *ask, const char *outcome,
                     const char *step, const char *word, struct setback *out, struct fail *f)
{
    return garage_begin(ask->garage, f) &&
           end_act(ask, tell_outcome(a, ask, outcome, step, word, out, f), f);
}
