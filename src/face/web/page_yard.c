/* /: the yard. Every vehicle at a glance, from its plan. */
#include "face/show/words.h"
#include "face/web/page_frame.h"

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
    html_open(h, "li");
    html_attr(h, "class", "card");
    html_open(h, "h2");
    html_open(h, "a");
    html_url(h, "href", page_of_vehicle(v->arena, vehicle, "plan"));
    html_text(h, record_text(vehicle, "name", "?"));
    html_close(h, "a");
    html_close(h, "h2");
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
    html_open(h, "ul");
    html_attr(h, "class", "cards");
    for (int i = 0; i < count; i++)
        if (!write_card(v, &vehicles[i], f)) return false;
    html_close(h, "ul");
    return page_end(v);
}
