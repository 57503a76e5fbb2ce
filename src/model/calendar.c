#include "model/calendar.h"

#include <math.h>
#include <stdlib.h>

/* How hours a week become times of the week when no slots were told (practice): an evening is three
 * hours, the weekend comes before the working days. */
static const struct week_slot usual[] = {
    {5, 9 * 60, 13 * 60, 0},  {1, 19 * 60, 22 * 60, 0}, {3, 19 * 60, 22 * 60, 0},
    {5, 13 * 60, 17 * 60, 0}, {6, 10 * 60, 16 * 60, 0}, {0, 19 * 60, 22 * 60, 0},
    {2, 19 * 60, 22 * 60, 0}, {4, 19 * 60, 22 * 60, 0}, {0, 8 * 60, 17 * 60, 0},
    {1, 8 * 60, 17 * 60, 0},  {2, 8 * 60, 17 * 60, 0},  {3, 8 * 60, 17 * 60, 0},
    {4, 8 * 60, 17 * 60, 0},
};
enum { SESSION_LEAST = 15, USUAL = sizeof usual / sizeof usual[0] };

const struct week_slot *calendar_usual(int *count)
{
    *count = USUAL;
    return usual;
}

static int by_time(const void *a, const void *b)
{
    const struct week_slot *x = a, *y = b;
    if (x->weekday != y->weekday) return x->weekday - y->weekday;
    return x->from != y->from ? x->from - y->from : x->to - y->to;
}

/* Sorts, and joins slots that touch or overlap; the larger number of hands wins. */
static int join_slots(struct week_slot *week, int n)
{
    qsort(week, (size_t)n, sizeof *week, by_time);
    int kept = 0;
    for (int i = 0; i < n; i++) {
        struct week_slot *last = kept > 0 ? &week[kept - 1] : NULL;
        if (last && last->weekday == week[i].weekday && week[i].from <= last->to) {
            if (week[i].to > last->to) last->to = week[i].to;
            if (week[i].hands > last->hands) last->hands = week[i].hands;
        } else {
            week[kept++] = week[i];
        }
    }
    return kept;
}

static void make_week(struct arena *a, const struct facts *facts, const struct calendar_ask *ask,
                      struct calendar *out)
{
    int hands = facts->hands > 0 ? facts->hands : 1;
    if (facts->n_slots > 0) {
        out->week = ARENA_ARRAY(a, struct week_slot, facts->n_slots);
        for (int i = 0; i < facts->n_slots; i++) {
            const struct fact_slot *s = &facts->slots[i];
            out->week[out->n_week++] =
                (struct week_slot){s->weekday, s->from, s->to, s->hands > 0 ? s->hands : hands};
        }
    } else {
        out->week_assumed = true;
        out->hours_assumed = facts->hours_a_week < 0;
        double left = 60 * (out->hours_assumed ? ask->hours_if_unknown : facts->hours_a_week);
        out->week = ARENA_ARRAY(a, struct week_slot, USUAL);
        for (int i = 0; i < USUAL && left >= SESSION_LEAST; i++) {
            struct week_slot s = usual[i];
            /* Times are told to five minutes. */
            if (s.to - s.from > left) s.to = s.from + (int)(ceil(left / 5) * 5);
            left -= s.to - s.from;
            s.hands = hands;
            out->week[out->n_week++] = s;
        }
    }
    out->n_week = join_slots(out->week, out->n_week);
    for (int i = 0; i < out->n_week; i++)
        out->hours_a_week += (out->week[i].to - out->week[i].from) / 60.0;
}

static bool is_away(const struct facts *facts, day d)
{
    for (int i = 0; i < facts->n_aways; i++)
        if (d >= facts->aways[i].from && d <= facts->aways[i].to) return true;
    return false;
}

static double degrees_on(const struct facts *facts, const struct calendar_ask *ask, day d)
{
    int year, month, dom;
    day_to_civil(d, &year, &month, &dom);
    double t = ask->temperature[month - 1];
    return facts->heated == TRI_YES ? fmax(t, ask->heated_least) : t;
}

struct making {
    struct arena *a;
    const struct facts *facts;
    const struct calendar_ask *ask;
    struct calendar *out;
    size_t capacity;
    day told_until; /* the last helper day that was told; after it one a month is assumed */
};

static void add_session(struct making *m, day d, int from, int to, int hands)
{
    int usable_from = from + (int)m->ask->set_up, usable_to = to - (int)m->ask->clear_up;
    /* A short session keeps a quarter of an hour: the setting up is then skimped. */
    if (usable_to - usable_from < SESSION_LEAST)
        usable_from = from, usable_to = from + SESSION_LEAST;
    struct calendar *out = m->out;
    int32_t start = (d - m->ask->first) * MINUTES_A_DAY + usable_from;
    int32_t end = (d - m->ask->first) * MINUTES_A_DAY + usable_to;
    if (out->n_sessions > 0 && start < out->sessions[out->n_sessions - 1].end) return;
    out->sessions = arena_grow(m->a, out->sessions, (size_t)out->n_sessions, &m->capacity,
                               sizeof *out->sessions);
    out->sessions[out->n_sessions++] =
        (struct project_session){start, end, hands, true, degrees_on(m->facts, m->ask, d)};
}

/* The sessions of one day: its slots, and its helper days as hours of their own or as more hands.
 */
static void add_day(struct making *m, day d, int longest, bool *helped)
{
    const struct facts *facts = m->facts;
    struct week_slot today[32];
    int n = 0, year, month, dom;
    if (is_away(facts, d)) return;
    day_to_civil(d, &year, &month, &dom);
    if (dom == 1) *helped = false;
    for (int i = 0; i < m->out->n_week && n < 24; i++) {
        struct week_slot s = m->out->week[i];
        if (s.weekday != day_of_week(d)) continue;
        if (m->out->helper_assumed && d > m->told_until && !*helped && s.to - s.from == longest) {
            s.hands++;
            *helped = true;
        }
        today[n++] = s;
    }
    for (int i = 0; i < facts->n_helpers && n < 31; i++) {
        const struct fact_helper *h = &facts->helpers[i];
        if (h->date != d) continue;
        int usual_hands = facts->hands > 0 ? facts->hands : 1;
        today[n++] = (struct week_slot){day_of_week(d), h->from, h->to, usual_hands + h->hands};
    }
    n = join_slots(today, n);
    for (int i = 0; i < n; i++) add_session(m, d, today[i].from, today[i].to, today[i].hands);
}

bool calendar_make(struct arena *a, const struct facts *facts, const struct calendar_ask *ask,
                   struct calendar *out, struct fail *f)
{
    *out = (struct calendar){0};
    make_week(a, facts, ask, out);
    out->helper_assumed = facts->hands <= 1;
    for (int i = 0; i < out->n_week; i++)
        if (out->week[i].hands > 1) out->helper_assumed = false;
    int longest = 0;
    for (int i = 0; i < out->n_week; i++)
        if (out->week[i].to - out->week[i].from > longest)
            longest = out->week[i].to - out->week[i].from;
    struct making m = {a, facts, ask, out, 0, ask->first - 1};
    for (int i = 0; i < facts->n_helpers; i++)
        if (facts->helpers[i].date > m.told_until) m.told_until = facts->helpers[i].date;
    bool helped = false;
    for (day d = ask->first; d < ask->first + ask->days; d++) add_day(&m, d, longest, &helped);
    if (out->n_sessions == 0)
        return fail_set(f, FAIL_INPUT,
                        "calendar: no session is left in the next %d years; add a time of the week "
                        "with: fettle add slot "
                        "weekday=sat from=09:00 to=13:00",
                        ask->days / 365);
    return true;
}
