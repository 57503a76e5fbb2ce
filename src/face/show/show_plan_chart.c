#include "face/show/show_plan_chart.h"

#include "face/show/words.h"

#include <math.h>

enum { WAITS_SHOWN = 5, TICKS_MOST = 4 };

static double in_days(day first, double moment)
{
    return first + moment / MINUTES_A_DAY;
}

/* First days of months, so far apart that no more than a few fit; axes of time count in days. */
static void month_ticks(struct sheet *s, struct sheet_chart *c)
{
    static const int steps[] = {1, 2, 3, 6, 12, 24, 48};
    int year, month, dom, step = 0;
    double months = (c->high - c->low) / 30.4;
    while (step + 1 < (int)(sizeof steps / sizeof *steps) && months / steps[step] > TICKS_MOST)
        step++;
    day_to_civil((day)c->low, &year, &month, &dom);
    day tick = day_from_civil(year, 1, 1);
    for (; tick < c->high; tick = day_add_months(tick, steps[step])) {
        double share = (tick - c->low) / (c->high - c->low);
        if (share > 0.02 && share < 0.98) sheet_chart_tick(s, c, tick, words_month(s->arena, tick));
    }
}

/* ---- the weeks to come ---- */

static const char *from_to(struct arena *a, const struct plan *p, const struct plan_span *x)
{
    day from = p->first + x->from / MINUTES_A_DAY, to = p->first + x->to / MINUTES_A_DAY;
    return from == to
               ? words_short_day(a, from)
               : arena_print(a, "%s to %s", words_short_day(a, from), words_short_day(a, to));
}

static int add_lane(struct sheet *s, struct sheet_chart *c, const char *label, const char *text)
{
    sheet_chart_row(s, c, (struct chart_row){.label = label, .text = text});
    return c->n_rows - 1;
}

static void add_span(struct sheet *s, struct sheet_chart *c, const struct plan *p, int row,
                     const struct plan_span *x)
{
    sheet_chart_piece(s, c,
                      (struct chart_piece){(int)x->lane, row, in_days(p->first, x->from),
                                           fmin(in_days(p->first, x->to), c->high)});
}

static const char *sum_hands(struct arena *a, const struct plan *p)
{
    double minutes = 0;
    int evenings = 0;
    day last = DAY_NONE;
    for (int i = 0; i < p->n_spans; i++) {
        if (p->spans[i].lane != LANE_HANDS) continue;
        minutes += p->spans[i].to - p->spans[i].from;
        day on = p->first + p->spans[i].from / MINUTES_A_DAY;
        evenings += on != last;
        last = on;
    }
    return arena_print(a, "%s on %d days", words_hours(a, minutes / 60), evenings);
}

static bool arrives_in_time(const struct sheet_chart *c, const struct plan *p,
                            const struct plan_span *x)
{
    return x->lane == LANE_DELIVERY && in_days(p->first, x->to) <= c->high;
}

static void chart_bay(struct sheet *s, struct sheet_chart *c, const struct plan *p)
{
    for (int i = 0; i < p->n_spans; i++)
        if (p->spans[i].lane == LANE_BAY) {
            const struct plan_span *x = &p->spans[i];
            const char *text =
                in_days(p->first, x->to) > c->high
                    ? arena_print(s->arena, "taken from %s on",
                                  words_short_day(s->arena, p->first + x->from / MINUTES_A_DAY))
                    : from_to(s->arena, p, x);
            add_span(s, c, p, add_lane(s, c, "Bay", text), x);
        }
}

/* The first few have a row each, for nothing else can be done about them; the others share one. */
static void chart_waits(struct sheet *s, struct sheet_chart *c, const struct plan *p)
{
    int n = 0, at = 0, row = -1;
    for (int i = 0; i < p->n_spans; i++) n += p->spans[i].lane == LANE_WAIT;
    for (int i = 0; i < p->n_spans; i++) {
        const struct plan_span *x = &p->spans[i];
        if (x->lane != LANE_WAIT) continue;
        if (at++ < WAITS_SHOWN || n == WAITS_SHOWN + 1)
            row = add_lane(s, c, arena_print(s->arena, "Wait: %s", x->job->head.name),
                           from_to(s->arena, p, x));
        else if (at == WAITS_SHOWN + 1)
            row = add_lane(s, c, "Waits, others",
                           arena_print(s->arena, "%d of them", n - WAITS_SHOWN));
        add_span(s, c, p, row, x);
    }
}

/* One lane in the drawing, one by one in the table. */
static void chart_deliveries(struct sheet *s, struct sheet_chart *c, const struct plan *p)
{
    int n = 0;
    for (int i = 0; i < p->n_spans; i++) n += arrives_in_time(c, p, &p->spans[i]);
    if (n == 0) return;
    int lane = add_lane(s, c, "Deliveries", arena_print(s->arena, "%d arrive", n));
    for (int i = 0; i < p->n_spans; i++)
        if (arrives_in_time(c, p, &p->spans[i])) add_span(s, c, p, lane, &p->spans[i]);
    for (int i = 0; i < p->n_spans; i++) {
        const struct plan_span *x = &p->spans[i];
        if (!arrives_in_time(c, p, x)) continue;
        const char *what = arena_print(s->arena, "Delivery for: %s", x->job->head.name);
        sheet_chart_row(
            s, c,
            (struct chart_row){.label = what, .text = from_to(s->arena, p, x), .how = ROW_TABLE});
    }
}

void chart_ahead(struct sheet *s, const struct plan *p)
{
    struct arena *a = s->arena;
    if (p->n_spans == 0) return;
    day last = p->first + PLAN_AHEAD * 7;
    struct sheet_chart *c = sheet_chart(
        s, CHART_SPANS, arena_print(a, "The next %d weeks, if nothing goes wrong", PLAN_AHEAD), "",
        p->first, words_day(a, p->first), last, words_day(a, last));
    sheet_chart_series(s, c, "work by hands"); /* in the order of enum plan_lane */
    sheet_chart_series(s, c, "bay taken");
    sheet_chart_series(s, c, "wait: soak, cure, shop");
    sheet_chart_series(s, c, "ordered, then here");
    month_ticks(s, c);
    int hands = add_lane(s, c, "Hands", sum_hands(a, p));
    for (int i = 0; i < p->n_spans; i++)
        if (p->spans[i].lane == LANE_HANDS) add_span(s, c, p, hands, &p->spans[i]);
    chart_bay(s, c, p);
    chart_waits(s, c, p);
    chart_deliveries(s, c, p);
}

/* ---- dates ---- */

void chart_milestones(struct sheet *s, const struct plan *p)
{
    struct arena *a = s->arena;
    double high = 0;
    for (int i = 0; i < p->n_milestones; i++) {
        const struct quantiles *q = &p->milestones[i].finish;
        if (!isinf(q->p50)) high = fmax(high, isinf(q->p90) ? q->p50 : q->p90);
    }
    if (!isinf(p->finish.p90)) high = fmax(high, p->finish.p90);
    if (high <= 0 || p->n_milestones == 0) return;
    struct sheet_chart *c =
        sheet_chart(s, CHART_RANGES, "Milestones: 10 %, 50 % and 90 %", "date", 0,
                    words_day(a, p->first), high, words_moment(a, p->first, high));
    for (int i = 0; i < p->n_milestones; i++) {
        const struct quantiles *q = &p->milestones[i].finish;
        if (isinf(q->p50)) continue;
        sheet_chart_row(s, c,
                        (struct chart_row){.label = p->milestones[i].job->milestone,
                                           .text = words_moment(a, p->first, q->p50),
                                           .low = q->p10,
                                           .middle = q->p50,
                                           .high = isinf(q->p90) ? high : q->p90});
    }
}

/* The date by which so many per cent of the runs are done, in days; +infinity: never. */
static double fan_at(const struct fan *fan, int per_cent)
{
    return in_days(fan->first, fan->at[per_cent * (PLAN_FAN - 1) / 100]);
}

static void add_curve(struct sheet *s, struct sheet_chart *c, const struct fan *fan)
{
    int series = sheet_chart_series(s, c, fan->name);
    for (int i = 0; i < PLAN_FAN && !isinf(fan->at[i]); i++)
        sheet_chart_piece(s, c,
                          (struct chart_piece){series, 0, in_days(fan->first, fan->at[i]),
                                               100.0 * i / (PLAN_FAN - 1)});
}

void chart_fan(struct sheet *s, const struct fan *fan, const struct fan *other)
{
    static const int marks[] = {10, 50, 80, 90};
    double low = INFINITY, high = -INFINITY;
    struct arena *a = s->arena;
    for (const struct fan *x = fan; x; x = x == fan ? other : NULL)
        for (int i = 0; i < PLAN_FAN && !isinf(x->at[i]); i++) {
            low = fmin(low, in_days(x->first, x->at[i]));
            /* The last few per cent would take half of the width. */
            if (i <= 0.975 * (PLAN_FAN - 1)) high = fmax(high, in_days(x->first, x->at[i]));
        }
    if (!(low < high)) return;
    low = floor(low), high = ceil(high);
    struct sheet_chart *c = sheet_chart(s, CHART_CURVES, "Done by when: share of the runs", "date",
                                        low, words_day(a, (day)low), high, words_day(a, (day)high));
    sheet_chart_rise(s, c, 100, "100 % of the runs");
    add_curve(s, c, fan);
    if (other) add_curve(s, c, other);
    month_ticks(s, c);
    for (size_t i = 0; i < sizeof marks / sizeof *marks; i++) {
        double at = fan_at(fan, marks[i]);
        if (isinf(at))
            sheet_chart_row(s, c,
                            (struct chart_row){.label = arena_print(a, "%d %%", marks[i]),
                                               .text = "never",
                                               .how = ROW_TABLE});
        else
            sheet_chart_row(s, c,
                            (struct chart_row){.label = arena_print(a, "%d %%", marks[i]),
                                               .text = words_date(a, (day)at),
                                               .low = at,
                                               .middle = marks[i]});
    }
}

/* ---- money ---- */

void chart_money(struct sheet *s, const struct plan *p)
{
    struct arena *a = s->arena;
    if (p->n_months < 2) return;
    const struct plan_month *end = &p->months[p->n_months - 1];
    bool limited = !p->purse_open && p->ceiling < 1e15;
    double high = fmax(end->so_far_p80, limited ? p->ceiling : 0), rise = high * 1.06;
    if (rise <= 0) return;
    day low = p->months[0].first, last = day_add_months(end->first, 1);
    struct sheet_chart *c =
        sheet_chart(s, CHART_CURVES, "Money so far, at the end of each month", p->currency, low,
                    words_day(a, low), last, words_day(a, last));
    sheet_chart_rise(s, c, rise, words_money(a, rise, p->currency));
    int p50 = sheet_chart_series(s, c, "ordered, at 50 %");
    int p80 = sheet_chart_series(s, c, "ordered, at 80 %");
    int purse = p->purse_open ? -1 : sheet_chart_series(s, c, "the purse has brought");
    month_ticks(s, c);
    sheet_chart_piece(s, c, (struct chart_piece){p50, 0, low, 0});
    sheet_chart_piece(s, c, (struct chart_piece){p80, 0, low, 0});
    for (int i = 0; i < p->n_months; i++) {
        const struct plan_month *m = &p->months[i];
        double from = m->first, to = day_add_months(m->first, 1);
        sheet_chart_piece(s, c, (struct chart_piece){p50, 0, to, m->so_far_p50});
        sheet_chart_piece(s, c, (struct chart_piece){p80, 0, to, m->so_far_p80});
        if (purse >= 0) { /* a payday is a step */
            sheet_chart_piece(s, c, (struct chart_piece){purse, 0, from, m->brought});
            sheet_chart_piece(s, c, (struct chart_piece){purse, 0, to, m->brought});
        }
        const char *brought =
            purse >= 0 ? arena_print(a, "; brought %s", words_money(a, m->brought, p->currency))
                       : "";
        sheet_chart_row(s, c,
                        (struct chart_row){.label = words_month(a, m->first),
                                           .text = arena_print(
                                               a, "ordered %s at 50 %%, %s at 80 %%%s",
                                               words_money(a, m->so_far_p50, p->currency),
                                               words_money(a, m->so_far_p80, p->currency), brought),
                                           .how = ROW_TABLE});
    }
    if (limited)
        sheet_chart_limit(s, c, p->ceiling,
                          arena_print(a, "ceiling %s", words_money(a, p->ceiling, p->currency)));
}
