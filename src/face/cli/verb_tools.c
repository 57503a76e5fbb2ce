/* tools: what the plan wants by when, and at what least cost; who knows, lends, promised. */
#include "face/cli/answer.h"
#include "face/cli/verbs.h"
#include "face/show/show_tools.h"

enum { RUNS_QUICK = 400 };

static bool run(struct context *c, struct fail *f)
{
    struct shop_ask ask;
    struct tools x;
    if (c->n_words > 0)
        return fail_set(f, FAIL_INPUT,
                        "tools: takes no word '%.60s'; tell one by: fettle session tool NAME owned",
                        c->words[0]);
    if (!answer_ask(c, &ask, f)) return false;
    if (!context_option(c, "runs")) ask.runs = RUNS_QUICK;
    const bool good = tools_reckon(c->arena, &ask, &x, f);
    answer_reckoned(&ask);
    if (!good) return false;
    if (c->json) return context_print_json(c, show_tools_json(c->arena, &x), f);
    context_print_sheet(c, show_tools(c->arena, &x));
    return true;
}

static const struct option options[] = {
    {"direction", "NAME", "preserve, drive, restore, modify or sell; the decided one if left out"},
    {"runs", "N", "how many runs the plan behind it rests on; 400 if left out"},
    {"seed", "N", "the seed of the draws; the same seed gives the same answer"},
    {"threads", "N", "threads to reckon with; the answer is the same for any number"},
    {NULL, NULL, NULL},
};
static const struct example examples[] = {
    {"fettle tools", "which are missing, by when, and how to have them"},
    {"fettle add tool-offer tool='bore gauge' way=hire price='5 GBP' a-day='3 GBP'",
     "a way to have one"},
    {"fettle add promise who=Ann what='bring the crane' by-day=2026-12-05", "so that it is asked"},
    {NULL, NULL},
};
const struct command command_tools = {
    .name = "tools",
    .help = "which tools the plan wants by when, and how to have them at least cost",
    .usage = "",
    .text = "Owned, borrowed or missing; for those that are not here the cheapest way over the "
            "whole plan: bought, or hired or borrowed spell by spell, or hired first and bought "
            "later. And who knows, who lends, who promised what by when.",
    .options = options,
    .examples = examples,
    .run = run,
};
