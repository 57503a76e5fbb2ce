/* plan: what happens when, what it costs, what must be ordered now. */
#include "face/cli/answer.h"
#include "face/cli/verbs.h"
#include "face/show/show_plan.h"
#include "face/show/show_records.h"

#include <stdlib.h>

/* The adopted plan is a fact: its order is tried again in later plans, and its figures are those
 * shown today. */
static bool adopt(struct context *c, struct fail *f)
{
    struct shop_ask ask;
    struct plan *p = ARENA_NEW(c->arena, struct plan);
    struct garage *g;
    if (!context_garage(c, GARAGE_WRITE, &g, f) || !answer_ask(c, &ask, f) ||
        !plan_reckon(c->arena, &ask, p, f))
        return false;
    answer_reckoned(&ask);
    struct text day_text = {.arena = c->arena};
    day_print(&day_text, c->today);
    json_t *figures = show_plan_json(c->arena, p);
    char *text = json_dumps(figures, JSON_COMPACT | JSON_REAL_PRECISION(15));
    json_decref(figures);
    struct record *r = record_new(c->arena, record_kind_find("adopted-plan"));
    bool done = record_set(c->arena, r, "vehicle", ask.vehicle, NULL, f) &&
                record_set(c->arena, r, "direction", p->direction->head.id, NULL, f) &&
                record_set(c->arena, r, "as-of", text_get(&day_text), NULL, f) &&
                record_set(c->arena, r, "order", p->order, NULL, f) &&
                record_set(c->arena, r, "figures", text, NULL, f) && record_valid(r, f) &&
                garage_begin(g, f);
    free(text);
    if (!done) return false;
    if (!garage_add(g, r, f) || !garage_commit(g, f)) {
        garage_rollback(g);
        return false;
    }
    if (c->json)
        return context_print_json(c,
                                  json_pack("{s:s, s:s, s:o}", "act", "added", "kind",
                                            "adopted-plan", "record", record_to_json(r)),
                                  f);
    context_say(
        c, "Adopted. Later plans try its order beside a new one; 'fettle undo' takes it back.");
    return true;
}

bool intake_forecast(struct context *c, const struct record *vehicle, struct fail *f)
{
    struct shop_ask ask;
    struct plan *p = ARENA_NEW(c->arena, struct plan);
    c->vehicle = vehicle;
    if (!answer_ask(c, &ask, f)) return false;
    ask.runs = RUNS_USUAL / 4; /* a first look, at once */
    if (!plan_reckon(c->arena, &ask, p, f)) return false;
    answer_reckoned(&ask);
    context_print_sheet(c, show_first_forecast(c->arena, p));
    return true;
}

static bool run(struct context *c, struct fail *f)
{
    if (c->n_words > 0)
        return fail_set(f, FAIL_INPUT, "plan: takes no word '%s'; name a vehicle with --vehicle",
                        c->words[0]);
    return context_option(c, "adopt") ? adopt(c, f) : answer_tell(c, QUESTION_PLAN, f);
}

static const struct option options[] = {
    {"direction", "NAME", "preserve, drive, restore, modify or sell; the decided one if left out"},
    {"runs", "N", "how many runs; 4000 if left out"},
    {"seed", "N", "the seed of the draws; the same seed gives the same answer"},
    {"threads", "N", "threads to reckon with; the answer is the same for any number"},
    {"adopt", NULL, "keep this plan as a fact, with its figures"},
    {NULL, NULL, NULL},
};
static const struct example examples[] = {
    {"fettle plan", "the plan of the only vehicle, in its decided direction"},
    {"fettle plan --direction restore", "what another direction would take"},
    {"fettle plan --date 2027-03-01", "as of another day"},
    {"fettle plan --adopt", "keep it: later plans are held against it"},
    {NULL, NULL},
};
const struct command command_plan = {
    .name = "plan",
    .help = "what happens when, what it costs, what to order now",
    .usage = "[--direction NAME] [--runs N] [--seed N] [--adopt]",
    .text = "When it drives at 50 % and at 80 %, hours, money by month against the purse, the next "
            "four weeks session by "
            "session, the parts to order and by when, what the date hangs on, and the setbacks "
            "that cost the most days.",
    .options = options,
    .examples = examples,
    .run = run,
};
