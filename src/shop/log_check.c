#include "shop/log_check.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

enum { SAME_MINUTES = 30, FORGOTTEN_MINUTES = 6 * 60, DAY = MINUTES_A_DAY, QUESTIONS_MOST = 12 };

static void ask_too(struct arena *a, struct log_reading *out, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
static void ask_too(struct arena *a, struct log_reading *out, const char *format, ...)
{
    char line[400];
    va_list args;
    if (out->n_questions == QUESTIONS_MOST) return;
    va_start(args, format);
    vsnprintf(line, sizeof line, format, args);
    va_end(args);
    out->questions[out->n_questions++] = arena_copy(a, line);
}

static const char *clock_told(struct arena *a, int minute)
{
    struct text t = {.arena = a};
    clock_print(&t, minute);
    return text_get(&t);
}

static const char *day_told(struct arena *a, day d)
{
    struct text t = {.arena = a};
    day_print(&t, d);
    return text_get(&t);
}

/* Minutes since 1970 of "2026-11-25T19:00:00Z". */
static bool stamp_minutes(const char *stamp, double *out)
{
    int y, mo, d, h, mi, s;
    if (sscanf(stamp, "%4d-%2d-%2dT%2d:%2d:%2dZ", &y, &mo, &d, &h, &mi, &s) != 6 ||
        !day_exists(y, mo, d))
        return false;
    *out = ((double)(day_from_civil(y, mo, d) - day_from_civil(1970, 1, 1)) * 24 + h) * 60 + mi +
           s / 60.0;
    return true;
}

enum timer_state timer_judge(const char *from, const char *to, double *minutes)
{
    double a, b;
    *minutes = 0;
    if (!stamp_minutes(from, &a) || !stamp_minutes(to, &b) || b < a) return TIMER_JUMPED;
    *minutes = floor(b - a);
    return *minutes > FORGOTTEN_MINUTES ? TIMER_FORGOTTEN : TIMER_FITS;
}

/* Two phones, or one that sent twice: stored a moment ago, the same job, day and hours. */
static bool is_same(const struct log_ask *ask, const struct log_reading *out,
                    const struct record *r)
{
    double then, now;
    if (!stamp_minutes(r->at, &then) || !stamp_minutes(ask->now, &now) ||
        fabs(now - then) > SAME_MINUTES || record_get(r, "date")->day != out->date)
        return false;
    for (int i = 0; i < out->n_jobs; i++) {
        const struct value *hours = record_get(r, "hours");
        const double minutes = hours->set ? hours->number / 60 : -1;
        if (text_same_word(record_text(r, "job", ""), ask->trade->jobs[out->jobs[i].job].head.id) &&
            fabs(minutes - out->jobs[i].minutes) < 1)
            return true;
    }
    return false;
}

/* Clock times as a span from the day's start; past midnight where the end is the earlier. */
static bool overlaps(const struct log_reading *out, const struct record *r)
{
    const struct value *f = record_get(r, "from"), *t = record_get(r, "to"),
                       *d = record_get(r, "date");
    if (out->from < 0 || out->to < 0 || !f->set || !t->set || !d->set) return false;
    const int64_t off = (int64_t)(d->day - out->date) * DAY;
    const int64_t from = off + f->integer,
                  to = off + t->integer + (t->integer < f->integer ? DAY : 0),
                  end = out->to + (out->to < out->from ? DAY : 0);
    return from < end && out->from < to;
}

static void check_one(struct arena *a, const struct log_ask *ask, struct log_reading *out,
                      const struct record *r, double *that_day)
{
    const char *job = record_text(r, "job", "");
    if (record_get(r, "date")->set && record_get(r, "date")->day == out->date)
        *that_day += record_number(r, "hours", 0) / 60;
    if (is_same(ask, out, r))
        ask_too(a, out,
                "%s with the same hours on the same day was stored at %s: is this another stretch "
                "of work?",
                job, r->at);
    else if (overlaps(out, r))
        ask_too(a, out,
                "%s is logged from %s to %s already: did two people work, or is one of them wrong?",
                job, record_text(r, "from", ""), record_text(r, "to", ""));
}

static bool check_sums(struct arena *a, const struct log_ask *ask, struct log_reading *out,
                       double that_day, struct fail *f)
{
    double sum = 0;
    for (int i = 0; i < out->n_jobs; i++) sum += fmax(out->jobs[i].minutes, 0);
    const int span = out->from >= 0 && out->to >= 0 ? (out->to - out->from + DAY) % DAY : -1;
    if (sum > DAY)
        return fail_set(f, FAIL_INPUT, "log: %.3g h in one day; give one day a line", sum / 60);
    if (span >= 0 && sum > span + 1)
        ask_too(a, out, "%.3g h do not fit between %s and %s: did two people work?", sum / 60,
                clock_told(a, out->from), clock_told(a, out->to));
    if (out->date == ask->today && ask->minute >= 0 && span >= 0 && out->to > ask->minute)
        ask_too(a, out, "%s is still to come, it is %s: is the clock wrong?",
                clock_told(a, out->to), clock_told(a, ask->minute));
    if (sum > 14 * 60)
        ask_too(a, out, "%.3g h in one day: was it so long?", sum / 60);
    else if (that_day > 0 && sum + that_day > 16 * 60)
        ask_too(a, out, "with this %.3g h are logged on %s: did several people work?",
                (sum + that_day) / 60, day_told(a, out->date));
    return true;
}

bool log_check(struct arena *a, const struct log_ask *ask, struct log_reading *out, struct fail *f)
{
    struct record *works;
    int n;
    double that_day = 0;
    out->questions = ARENA_ARRAY(a, const char *, QUESTIONS_MOST);
    if (out->date > ask->today)
        return fail_set(f, FAIL_INPUT,
                        "log: %s is still to come; log it when it is done, or mend the day",
                        day_told(a, out->date));
    if (out->n_jobs == 0 && out->n_open == 0)
        return fail_set(f, FAIL_INPUT,
                        "log: no job is known in '%.80s'; name one, as 'fettle trade search WORD' "
                        "finds it",
                        out->line);
    if (!garage_list(ask->garage, a, record_kind_find("work"), ask->vehicle, &works, &n, f))
        return false;
    for (int i = 0; i < n; i++) check_one(a, ask, out, &works[i], &that_day);
    for (int i = 0; i < out->n_jobs; i++)
        if (out->jobs[i].was_finished)
            ask_too(a, out, "%s was finished before: is there more to do on it?",
                    ask->trade->jobs[out->jobs[i].job].head.id);
    return check_sums(a, ask, out, that_day, f);
}
