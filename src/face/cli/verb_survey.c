/* survey: what is here, and in what state. */
#include "face/cli/answer.h"
#include "face/cli/lap.h"
#include "face/cli/verbs.h"
#include "face/show/finding.h"
#include "face/show/show_records.h"

/* "survey add COMPONENT CONDITION [note]" */
static bool add(struct context *c, struct fail *f)
{
    struct garage *g;
    const struct record *vehicle;
    const struct trade *t;
    struct record *r;
    if (c->n_words < 3)
        return fail_set(f, FAIL_INPUT,
                        "survey add: needs a component and a condition, as: fettle survey add "
                        "wheel-cylinder@front-left failed");
    if (!context_garage(c, GARAGE_WRITE, &g, f) || !context_vehicle(c, &vehicle, f) ||
        !context_trade(c, &t, f))
        return false;
    struct text note = {.arena = c->arena};
    for (int i = 3; i < c->n_words; i++) text_print(&note, "%s%s", i > 3 ? " " : "", c->words[i]);
    if (!finding_tell(c->arena, g, t, vehicle->id, c->words[1], c->words[2], text_get(&note),
                      c->today, &r, f))
        return false;
    if (c->json)
        return context_print_json(c,
                                  json_pack("{s:s, s:s, s:o}", "act", "added", "kind", "finding",
                                            "record", record_to_json(r)),
                                  f);
    context_say(c, "%s: %s", record_text(r, "component", ""), record_text(r, "condition", ""));
    return true;
}

static bool lap(struct context *c, struct fail *f)
{
    struct garage *g;
    const struct record *vehicle;
    const struct trade *t;
    struct lap round;
    return context_garage(c, GARAGE_WRITE, &g, f) && context_vehicle(c, &vehicle, f) &&
           context_trade(c, &t, f) && lap_read(c->arena, g, t, vehicle->id, NULL, 0, &round, f) &&
           lap_walk(c, g, t, vehicle->id, &round, f);
}

static bool run(struct context *c, struct fail *f)
{
    if (c->n_words == 0) return answer_tell(c, QUESTION_SURVEY, f);
    if (text_is(c->words[0], "add")) return add(c, f);
    if (text_is(c->words[0], "lap")) return lap(c, f);
    return fail_set(
        f, FAIL_INPUT,
        "survey: no '%s' here; use 'survey', 'survey add COMPONENT CONDITION [note]' or "
        "'survey lap'",
        c->words[0]);
}

static const struct example examples[] = {
    {"fettle survey", "what was found, and the odds of what nobody has seen"},
    {"fettle survey lap", "go round it once, place by place"},
    {"fettle survey add wheel-cylinder@front-left failed 'seized solid'", "one finding"},
    {"fettle survey add sill poor", "the same at all its places"},
    {NULL, NULL},
};
const struct command command_survey = {
    .name = "survey",
    .help = "what is here, and in what state: findings by place, odds of the unseen",
    .usage = "\nadd COMPONENT CONDITION [note]\nlap",
    .text = "Conditions: sound, worn, poor, bodged (wrong or badly repaired), failed, missing, not "
            "fitted, unseen. A later "
            "finding on the same component counts.",
    .examples = examples,
    .words = "add lap",
    .run = run,
};
