/* /: the yard. Every vehicle at a glance, from its plan. */
#include "face/show/words.h"
#include "face/web/page_frame.h"
#include "garage/kinds.h"

static void write_fact(struct html *h, const char *name, const char *value)
{
    html_open(h, "div");
    html_leaf(h, "dt", NULL, name);
    html_leaf(h, "dd", NULL, value);
    html_close(h, "div");
}

static const char *day_of(struct arena *a, const json_t *moments, const char *quantile)
{
    const char *s = json_string_value(json_object_get(moments, quantile));
    struct fail ignored = {0};
    day d;
    return s && day_parse(s, &d, &ignored) ? words_day(a, d)
                                           : "not within the calendar and the purse";
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
}

static bool write_card(struct visit *v, const struct record *vehicle, struct fail *f)
{
    struct html *h = &v->html;
    struct told plan = {0};
    struct record *decisions;
    struct fail why = {0};
    int decided;
    if (!garage_list(v->garage, v->arena, record_kind_find("decision"), vehicle->id, &decisions,
                     &decided, f))
        return false;
    begin_card(v, vehicle, "plan");
    if (visit_ask(v, QUESTION_PLAN, vehicle->id, &plan, &why)) {
        const json_t *finish = json_object_get(plan.json, "finish");
        const char *direction = json_string_value(json_object_get(plan.json, "direction"));
        html_open(h, "dl");
        write_fact(h, "direction",
                   arena_print(v->arena, "%s%s", direction, decided ? "" : ", not decided yet"));
        write_fact(h, "done, as often before as after", day_of(v->arena, finish, "p50"));
        write_fact(h, "done with 80 %", day_of(v->arena, finish, "p80"));
        write_fact(h, "waits longest for", waits_for(plan.json));
        html_close(h, "dl");
        json_decref(plan.json);
    } else {
        html_leaf(h, "p", "wrong",
                  why.text); /* one vehicle that cannot be reckoned hides no other */
    }
    html_close(h, "li");
    return true;
}

/* One that might be bought: what its advert says, nothing reckoned. */
static bool write_candidate(struct visit *v, const struct record *vehicle, struct fail *f)
{
    static const char *const shown[] = {"asked", "carriage", "distance", "place", "serves"};
    struct html *h = &v->html;
    struct record *adverts;
    int n;
    if (!garage_list(v->garage, v->arena, &kind_advert, vehicle->id, &adverts, &n, f)) return false;
    begin_card(v, vehicle, "choose");
    html_open(h, "dl");
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
                        struct fail *f)
{
    int n = 0;
    for (int i = 0; i < count; i++) n += vehicle_owned(&vehicles[i]) == owned;
    if (n == 0) return true;
    if (owned == OWNED_NO) html_leaf(&v->html, "h2", NULL, "Not yours yet");
    html_open(&v->html, "ul");
    html_attr(&v->html, "class", "cards");
    for (int i = 0; i < count; i++)
        if (vehicle_owned(&vehicles[i]) == owned &&
            !(owned == OWNED_NO ? write_candidate : write_card)(v, &vehicles[i], f))
            return false;
    html_close(&v->html, "ul");
    return true;
}

bool page_yard(struct visit *v, struct fail *f)
{
    struct record *vehicles;
    int count;
    if (!visit_garage(v, GARAGE_READ, f) ||
        !garage_list(v->garage, v->arena, record_kind_find("vehicle"), NULL, &vehicles, &count, f))
        return false;
    struct html *h = page_begin(v, "The yard", NULL, "yard");
    html_leaf(h, "h1", NULL, "The yard");
    if (count == 0) {
        html_leaf(h, "p", NULL, "No vehicle in the garage yet.");
        html_open(h, "p");
        html_attr(h, "class", "onward");
        html_open(h, "a");
        html_url(h, "href", "/intake");
        html_text(h, "Take one in");
        html_close(h, "a");
        html_close(h, "p");
        return page_end(v);
    }
    return write_cards(v, vehicles, count, OWNED_YES, f) &&
           write_cards(v, vehicles, count, OWNED_NO, f) && page_end(v);
}
