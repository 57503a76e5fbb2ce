/* /: the yard. Every vehicle at a glance, from the last plan that was reckoned of it: nothing is
 * reckoned here, so that forty vehicles are shown in a moment. */
#include "face/show/show_session.h"
#include "face/show/words.h"
#include "face/web/page_frame.h"
#include "garage/kinds.h"

#include <string.h>

static void write_toned(struct html *h, const char *name, const char *value, enum tone tone)
{
    html_open(h, "div");
    html_leaf(h, "dt", NULL, name);
    html_open(h, "dd");
    render_html_toned(h, value, tone);
    html_close(h, "dd");
    html_close(h, "div");
}

static void write_fact(struct html *h, const char *name, const char *value)
{
    write_toned(h, name, value, TONE_PLAIN);
}

static const char *text_of(const json_t *object, const char *key)
{
    const char *s = json_string_value(json_object_get(object, key));
    return s ? s : "";
}

/* A day within JSON in words, NULL if there is none: null, or nothing. */
static const char *day_of(struct arena *a, const json_t *object, const char *key,
                          const char *words(struct arena *a, day d))
{
    struct fail ignored = {0};
    day d;
    return day_parse(text_of(object, key), &d, &ignored) ? words(a, d) : NULL;
}

static const char *finish_of(struct arena *a, const json_t *plan)
{
    const json_t *finish = json_object_get(plan, "finish");
    const char *half = day_of(a, finish, "p50", words_month),
               *most = day_of(a, finish, "p80", words_month);
    if (!half) return "not within the calendar and the purse";
    return most
               ? arena_print(a, "about %s; with 80 %% by %s", half, most)
               : arena_print(a, "about %s; with 80 %% not within the calendar and the purse", half);
}

/* What held the finish for the largest share of the time. */
static const char *waits_for(const json_t *plan)
{
    static const struct {
        const char *key, *words;
    } holds[] = {
        {"session", "the next session"}, {"wait", "soaking, curing, shop time"},
        {"parts", "deliveries"},         {"money", "money"},
        {"hands", "the work itself"},
    };
    const json_t *hang = json_object_get(plan, "hangs_on");
    const char *most = "nothing";
    double share = 0;
    for (size_t i = 0; i < sizeof holds / sizeof *holds; i++) {
        double s = json_number_value(json_object_get(hang, holds[i].key));
        if (s > share) share = s, most = holds[i].words;
    }
    return most;
}

/* The part to be ordered first, and by when. */
static const char *order_of(struct visit *v, const json_t *plan)
{
    const json_t *order = json_object_get(plan, "order_by");
    const char *part = text_of(order, "part");
    day by;
    const struct trade *t;
    struct fail ignored = {0};
    if (!day_parse(text_of(order, "date"), &by, &ignored)) return NULL;
    int i = visit_trade(v, &t, &ignored) ? trade_find_part(t, part) : -1;
    return arena_print(v->arena, by <= v->today ? "%s, now" : "%s, by %s",
                       i < 0 ? part : words_inside(v->arena, t->parts[i].head.name),
                       words_day(v->arena, by));
}

static const char *milestone_of(struct visit *v, const json_t *plan)
{
    const json_t *next = json_object_get(plan, "milestones");
    const char *by = day_of(v->arena, json_object_get(next, "finish"), "p50", words_month);
    return by ? arena_print(v->arena, "%s, about %s", text_of(next, "milestone"), by) : NULL;
}

/* What was told last of each vehicle, kind by kind. */
enum { ACT_WORK, ACT_FINDING, ACT_ORDER, ACT_DECISION, ACTS };
static const struct {
    const char *kind, *field, *more, *date;
} acts[ACTS] = {[ACT_WORK] = {"work", "job", NULL, "date"},
                [ACT_FINDING] = {"finding", "component", "condition", "date"},
                [ACT_ORDER] = {"order", "part", NULL, "ordered"},
                [ACT_DECISION] = {"decision", "direction", NULL, "date"}};
struct lasts {
    struct record *of[ACTS];
    int count[ACTS];
};

static const struct record *last_of(const struct lasts *l, int act, const char *vehicle)
{
    for (int i = 0; i < l->count[act]; i++)
        if (text_is(record_text(&l->of[act][i], "vehicle", ""), vehicle)) return &l->of[act][i];
    return NULL;
}

/* "finding: damper@rear-left, worn; Sat 7 Nov 2026" */
static const char *left_off(struct arena *a, const struct lasts *l, const char *vehicle)
{
    const struct record *last = NULL;
    int act = 0;
    for (int i = 0; i < ACTS; i++) {
        const struct record *r = last_of(l, i, vehicle);
        if (r && (!last || strcmp(r->at, last->at) > 0)) last = r, act = i;
    }
    if (!last) return "nothing told yet";
    const char *date = record_text(last, acts[act].date, NULL);
    struct fail ignored = {0};
    struct text t = {.arena = a};
    day told;
    text_print(&t, "%s: %s", acts[act].kind, record_text(last, acts[act].field, ""));
    if (acts[act].more) text_print(&t, ", %s", record_text(last, acts[act].more, ""));
    if (day_parse(date ? date : arena_copy_n(a, last->at, strlen("2026-11-25")), &told, &ignored))
        text_print(&t, "; %s", words_day(a, told));
    return text_get(&t);
}

static void write_plan(struct visit *v, const struct answer_brief *brief, bool decided)
{
    struct html *h = &v->html;
    const json_t *plan = brief->json;
    const char *next = milestone_of(v, plan), *order = order_of(v, plan);
    write_fact(h, "direction",
               arena_print(v->arena, "%s%s", text_of(plan, "direction"),
                           decided ? "" : ", not decided yet"));
    if (next) write_fact(h, "next", next);
    write_fact(h, "done", finish_of(v->arena, plan));
    write_fact(h, "waits for", waits_for(plan));
    if (order) write_fact(h, "to order", order);
}

static void write_onward(struct html *h, const char *address, const char *text)
{
    html_open(h, "p");
    html_attr(h, "class", "onward");
    html_open(h, "a");
    html_url(h, "href", address);
    html_text(h, text);
    html_close(h, "a");
    html_close(h, "p");
}

static void begin_card(struct visit *v, const struct record *vehicle, const char *page)
{
    struct html *h = &v->html;
    html_open(h, "li");
    html_attr(h, "class", "card");
    html_open(h, "h2");
    html_open(h, "a");
    html_url(h, "href", page_of_vehicle(v->arena, vehicle, page));
    html_text(h, record_text(vehicle, "name", "?"));
    html_close(h, "a");
    html_close(h, "h2");
    html_open(h, "dl");
}

/* How it was left off, and whether it stalls: of facts alone. */
static bool write_state(struct visit *v, const struct record *vehicle, const struct lasts *lasts,
                        struct fail *f)
{
    struct stall stall;
    struct fact_left_off left;
    const struct trade *t;
    if (!visit_trade(v, &t, f) ||
        !stall_read(v->arena, v->garage, t, vehicle->id, v->today, &stall, &left, f))
        return false;
    write_fact(&v->html, "left off",
               !left.note ? left_off(v->arena, lasts, vehicle->id)
               : left.date == DAY_NONE
                   ? left.note
                   : arena_print(v->arena, "%s; %s", left.note, words_day(v->arena, left.date)));
    for (const char **line = stall_words(v->arena, t, &stall, v->today); *line; line++)
        write_toned(&v->html, "it stalls", *line, TONE_CARE);
    return true;
}

static bool write_card(struct visit *v, const struct record *vehicle, const struct lasts *lasts,
                       struct fail *f)
{
    struct html *h = &v->html;
    struct answer_brief brief;
    const char *plan = page_of_vehicle(v->arena, vehicle, "plan");
    const bool known = visit_brief(v, QUESTION_PLAN, vehicle->id, &brief);
    begin_card(v, vehicle, "plan");
    if (!write_state(v, vehicle, lasts, f)) return false;
    if (known) write_plan(v, &brief, last_of(lasts, ACT_DECISION, vehicle->id) != NULL);
    html_close(h, "dl");
    if (!known) write_onward(h, plan, "Not reckoned yet: reckon it");
    if (known && !brief.current)
        write_onward(h, plan,
                     arena_print(v->arena, "As of %s: reckon it anew",
                                 words_short_day(v->arena, brief.as_of)));
    if (known) json_decref(brief.json);
    html_close(h, "li");
    return true;
}

/* One that might be bought: what its advert says, and what the last answer was. */
static bool write_candidate(struct visit *v, const struct record *vehicle, struct fail *f)
{
    static const char *const shown[] = {"asked", "carriage", "distance", "place", "serves"};
    struct html *h = &v->html;
    struct record *adverts;
    int n;
    if (!garage_list(v->garage, v->arena, &kind_advert, vehicle->id, &adverts, &n, f)) return false;
    begin_card(v, vehicle, "view");
    struct answer_brief brief;
    if (visit_brief(v, QUESTION_VIEW, vehicle->id, &brief)) {
        const json_t *highest = json_object_get(brief.json, "highest");
        double minor = json_number_value(json_object_get(highest, "amount"));
        if (json_array_size(json_object_get(brief.json, "walk_away")) > 0 ||
            json_is_object(json_object_get(brief.json, "walk_away")))
            write_fact(h, "sign", "walk away: see inside");
        if (json_is_object(highest))
            write_fact(h, "pay at most",
                       minor > 0 ? words_money(v->arena, minor, text_of(highest, "currency"))
                                 : "nothing");
        json_decref(brief.json);
    }
    for (size_t i = 0; n > 0 && i < sizeof shown / sizeof *shown; i++) {
        const char *value = record_text(&adverts[n - 1], shown[i], NULL);
        if (value) write_fact(h, text_is(shown[i], "serves") ? "parts for" : shown[i], value);
    }
    if (n == 0) write_fact(h, "asked", "not told");
    html_close(h, "dl");
    html_close(h, "li");
    return true;
}

static bool write_cards(struct visit *v, const struct record *vehicles, int count, enum owned owned,
                        const struct lasts *lasts, struct fail *f)
{
    int n = 0;
    for (int i = 0; i < count; i++) n += vehicle_owned(&vehicles[i]) == owned;
    if (n == 0) return true;
    if (owned == OWNED_NO) html_leaf(&v->html, "h2", NULL, "Not yours yet");
    html_open(&v->html, "ul");
    html_attr(&v->html, "class", "cards");
    for (int i = 0; i < count; i++) {
        if (vehicle_owned(&vehicles[i]) != owned) continue;
        if (!(owned == OWNED_YES ? write_card(v, &vehicles[i], lasts, f)
                                 : write_candidate(v, &vehicles[i], f)))
            return false;
    }
    html_close(&v->html, "ul");
    return true;
}

/* One state of the garage for all of it. */
static bool read_yard(struct visit *v, struct record **vehicles, int *count, struct lasts *lasts,
                      struct fail *f)
{
    if (!visit_garage(v, GARAGE_READ, f) || !garage_begin(v->garage, f) ||
        !garage_list(v->garage, v->arena, record_kind_find("vehicle"), NULL, vehicles, count, f))
        return false;
    for (int i = 0; i < ACTS; i++)
        if (!garage_latest(v->garage, v->arena, record_kind_find(acts[i].kind), &lasts->of[i],
                           &lasts->count[i], f))
            return false;
    return true;
}

bool page_yard(struct visit *v, struct fail *f)
{
    struct record *vehicles;
    int count;
    struct lasts lasts = {0};
    if (!read_yard(v, &vehicles, &count, &lasts, f)) return false;
    struct html *h = page_begin(v, "The yard", NULL, "yard");
    html_leaf(h, "h1", NULL, "The yard");
    if (count == 0) {
        html_leaf(h, "p", NULL, "No vehicle in the garage yet.");
        write_onward(h, "/intake", "Take one in");
        return page_end(v);
    }
    return write_cards(v, vehicles, count, OWNED_YES, &lasts, f) &&
           write_cards(v, vehicles, count, OWNED_NO, &lasts, f) && page_end(v);
}
