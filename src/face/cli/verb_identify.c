/* identify: what it really is. */
#include "face/cli/answer.h"
#include "face/cli/verbs.h"
#include "face/show/clue.h"
#include "face/show/show_records.h"

/* "identify add CLUE OUTCOME [note]" */
static bool add(struct context *c, struct fail *f)
{
    struct garage *g;
    const struct record *vehicle;
    const struct trade *t;
    struct record *r;
    bool again;
    if (c->n_words < 3)
        return fail_set(f, FAIL_INPUT,
                        "identify add: needs a clue and what it showed, as: fettle identify add "
                        "bore-ridge deep");
    if (!context_garage(c, GARAGE_WRITE, &g, f) || !context_vehicle(c, &vehicle, f) ||
        !context_trade(c, &t, f))
        return false;
    struct text note = {.arena = c->arena};
    for (int i = 3; i < c->n_words; i++) text_print(&note, "%s%s", i > 3 ? " " : "", c->words[i]);
    const struct clue_told told = {
        .clue = c->words[1], .outcome = c->words[2], .note = text_get(&note)};
    if (!clue_tell(c->arena, g, t, vehicle->id, &told, c->today, &r, &again, f)) return false;
    if (c->json)
        return context_print_json(c,
                                  json_pack("{s:s, s:s, s:b, s:o}", "act", "added", "kind",
                                            "clue-reading", "again", again, "record",
                                            record_to_json(r)),
                                  f);
    context_say(c, "%s: %s%s", record_text(r, "clue", ""), record_text(r, "outcome", ""),
                again ? " (told before; the latest counts)" : "");
    return true;
}

static bool run(struct context *c, struct fail *f)
{
    if (c->n_words == 0) return answer_tell(c, QUESTION_IDENTIFY, f);
    if (text_is(c->words[0], "add")) return add(c, f);
    return fail_set(f, FAIL_INPUT,
                    "identify: no '%s' here; use 'identify' or 'identify add CLUE OUTCOME [note]'",
                    c->words[0]);
}

static const struct option options[] = {
    {"runs", "N", "how many runs the clue worth taking next is weighed on; 4000 if left out"},
    {"seed", "N", "the seed of the draws; the same seed gives the same answer"},
    {"threads", "N", "threads to reckon with; the answer is the same for any number"},
    {NULL, NULL, NULL},
};
static const struct example examples[] = {
    {"fettle identify", "how far it ran, what its clock did, and the clue worth taking next"},
    {"fettle add clock reading=34567 digits=5 working=no", "what the clock reads"},
    {"fettle add dated-mileage written=1984-06-02 reading=81200 paper='garage bill'",
     "a paper with date and mileage"},
    {"fettle identify add bore-ridge deep '0.2 mm at the first bore'", "one clue"},
    {NULL, NULL},
};
const struct command command_identify = {
    .name = "identify",
    .help = "what it really is: true miles, clock, numbers, originality",
    .usage = "[--runs N] [--seed N]\nadd CLUE OUTCOME [note]",
    .text =
        "Clues and their outcomes: fettle trade list clues; fettle trade show CLUE says how one "
        "looks. A later reading of the same clue counts.",
    .options = options,
    .examples = examples,
    .words = "add",
    .run = run,
};
