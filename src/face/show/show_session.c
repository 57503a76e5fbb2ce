#include "face/show/show_session.h"

#include "face/show/show_trade.h"
#include "face/show/words.h"

#include <math.h>

enum { BLOCKED_SHOWN = 6, READY_SHOWN = 4, CARE_SHOWN = 4, STEPS_SHOWN = 8 };

static const char *minutes_words(struct arena *a, double minutes)
{
    return minutes < 60 ? arena_print(a, "%.0f min", ceil(minutes / 5) * 5)
                        : words_hours(a, minutes / 60);
}

static const char *inside(struct arena *a, const struct trade_job *job)
{
    return words_inside(a, job->head.name);
}

/* ---- why not ---- */

const char *session_why_words(struct arena *a, const struct session *x,
                              const struct session_blocked *b)
{
    switch (b->why) {
    case BLOCK_GATE:
        return arena_print(a, "waits for the decision: %s", inside(a, b->before));
    case BLOCK_BEFORE:
        return arena_print(a, "first: %s", inside(a, b->before));
    case BLOCK_LOOK:
        return b->before
                   ? arena_print(a, "look first whether this is needed: %s", inside(a, b->before))
                   : "look first whether it is needed";
    case BLOCK_WAIT:
        return arena_print(a, "%s: until %s", b->before->wait.what_for, words_day(a, b->when));
    case BLOCK_PART:
        return arena_print(
            a, "a part: %s, %s%s", words_inside(a, b->part->head.name),
            b->coming ? "on its way" : "not ordered",
            b->when == DAY_NONE ? "" : arena_print(a, ", due %s", words_short_day(a, b->when)));
    case BLOCK_TOOL:
        return arena_print(a, "a tool is missing: %s", x->trade->tools[b->tool].head.name);
    case BLOCK_HANDS:
        return arena_print(a, "%d pairs of hands%s", b->job->hands,
                           b->when == DAY_NONE
                               ? "; no session has them"
                               : arena_print(a, ": next on %s", words_short_day(a, b->when)));
    case BLOCK_BAY:
        return "the bay is taken";
    case BLOCK_COLD:
        return arena_print(a, "warmth: %g C or more", b->job->warm);
    case BLOCK_LONG:
        return arena_print(a, "a longer session: once begun it may need %s, and cannot be put down",
                           minutes_words(a, b->minutes));
    case BLOCKS:
        break;
    }
    return "";
}

const char **stall_words(struct arena *a, const struct trade *t, const struct stall *stall,
                         day today)
{
    const char **lines = ARENA_ARRAY(a, const char *, 3);
    int n = 0;
    if (stall->idle)
        lines[n++] = arena_print(a, "%d weeks without an hour on it", (today - stall->last) / 7);
    if (stall->frayed) {
        struct text names = {.arena = a};
        for (int i = 0; i < stall->n_open; i++)
            text_print(&names, "%s%s", i ? ", " : "",
                       words_inside(a, t->systems[stall->open[i]].head.name));
        lines[n++] =
            arena_print(a, "%d systems are open at once: %s", stall->n_open, text_get(&names));
    }
    return lines;
}

const char **session_stall_words(struct arena *a, const struct session *x)
{
    const char **some = stall_words(a, x->trade, &x->stall, x->as_of);
    const char **lines = ARENA_ARRAY(a, const char *, 4);
    int n = 0;
    for (; some[n]; n++) lines[n] = some[n];
    if (x->n_late > 0)
        lines[n] = arena_print(
            a, "not ordered, and past its day (%s): %s%s",
            words_short_day(a, x->model->first + (day)floor((double)x->late[0].by / MINUTES_A_DAY)),
            words_inside(a, x->late[0].part->head.name),
            x->n_late > 1 ? arena_print(a, ", and %d more: see fettle plan", x->n_late - 1) : "");
    return lines;
}

static void show_stall(struct sheet *s, const struct session *x)
{
    const char **lines = session_stall_words(s->arena, x);
    if (!lines[0]) return;
    for (; *lines; lines++) sheet_item(s, "It stalls: %s", *lines);
    if (x->closing)
        sheet_text(s, "One short job that closes something: %s, %s.",
                   inside(s->arena, x->closing->job), minutes_words(s->arena, x->closing->high));
    else if (x->n_care_due > 0)
        sheet_text(s, "One short thing that keeps it: %s, %g minutes.",
                   words_inside(s->arena, x->care[0].care->head.name), x->care[0].care->minutes);
}

/* ---- a job ---- */

static const char *tools_words(struct arena *a, const struct session *x, const char *const *tools,
                               int count)
{
    struct text t = {.arena = a};
    for (int i = 0; i < count; i++) {
        int tool = tool_called(x->trade, tools[i]);
        enum tool_have have = tool_on(&x->told, tool, x->as_of);
        const char *where = tool >= 0 ? x->told.tools[tool].where : NULL;
        text_print(&t, "%s%s", i ? ", " : "", tools[i]);
        if (have == TOOL_NOT_TOLD) text_add(&t, " (have you got it?)");
        if (have == TOOL_BORROWED) text_add(&t, " (borrowed)");
        if (have != TOOL_NOT_TOLD && where) text_print(&t, " (%s)", where);
    }
    return text_get(&t);
}

static const char *parts_words(struct arena *a, const struct session *x,
                               const struct trade_job *job)
{
    struct text t = {.arena = a};
    for (int i = 0; i < job->n_parts; i++) {
        const char *shelf = x->told.shelf[job->parts[i].part];
        text_print(&t, "%s%g x %s%s", i ? ", " : "", job->parts[i].count,
                   words_inside(a, x->trade->parts[job->parts[i].part].head.name),
                   shelf ? arena_print(a, " (%s)", shelf) : "");
    }
    return text_get(&t);
}

static void show_job(struct sheet *s, const struct session *x, const struct session_job *j)
{
    static const char *const roles[] = {"Must be finished", "If there is time", "Ready too"};
    struct arena *a = s->arena;
    const struct trade_job *job = j->job;
    sheet_heading(s, 2,
                  arena_print(a, "%s: %s",
                              j->role == SESSION_IF_TIME && !j->finishes
                                  ? "If there is time, go on with"
                                  : roles[j->role],
                              job->head.name));
    show_cautions(s, x->trade, job->cautions, job->n_cautions);
    sheet_fact(s, TONE_PLAIN, "takes", "%s, %s if it goes badly%s", minutes_words(a, j->middle),
               minutes_words(a, j->high), j->begun ? "; begun already" : "");
    if (j->role == SESSION_IF_TIME)
        sheet_fact(s, TONE_CARE, "begin only", "with %s left%s", minutes_words(a, j->room),
                   job->unbroken ? ": it cannot be put down half done" : "");
    if (job->hands > 1) sheet_fact(s, TONE_PLAIN, "hands", "%d pairs", job->hands);
    if (job->n_tools > 0)
        sheet_fact(s, TONE_PLAIN, "tools", "%s", tools_words(a, x, job->tools, job->n_tools));
    if (job->n_parts > 0) sheet_fact(s, TONE_PLAIN, "parts", "%s", parts_words(a, x, job));
    if (job->accept) sheet_fact(s, TONE_GOOD, "done when", "%s", job->accept);
    for (int i = 0; i < job->n_steps && i < STEPS_SHOWN; i++) sheet_item(s, "%s", job->steps[i]);
    if (job->n_steps > STEPS_SHOWN)
        sheet_link(s, "All its steps", arena_print(a, "trade show %s", job->head.id));
}

static void show_short(struct sheet *s, const struct session *x)
{
    struct arena *a = s->arena;
    const struct trade_care *c = x->short_care;
    if (x->short_job) {
        sheet_heading(s, 2, arena_print(a, "Fifteen minutes: %s", x->short_job->job->head.name));
        show_cautions(s, x->trade, x->short_job->job->cautions, x->short_job->job->n_cautions);
        if (x->short_job->job->accept)
            sheet_fact(s, TONE_GOOD, "done when", "%s", x->short_job->job->accept);
    } else if (c) {
        sheet_heading(s, 2, arena_print(a, "Fifteen minutes: %s", words_inside(a, c->head.name)));
        show_cautions(s, x->trade, c->cautions, c->n_cautions);
        sheet_text(s, "%s", c->act);
        sheet_fact(s, TONE_GOOD, "done when", "%s", c->accept);
        sheet_fact(s, TONE_PLAIN, "then", "fettle session care %s", c->head.id);
    } else if (x->short_order) {
        sheet_heading(s, 2,
                      arena_print(a, "Fifteen minutes: order %s",
                                  words_inside(a, x->short_order->part->head.name)));
    } else if (x->short_look >= 0) {
        const struct trade_component *k = &x->trade->components[x->short_look];
        sheet_heading(s, 2,
                      arena_print(a, "Fifteen minutes: look at %s", words_inside(a, k->head.name)));
        if (k->seen_by) sheet_text(s, "%s", k->seen_by);
    }
}

/* ---- the rest of the sheet ---- */

static void show_evening(struct sheet *s, const struct session *x)
{
    struct arena *a = s->arena;
    const struct fact_left_off *l = &x->told.left_off;
    if (l->note) {
        sheet_heading(s, 2,
                      l->date == DAY_NONE
                          ? "Left off last time"
                          : arena_print(a, "Left off on %s", words_short_day(a, l->date)));
        sheet_text(s, "%s", l->note);
        if (l->where) sheet_fact(s, TONE_PLAIN, "where things lie", "%s", l->where);
        if (l->photo) sheet_fact(s, TONE_PLAIN, "photograph", "%.8s", l->photo);
    }
    sheet_fact(s, TONE_PLAIN, "this session", "%s%s", words_short_day(a, x->as_of),
               x->from >= 0 && !x->hours_told ? arena_print(a, " from %s", words_clock(a, x->from))
                                              : "");
    sheet_fact(s, TONE_PLAIN, "hands-on", "%s, beside %.0f min to set up and %.0f to clear up%s",
               x->minutes > 0 ? minutes_words(a, x->minutes) : "nothing", x->set_up, x->clear_up,
               !x->hours_told && !x->in_week ? "; the week has no session today: as the next one"
                                             : "");
    sheet_fact(s, TONE_PLAIN, "with", "%d %s of hands, %.0f C%s", x->hands,
               x->hands == 1 ? "pair" : "pairs", x->degrees,
               x->degrees_told ? "" : " as usual in that month");
}

static void show_blocked(struct sheet *s, const struct session *x)
{
    struct arena *a = s->arena;
    int behind = 0, shown = 0;
    struct sheet_table *t = NULL;
    /* What this evening lacks comes before what is only further back in the line. */
    for (int i = 0; i < x->n_blocked; i++) {
        const struct session_blocked *b = &x->blocked[i];
        if (b->why <= BLOCK_BEFORE || b->why == BLOCK_HANDS || shown == BLOCKED_SHOWN) {
            behind += b->why != BLOCK_HANDS;
            continue;
        }
        if (!t) {
            sheet_heading(s, 2, "Blocked");
            t = sheet_table(s, "");
            sheet_column(s, t, "job", ALIGN_LEFT, 1);
            sheet_column(s, t, "waits for", ALIGN_LEFT, 1);
        }
        sheet_cell(s, t, TONE_PLAIN, "%s", b->job->head.name);
        sheet_cell(s, t, TONE_CARE, "%s", session_why_words(a, x, b));
        shown++;
    }
    if (behind > 0)
        sheet_text(s, "%d more stand behind these, behind the decision or further back.", behind);
}

static void show_helper(struct sheet *s, const struct session *x)
{
    struct text names = {.arena = s->arena};
    day when = DAY_NONE;
    int n = 0;
    for (int i = 0; i < x->n_blocked; i++) {
        if (x->blocked[i].why != BLOCK_HANDS) continue;
        if (when == DAY_NONE) when = x->blocked[i].when;
        text_print(&names, "%s%s", n++ ? "; " : "", inside(s->arena, x->blocked[i].job));
    }
    if (n > 0)
        sheet_text(s, "For a helper day%s: %s.",
                   when == DAY_NONE
                       ? ""
                       : arena_print(s->arena, ", next %s", words_short_day(s->arena, when)),
                   text_get(&names));
}

struct sheet *show_session(struct arena *a, const struct session *x)
{
    struct sheet *s = sheet_new(a, arena_print(a, "%s: this evening", x->vehicle));
    show_stall(s, x);
    show_evening(s, x);
    int n = 0;
    for (; n < x->n_jobs && x->jobs[n].role != SESSION_READY; n++) show_job(s, x, &x->jobs[n]);
    if (n == 0)
        sheet_text(s, "No job is ready for such an evening; below is what each waits for.");
    else if (x->jobs[0].role != SESSION_MUST)
        sheet_text(s, "Nothing that is ready would surely be finished tonight.");
    show_short(s, x);
    struct text more = {.arena = a};
    int listed = 0;
    for (; n < x->n_jobs && listed < READY_SHOWN; n++) {
        if (&x->jobs[n] == x->short_job) continue;
        text_print(&more, "%s%s, %s", listed++ ? "; " : "", inside(a, x->jobs[n].job),
                   minutes_words(a, x->jobs[n].middle));
    }
    if (listed > 0)
        sheet_text(s, "Ready too%s: %s.", n < x->n_jobs ? " (the first of them)" : "",
                   text_get(&more));
    show_helper(s, x);
    show_blocked(s, x);
    if (x->n_care_due > 0) {
        struct text care = {.arena = a};
        for (int i = 0; i < x->n_care_due && i < CARE_SHOWN; i++)
            text_print(&care, "%s%s (%s)", i ? "; " : "",
                       words_inside(a, x->care[i].care->head.name), x->care[i].care->head.id);
        sheet_text(s, "Care that is due: %s.", text_get(&care));
    }
    sheet_text(
        s, "Last: note where it was left off, photograph it, tell the hours. fettle session done "
           "'note'");
    return s;
}

/* ---- JSON ---- */

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
