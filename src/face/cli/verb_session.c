/* session: what can be done this evening; how it was left off; tools; standing care. */
#include "face/cli/answer.h"
#include "face/cli/verbs.h"
#include "face/show/session_act.h"
#include "face/show/show_session.h"

enum { RUNS_QUICK = 400 };

static bool tell(struct context *c, struct fail *f)
{
    struct session_ask evening = session_as_usual();
    struct shop_ask ask;
    struct garage *g;
    struct session *x = ARENA_NEW(c->arena, struct session);
    if (!session_evening(context_option(c, "hours"), context_option(c, "hands"),
                         context_option(c, "degrees"), &evening, f) ||
        !context_garage(c, GARAGE_READ, &g, f) || !answer_ask(c, &ask, f))
        return false;
    if (!context_option(c, "runs")) ask.runs = RUNS_QUICK;
    bool ok = session_reckon(c->arena, &ask, &evening, x, f);
    answer_reckoned(&ask);
    if (!ok) return false;
    if (c->json) return context_print_json(c, show_session_json(c->arena, x), f);
    context_print_sheet(c, show_session(c->arena, x));
    if (x->n_unknown_tools > 0)
        context_say(c,
                    "Tell which tools you have: fettle session tool '%s' owned (borrowed, missing)",
                    x->trade->tools[x->unknown_tools[0]].head.name);
    return true;
}

static bool said(struct context *c, const char *kind, const char *line, struct fail *f)
{
    if (c->json)
        return context_print_json(c, json_pack("{s:s, s:s}", "act", "added", "kind", kind), f);
    context_say(c, "%s", line);
    return true;
}

static bool run(struct context *c, struct fail *f)
{
    struct garage *g;
    const struct trade *t;
    const struct record *vehicle;
    const char *act = c->n_words > 0 ? c->words[0] : NULL;
    if (!act) return tell(c, f);
    const bool done = text_is(act, "done"), care = text_is(act, "care"),
               tool = text_is(act, "tool");
    if (!done && !care && !tool)
        return fail_set(f, FAIL_INPUT,
                        "session: takes no word '%.60s'; use 'done', 'care', 'tool', or none", act);
    if (c->n_words != (tool ? 3 : 2))
        return fail_set(f, FAIL_INPUT, "session %s: needs %s", act,
                        done ? "a note, as: fettle session done 'left cylinder still in'"
                        : care
                            ? "one care, as: fettle session care care-mice"
                            : "a tool and what of it, as: fettle session tool 'axle stands' owned");
    if (!context_garage(c, GARAGE_WRITE, &g, f) || !context_trade(c, &t, f)) return false;
    if (tool)
        return session_tool(c->arena, g, t, c->words[1], c->words[2], f) &&
               said(c, "tool", "Noted.", f);
    if (!context_vehicle(c, &vehicle, f)) return false;
    if (care)
        return session_cared(c->arena, g, t, vehicle->id, c->words[1], c->today, f) &&
               said(c, "care-done", "Noted; it comes again when it is due.", f);
    return session_done(c->arena, g, vehicle->id, c->words[1], context_option(c, "where"),
                        context_option(c, "photo"), c->today, f) &&
           said(c, "left-off", "Noted: it is shown first next time.", f);
}

static const struct option options[] = {
    {"hours", "H", "hours in all this evening; as the week says if left out"},
    {"hands", "N", "pairs of hands this evening"},
    {"degrees", "T", "how warm it is in the work place, deg C"},
    {"where", "WORDS", "with done: where things lie"},
    {"photo", "ID", "with done: the photograph of how it was left"},
    {"direction", "NAME", "preserve, drive, restore, modify or sell; the decided one if left out"},
    {"runs", "N", "how many runs the plan behind it rests on; 400 if left out"},
    {"seed", "N", "the seed of the draws; the same seed gives the same answer"},
    {"threads", "N", "threads to reckon with; the answer is the same for any number"},
    {NULL, NULL, NULL},
};
static const struct example examples[] = {
    {"fettle session", "what to do this evening, and what is blocked by what"},
    {"fettle session --hours 3 --hands 2 --degrees 8", "with a helper, and cold"},
    {"fettle session tool 'axle stands' owned", "which tools are there"},
    {"fettle session care care-mice", "standing care was given"},
    {"fettle session done 'left front cylinder still in' --where 'screws in the blue tray'",
     "how it was left off, shown first next time"},
    {NULL, NULL},
};
const struct command command_session = {
    .name = "session",
    .help = "what can be done this evening, and where it was left off",
    .usage = "[--hours H] [--hands N] [--degrees T]\n"
             "done NOTE [--where WORDS] [--photo ID]\n"
             "care ID\n"
             "tool NAME owned|borrowed|missing",
    .text =
        "One job that must be finished, one if there is time, one of fifteen minutes: each with "
        "its cautions, tools, parts and when it is done. What is blocked and by what, what "
        "waits for a helper, which standing care is due, and whether the work stalls. Nothing "
        "is offered that lacks a part, hands, warmth, or a job before it.",
    .options = options,
    .examples = examples,
    .run = run,
};
