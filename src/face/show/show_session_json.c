#include "face/show/show_session.h"
#include "face/show/words.h"

static json_t *day_json(struct arena *a, day d)
{
    if (d == DAY_NONE) return json_null();
    struct text t = {.arena = a};
    day_print(&t, d);
    return json_string(text_get(&t));
}

static json_t *job_json(const struct session *x, const struct session_job *j)
{
    static const char *const roles[] = {"must-finish", "if-time", "ready"};
    json_t *o =
        json_pack("{s:s, s:s, s:s, s:f, s:f, s:f, s:b, s:b, s:b, s:b, s:f}", "job", j->job->head.id,
                  "name", j->job->head.name, "role", roles[j->role], "minutes",
                  words_round(j->middle, 0), "high", words_round(j->high, 0), "begin_with",
                  words_round(j->room, 0), "finishes", j->finishes, "begun", j->begun, "closes",
                  j->closes, "opens", j->opens, "critical", words_round(j->critical, 2));
    json_t *tools = json_array(), *parts = json_array(), *steps = json_array(),
           *cautions = json_array();
    static const char *const have[] = {"not told", "owned", "borrowed", "missing"};
    for (int i = 0; i < j->job->n_tools; i++)
        json_array_append_new(
            tools,
            json_pack("{s:s, s:s}", "tool", j->job->tools[i], "have",
                      have[tool_on(&x->told, tool_called(x->trade, j->job->tools[i]), x->as_of)]));
    for (int i = 0; i < j->job->n_parts; i++)
        json_array_append_new(parts, json_pack("{s:s, s:f, s:s?}", "part",
                                               x->trade->parts[j->job->parts[i].part].head.id,
                                               "count", j->job->parts[i].count, "shelf",
                                               x->told.shelf[j->job->parts[i].part]));
    for (int i = 0; i < j->job->n_steps; i++)
        json_array_append_new(steps, json_string(j->job->steps[i]));
    for (int i = 0; i < j->job->n_cautions; i++)
        json_array_append_new(cautions,
                              json_string(x->trade->cautions[j->job->cautions[i]].head.id));
    json_t *bags = json_array();
    for (int i = 0; i < x->bags.count; i++)
        if (session_wants_bag(x->trade, j->job, &x->bags.all[i]))
            json_array_append_new(bags, json_string(x->bags.all[i].code));
    json_object_set_new(o, "bags", bags);
    json_object_set_new(o, "tools", tools);
    json_object_set_new(o, "parts", parts);
    json_object_set_new(o, "steps", steps);
    json_object_set_new(o, "cautions", cautions);
    json_object_set_new(o, "accept", j->job->accept ? json_string(j->job->accept) : json_null());
    return o;
}

static json_t *short_json(const struct session *x)
{
    if (x->short_job)
        return json_pack("{s:s, s:s}", "kind", "job", "id", x->short_job->job->head.id);
    if (x->short_care) return json_pack("{s:s, s:s}", "kind", "care", "id", x->short_care->head.id);
    if (x->short_order)
        return json_pack("{s:s, s:s}", "kind", "order", "id", x->short_order->part->head.id);
    if (x->short_look >= 0)
        return json_pack("{s:s, s:s}", "kind", "look", "id",
                         x->trade->components[x->short_look].head.id);
    return json_null();
}

json_t *show_session_json(struct arena *a, const struct session *x)
{
    const struct fact_left_off *l = &x->told.left_off;
    json_t *jobs = json_array(), *blocked = json_array(), *care = json_array(),
           *stall = json_array(), *ask = json_array();
    for (int i = 0; i < x->n_jobs; i++) json_array_append_new(jobs, job_json(x, &x->jobs[i]));
    for (int i = 0; i < x->n_blocked; i++)
        json_array_append_new(blocked,
                              json_pack("{s:s, s:s, s:s, s:o}", "job", x->blocked[i].job->head.id,
                                        "by", session_block_name(x->blocked[i].why), "why",
                                        session_why_words(a, x, &x->blocked[i]), "when",
                                        day_json(a, x->blocked[i].when)));
    for (int i = 0; i < x->n_care; i++)
        json_array_append_new(care,
                              json_pack("{s:s, s:o, s:o, s:b}", "care", x->care[i].care->head.id,
                                        "due", day_json(a, x->care[i].due), "last",
                                        day_json(a, x->care[i].last), "is_due", i < x->n_care_due));
    for (const char **line = session_stall_words(a, x); *line; line++)
        json_array_append_new(stall, json_string(*line));
    for (int i = 0; i < x->n_unknown_tools; i++)
        json_array_append_new(ask, json_string(x->trade->tools[x->unknown_tools[i]].head.id));
    return json_pack("{s:s, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:f, s:i, s:f}", "vehicle",
                     x->vehicle, "jobs", jobs, "blocked", blocked, "short", short_json(x), "care",
                     care, "stalls", stall, "closing",
                     x->closing ? json_string(x->closing->job->head.id) : json_null(), "ask_tools",
                     ask, "left_off",
                     l->note ? json_pack("{s:s, s:s?, s:s?, s:o}", "note", l->note, "where",
                                         l->where, "photo", l->photo, "date", day_json(a, l->date))
                             : json_null(),
                     "minutes", words_round(x->minutes, 0), "hands", x->hands, "degrees",
                     words_round(x->degrees, 1));
}
