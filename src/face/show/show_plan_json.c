/* The plan as JSON; docs/json.md tells what each name holds. */
#include "face/show/show_crossed.h"
#include "face/show/show_plan.h"
#include "face/show/words.h"

#include <math.h>

static json_t *json_moment_of(const struct plan *p, int32_t moment)
{
    return words_json_moment(p->first, moment == NEVER ? (double)INFINITY : moment);
}

static json_t *json_jobs(const struct plan *p)
{
    json_t *all = json_array();
    for (int i = 0; i < p->n_jobs; i++) {
        const struct plan_job *j = &p->jobs[i];
        json_array_append_new(
            all,
            json_pack("{s:s, s:s, s:o, s:o, s:f, s:f, s:f}", "job", j->job->head.id, "name",
                      j->job->head.name, "start", json_moment_of(p, j->start), "finish",
                      json_moment_of(p, j->finish), "chance", words_round(j->chance, 4), "critical",
                      words_round(j->critical, 4), "waits_for_money", words_round(j->money, 4)));
    }
    return all;
}

static json_t *json_orders(const struct plan *p)
{
    json_t *all = json_array();
    for (int i = 0; i < p->n_orders; i++) {
        const struct plan_order *o = &p->orders[i];
        json_array_append_new(all, json_pack("{s:s, s:o, s:f, s:f, s:o, s:f, s:s, s:s}", "part",
                                             o->part->head.id, "date",
                                             words_json_moment(p->first, o->by), "count", o->count,
                                             "chance", words_round(o->chance, 4), "price",
                                             words_json_money(o->price, p->currency), "lead_days",
                                             words_round(o->lead_days, 1), "for", o->job->head.id,
                                             "mark", mark_word(o->part->head.mark)));
    }
    return all;
}

static json_t *json_setbacks(const struct plan *p)
{
    json_t *all = json_array();
    for (int i = 0; i < p->n_setbacks; i++) {
        const struct plan_setback *x = &p->setbacks[i];
        json_array_append_new(
            all, json_pack("{s:s, s:s, s:f, s:f, s:f, s:o}", "setback", x->setback->head.id, "job",
                           x->job->head.id, "chance", words_round(x->chance, 4), "days",
                           words_round(x->days, 2), "error", words_round(x->error, 2), "cost",
                           words_json_money(x->money, p->currency)));
    }
    return all;
}

static json_t *json_sessions(struct arena *a, const struct plan *p)
{
    json_t *all = json_array();
    for (int i = 0; i < p->n_stints; i++) {
        const struct plan_stint *x = &p->stints[i];
        json_array_append_new(
            all, json_pack("{s:o, s:s, s:s, s:s, s:i}", "date", words_json_moment(x->day, 0),
                           "from", words_clock(a, x->from), "to",
                           words_clock(a, x->to > MINUTES_A_DAY ? MINUTES_A_DAY : x->to), "job",
                           x->job->head.id, "hands", x->hands));
    }
    return all;
}

static json_t *json_months(const struct plan *p)
{
    json_t *all = json_array();
    for (int i = 0; i < p->n_months; i++) {
        const struct plan_month *m = &p->months[i];
        json_array_append_new(
            all, json_pack("{s:o, s:o, s:o, s:o}", "month", words_json_moment(m->first, 0), "purse",
                           p->purse_open ? json_null() : words_json_money(m->pay, p->currency),
                           "p50", words_json_money(m->p50, p->currency), "p80",
                           words_json_money(m->p80, p->currency)));
    }
    return all;
}

static json_t *json_notes(const struct plan *p)
{
    json_t *all = json_array();
    for (int i = 0; i < p->n_notes; i++) json_array_append_new(all, json_string(p->notes[i]));
    return all;
}

static json_t *json_milestones(const struct plan *p)
{
    json_t *all = json_array();
    for (int i = 0; i < p->n_milestones; i++)
        json_array_append_new(all,
                              json_pack("{s:s, s:s, s:o}", "job", p->milestones[i].job->head.id,
                                        "milestone", p->milestones[i].job->milestone, "finish",
                                        words_json_moments(&p->milestones[i].finish, p->first)));
    return all;
}

static json_t *json_hang(const struct plan *p)
{
    static const char *const name[HOLD_COUNT] = {"start", "session", "wait",
                                                 "parts", "money",   "hands"};
    json_t *all = json_object();
    for (int h = 0; h < HOLD_COUNT; h++)
        json_object_set_new(all, name[h], json_real(words_round(p->hang[h], 4)));
    return all;
}

json_t *show_plan_json(struct arena *a, const struct plan *p)
{
    json_t *o = json_object();
    json_object_set_new(o, "vehicle", json_string(p->vehicle));
    json_object_set_new(o, "direction", json_string(p->direction->head.id));
    json_object_set_new(o, "seed", json_integer((json_int_t)p->seed));
    json_object_set_new(o, "runs", json_integer(p->runs));
    json_object_set_new(o, "notes", json_notes(p));
    json_object_set_new(o, "crossed", show_crossed_json(p->crossed, p->n_crossed, p->currency));
    json_object_set_new(
        o, "with",
        json_pack("{s:f, s:o, s:o, s:s}", "hours_a_week", words_round(p->calendar.hours_a_week, 4),
                  "first_day", words_json_moment(p->first, 0), "a_month",
                  p->a_month > 0 ? words_json_money(p->a_month, p->currency) : json_null(),
                  "currency", p->currency));
    json_object_set_new(o, "finish", words_json_moments(&p->finish, p->first));
    json_object_set_new(o, "hours", words_json_numbers(&p->hours));
    json_object_set_new(o, "cost", words_json_moneys(&p->cost, p->currency));
    json_object_set_new(o, "not_finished", json_real(words_round(p->never, 4)));
    json_object_set_new(o, "out_of_money", json_real(words_round(p->no_money, 4)));
    json_object_set_new(o, "milestones", json_milestones(p));
    json_object_set_new(o, "jobs", json_jobs(p));
    json_object_set_new(o, "order_by", json_orders(p));
    json_object_set_new(o, "sessions", json_sessions(a, p));
    json_object_set_new(o, "months", json_months(p));
    json_object_set_new(o, "hangs_on", json_hang(p));
    json_object_set_new(o, "setbacks", json_setbacks(p));
    if (!p->purse_open)
        json_object_set_new(o, "more_money",
                            json_pack("{s:o, s:f, s:f}", "a_month",
                                      words_json_money(p->more_money, p->currency), "days",
                                      words_round(p->more_days, 2), "error",
                                      words_round(p->more_error, 2)));
    json_object_set_new(o, "order", json_string(p->order));
    return o;
}
