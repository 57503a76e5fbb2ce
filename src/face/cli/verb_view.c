/* view: a vehicle that might be bought. */
#include "face/cli/answer.h"
#include "face/cli/verbs.h"
#include "garage/kinds.h"

/* The only one that is not owned, where none was named. */
static bool find_candidate(struct context *c, struct fail *f)
{
    struct garage *g;
    struct record *all;
    struct text names = {.arena = c->arena};
    int count, candidates = 0;
    if (context_option(c, "vehicle")) return true;
    if (!context_garage(c, GARAGE_READ, &g, f) ||
        !garage_list(g, c->arena, record_kind_find("vehicle"), NULL, &all, &count, f))
        return false;
    for (int i = 0; i < count; i++) {
        if (vehicle_owned(&all[i]) != OWNED_NO) continue;
        text_print(&names, "%s%s", candidates++ ? ", " : "", record_text(&all[i], "name", "?"));
        c->vehicle = &all[i];
    }
    if (candidates == 1) return true;
    if (candidates == 0)
        return fail_set(f, FAIL_INPUT,
                        "view: nothing to be viewed; take one in with: fettle intake owned=no "
                        "name=...");
    return fail_set(f, FAIL_INPUT,
                    "view: more than one to be viewed: say which with --vehicle, one of: %s",
                    text_get(&names));
}

static bool run(struct context *c, struct fail *f)
{
    if (c->n_words > 0)
        return fail_set(
            f, FAIL_INPUT,
            "view: takes no word '%s'; say which with --vehicle, and what you see with: "
            "fettle survey add COMPONENT CONDITION",
            c->words[0]);
    return find_candidate(c, f) && answer_tell(c, QUESTION_VIEW, f);
}

static const struct option options[] = {
    {"runs", "N", "how many runs of each direction; 4000 if left out"},
    {"seed", "N", "the seed of the draws; the same seed gives the same answer"},
    {"threads", "N", "threads to reckon with; the answer is the same for any number"},
    {NULL, NULL, NULL},
};
static const struct example examples[] = {
    {"fettle intake owned=no name=Heron kind=car year=1961", "take in one that you might buy"},
    {"fettle add advert vehicle=Heron asked='900 GBP' distance='140 miles' carriage='180 GBP'",
     "what is asked for it"},
    {"fettle view", "what to look at, the highest price, what says walk away"},
    {"fettle survey add sill@outside-left poor --vehicle Heron", "what you saw there"},
    {"fettle add sign vehicle=Heron sign=flood-line met=yes", "a sign that says walk away"},
    {"fettle change vehicle Heron owned=yes", "it is bought"},
    {NULL, NULL},
};
const struct command command_view = {
    .name = "view",
    .help = "before buying: what to look at, the highest price, what says walk away",
    .usage = "[--runs N] [--seed N]",
    .text = "For a vehicle with owned=no. Looks for the minutes that the seller gives, those worth "
            "most first, walked in the order of places; the highest price at which each direction "
            "still pays with the odds that you want; walk-away signs; and how to bring it home. It "
            "takes no hands, bay or money of the vehicles that are yours.",
    .options = options,
    .examples = examples,
    .run = run,
};
