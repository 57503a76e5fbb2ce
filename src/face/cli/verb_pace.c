/* pace: hours against the estimate, sessions that happen. */
#include "face/cli/answer.h"
#include "face/cli/verbs.h"
#include "face/show/show_pace.h"

static bool run(struct context *c, struct fail *f)
{
    struct shop_ask ask;
    struct garage *g;
    struct pace p;
    if (c->n_words > 0)
        return fail_set(f, FAIL_INPUT, "pace: takes no word; log hours with fettle log");
    if (!context_garage(c, GARAGE_READ, &g, f) || !answer_ask(c, &ask, f) ||
        !pace_reckon(c->arena, &ask, &p, f))
        return false;
    if (c->json) return context_print_json(c, show_pace_json(&p), f);
    context_print_sheet(c, show_pace(c->arena, &p));
    return true;
}

static const struct option options[] = {
    {"direction", "NAME", "preserve, drive, restore, modify or sell; the decided one if left out"},
    {NULL, NULL, NULL},
};
static const struct example examples[] = {
    {"fettle pace", "by kind of work, with its band; and the share of sessions that happen"},
    {NULL, NULL},
};
const struct command command_pace = {
    .name = "pace",
    .help = "your hours against the estimate, and the sessions that happen",
    .usage = "",
    .text = "From the hours logged on finished jobs, of every vehicle. The plan reckons with it.",
    .options = options,
    .examples = examples,
    .run = run,
};
