/* plan: what happens when, what it costs, what must be ordered now. */
#include "face/cli/answer.h"
#include "face/cli/verbs.h"
#include "face/show/show_plan.h"
#include "face/show/show_records.h"
#include "face/show/show_what_if.h"
#include "face/show/what_if_form.h"

#include <stdlib.h>
#include <string.h>

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

/* ---- what if ---- */

static bool take_words(struct context *c, struct what_if_typed *typed, struct fail *f)
{
    for (int i = 0; i < c->n_words; i++) {
        const char *word = c->words[i], *equals = strchr(word, '=');
        size_t n = equals ? (size_t)(equals - word) : 0;
        enum what_if_key k = 0;
        while (k < WHAT_IF_KEYS &&
               !(strlen(what_if_name(k)) == n && strncmp(word, what_if_name(k), n) == 0))
            k++;
        if (k == WHAT_IF_KEYS)
            return fail_set(f, FAIL_INPUT,
                            "what-if: '%.40s' says nothing; say hours=, start=, helpers=, money= "
                            "or direction=",
                            word);
        typed->text[k] = equals + 1;
    }
    return true;
}

static bool first_fault(const struct what_if_typed *typed, struct fail *f)
{
    for (enum what_if_key k = 0; k < WHAT_IF_KEYS; k++)
        if (typed->fault[k]) return fail_set(f, FAIL_INPUT, "%s", typed->fault[k]);
    return fail_set(f, FAIL_INPUT, "what-if: nothing is said otherwise, so nothing can be kept");
}

/* Within one state of the garage; with --keep an act of it. */
static bool tell_what_if(struct context *c, const struct shop_ask *ask, struct fail *f)
{
    struct what_if_side as_is;
    struct what_if_typed typed = {0};
    struct override said;
    struct what_if w;
    struct keep keep;
    bool store = context_option(c, "keep") != NULL;
    if (!take_words(c, &typed, f) || !answer_as_is(c->arena, ask, answer_trade_of(c), &as_is, f))
        return false;
    if (!what_if_read(c->arena, ask->trade, &as_is.with, ask->today, &typed, &said) ||
        (store && override_is_none(&said)))
        return first_fault(&typed, f);
    if (!what_if_reckon(c->arena, ask, &said, &as_is, &w, f) ||
        !what_if_acts(c->arena, ask, &said, &keep, f) ||
        (store && !(what_if_keep(ask->garage, &keep, f) && garage_commit(ask->garage, f))))
        return false;
    answer_reckoned(ask);
    if (c->json) return context_print_json(c, show_what_if_json(&w, &keep), f);
    context_print_sheet(c, show_what_if(c->arena, &w, &keep));
    if (store) context_say(c, "Kept. 'fettle undo' and 'fettle undo garage' take it back.");
    return true;
}

static bool what_if(struct context *c, struct fail *f)
{
    struct shop_ask ask;
    struct garage *g;
    enum garage_mode mode = context_option(c, "keep") ? GARAGE_WRITE : GARAGE_READ;
    if (!context_garage(c, mode, &g, f) || !answer_ask(c, &ask, f) || !garage_begin(g, f))
        return false;
    bool done = tell_what_if(c, &ask, f);
    garage_rollback(g);
    return done;
}

static bool run(struct context *c, struct fail *f)
{
    if (context_option(c, "what-if")) return what_if(c, f);
    if (context_option(c, "keep"))
        return fail_set(f, FAIL_INPUT, "--keep goes with --what-if; --adopt keeps a plan");
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
    {"what-if", NULL,
     "say otherwise with hours=, start=, helpers=, money=, direction=; nothing is stored"},
    {"keep", NULL, "store what was said with --what-if"},
    {NULL, NULL, NULL},
};
static const struct example examples[] = {
    {"fettle plan", "the plan of the only vehicle, in its decided direction"},
    {"fettle plan --direction restore", "what another direction would take"},
    {"fettle plan --date 2027-03-01", "as of another day"},
    {"fettle plan --what-if hours=6 money=300", "what fewer hours and less money would do"},
    {"fettle plan --adopt", "keep it: later plans are held against it"},
    {NULL, NULL},
};
const struct command command_plan = {
    .name = "plan",
    .help = "what happens when, what it costs, what to order now",
    .usage = "[--direction NAME] [--runs N] [--seed N] [--adopt]\n"
             "--what-if key=value... [--keep]",
    .text = "When it drives at 50 % and at 80 %, hours, money by month against the purse, the next "
            "four weeks session by "
            "session, the parts to order and by when, what the date hangs on, and the setbacks "
            "that cost the most days.",
    .options = options,
    .examples = examples,
    .run = run,
};
