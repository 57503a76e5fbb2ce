#include "face/show/show_log.h"

static const char *hours_told(struct arena *a, double minutes)
{
    struct text t = {.arena = a};
    if (minutes < 0) return "no hours said, none are counted";
    unit_print(&t, minutes * 60, QUANTITY_TIME, UNITS_METRIC, 0);
    return text_get(&t);
}

static const char *job_told(struct arena *a, const struct log_job *j)
{
    return arena_print(a, "%s%s%s%s", hours_told(a, j->minutes),
                       j->shared ? ", shared as the estimates are" : "",
                       j->finished ? "; finished" : "",
                       j->in_plan ? "" : "; not in this plan, logged all the same");
}

static void tell_setback(struct sheet *s, const struct log_reading *r)
{
    const struct trade *t = r->trade;
    struct text near = {.arena = s->arena};
    if (r->setback.count == 0) return;
    const struct trade_setback *first = &t->setbacks[r->setback.best[0]];
    if (r->setback.count == 1) {
        sheet_fact(s, TONE_CARE, "setback", "%s (%s)", first->head.name, first->head.id);
        if (first->stop) sheet_fact(s, TONE_CARE, "stop rule", "%s", first->stop);
        sheet_link(s, "The next step, and what it moves in the plan",
                   arena_print(s->arena, "setback %s", first->head.id));
        return;
    }
    for (int i = 0; i < r->setback.count; i++)
        text_print(&near, "%s%s (%s)", i ? "; " : "", t->setbacks[r->setback.best[i]].head.name,
                   t->setbacks[r->setback.best[i]].head.id);
    sheet_fact(s, TONE_CARE, "setback", "not clear which, kept as a note. Perhaps: %s",
               text_get(&near));
}

struct sheet *show_log(struct arena *a, const struct log_reading *r, bool stored)
{
    const struct trade *t = r->trade;
    struct text date = {.arena = a}, clock = {.arena = a};
    struct sheet *s = sheet_new(a, r->vehicle);
    day_print_long(&date, r->date);
    sheet_text(s, stored ? "Logged:" : "This is what was understood; it is not stored yet:");
    sheet_fact(s, TONE_PLAIN, "day", "%s", text_get(&date));
    if (r->from >= 0) {
        clock_print(&clock, r->from);
        text_add(&clock, " to ");
        clock_print(&clock, r->to);
        sheet_fact(s, TONE_PLAIN, "time", "%s", text_get(&clock));
    }
    for (int i = 0; i < r->n_jobs; i++)
        sheet_fact(s, TONE_PLAIN,
                   arena_print(a, "%s (%s)", t->jobs[r->jobs[i].job].head.name,
                               t->jobs[r->jobs[i].job].head.id),
                   "%s", job_told(a, &r->jobs[i]));
    tell_setback(s, r);
    if (r->unread) sheet_fact(s, TONE_CARE, "not understood", "%s; kept in the note", r->unread);
    for (int i = 0; i < r->n_open; i++) {
        sheet_text(s, "Which job is '%s'? Write its id in the line instead:", r->open[i].words);
        for (int k = 0; k < r->open[i].jobs.count; k++)
            sheet_item(s, "%s: %s", t->jobs[r->open[i].jobs.best[k]].head.id,
                       t->jobs[r->open[i].jobs.best[k]].head.name);
    }
    if (!stored)
        for (int i = 0; i < r->n_questions; i++) sheet_item(s, "%s", r->questions[i]);
    return s;
}

static json_t *found_json(const struct trade *t, bool jobs, const struct log_found *f)
{
    json_t *list = json_array();
    for (int i = 0; i < f->count; i++)
        json_array_append_new(list, json_string(jobs ? t->jobs[f->best[i]].head.id
                                                     : t->setbacks[f->best[i]].head.id));
    return list;
}

json_t *show_log_json(const struct log_reading *r, bool stored)
{
    struct arena a = arena_open(1 << 12);
    struct text date = {.arena = &a};
    json_t *jobs = json_array(), *open = json_array(), *questions = json_array();
    day_print(&date, r->date);
    for (int i = 0; i < r->n_jobs; i++) {
        const struct log_job *j = &r->jobs[i];
        json_array_append_new(
            jobs, json_pack("{s:s, s:o, s:b, s:b, s:b}", "job", r->trade->jobs[j->job].head.id,
                            "hours", j->minutes < 0 ? json_null() : json_real(j->minutes / 60),
                            "finished", j->finished, "shared", j->shared, "in_plan", j->in_plan));
    }
    for (int i = 0; i < r->n_open; i++)
        json_array_append_new(open, json_pack("{s:s, s:o}", "words", r->open[i].words, "jobs",
                                              found_json(r->trade, true, &r->open[i].jobs)));
    for (int i = 0; i < r->n_questions; i++)
        json_array_append_new(questions, json_string(r->questions[i]));
    json_t *out =
        json_pack("{s:b, s:s, s:o, s:o, s:o, s:o, s:s?}", "stored", stored, "date", text_get(&date),
                  "jobs", jobs, "which", open, "setback", found_json(r->trade, false, &r->setback),
                  "questions", questions, "not_understood", r->unread);
    arena_close(&a);
    return out;
}
