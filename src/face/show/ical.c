#include "face/show/ical.h"

#include "face/show/words.h"
#include "garage/kinds.h"

#include <string.h>

enum { LINE_OCTETS = 75 };

/* ---- order by ---- */

static void add_parts(struct arena *a, const struct shop_ask *ask, const struct record *vehicle,
                      const json_t *plan, struct feed *feed)
{
    const char *name = record_text(vehicle, "name", "?");
    const json_t *orders = json_object_get(plan, "order_by");
    for (size_t i = 0; i < json_array_size(orders); i++) {
        const json_t *o = json_array_get(orders, i);
        const char *id = json_string_value(json_object_get(o, "part")),
                   *date = json_string_value(json_object_get(o, "date"));
        struct fail no = {0};
        day d;
        if (!id || !date || !day_parse(date, &d, &no) || d < ask->today) continue;
        const int part = trade_find_part(ask->trade, id);
        feed_add(
            a, feed,
            (struct feed_event){
                .uid = arena_print(a, "order-by-%s-%s", vehicle->id, id),
                .summary = arena_print(a, "Order by today: %s, for %s",
                                       part < 0 ? id : ask->trade->parts[part].head.name, name),
                .text =
                    arena_print(a, "As the last plan has it; wanted in %s of its runs.",
                                words_share(a, json_number_value(json_object_get(o, "chance")))),
                .date = d,
                .from = -1,
                .to = -1});
    }
}

bool ical_add_order_by(struct arena *a, const struct shop_ask *ask, struct answer_trade trade,
                       struct feed *feed, const char **without, struct fail *f)
{
    struct record *vehicles;
    struct text names = {.arena = a};
    int n;
    if (!garage_list(ask->garage, a, record_kind_find("vehicle"), NULL, &vehicles, &n, f))
        return false;
    for (int i = 0; i < n; i++) {
        struct shop_ask of = *ask;
        struct told plan = {0};
        bool current = false;
        if (vehicle_owned(&vehicles[i]) != OWNED_YES) continue;
        of.vehicle = vehicles[i].id;
        const bool kept = answer_kept(a, QUESTION_PLAN, &of, NULL, trade, &plan, &current);
        if (kept) add_parts(a, ask, &vehicles[i], plan.json, feed);
        if (kept) json_decref(plan.json);
        if (!kept || !current)
            text_print(&names, "%s%s", names.length ? ", " : "",
                       record_text(&vehicles[i], "name", "?"));
    }
    *without = names.length ? text_get(&names) : NULL;
    return true;
}

/* ---- the stream ---- */

/* Folded before the character that would go past 75 octets; the blank of a folded line counts. */
static void write_line(struct text *out, const char *line)
{
    size_t used = 0;
    for (const char *s = line; *s;) {
        size_t n = 1;
        while (((unsigned char)s[n] & 0xC0) == 0x80) n++;
        if (used + n > LINE_OCTETS) {
            text_add(out, "\r\n ");
            used = 1;
        }
        text_print(out, "%.*s", (int)n, s);
        used += n;
        s += n;
    }
    text_add(out, "\r\n");
}

/* Commas, semicolons and backslashes get one before them, a line's end becomes \n; other control
 * characters have no place there. */
static const char *escaped(struct arena *a, const char *s)
{
    struct text t = {.arena = a};
    for (; *s; s++) {
        if (*s == '\n')
            text_add(&t, "\\n");
        else if ((unsigned char)*s < 0x20 || *s == 0x7F)
            continue;
        else
            text_print(&t, "%s%c", strchr(",;\\", *s) ? "\\" : "", *s);
    }
    return text_get(&t);
}

static const char *date_of(struct arena *a, day d)
{
    int year, month, dom;
    day_to_civil(d, &year, &month, &dom);
    return arena_print(a, "%04d%02d%02d", year, month, dom);
}

static const char *moment_of(struct arena *a, day d, int minute)
{
    const day on = d + minute / MINUTES_A_DAY;
    minute %= MINUTES_A_DAY;
    return arena_print(a, "%sT%02d%02d00", date_of(a, on), minute / 60, minute % 60);
}

static void write_event(struct arena *a, struct text *out, const struct feed_event *e, day as_of)
{
    write_line(out, "BEGIN:VEVENT");
    write_line(out, arena_print(a, "UID:%s@fettle", escaped(a, e->uid)));
    write_line(out, arena_print(a, "DTSTAMP:%sT000000Z", date_of(a, as_of)));
    if (e->from < 0) {
        write_line(out, arena_print(a, "DTSTART;VALUE=DATE:%s", date_of(a, e->date)));
        write_line(out, arena_print(a, "DTEND;VALUE=DATE:%s", date_of(a, e->date + 1)));
        write_line(out, "TRANSP:TRANSPARENT"); /* it takes no time of the day */
    } else {
        write_line(out, arena_print(a, "DTSTART:%s", moment_of(a, e->date, e->from)));
        write_line(out, arena_print(a, "DTEND:%s", moment_of(a, e->date, e->to)));
    }
    write_line(out, arena_print(a, "SUMMARY:%s", escaped(a, e->summary)));
    if (e->text) write_line(out, arena_print(a, "DESCRIPTION:%s", escaped(a, e->text)));
    write_line(out, "END:VEVENT");
}

/* A calendar has at least one component: with nothing to tell it says so on its own day. */
const char *ical_write(struct arena *a, const struct feed *feed, day as_of)
{
    struct text out = {.arena = a};
    const struct feed_event none = {"nothing", "Fettle: nothing is due", NULL, as_of, -1, -1};
    write_line(&out, "BEGIN:VCALENDAR");
    write_line(&out, "VERSION:2.0");
    write_line(&out, "PRODID:-//Fettle//Fettle//EN");
    write_line(&out, "CALSCALE:GREGORIAN");
    for (int i = 0; i < feed->n; i++) write_event(a, &out, &feed->events[i], as_of);
    if (feed->n == 0) write_event(a, &out, &none, as_of);
    write_line(&out, "END:VCALENDAR");
    return text_get(&out);
}

json_t *ical_json(const struct feed *feed, const char *without)
{
    struct arena a = arena_open(1 << 16);
    json_t *events = json_array();
    for (int i = 0; i < feed->n; i++) {
        const struct feed_event *e = &feed->events[i];
        struct arena here = a;
        struct text date = {.arena = &here};
        day_print(&date, e->date);
        json_t *o = json_pack("{s:s, s:s, s:s, s:s?}", "uid", e->uid, "summary", e->summary, "date",
                              text_get(&date), "text", e->text);
        if (e->from >= 0) {
            json_object_set_new(o, "from", json_string(words_clock(&here, e->from)));
            json_object_set_new(o, "to", json_string(words_clock(&here, e->to)));
        }
        json_array_append_new(events, o);
    }
    arena_close(&a);
    return json_pack("{s:o, s:s?}", "events", events, "without_plan", without);
}
