/* choose: what shall become of it. */
#include "face/cli/answer.h"
#include "face/cli/verbs.h"

static bool run(struct context *c, struct fail *f)
{
    if (c->n_words > 0)
        return fail_set(f, FAIL_INPUT,
                        "choose: takes no word '%s'; decide with: fettle add decision direction=%s",
                        c->words[0], c->words[0]);
    return answer_tell(c, QUESTION_CHOOSE, f);
}

static const struct option options[] = {
    {"runs", "N", "how many runs of each direction; 4000 if left out"},
    {"seed", "N", "the seed of the draws; the same seed gives the same answer"},
    {"threads", "N", "threads to reckon with; the answer is the same for any number"},
    {NULL, NULL, NULL},
};
static const struct example examples[] = {
    {"fettle choose", "the five directions side by side"},
    {"fettle add worth of=now worth='800/1200/2000 GBP'",
     "tell what it is worth, so that nets can be compared"},
    {"fettle add decision direction=drive reason='common, complete, wanted on the road'", "decide"},
    {NULL, NULL},
};
const struct command command_choose = {
    .name = "choose",
    .help = "compare the five directions, and see which look is worth taking",
    .usage = "[--runs N] [--seed N]",
    .text = "Preserve, drive, restore, modify and sell on the same draws: money to complete, date, "
            "worth, net, the odds of "
            "coming out ahead, and what would be lost for good. And what is not seen and not told, "
            "components and clues in one list, ranked by what a look could change.",
    .options = options,
    .examples = examples,
    .run = run,
};
