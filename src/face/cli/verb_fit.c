/* fit: which parts work together, what each brings, and where to buy them. */
#include "face/cli/answer.h"
#include "face/cli/verbs.h"
#include "face/show/fit_ask.h"
#include "face/show/fit_keep.h"
#include "face/show/show_fit.h"

static bool run(struct context *c, struct fail *f)
{
    struct shop_ask ask;
    struct fit_wish wish;
    struct garage *g;
    struct fit *x = ARENA_NEW(c->arena, struct fit);
    const bool adopt = c->n_words == 1 && text_is(c->words[0], "adopt");
    const struct fit_typed typed = {context_option(c, "with"), context_option(c, "prefer"),
                                    context_option(c, "budget"),
                                    context_option(c, "reversible") ? "yes" : NULL};
    const bool asked = typed.with || typed.prefer || typed.budget || typed.reversible;
    if (c->n_words > 0 && !adopt)
        return fail_set(f, FAIL_INPUT, "fit: takes no word '%.60s'; use 'fit' or 'fit adopt'",
                        c->words[0]);
    if (!adopt && !asked) return answer_tell(c, QUESTION_FIT, f);
    if (!context_garage(c, adopt ? GARAGE_WRITE : GARAGE_READ, &g, f) || !answer_ask(c, &ask, f) ||
        !fit_wish_read(ask.trade, &typed, &wish, f) || !fit_reckon(c->arena, &ask, &wish, x, f))
        return false;
    answer_reckoned(&ask);
    if (adopt) {
        int n;
        if (!fit_keep(c->arena, g, ask.vehicle, x, c->today, &n, f)) return false;
        if (c->json)
            return context_print_json(
                c, json_pack("{s:s, s:s, s:i}", "act", "added", "kind", "choice", "count", n), f);
        context_say(c,
                    "Adopted: %d records of what was chosen and from whom. The plan reckons with "
                    "them; 'fettle undo' takes them back.",
                    n);
        return true;
    }
    if (c->json) return context_print_json(c, show_fit_json(c->arena, x), f);
    context_print_sheet(c, show_fit(c->arena, x));
    return true;
}

static const struct option options[] = {
    {"direction", "NAME", "preserve, drive, restore, modify or sell; the decided one if left out"},
    {"with", "OPTION", "a set that has this option, whatever it costs"},
    {"prefer", "OPTION", "what it would take to prefer this option"},
    {"budget", "SUM", "no more than this for parts, carriage and core charges: 900 GBP"},
    {"reversible", NULL, "nothing that cannot be undone"},
    {"runs", "N", "how many runs; 4000 if left out"},
    {"seed", "N", "the seed of the draws; the same seed gives the same answer"},
    {"threads", "N", "threads to reckon with; the answer is the same for any number"},
    {NULL, NULL, NULL},
};
static const struct example examples[] = {
    {"fettle fit", "the least-cost set for all that the plan needs"},
    {"fettle fit --with alternator-for-dynamo", "what an alternator brings, and what must agree"},
    {"fettle fit --prefer generator-exchanged", "the price at which the choice flips"},
    {"fettle fit --budget '900 GBP' --reversible", "hard limits; what clashes if nothing fits"},
    {"fettle fit adopt", "keep the set: the plan then reckons with it"},
    {NULL, NULL},
};
const struct command command_fit = {
    .name = "fit",
    .help = "which parts work together, what each brings, where to buy them",
    .usage = "[--with OPTION] [--budget SUM] [--reversible] [--prefer OPTION]\n"
             "adopt [--with OPTION] [--budget SUM] [--reversible]",
    .text = "For each need of the plan one option, with what it brings; the numbers that must "
            "agree, each with its verdict; what to measure before buying; orders by supplier, "
            "with carriage; the next best sets; and why nothing fits, where nothing does.",
    .options = options,
    .examples = examples,
    .run = run,
};
