#include "face/show/log_keep.h"

#include <time.h>

enum { MINUTES = 24 * 60 };

struct log_now log_now(void)
{
    const time_t now = time(NULL);
    struct log_now out = {.minute = -1};
    struct tm utc, local;
    if (gmtime_r(&now, &utc)) strftime(out.stamp, sizeof out.stamp, "%Y-%m-%dT%H:%M:%SZ", &utc);
    if (localtime_r(&now, &local)) out.minute = local.tm_hour * 60 + local.tm_min;
    return out;
}

static const char *day_text(struct arena *a, day d)
{
    struct text t = {.arena = a};
    day_print(&t, d);
    return text_get(&t);
}

static const char *clock_text(struct arena *a, int minute)
{
    if (minute < 0) return NULL;
    struct text t = {.arena = a};
    clock_print(&t, minute % MINUTES);
    return text_get(&t);
}

static const char *hours_text(struct arena *a, double minutes)
{
    struct text t = {.arena = a};
    if (minutes < 0) return NULL;
    unit_print(&t, minutes * 60, QUANTITY_TIME, UNITS_METRIC, 0);
    return text_get(&t);
}

struct pair {
    const char *field, *value;
};

static bool add(struct arena *a, struct garage *g, const char *kind, const struct pair *pairs,
                struct record **out, struct fail *f)
{
    *out = record_new(a, record_kind_find(kind));
    for (; pairs->field; pairs++)
        if (pairs->value && !record_set(a, *out, pairs->field, pairs->value, NULL, f)) return false;
    return record_valid(*out, f) && garage_add(g, *out, f);
}

static bool keep(struct arena *a, const struct log_ask *ask, const struct log_reading *r,
                 struct fail *f)
{
    const struct trade *t = r->trade;
    for (int i = 0; i < r->n_jobs; i++) {
        const struct log_job *j = &r->jobs[i];
        const bool first = i == 0; /* clock times and setback are told once */
        const struct pair pairs[] = {
            {"vehicle", ask->vehicle},
            {"job", t->jobs[j->job].head.id},
            {"hours", hours_text(a, j->minutes)},
            {"finished", j->finished ? "yes" : NULL},
            {"date", day_text(a, r->date)},
            {"note", r->line},
            {"from", first ? clock_text(a, r->from) : NULL},
            {"to", first ? clock_text(a, r->to) : NULL},
            {"setback",
             first && r->setback.count == 1 ? t->setbacks[r->setback.best[0]].head.id : NULL},
            {NULL, NULL},
        };
        struct record *stored;
        if (!add(a, ask->garage, "work", pairs, &stored, f)) return false;
    }
    return true;
}

bool log_tell(struct arena *a, const struct log_ask *ask, bool sure, struct log_reading *out,
              bool *stored, struct fail *f)
{
    *stored = false;
    if (!garage_begin(ask->garage, f)) return false;
    if (!log_read(a, ask, out, f)) {
        garage_rollback(ask->garage);
        return false;
    }
    if (out->n_open > 0 || (out->n_questions > 0 && !sure)) {
        garage_rollback(ask->garage);
        return true;
    }
    *stored = keep(a, ask, out, f) && garage_commit(ask->garage, f);
    if (!*stored) garage_rollback(ask->garage);
    return *stored;
}

/* ---- the clock of a job ---- */

bool timer_running(struct arena *a, struct garage *g, const char *vehicle, struct record **out,
                   struct fail *f)
{
    struct record *list;
    int n;
    if (!garage_list(g, a, record_kind_find("timer"), vehicle, &list, &n, f)) return false;
    *out = n > 0 ? &list[n - 1] : NULL;
    return true;
}

static bool start(struct arena *a, const struct log_ask *ask, const char *job, struct record **out,
                  struct fail *f)
{
    struct record *running;
    struct log_ask words = *ask;
    struct log_reading r;
    int known = trade_find_job(ask->trade, job);
    if (!timer_running(a, ask->garage, ask->vehicle, &running, f)) return false;
    if (running)
        return fail_set(f, FAIL_INPUT,
                        "log: the clock runs for %s since %s, %s; stop it first: fettle log stop",
                        record_text(running, "job", ""), record_text(running, "date", ""),
                        record_text(running, "from", ""));
    words.line = job;
    if (known < 0 && !log_read(a, &words, &r, f)) return false;
    if (known < 0 && r.n_jobs != 1)
        return fail_set(
            f, FAIL_INPUT, "log: '%.60s' may be %s or %s; start it by its id", job,
            ask->trade->jobs[r.n_open > 0 ? r.open[0].jobs.best[0] : r.jobs[0].job].head.id,
            ask->trade->jobs[r.n_open > 0 ? r.open[0].jobs.best[1] : r.jobs[1].job].head.id);
    if (known < 0) known = r.jobs[0].job;
    const struct pair pairs[] = {
        {"vehicle", ask->vehicle},
        {"job", ask->trade->jobs[known].head.id},
        {"date", day_text(a, ask->today)},
        {"from", clock_text(a, ask->minute < 0 ? 0 : ask->minute)},
        {NULL, NULL},
    };
    return add(a, ask->garage, "timer", pairs, out, f);
}

bool timer_start(struct arena *a, const struct log_ask *ask, const char *job, struct record **out,
                 struct fail *f)
{
    if (!garage_begin(ask->garage, f)) return false;
    if (start(a, ask, job, out, f) && garage_commit(ask->garage, f)) return true;
    garage_rollback(ask->garage);
    return false;
}

static bool stop(struct arena *a, const struct log_ask *ask, const char *hours, bool finished,
                 bool drop, const char **said, struct fail *f)
{
    struct record *timer, *work;
    double minutes;
    if (!timer_running(a, ask->garage, ask->vehicle, &timer, f)) return false;
    if (!timer)
        return fail_set(f, FAIL_INPUT, "log: no clock runs; start one: fettle log start JOB");
    const char *job = record_text(timer, "job", "");
    const enum timer_state state = timer_judge(timer->at, ask->now, &minutes);
    if (!hours && !drop && state == TIMER_FORGOTTEN)
        return fail_set(f, FAIL_INPUT,
                        "log: the clock for %s ran %.3g h, since %s %s, and was perhaps forgotten: "
                        "nothing is counted yet. Say how long it was, --hours '2 h', or --drop",
                        job, minutes / 60, record_text(timer, "date", ""),
                        record_text(timer, "from", ""));
    if (!hours && !drop && state == TIMER_JUMPED)
        return fail_set(f, FAIL_INPUT,
                        "log: the machine's clock went back since the clock for %s began, %s %s: "
                        "say how long it was, --hours '2 h', or --drop",
                        job, record_text(timer, "date", ""), record_text(timer, "from", ""));
    if (!garage_remove(ask->garage, timer->kind, timer->id, f)) return false;
    *said = arena_print(a, "%s: the clock is stopped, nothing is counted", job);
    if (drop) return true;
    const char *took = hours ? hours : hours_text(a, minutes);
    const struct pair pairs[] = {
        {"vehicle", ask->vehicle},
        {"job", job},
        {"hours", took},
        {"finished", finished ? "yes" : NULL},
        {"date", record_text(timer, "date", NULL)},
        {"from", hours ? NULL : record_text(timer, "from", NULL)},
        {"to", hours ? NULL : clock_text(a, (int)record_integer(timer, "from", 0) + (int)minutes)},
        {NULL, NULL},
    };
    *said = arena_print(a, "%s: %s%s", job, took, finished ? ", finished" : "");
    return add(a, ask->garage, "work", pairs, &work, f);
}

bool timer_stop(struct arena *a, const struct log_ask *ask, const char *hours, bool finished,
                bool drop, const char **said, struct fail *f)
{
    if (!garage_begin(ask->garage, f)) return false;
    if (stop(a, ask, hours, finished, drop, said, f) && garage_commit(ask->garage, f)) return true;
    garage_rollback(ask->garage);
    return false;
}
