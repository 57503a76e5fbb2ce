#include "face/show/show_plan.h"

#include "face/show/show_crossed.h"
#include "face/show/show_plan_chart.h"
#include "face/show/words.h"

#include <math.h>
#include <string.h>

enum { JOBS_SHOWN = 8, ORDER_WEEKS = 10, ORDERS_FEWEST = 8 };

/* ---- when, how long, how much ---- */

static const char *end_word(const struct plan *p)
{
    return text_is(p->direction->head.id, "sell")       ? "sold"
           : text_is(p->direction->head.id, "preserve") ? "done"
                                                        : "drives";
}

/* The milestone that says in the builder's words that the vehicle is ready; the finish where there
 * is none. */
static const struct quantiles *ready(const struct plan *p)
{
    for (int i = 0; i < p->n_milestones; i++)
        if (text_starts(p->milestones[i].job->milestone, "it drives"))
            return &p->milestones[i].finish;
    return &p->finish;
}

static void say_moment(struct sheet *s, const struct plan *p, const char *name,
                       const struct quantiles *q)
{
    struct arena *a = s->arena;
    if (isinf(q->p50) && p->no_money > 0.5 * p->never)
        sheet_fact(s, TONE_BAD, name, "not within the ceiling of %s",
                   words_money(a, p->ceiling, p->currency));
    else if (isinf(q->p50))
        sheet_fact(s, TONE_BAD, name, "not within %.0f years, in more than half of the runs",
                   p->horizon_years);
    else if (isinf(q->p80))
        sheet_fact(s, TONE_CARE, name, "%s at 50 %%; 80 %% is not reached",
                   words_moment(a, p->first, q->p50));
    else
        sheet_fact(s, TONE_PLAIN, name, "%s at 50 %%, %s at 80 %%",
                   words_moment(a, p->first, q->p50), words_moment(a, p->first, q->p80));
}

static void say_totals(struct sheet *s, const struct plan *p)
{
    struct arena *a = s->arena;
    const struct quantiles *q = ready(p);
    if (q != &p->finish) say_moment(s, p, "Drives", q);
    say_moment(s, p,
               q == &p->finish ? (text_is(end_word(p), "sold") ? "Sold" : "Done") : "File closed",
               &p->finish);
    sheet_fact(s, TONE_PLAIN, "Work", "%s at 50 %%, %s at 80 %%", words_hours(a, p->hours.p50),
               words_hours(a, p->hours.p80));
    sheet_fact(s, TONE_PLAIN, "Money still to spend", "%s at 50 %%, %s at 80 %%",
               words_money(a, p->cost.p50, p->currency), words_money(a, p->cost.p80, p->currency));
    if (!p->purse_open && p->ceiling < 1e15) {
        const char *short_of = p->cost.p50 > p->ceiling   ? ", less than even the 50 % bill"
                               : p->cost.p80 > p->ceiling ? ", less than the 80 % bill"
                                                          : "";
        sheet_fact(s, *short_of ? TONE_CARE : TONE_PLAIN, "Ceiling", "%s%s%s",
                   words_money(a, p->ceiling, p->currency), p->after ? " left of it" : "",
                   short_of);
    }
    if (p->never > 0.005)
        sheet_fact(s, TONE_CARE, "Not done", "%s of the runs%s", words_share(a, p->never),
                   p->no_money > 0.005 ? arena_print(a, "; the ceiling stops %s of them",
                                                     words_share(a, p->no_money / p->never))
                                       : arena_print(a, ", within %.0f years", p->horizon_years));
}

static void say_notes(struct sheet *s, const struct plan *p)
{
    if (!p->decided)
        sheet_item(s,
                   "No direction was decided, so '%s' is planned; compare them with: fettle choose",
                   p->direction->head.id);
    if (p->after) sheet_item(s, "Hands, bay and money go first to: %s.", p->after);
    for (int i = 0; i < p->n_notes; i++) sheet_item(s, "%s", p->notes[i]);
}

/* ---- the next four weeks ---- */

/* The names of a job's cautions: what to mind, beside the act. */
static const char *mind(struct arena *a, const struct plan *p, const struct trade_job *job)
{
    struct text t = {.arena = a};
    for (int k = 0; k < job->n_cautions; k++)
        text_print(&t, "%s%s", k > 0 ? "; " : " (mind: ",
                   words_inside(a, p->trade->cautions[job->cautions[k]].head.name));
    if (job->n_cautions > 0) text_add(&t, ")");
    return text_get(&t);
}

/* Nobody works to the minute: times are told to five. */
static int told_minute(int minute)
{
    int told = (minute + 2) / 5 * 5;
    return told > MINUTES_A_DAY ? MINUTES_A_DAY : told;
}

static void table_sessions(struct sheet *s, const struct plan *p)
{
    struct arena *a = s->arena;
    sheet_heading(s, 2, "The next four weeks, if nothing goes wrong");
    if (p->n_stints == 0) {
        sheet_text(s, "No work falls in them; the first day is %s.", words_day(s->arena, p->first));
        return;
    }
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "day", ALIGN_LEFT, 1);
    sheet_column(s, t, "from", ALIGN_LEFT, 2);
    sheet_column(s, t, "to", ALIGN_LEFT, 3);
    sheet_column(s, t, "job", ALIGN_LEFT, 1);
    sheet_column(s, t, "", ALIGN_LEFT, 4);
    day last = DAY_NONE;
    for (int i = 0; i < p->n_stints; i++) {
        const struct plan_stint *x = &p->stints[i];
        const char *who = x->helped ? ", helper" : "";
        sheet_cell(s, t, TONE_PLAIN, "%s",
                   x->day != last ? arena_print(a, "%s%s", words_short_day(a, x->day), who) : "");
        sheet_cell(s, t, TONE_FAINT, "%s", words_clock(a, told_minute(x->from)));
        sheet_cell(s, t, TONE_FAINT, "%s", words_clock(a, told_minute(x->to)));
        sheet_cell(s, t, TONE_PLAIN, "%s%s%s", x->job->head.name,
                   x->hands > 1 ? ", two of you" : "", x->begins ? mind(a, p, x->job) : "");
        sheet_cell(s, t, TONE_FAINT, "%s",
                   x->begins && x->ends ? ""
                   : x->ends            ? "done"
                   : x->begins          ? "begun"
                                        : "goes on");
        last = x->day;
    }
    if (p->shown_former)
        sheet_text(
            s, "In the order of the adopted plan, which still ends earlier than a new one would.");
}

/* In full for the first working day, each once; later days name theirs beside the job. */
static void say_cautions(struct sheet *s, const struct plan *p)
{
    const struct trade *t = p->trade;
    uint8_t *said = ARENA_ARRAY(s->arena, uint8_t, t->n_cautions);
    for (int i = 0; i < p->n_stints && p->stints[i].day == p->stints[0].day; i++)
        for (int k = 0; k < p->stints[i].job->n_cautions; k++) {
            int c = p->stints[i].job->cautions[k];
            if (said[c]++) continue;
            sheet_caution(
                s,
                arena_print(s->arena, "%s: %s", p->stints[i].job->head.name, t->cautions[c].text),
                t->cautions[c].defer);
        }
    if (p->n_stints > 0)
        sheet_text(s,
                   "Cautions of the first day in full; of any other job: fettle trade show JOB.");
}

/* ---- orders ---- */

static void table_orders(struct sheet *s, const struct plan *p)
{
    struct arena *a = s->arena;
    int n = 0, until = ORDER_WEEKS * 7 * MINUTES_A_DAY;
    while (n < p->n_orders && (n < ORDERS_FEWEST || p->orders[n].by < until)) n++;
    sheet_heading(s, 2, "Order by");
    if (n == 0) {
        sheet_text(s, "Nothing has to be ordered.");
        return;
    }
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "by", ALIGN_LEFT, 1);
    sheet_column(s, t, "part", ALIGN_LEFT, 1);
    sheet_column(s, t, "count", ALIGN_RIGHT, 4);
    sheet_column(s, t, "each about", ALIGN_RIGHT, 2);
    sheet_column(s, t, "comes in", ALIGN_RIGHT, 4);
    sheet_column(s, t, "odds of need", ALIGN_RIGHT, 3);
    sheet_column(s, t, "for", ALIGN_LEFT, 5);
    for (int i = 0; i < n; i++) {
        const struct plan_order *o = &p->orders[i];
        bool now = o->by < 7 * MINUTES_A_DAY;
        const char *when = o->by <= 0 ? (o->waits_for_gate ? "once decided" : "now")
                                      : words_short_day(a, p->first + o->by / MINUTES_A_DAY);
        sheet_cell(s, t, now && !o->waits_for_gate ? TONE_CARE : TONE_PLAIN, "%s", when);
        sheet_cell(s, t, TONE_PLAIN, "%s", o->part->head.name);
        sheet_cell(s, t, TONE_PLAIN, "%g", o->count);
        sheet_cell(s, t, TONE_PLAIN, "%s", words_money(a, o->price, p->currency));
        sheet_cell(s, t, TONE_PLAIN, "%s", words_days(a, o->lead_days));
        sheet_cell(s, t, TONE_PLAIN, "%s", words_share(a, o->chance));
        sheet_cell(s, t, TONE_FAINT, "%s", o->job->head.name);
    }
    if (n < p->n_orders) sheet_text(s, "%d more later; all of them with --json.", p->n_orders - n);
    sheet_note(s, MARK_PRACTICE, "Prices and lead times are common practice, not quotes", "");
}

/* ---- money by month ---- */

/* Jobs that wait for the purse in at least a quarter of the runs, in order of their start. */
static void say_money_waits(struct sheet *s, const struct plan *p)
{
    enum { NAMED = 6 };
    struct text t = {.arena = s->arena};
    int n = 0;
    for (int i = 0; i < p->n_jobs; i++) {
        if (p->jobs[i].money < 0.25) continue;
        if (n++ < NAMED)
            text_print(&t, "%s%s (%s)", n > 1 ? "; " : "",
                       words_inside(s->arena, p->jobs[i].job->head.name),
                       words_share(s->arena, p->jobs[i].money));
    }
    if (n > 0)
        sheet_text(s, "Waits for money, and in how many of the runs: %s%s.", t.s,
                   n > NAMED ? arena_print(s->arena, "; and %d more", n - NAMED) : "");
}

static void table_months(struct sheet *s, const struct plan *p)
{
    struct arena *a = s->arena;
    if (p->n_months == 0) return;
    sheet_heading(s, 2, "Money by month");
    chart_money(s, p);
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "month", ALIGN_LEFT, 1);
    if (!p->purse_open) sheet_column(s, t, "purse brings", ALIGN_RIGHT, 3);
    sheet_column(s, t, "ordered at 50 %", ALIGN_RIGHT, 1);
    sheet_column(s, t, "at 80 %", ALIGN_RIGHT, 2);
    for (int i = 0; i < p->n_months && i < 12; i++) {
        const struct plan_month *m = &p->months[i];
        sheet_cell(s, t, TONE_PLAIN, "%s", words_month(a, m->first));
        if (!p->purse_open) sheet_cell(s, t, TONE_PLAIN, "%s", words_money(a, m->pay, p->currency));
        sheet_cell(s, t, TONE_PLAIN, "%s", words_money(a, m->p50, p->currency));
        sheet_cell(s, t, TONE_PLAIN, "%s", words_money(a, m->p80, p->currency));
    }
    if (p->purse_open) return;
    say_money_waits(s, p);
    if (p->no_money > 0.05)
        sheet_text(s,
                   "The ceiling stops the work in %s of the runs; more a month does not mend that. "
                   "Raise it, or do less.",
                   words_share(a, p->no_money));
    else if (p->money_binds && p->more_days > 2 * p->more_error)
        sheet_text(s, "Money holds the work up. %s more a month would end it %s sooner.",
                   words_money(a, p->more_money, p->currency), words_days(a, p->more_days));
    else
        sheet_text(s, "Another %s a month would win nothing that we can tell%s.",
                   words_money(a, p->more_money, p->currency),
                   p->hang[HOLD_MONEY] < 0.05 ? ": hands, not money, set the date" : "");
}

/* ---- what the date hangs on ---- */

static void say_hang(struct sheet *s, const struct plan *p)
{
    static const char *const name[HOLD_COUNT] = {[HOLD_NOTHING] = "before the first session",
                                                 [HOLD_BEFORE] = "waiting for the next session",
                                                 [HOLD_WAIT] = "soaking, curing, shop time",
                                                 [HOLD_PARTS] = "deliveries",
                                                 [HOLD_MONEY] = "money",
                                                 [HOLD_HANDS] =
                                                     "work, and the nights between sessions"};
    struct arena *a = s->arena;
    if (p->never > 0.95) return; /* no date to speak of */
    sheet_heading(s, 2, "What the date hangs on");
    if (p->never > 0.05)
        sheet_text(s, "In the %s of the runs that end:", words_share(a, 1 - p->never));
    for (int h = HOLD_COUNT - 1; h >= 0; h--)
        if (p->hang[h] >= 0.005)
            sheet_fact(s, TONE_PLAIN, name[h], "%s of the time", words_share(a, p->hang[h]));
    struct sheet_table *t =
        sheet_table(s, "Jobs on the chain that sets the date, the weightiest first");
    sheet_column(s, t, "job", ALIGN_LEFT, 1);
    sheet_column(s, t, "on the chain", ALIGN_RIGHT, 1);
    sheet_column(s, t, "needed", ALIGN_RIGHT, 2);
    sheet_column(s, t, "hours", ALIGN_RIGHT, 2);
    sheet_column(s, t, "done at 50 %", ALIGN_LEFT, 3);
    uint8_t *shown = ARENA_ARRAY(a, uint8_t, p->n_jobs);
    for (int n = 0; n < JOBS_SHOWN && n < p->n_jobs; n++) {
        int best = -1;
        for (int i = 0; i < p->n_jobs; i++)
            if (!shown[i] && (best < 0 || p->jobs[i].weight > p->jobs[best].weight)) best = i;
        const struct plan_job *j = &p->jobs[best];
        shown[best] = 1;
        if (j->critical < 0.05) break;
        sheet_cell(s, t, TONE_PLAIN, "%s", j->job->head.name);
        sheet_cell(s, t, TONE_PLAIN, "%s", words_share(a, j->critical));
        sheet_cell(s, t, TONE_PLAIN, "%s", words_share(a, j->chance));
        sheet_cell(s, t, TONE_PLAIN, "%s", words_hours(a, j->job->hours.middle));
        sheet_cell(s, t, TONE_FAINT, "%s",
                   words_moment(a, p->first, j->finish == NEVER ? (double)INFINITY : j->finish));
    }
}

static void say_setbacks(struct sheet *s, const struct plan *p)
{
    struct arena *a = s->arena;
    bool headed = false;
    for (int i = 0; i < p->n_setbacks; i++) {
        const struct plan_setback *x = &p->setbacks[i];
        if (x->days <= 2 * x->error) continue;
        if (!headed) sheet_heading(s, 2, "Setbacks that cost the most days");
        headed = true;
        sheet_item(
            s, "%s, at '%s': happens in %s of the runs; costs %s and %s on average over all. %s",
            x->setback->head.name, x->job->head.name, words_share(a, x->chance),
            words_days(a, x->days), words_money(a, x->money, p->currency),
            x->setback->stop ? arena_print(a, "Stop rule: %s.", x->setback->stop) : "");
    }
}

static void say_why(struct sheet *s, const struct plan *p)
{
    struct arena *a = s->arena;
    struct sheet_why *w = sheet_why(
        s, "Why these dates?",
        "each run draws conditions, hours, setbacks, leads and kept sessions, and does the jobs in "
        "order of the longest "
        "tail, looking only at what has finished; the figures are quantiles over the runs",
        MARK_PRACTICE, "odds, hours and prices of the trade data");
    sheet_why_input(s, w, "runs", "%d", p->runs);
    sheet_why_input(s, w, "seed", "%llu", (unsigned long long)p->seed);
    sheet_why_input(s, w, "hours a week as planned", "%.1f", p->calendar.hours_a_week);
    sheet_why_input(s, w, "first day", "%s", words_day(a, p->first));
    sheet_why_input(s, w, "ends, if nothing goes wrong", "%s",
                    p->shown_finish == NEVER ? "not within the calendar"
                                             : words_moment(a, p->first, p->shown_finish));
}

static struct sheet *begin(struct arena *a, const struct plan *p)
{
    struct sheet *s = sheet_new(a, arena_print(a, "%s: %s", p->vehicle, p->direction->head.name));
    show_crossed(s, p->crossed, p->n_crossed, p->currency);
    say_notes(s, p);
    say_totals(s, p);
    return s;
}

struct sheet *show_plan(struct arena *a, const struct plan *p)
{
    struct sheet *s = begin(a, p);
    sheet_link(s, "What if", "plan --what-if");
    chart_fan(s, &(struct fan){"done", p->first, p->fan}, NULL);
    chart_milestones(s, p);
    chart_ahead(s, p);
    table_sessions(s, p);
    say_cautions(s, p);
    table_orders(s, p);
    table_months(s, p);
    say_hang(s, p);
    say_setbacks(s, p);
    say_why(s, p);
    sheet_note(
        s, MARK_PRACTICE,
        "Odds of condition, hours and setbacks are common practice until your own looks and logged "
        "hours take their place",
        "");
    return s;
}

struct sheet *show_first_forecast(struct arena *a, const struct plan *p)
{
    struct sheet *s = begin(a, p);
    sheet_note(
        s, MARK_PRACTICE,
        "A first forecast from a few answers: wide, and honest about it. Every look narrows it",
        "");
    sheet_link(s, "One lap round it", "survey");
    sheet_link(s, "What should become of it", "choose");
    sheet_link(s, "The whole plan", "plan");
    return s;
}
