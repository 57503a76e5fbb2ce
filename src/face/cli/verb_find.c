/* find: full-text search over everything. */
#include "face/cli/context.h"
#include "face/cli/verbs.h"
#include "face/show/show_find.h"

static bool run(struct context *c, struct fail *f)
{
    struct garage *g;
    const struct trade *t;
    struct text words = {.arena = c->arena};
    struct find x;
    for (int i = 0; i < c->n_words; i++) text_print(&words, "%s%s", i ? " " : "", c->words[i]);
    if (!context_garage(c, GARAGE_READ, &g, f) || !context_trade(c, &t, f) ||
        !find_everything(c->arena, g, t, text_get(&words), &x, f))
        return false;
    if (c->json) return context_print_json(c, show_find_json(&x), f);
    if (x.count == 0)
        return fail_set(f, FAIL_NO, "find: nothing has any of '%.120s'", text_get(&words));
    context_print_sheet(c, show_find(c->arena, &x, text_get(&words)));
    return true;
}

static const struct option options[] = {{NULL, NULL, NULL}};
static const struct example examples[] = {
    {"fettle find bonnet hinge", "the same as: fettle find hood hinge"},
    {"fettle find 'blue tray'", "where was it put?"},
    {NULL, NULL},
};
const struct command command_find_ = {
    .name = "find",
    .help = "look for words in everything: records, notes, bags, the trade data",
    .usage = "WORD...",
    .text = "In American and British words, in any order, and by the beginnings of words. What has "
            "all of them comes first; only where nothing has, what has some.",
    .options = options,
    .examples = examples,
    .run = run,
};
