#include "shop/feed.h"

#include "garage/kinds.h"
#include "model/facts_safe.h"

#include <string.h>

void feed_add(struct arena *a, struct feed *feed, struct feed_event e)
{
    feed->events =
        arena_grow(a, feed->events, (size_t)feed->n, &feed->capacity, sizeof *feed->events);
    feed->events[feed->n++] = e;
}

/* A whole day that is not past; what is past is told elsewhere. */
static void add_day(struct arena *a, const struct shop_ask *ask, struct feed *feed, day d,
                    const char *uid, const char *summary, const char *text)
{
    if (d == DAY_NONE || d < ask->today) return;
    feed_add(a, feed, (struct feed_event){uid, summary, text, d, -1, -1});
}

static void add_orders(struct arena *a, const struct shop_ask *ask, const struct facts *facts,
                       struct feed *feed)
{
    for (int i = 0; i < facts->n_orders; i++) {
        const struct fact_order *o = &facts->orders[i];
        const char *of = arena_print(a, "%s, for %s", o->name, facts->name),
                   *from = o->supplier_name;
        if (order_is_coming(o))
            add_day(a, ask, feed, o->due, arena_print(a, "delivery-%s", o->id),
                    arena_print(a, "Delivery: %s", of),
                    from ? arena_print(a, "from %s", from) : NULL);
        if (!order_is_here(o)) continue;
        add_day(a, ask, feed, o->return_by, arena_print(a, "return-%s", o->id),
                arena_print(a, "Last day to send back: %s", of),
                "Hold it against the old part before then.");
        add_day(a, ask, feed, o->warranty, arena_print(a, "warranty-%s", o->id),
                arena_print(a, "Warranty ends: %s", of), NULL);
    }
    for (int i = 0; i < facts->buy.n_sent; i++) {
        const struct fact_sent *s = &facts->buy.sent[i];
        if (s->returned != DAY_NONE) continue;
        add_day(a, ask, feed, s->promised, arena_print(a, "back-%s", s->id),
                arena_print(a, "Promised back: %s, of %s", s->what, facts->name), NULL);
        add_day(a, ask, feed, s->chase, arena_print(a, "chase-%s", s->id),
                arena_print(a, "Ask how it stands: %s, of %s", s->what, facts->name), NULL);
    }
}

static bool add_retests(struct arena *a, const struct shop_ask *ask, const char *vehicle,
                        const char *name, struct feed *feed, struct fail *f)
{
    struct record *r;
    int n;
    if (!garage_list(ask->garage, a, &kind_measurement, vehicle, &r, &n, f)) return false;
    for (int i = 0; i < n; i++) {
        const struct value *retest = record_get(&r[i], "retest");
        if (retest->set)
            add_day(
                a, ask, feed, retest->day, arena_print(a, "retest-%s", r[i].id),
                arena_print(a, "Measure again: %s, of %s", record_text(&r[i], "what", ""), name),
                "Accepted only until then.");
    }
    return true;
}

/* The week is the garage's: any vehicle's facts have it. */
static bool add_sessions(struct arena *a, const struct shop_ask *ask, const struct facts *facts,
                         struct feed *feed, struct fail *f)
{
    struct figures g;
    struct calendar c;
    struct fail none = {0};
    if (!figures_read(ask->trade, &g, f)) return false;
    const day first =
        facts->start != DAY_NONE && facts->start > ask->today ? facts->start : ask->today;
    struct calendar_ask how = {.first = first,
                               .days = FEED_SESSION_DAYS,
                               .set_up = g.set_up,
                               .clear_up = g.clear_up,
                               .heated_least = g.heated_least,
                               .hours_if_unknown = g.hours_if_unknown};
    memcpy(how.temperature, g.temperature, sizeof how.temperature);
    if (!calendar_make(a, facts, &how, &c, &none)) return true; /* away all the time */
    for (int i = 0; i < c.n_sessions; i++) {
        const struct project_session *s = &c.sessions[i];
        const day d = first + s->start / MINUTES_A_DAY;
        struct text date = {.arena = a};
        day_print(&date, d);
        const int from = s->start % MINUTES_A_DAY;
        feed_add(
            a, feed,
            (struct feed_event){
                .uid = arena_print(a, "session-%s-%04d", text_get(&date), from),
                .summary =
                    s->hands > 1 ? arena_print(a, "Garage, %d pairs of hands", s->hands) : "Garage",
                .text = "Hands-on time; setting up before it and clearing up after it come on top.",
                .date = d,
                .from = from,
                .to = from + (int)(s->end - s->start)});
    }
    return true;
}

bool feed_read(struct arena *a, const struct shop_ask *ask, struct feed *out, struct fail *f)
{
    const char **ids;
    int n;
    *out = (struct feed){0};
    if (!reckoning_ranked(a, ask->garage, NULL, &ids, &n, f)) return false;
    for (int i = 0; i < n; i++) {
        struct facts facts;
        if (!facts_read(ask->garage, a, ask->trade, ids[i], &facts, f) ||
            (i == 0 && !add_sessions(a, ask, &facts, out, f)))
            return false;
        add_orders(a, ask, &facts, out);
        if (!add_retests(a, ask, ids[i], facts.name, out, f)) return false;
    }
    return true;
}
