/* safe: gates that open when all holds, and checks that are over with their day. */
#include "face/cli/answer.h"
#include "face/cli/verbs.h"
#include "face/show/show_safe.h"
#include "face/show/show_trade.h"

static bool find(const struct trade *t, enum subject s, const char *word, int *out, struct fail *f)
{
    *out = trade_find(t, s, word);
    const char *near = *out < 0 ? trade_nearest(t, s, word) : NULL;
    return *out >= 0 || fail_set(f, FAIL_INPUT, "safe: none of the %s is called '%.60s'; %s%s%s",
                                 subject_name(s), word, near ? "did you mean '" : "see fettle safe",
                                 near ? near : "", near ? "'?" : "");
}

static bool store(struct context *c, struct garage *g, struct shop_ask *ask, const char *kind,
                  const char *field, const char *id, const char *more, const char *text,
                  const char *ids_field, const char *ids, struct fail *f)
{
    struct record *r = record_new(c->arena, record_kind_find(kind));
    struct text today = {.arena = c->arena};
    day_print(&today, c->today);
    return record_set(c->arena, r, "vehicle", ask->vehicle, NULL, f) &&
           record_set(c->arena, r, field, id, NULL, f) &&
           record_set(c->arena, r, "date", text_get(&today), NULL, f) &&
           (!more || !text || record_set(c->arena, r, more, text, NULL, f)) &&
           (!ids_field || record_set(c->arena, r, ids_field, ids, NULL, f)) && record_valid(r, f) &&
           garage_add(g, r, f);
}

static bool act(struct context *c, struct garage *g, struct shop_ask *ask, struct fail *f)
{
    const char *word = c->words[0], *text = c->n_words > 2 ? c->words[2] : NULL;
    const bool check = text_is(word, "check"), open = text_is(word, "open");
    int i;
    struct safe x;
    if (!find(ask->trade, check ? SUBJECT_CHECKS : SUBJECT_GATES, c->words[1], &i, f) ||
        !safe_reckon(c->arena, ask, &x, f))
        return false;
    if (check) {
        const struct trade_check *k = &ask->trade->checks[i];
        if (!context_option(
                c, "yes")) { /* what it asks stands before the answer, with what can hurt */
            if (!c->json)
                context_print_sheet(c, show_trade_entry(c->arena, ask->trade, SUBJECT_CHECKS, i));
            return fail_set(
                f, FAIL_NO,
                "safe: %s is not checked; when all of it is true now: fettle safe check "
                "%s --yes",
                k->head.id, k->head.id);
        }
        return store(c, g, ask, "session-check", "check", k->head.id, "note", text, NULL, NULL, f);
    }
    const struct safe_gate *s = &x.gates[i];
    struct text day_words = {.arena = c->arena};
    if (s->retest != DAY_NONE) day_print(&day_words, s->retest);
    if (open && s->missing > 0)
        return fail_set(f, FAIL_NO, "safe: %s stays shut; missing: %s", s->gate->head.id,
                        safe_ids(c->arena, s, false));
    if (open)
        return store(c, g, ask, "gate-opened", "gate", s->gate->head.id, "retest",
                     s->retest != DAY_NONE ? text_get(&day_words) : NULL, "proved",
                     safe_ids(c->arena, s, true), f);
    if (!text || !*text)
        return fail_set(f, FAIL_INPUT,
                        "safe override: needs a written reason: fettle safe "
                        "override %s 'reason'",
                        s->gate->head.id);
    return store(c, g, ask, "gate-override", "gate", s->gate->head.id, "reason", text, "missing",
                 safe_ids(c->arena, s, false), f);
}

static bool run(struct context *c, struct fail *f)
{
    const bool acts =
        c->n_words > 1 && (text_is(c->words[0], "open") || text_is(c->words[0], "override") ||
                           text_is(c->words[0], "check"));
    struct shop_ask ask;
    struct garage *g;
    struct safe x;
    int gate = -1;
    if (!context_garage(c, acts ? GARAGE_WRITE : GARAGE_READ, &g, f) || !answer_ask(c, &ask, f))
        return false;
    if (acts) {
        if (!garage_begin(g, f)) return false;
        if (!act(c, g, &ask, f) || !garage_commit(g, f)) {
            garage_rollback(g);
            return false;
        }
    }
    if (c->n_words > 0 && !(acts && text_is(c->words[0], "check")) &&
        !find(ask.trade, SUBJECT_GATES, c->words[acts ? 1 : 0], &gate, f))
        return false;
    if (!safe_reckon(c->arena, &ask, &x, f)) return false;
    if (c->json) {
        if (!context_print_json(c, show_safe_json(&x, gate), f)) return false;
    } else
        context_print_sheet(c, show_safe(c->arena, &x, gate));
    if (gate < 0 || acts || x.gates[gate].state == GATE_OPEN ||
        x.gates[gate].state == GATE_PROVISIONAL)
        return true;
    return fail_set(f, FAIL_NO, "safe: %s is %s; missing: %s", x.gates[gate].gate->head.id,
                    gate_state_name(x.gates[gate].state),
                    safe_ids(c->arena, &x.gates[gate], false));
}

static const struct option options[] = {
    {"direction", "NAME", "preserve, drive, restore, modify or sell; the decided one if left out"},
    {"yes", NULL, "all that a check asks is true now"},
    {NULL, NULL, NULL},
};
static const struct example examples[] = {
    {"fettle safe", "every gate, and the checks of today"},
    {"fettle safe before-fuel", "what it needs; exit status 1 while it is not open"},
    {"fettle safe open before-fuel", "refused, with what is missing, until all holds"},
    {"fettle safe override before-fuel 'to find the leak, outdoors'", "never silent"},
    {"fettle safe check going-under", "what it asks, with what can hurt; nothing is stored"},
    {"fettle safe check going-under --yes", "all of it is true now, for today"},
    {NULL, NULL},
};
const struct command command_safe = {
    .name = "safe",
    .help = "is it safe to connect, fuel, crank, start, move, drive",
    .usage = "[GATE]\nopen GATE\noverride GATE REASON\ncheck CHECK [NOTE] [--yes]",
    .text = "A gate opens when its jobs are done and its proofs hold. Readings are told by 'fettle "
            "add measurement what=PROOF', what was seen by 'fettle add witnessed what=PROOF'. "
            "A check holds for one day.",
    .options = options,
    .examples = examples,
    .words = "open override check",
    .run = run,
};
