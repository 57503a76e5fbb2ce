/* safe: gates that open when all holds, and checks that are over with their day. */
#include "face/cli/answer.h"
#include "face/cli/verbs.h"
#include "face/show/safe_act.h"
#include "face/show/show_safe.h"
#include "face/show/show_trade.h"

static bool act(struct context *c, const struct shop_ask *ask, int *gate, struct fail *f)
{
    const char *word = c->words[0], *text = c->n_words > 2 ? c->words[2] : NULL;
    int i;
    if (!text_is(word, "check"))
        return safe_find(ask->trade, SUBJECT_GATES, c->words[1], gate, f) &&
               (text_is(word, "open") ? safe_open(c->arena, ask, *gate, f)
                                      : safe_override(c->arena, ask, *gate, text, f));
    if (!safe_find(ask->trade, SUBJECT_CHECKS, c->words[1], &i, f)) return false;
    if (context_option(c, "yes")) return safe_check(c->arena, ask, i, text, f);
    /* What it asks stands before the answer, with what can hurt. */
    const char *id = ask->trade->checks[i].head.id;
    if (!c->json) context_print_sheet(c, show_trade_entry(c->arena, ask->trade, SUBJECT_CHECKS, i));
    return fail_set(
        f, FAIL_NO,
        "safe: %s is not checked; when all of it is true now: fettle safe check %s --yes", id, id);
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
    if (acts && !act(c, &ask, &gate, f)) return false;
    if (!acts && c->n_words > 0 && !safe_find(ask.trade, SUBJECT_GATES, c->words[0], &gate, f))
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
