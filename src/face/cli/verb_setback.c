/* setback: one in the middle of a job, or before it breaks: the best next step, and what came of
 * it. */
#include "face/cli/answer.h"
#include "face/cli/entry.h"
#include "face/cli/verbs.h"
#include "face/show/setback_keep.h"
#include "face/show/show_setback.h"

static bool told(struct context *c, const struct setback *x, bool stored, struct fail *f)
{
    if (c->json) return context_print_json(c, show_setback_json(x, stored), f);
    context_print_sheet(c, show_setback(c->arena, x, stored));
    return true;
}

static bool list_open(struct context *c, struct shop_ask *ask, struct fail *f)
{
    struct fact_setback *facts;
    json_t *all = c->json ? json_array() : NULL;
    int n;
    bool good = setback_open(c->arena, ask, &facts, &n, f);
    for (int i = 0; good && i < n; i++) {
        struct setback x;
        good = setback_reckon(c->arena, ask, &facts[i], NULL, true, &x, f);
        if (good && all)
            json_array_append_new(all, show_setback_json(&x, true));
        else if (good)
            context_print_sheet(c, show_setback(c->arena, &x, true));
    }
    if (!good) {
        json_decref(all);
        return false;
    }
    if (all) return context_print_json(c, json_pack("{s:o}", "open", all), f);
    if (n == 0)
        context_say(c, "None is open. Report one, or what is tight and might break: fettle setback "
                       "tight-fastener");
    return true;
}

static bool report(struct context *c, struct shop_ask *ask, bool stores, struct fail *f)
{
    struct setback_word *said = ARENA_ARRAY(c->arena, struct setback_word, c->n_words);
    struct setback x;
    struct record *r;
    struct fact_setback fact;
    for (int i = 1; i < c->n_words; i++)
        if (!entry_split(c->arena, c->words[i], &said[i - 1].field, &said[i - 1].value, f))
            return false;
    const int n = c->n_words - 1;
    if (stores ? !setback_tell(c->arena, ask, c->words[0], said, n, &x, f)
               : !setback_say(c->arena, ask, c->words[0], said, n, &r, &fact, f) ||
                     !setback_reckon(c->arena, ask, &fact, NULL, true, &x, f))
        return false;
    if (!told(c, &x, stores, f)) return false;
    if (!stores && !c->json)
        context_say(c, "Put it on the plan: the same with --yes. Then tell what came of the step: "
                       "fettle setback tell cured, same or worse");
    return true;
}

static bool run(struct context *c, struct fail *f)
{
    const bool tells = c->n_words > 0 && text_is(c->words[0], "tell"),
               stores = tells || context_option(c, "yes") != NULL;
    struct garage *g;
    struct shop_ask ask;
    struct setback x;
    if (!context_garage(c, stores ? GARAGE_WRITE : GARAGE_READ, &g, f) || !answer_ask(c, &ask, f))
        return false;
    ask.progress = NULL; /* it takes under a second */
    if (c->n_words == 0) return list_open(c, &ask, f);
    if (!tells) return report(c, &ask, stores, f);
    if (c->n_words < 2 || c->n_words > 4)
        return fail_set(f, FAIL_INPUT,
                        "setback tell: say what came of it, as: fettle setback tell worse heat");
    return setback_outcome(c->arena, &ask, c->words[1], c->n_words > 2 ? c->words[2] : NULL,
                           c->n_words > 3 ? c->words[3] : NULL, &x, f) &&
           told(c, &x, true, f);
}

static const struct option options[] = {
    {"yes", NULL, "store it: the plan reckons with it from now on"},
    {"direction", "NAME", "preserve, drive, restore, modify or sell; the decided one if left out"},
    {"runs", "N", "how many draws of the plan; at most 1000 are used"},
    {"seed", "N", "of the draws"},
    {NULL, NULL, NULL},
};
static const struct example examples[] = {
    {"fettle setback", "those that are open, each with its next step"},
    {"fettle setback tight-fastener thread=M8", "before it breaks; nothing is stored"},
    {"fettle setback snapped-stud is=flush in=iron hole=blind drill=yes thread=M8x1.25 --yes",
     "on the plan, with what it moves"},
    {"fettle setback tell same", "the next step did not help: the odds move"},
    {"fettle setback tell worse heat", "a step by its word, and it left it worse"},
    {"fettle setback tell cured", "and on with the job"},
    {NULL, NULL},
};
const struct command command_setback = {
    .name = "setback",
    .help = "something broke, or might: the best next step, and what it moves",
    .usage = "\n"
             "SETBACK [key=value...] [--yes]\n"
             "tell cured|same|worse|stopped [STEP] [SETBACK]",
    .text = "Say how it stands: is=proud, flush or below; in=iron or alloy; hole=through or blind; "
            "drill=yes or no; thread=M8x1.25. What is not known is left out.",
    .options = options,
    .examples = examples,
    .words = "tell",
    .run = run,
};
