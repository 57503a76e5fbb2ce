#include "face/show/show_setback.h"

#include "face/show/show_trade.h"
#include "face/show/show_what_if.h"
#include "face/show/words.h"

#include <math.h>
#include <string.h>

const char *setback_step_word(struct arena *a, const struct trade_setback *s, int step)
{
    return s->ladder[step].called ? s->ladder[step].called : arena_print(a, "%d", step + 1);
}

static const char *join(struct arena *a, const char *const *items, int n)
{
    struct text t = {.arena = a};
    for (int i = 0; i < n; i++) text_print(&t, "%s%s", i ? ", " : "", items[i]);
    return text_get(&t);
}

static const char *parts_of(struct sheet *s, const struct setback *x, const struct trade_step *step)
{
    struct text t = {.arena = s->arena};
    for (int i = 0; i < step->n_parts; i++)
        text_print(&t, "%s%s", i ? ", " : "", x->trade->parts[step->parts[i].part].head.name);
    return text_get(&t);
}

/* Odds of a step are reasoned, never counted: told in words. */
static const char *works(struct arena *a, double p)
{
    return p >= 1 ? "ends the matter" : words_odds(a, p);
}

/* ---- the next step ---- */

static void next_step(struct sheet *s, const struct setback *x)
{
    struct arena *a = s->arena;
    const struct setback_step *to = &x->steps[x->best];
    const struct trade_step *step = to->step;
    const char *practice = mark_behind(a, x->setback->head.mark);
    sheet_heading(s, 2, arena_print(a, "Next: %s", step->act));
    show_cautions(s, x->trade, step->cautions, step->n_cautions);
    if (step->n_tools > 0)
        sheet_fact(s, TONE_PLAIN, "tools", "%s", join(a, step->tools, step->n_tools));
    if (step->n_parts > 0) sheet_fact(s, TONE_PLAIN, "parts", "%s", parts_of(s, x, step));
    sheet_fact(s, TONE_PLAIN, "takes", "%s%s", points_words(a, step->hours, "h"), practice);
    if (to->days > 0)
        sheet_fact(s, TONE_PLAIN, "then waits", "%s%s%s", words_days(a, to->days),
                   step->wait.what_for ? ", " : "", step->wait.what_for ? step->wait.what_for : "");
    sheet_fact(s, TONE_PLAIN, "that it cures", "%s%s", works(a, to->odds[LADDER_CURED]), practice);
    if (to->odds[LADDER_WORSE] > 0)
        sheet_fact(s, TONE_CARE, "that it is worse after it", "%s%s: %s",
                   words_odds(a, to->odds[LADDER_WORSE]), practice, step->worse.what);
    if (step->risk) sheet_fact(s, TONE_CARE, "mind", "%s", step->risk);
    sheet_fact(s, TONE_CARE, "stop rule", "%s", x->setback->stop);
}

static void tonight(struct sheet *s, const struct setback *x)
{
    sheet_heading(s, 2, "Or stop here tonight");
    sheet_text(s, "%s. It is no loss: write it down, photograph it, and go on with something else.",
               x->setback->tonight ? x->setback->tonight
                                   : "Cover what is open, leave nothing under load or half "
                                     "supported, label what came off");
}

/* ---- what it moves ---- */

static void moves(struct sheet *s, const struct setback *x)
{
    struct arena *a = s->arena;
    if (x->in_plan && !x->moved) return;
    sheet_heading(s, 2, "What it moves");
    if (!x->in_plan) {
        sheet_text(s, "Nothing: %s is not to be done in this plan.", x->job->head.name);
        return;
    }
    sheet_fact(s, what_if_tone(&x->days_p50), "done at 50 %", "%s", what_if_days(a, &x->days_p50));
    sheet_fact(s, what_if_tone(&x->days_p80), "done at 80 %", "%s", what_if_days(a, &x->days_p80));
    sheet_fact(s, what_if_tone(&x->money_p50), "money at 50 %", "%s",
               what_if_money(a, &x->money_p50, x->currency));
    sheet_fact(s, what_if_tone(&x->money_p80), "money at 80 %", "%s",
               what_if_money(a, &x->money_p80, x->currency));
    if (x->n_meanwhile == 0) return;
    sheet_heading(s, 2, "Meanwhile");
    for (int i = 0; i < x->n_meanwhile; i++)
        sheet_item(s, "%s (%s): %s", x->meanwhile[i].job->head.name, x->meanwhile[i].job->head.id,
                   points_words(a, x->meanwhile[i].job->hours, "h"));
}

static void orders(struct sheet *s, const struct setback *x)
{
    struct arena *a = s->arena;
    if (x->n_orders == 0) return;
    sheet_heading(s, 2, "Order now, or ask what it costs and when it comes");
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "part", ALIGN_LEFT, 1);
    sheet_column(s, t, "that it is needed", ALIGN_LEFT, 1);
    sheet_column(s, t, "comes in", ALIGN_LEFT, 2);
    sheet_column(s, t, "each", ALIGN_RIGHT, 2);
    for (int i = 0; i < x->n_orders; i++) {
        const struct setback_order *o = &x->orders[i];
        sheet_cell(s, t, TONE_PLAIN, "%s", o->part->head.name);
        const bool order = o->next || o->chance >= 0.5;
        sheet_cell(s, t, order ? TONE_CARE : TONE_PLAIN, "%s: %s", order ? "order" : "ask",
                   o->next          ? "for the next step"
                   : o->chance >= 1 ? "sure"
                                    : words_odds(a, o->chance));
        sheet_cell(s, t, TONE_PLAIN, "%s", words_days(a, o->lead_days));
        sheet_cell(s, t, TONE_PLAIN, "%s", words_money(a, o->price, x->currency));
    }
}

/* ---- sizes of its thread ---- */

static void sum_facts(struct sheet *s, const struct calc *c, const struct calc_result *r,
                      const char *const *names, const char *const *labels)
{
    for (int i = 0; names[i]; i++) {
        const int at = calc_output_index(c, names[i]);
        if (at >= 0 && r->out[at].set)
            sheet_fact(s, TONE_PLAIN, labels[i], "%s",
                       calc_told(s->arena, &c->outputs[at], &r->out[at], UNITS_METRIC));
    }
}

static void sizes(struct sheet *s, const struct setback *x)
{
    static const char *const stud[] = {"punch",       "pilot-drill", "first-drill",
                                       "chase-drill", "tap",         NULL},
                             *const stud_labels[] = {"punch", "pilot drill", "then",
                                                     "final drill, to chase it", "tap"},
                             *const insert[] = {"standard-drill", "drilled-depth", "insert-length",
                                                NULL},
                             *const insert_labels[] = {"insert: drill", "insert: depth to drill",
                                                       "insert: length"};
    if (!x->setback->fastener) return;
    if (x->no_sizes) {
        sheet_text(s, "No sizes: %s.", x->no_sizes);
        return;
    }
    if (!x->stud_sum) {
        sheet_text(s, "Tell its thread (M8x1.25, 3/8-16 UNC) for punch, drills, tap and insert.");
        return;
    }
    sheet_heading(s, 2, arena_print(s->arena, "Sizes for %s", x->said.thread));
    for (int i = 0; x->insert_sum->cautions[i].text; i++)
        sheet_caution(s, x->insert_sum->cautions[i].text, x->insert_sum->cautions[i].defer);
    sum_facts(s, x->stud_sum, &x->stud, stud, stud_labels);
    sum_facts(s, x->insert_sum, &x->insert, insert, insert_labels);
    const int tap = calc_output_index(x->stud_sum, "insert-tap");
    sheet_fact(s, TONE_PLAIN, "insert: tap", "%s%s", x->stud.out[tap].text,
               x->said.is[BROKEN_HOLE] == 1 ? ", a bottoming one" : "");
    if (x->said.is[BROKEN_HOLE] == 1)
        sheet_fact(s, TONE_CARE, "blind hole", "%s",
                   "measure its depth first, mark that on every drill, and leave the bottom whole");
    if (x->said.is[BROKEN_HOLE] == 0)
        sheet_fact(s, TONE_CARE, "through hole", "%s",
                   "look what lies behind it; chips fall in there, and a drill snatches as it "
                   "comes through");
    for (int i = 0; i < x->stud.n_notes; i++) sheet_item(s, "%s", x->stud.notes[i]);
    for (int i = 0; x->stud_sum->sources[i].text; i++)
        sheet_note(s, x->stud_sum->sources[i].mark, x->stud_sum->sources[i].text, "");
    sheet_link(s, "The sum of a broken stud", "bench broken-stud");
}

/* ---- the whole ladder ---- */

static const char *state_of(const struct setback *x, int i)
{
    static const char *const words[] = {"open", "tried", "left it worse", "passed",
                                        "after another"};
    return i == x->best ? "next" : words[x->steps[i].how];
}

static void ladder(struct sheet *s, const struct setback *x)
{
    struct arena *a = s->arena;
    sheet_heading(s, 2, "The ladder");
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "step", ALIGN_LEFT, 1);
    sheet_column(s, t, "it is", ALIGN_LEFT, 1);
    sheet_column(s, t, "that it cures", ALIGN_LEFT, 2);
    sheet_column(s, t, "with all after it", ALIGN_RIGHT, 2);
    for (int i = 0; i < x->n_steps; i++) {
        const struct setback_step *step = &x->steps[i];
        const bool open = step->how == STEP_OPEN;
        sheet_cell(s, t, TONE_PLAIN, "%s: %s", setback_step_word(a, x->setback, i),
                   step->step->act);
        sheet_cell(s, t,
                   i == x->best ? TONE_GOOD
                   : open       ? TONE_PLAIN
                                : TONE_FAINT,
                   "%s", state_of(x, i));
        sheet_cell(s, t, TONE_PLAIN, "%s", open ? works(a, step->odds[LADDER_CURED]) : "");
        sheet_cell(s, t, TONE_PLAIN, "%s", open ? words_money(a, step->expects, x->currency) : "");
    }
    if (x->best < 0) return;
    struct sheet_why *why = sheet_why(
        s, "Why this step?",
        "least expected cost of hours, parts and what is spoilt, over every way up the ladder; a "
        "step that did not help makes the others less likely to",
        x->setback->head.mark, "nobody has published how often such steps work; log yours");
    sheet_why_input(s, why, "an hour counts", "%s%s", words_money(a, x->hour, x->currency),
                    x->own_hour ? ", your own rate" : ", for no rate of your own is told");
    sheet_why_input(s, why, "from here on average", "%s hands-on, %s of parts",
                    words_hours(a, x->hours), words_money(a, x->money, x->currency));
}

static const char *said_words(struct arena *a, const struct setback *x)
{
    static const char *const words[BROKEN_COUNT] = {"%s", "in %s", "%s hole",
                                                    "a drill reaches it: %s"};
    struct text t = {.arena = a};
    for (int b = 0; b < BROKEN_COUNT; b++)
        if (x->said.is[b] >= 0) {
            const char *value = broken_value((enum broken)b, x->said.is[b]);
            text_add(&t, t.length ? ", " : "");
            text_print(&t, words[b], value);
        }
    if (x->said.thread) text_print(&t, "%sthread %s", t.length ? ", " : "", x->said.thread);
    return t.length ? text_get(&t) : NULL;
}

struct sheet *show_setback(struct arena *a, const struct setback *x, bool stored)
{
    struct sheet *s = sheet_new(a, arena_print(a, "%s: %s", x->vehicle, x->setback->head.name));
    const char *said = said_words(a, x);
    sheet_fact(s, TONE_PLAIN, "in the job", "%s (%s)", x->job->head.name, x->job->head.id);
    if (said) sheet_fact(s, TONE_PLAIN, "it is", "%s", said);
    if (!stored) sheet_fact(s, TONE_CARE, "stored", "not yet");
    if (x->said.state == SETBACK_CURED)
        sheet_fact(s, TONE_GOOD, "cured", "go on with the job");
    else if (x->said.state == SETBACK_STOPPED)
        sheet_fact(s, TONE_CARE, "given up", "it stays as it is; the plan reckons no more with it");
    else if (x->best >= 0) {
        next_step(s, x);
        tonight(s, x);
    }
    moves(s, x);
    if (x->said.state != SETBACK_OPEN) return s;
    orders(s, x);
    sizes(s, x);
    ladder(s, x);
    return s;
}

/* ---- JSON ---- */

static json_t *step_json(struct arena *a, const struct setback *x, int i)
{
    static const char *const how[] = {"open", "tried", "worse", "passed", "later"};
    const struct setback_step *s = &x->steps[i];
    json_t *o = json_pack("{s:s, s:s, s:s, s:f, s:o, s:f, s:f}", "step",
                          setback_step_word(a, x->setback, i), "do", s->step->act, "state",
                          how[s->how], "hours", words_round(s->hours, 2), "money",
                          words_json_money(s->money, x->currency), "days", words_round(s->days, 2),
                          "reached", words_round(s->reached, 4));
    if (s->how == STEP_OPEN) {
        json_object_set_new(o, "odds",
                            json_pack("{s:f, s:f, s:f}", "cured",
                                      words_round(s->odds[LADDER_CURED], 4), "no_change",
                                      words_round(s->odds[LADDER_NO_CHANGE], 4), "worse",
                                      words_round(s->odds[LADDER_WORSE], 4)));
        json_object_set_new(o, "expects", words_json_money(s->expects, x->currency));
    }
    return o;
}

json_t *show_setback_json(const struct setback *x, bool stored)
{
    static const char *const states[] = {"open", "cured", "stopped"};
    struct arena a = arena_open(1 << 14);
    json_t *steps = json_array(), *orders = json_array(), *meanwhile = json_array();
    for (int i = 0; i < x->n_steps; i++) json_array_append_new(steps, step_json(&a, x, i));
    for (int i = 0; i < x->n_orders; i++)
        json_array_append_new(orders,
                              json_pack("{s:s, s:f, s:f, s:f, s:o}", "part",
                                        x->orders[i].part->head.id, "count", x->orders[i].count,
                                        "chance", words_round(x->orders[i].chance, 4), "lead_days",
                                        words_round(x->orders[i].lead_days, 1), "price",
                                        words_json_money(x->orders[i].price, x->currency)));
    for (int i = 0; i < x->n_meanwhile; i++)
        json_array_append_new(meanwhile, json_string(x->meanwhile[i].job->head.id));
    json_t *moved = !x->moved ? json_null()
                              : json_pack("{s:{s:o, s:o}, s:{s:o, s:o}}", "days", "p50",
                                          what_if_days_json(&x->days_p50), "p80",
                                          what_if_days_json(&x->days_p80), "money", "p50",
                                          what_if_money_json(&x->money_p50, x->currency), "p80",
                                          what_if_money_json(&x->money_p80, x->currency));
    json_t *out = json_pack("{s:s, s:s, s:s, s:s, s:b, s:o, s:o, s:o, s:o, s:o, s:o}", "vehicle",
                            x->vehicle, "setback", x->setback->head.id, "job", x->job->head.id,
                            "state", states[x->said.state], "stored", stored, "next",
                            x->best < 0 ? json_null()
                                        : json_string(setback_step_word(&a, x->setback, x->best)),
                            "expects", words_json_money(x->expects, x->currency), "ladder", steps,
                            "moves", moved, "meanwhile", meanwhile, "order", orders);
    arena_close(&a);
    return out;
}
