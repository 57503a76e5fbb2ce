/* household: what the vehicles together ask of purse and time. */
#include "face/cli/answer.h"
#include "face/cli/verbs.h"

static bool run(struct context *c, struct fail *f)
{
    if (c->n_words > 0)
        return fail_set(f, FAIL_INPUT, "household: takes no word '%s'; it is about all vehicles",
                        c->words[0]);
    return answer_tell(c, QUESTION_HOUSEHOLD, f);
}

static const struct option options[] = {
    {"runs", "N", "how many runs of each vehicle; 4000 if left out, fewer for more than eight"},
    {"seed", "N", "the seed of the draws; the same seed gives the same answer"},
    {"threads", "N", "threads to reckon with; the answer is the same for any number"},
    {NULL, NULL, NULL},
};
static const struct example examples[] = {
    {"fettle household", "for who shares the purse: three months, and when each is done"},
    {NULL, NULL},
};
const struct command command_household = {
    .name = "household",
    .help = "for who shares the purse: money and weekends of all vehicles together",
    .usage = "[--runs N] [--seed N]",
    .text = "What was spent, what the next three months ask of purse, weekends and evenings, what "
            "is decided next and when, and when each vehicle is done: all vehicles on the same "
            "draws, by rank, as their plans are.",
    .options = options,
    .examples = examples,
    .run = run,
};
