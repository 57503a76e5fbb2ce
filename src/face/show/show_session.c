#include "face/show/show_session.h"

#include "face/show/show_trade.h"
#include "face/show/words.h"

#include <math.h>

enum { BLOCKED_SHOWN = 6, READY_SHOWN = 4, CARE_SHOWN = 4 };

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
    case BLOCK_SAFE:
        return b->gate->missing > 0
                   ? arena_print(a, "a safety gate: %s, shut, %d missing",
                                 words_inside(a, b->gate->gate->head.name), b->gate->missing)
                   : arena_print(a, "a safety gate: %s, all holds, not opened yet",
                                 words_inside(a, b->gate->gate->head.name));
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

void session_show_stall(struct sheet *s, const struct session *x)
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

/* What is here first, with where it lies; then what nobody told of. */
static const char *tools_words(struct arena *a, const struct session *x, const char *const *tools,
                               int count)
{
    struct text here = {.arena = a}, asked = {.arena = a};
    for (int i = 0; i < count; i++) {
        int tool = tool_called(x->trade, tools[i]);
        const enum tool_have have = tool_on(&x->told, tool, x->as_of);
        const char *where = tool >= 0 ? x->told.tools[tool].where : NULL;
        struct text *t = have == TOOL_NOT_TOLD ? &asked : &here;
        text_print(t, "%s%s", t->length ? ", " : "", tools[i]);
        if (have == TOOL_BORROWED) text_add(t, " (borrowed)");
        if (have != TOOL_NOT_TOLD && where) text_print(t, " (%s)", where);
    }
    return arena_print(a, "%s%s%s%s%s", text_get(&here), here.length && asked.length ? "; " : "",
                       asked.length ? "have you got: " : "", text_get(&asked),
                       asked.length ? "?" : "");
}

/* What has to be asked again today before this is begun. */
static void show_checks(struct sheet *s, const struct session *x, const struct trade_job *job)
{
    for (int i = 0; i < x->trade->n_checks; i++) {
        const struct trade_check *c = &x->trade->checks[i];
        if (!session_asks_check(job, c)) continue;
        sheet_fact(s, x->safe.checked[i] ? TONE_GOOD : TONE_CARE, "check first", "%s: %s",
                   words_inside(s->arena, c->head.name),
                   x->safe.checked[i] ? "checked today" : "not checked today");
    }
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

/* "B7 (A2), B9 (A3)": full bags of this job and of those right before it. */
static const char *bags_words(struct arena *a, const struct session *x, const struct trade_job *job)
{
    struct text t = {.arena = a};
    for (int i = 0; i < x->bags.count; i++) {
        const struct fact_bag *b = &x->bags.all[i];
        if (!session_wants_bag(x->trade, job, b)) continue;
        text_print(&t, "%s%s", t.length ? ", " : "", b->code);
        if (b->shelf) text_print(&t, " (%s)", b->shelf);
    }
    return text_get(&t);
}

void session_show_job(struct sheet *s, const struct session *x, const struct session_job *j)
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
    show_checks(s, x, job);
    sheet_fact(s, TONE_PLAIN, "takes", "%s, %s if it goes badly%s", minutes_words(a, j->middle),
               minutes_words(a, j->high), j->begun ? "; begun already" : "");
    if (j->role == SESSION_IF_TIME)
        sheet_fact(s, TONE_CARE, "begin only", "with %s left%s", minutes_words(a, j->room),
                   job->unbroken ? ": it cannot be put down half done" : "");
    if (job->hands > 1) sheet_fact(s, TONE_PLAIN, "hands", "%d pairs", job->hands);
    if (job->n_tools > 0)
        sheet_fact(s, TONE_PLAIN, "tools", "%s", tools_words(a, x, job->tools, job->n_tools));
    if (job->n_parts > 0) sheet_fact(s, TONE_PLAIN, "parts", "%s", parts_words(a, x, job));
    const char *bags = bags_words(a, x, job);
    if (*bags) sheet_fact(s, TONE_PLAIN, "bags", "%s", bags);
    if (job->accept) sheet_fact(s, TONE_GOOD, "done when", "%s", job->accept);
    for (int i = 0; i < job->n_steps; i++) sheet_item(s, "%s", job->steps[i]);
}

void session_show_short(struct sheet *s, const struct session *x)
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

void session_show_left_off(struct sheet *s, const struct session *x)
{
    struct arena *a = s->arena;
    const struct fact_left_off *l = &x->told.left_off;
    if (!l->note) return;
    sheet_heading(s, 2,
                  l->date == DAY_NONE
                      ? "Left off last time"
                      : arena_print(a, "Left off on %s", words_short_day(a, l->date)));
    sheet_fact(s, TONE_CARE, "note", "%s", l->note);
    if (l->where) sheet_fact(s, TONE_PLAIN, "where things lie", "%s", l->where);
}

void session_show_evening(struct sheet *s, const struct session *x)
{
    struct arena *a = s->arena;
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

void session_show_ready(struct sheet *s, const struct session *x)
{
    struct text more = {.arena = s->arena};
    int listed = 0, n = 0;
    for (; n < x->n_jobs && listed < READY_SHOWN; n++) {
        if (x->jobs[n].role != SESSION_READY || &x->jobs[n] == x->short_job) continue;
        text_print(&more, "%s%s, %s", listed++ ? "; " : "", inside(s->arena, x->jobs[n].job),
                   minutes_words(s->arena, x->jobs[n].middle));
    }
    if (listed > 0)
        sheet_text(s, "Ready too%s: %s.", n < x->n_jobs ? " (the first of them)" : "",
                   text_get(&more));
}

void session_show_held(struct sheet *s, const struct session *x)
{
    show_helper(s, x);
    show_blocked(s, x);
}

void session_show_none(struct sheet *s, const struct session *x)
{
    if (x->n_jobs == 0 || x->jobs[0].role == SESSION_READY)
        sheet_text(s, "No job is ready for such an evening; below is what each waits for.");
    else if (x->jobs[0].role != SESSION_MUST)
        sheet_text(s, "Nothing that is ready would surely be finished tonight.");
}

struct sheet *show_session(struct arena *a, const struct session *x)
{
    struct sheet *s = sheet_new(a, arena_print(a, "%s: this evening", x->vehicle));
    session_show_left_off(s, x);
    if (x->told.left_off.photo)
        sheet_fact(s, TONE_PLAIN, "photograph", "%.8s", x->told.left_off.photo);
    session_show_stall(s, x);
    session_show_evening(s, x);
    for (int i = 0; i < x->n_jobs && x->jobs[i].role != SESSION_READY; i++)
        session_show_job(s, x, &x->jobs[i]);
    session_show_none(s, x);
    session_show_short(s, x);
    if (x->short_care)
        sheet_fact(s, TONE_PLAIN, "then", "fettle session care %s", x->short_care->head.id);
    session_show_ready(s, x);
    session_show_held(s, x);
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
