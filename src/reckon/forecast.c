#include "reckon/forecast.h"

#include "base/parallel.h"

#include <assert.h>
#include <math.h>
#include <stdatomic.h>

/* One thread's things. */
struct bench_top {
    struct desk *desk;
    struct drawn drawn;
    struct schedule schedule;
    uint8_t *critical;
    int32_t *part_by; /* by part */
    int sessions;     /* the most that a run looked at */
};

struct crew {
    const struct project *p;
    const struct belief *b;
    const struct dispatch *d;
    const struct forecast_ask *ask;
    struct forecast *out;
    struct bench_top *tops;
    const uint8_t *must; /* by job: what is done at last waits for it */
    double purse;        /* all that it will ever hold, +infinity if it is open */
    atomic_int finished;
};

enum { CHUNK = 25, SPARE = 64 };

static void note_order_by(const struct crew *c, struct bench_top *t, int run)
{
    const struct project *p = c->p;
    const struct forecast *out = c->out;
    for (int i = 0; i < p->n_parts; i++) t->part_by[i] = NEVER;
    for (int j = 0; j < p->n_jobs; j++) {
        if (!t->drawn.applies[j] || t->schedule.start[j] == NEVER) continue;
        struct range buys = p->jobs[j].buys;
        for (int i = buys.first; i < buys.first + buys.count; i++) {
            if (t->drawn.buy_lead[i] < 0) continue;
            int32_t by = t->schedule.start[j] - t->drawn.buy_lead[i] - (int32_t)p->check_minutes;
            if (by < t->part_by[p->buys[i].part]) t->part_by[p->buys[i].part] = by;
        }
    }
    for (int i = 0; i < p->n_parts; i++)
        out->order_by[(size_t)i * (size_t)out->runs + (size_t)run] = t->part_by[i];
}

static void note_detail(const struct crew *c, struct bench_top *t, int run)
{
    const struct project *p = c->p;
    const struct forecast *out = c->out;
    size_t runs = (size_t)out->runs, at = (size_t)run;
    for (int j = 0; j < p->n_jobs; j++) {
        size_t cell = (size_t)j * runs + at;
        bool on = t->drawn.applies[j];
        out->start[cell] = on ? t->schedule.start[j] : NEVER;
        out->end[cell] = on ? t->schedule.finish[j] : NEVER;
        out->critical[cell] = t->critical[j];
        out->held[cell] = t->schedule.held[j];
    }
    for (int i = 0; i < p->n_setbacks; i++) out->fired[(size_t)i * runs + at] = t->drawn.fired[i];
    for (int i = 0; i < t->schedule.n_orders; i++) {
        int month = 0;
        while (month + 1 < p->n_months && month + 1 < FORECAST_MONTHS &&
               p->month[month + 1] <= t->schedule.orders[i].ordered)
            month++;
        out->month[(size_t)month * runs + at] += (float)t->schedule.orders[i].price;
    }
    note_order_by(c, t, run);
}

/* Jobs that a job of project.done waits for, however far off, and those themselves. */
static uint8_t *must_be_done(struct arena *a, const struct project *p)
{
    uint8_t *must = ARENA_ARRAY(a, uint8_t, p->n_jobs);
    struct arena scratch = *a;
    int depth = 0, *stack = ARENA_ARRAY(&scratch, int, p->n_jobs + p->n_done);
    for (int i = 0; i < p->n_done; i++) {
        if (!must[p->done[i]]) stack[depth++] = p->done[i];
        must[p->done[i]] = 1;
    }
    while (depth > 0) {
        struct range after = p->jobs[stack[--depth]].after;
        for (int i = after.first; i < after.first + after.count; i++) {
            if (must[p->after[i]]) continue;
            must[p->after[i]] = 1;
            stack[depth++] = p->after[i];
        }
    }
    return must;
}

static double purse_in_all(const struct project_purse *purse)
{
    if (purse->open) return INFINITY;
    double sum = purse->in_hand - purse->reserve;
    for (int i = 0; i < purse->n_paydays; i++) sum += purse->pay[i];
    return fmin(sum, purse->ceiling);
}

/* Beyond a minor unit, so that the order of adding up decides nothing. */
static bool beyond_purse(const struct crew *c, const struct drawn *drawn)
{
    double needs = 0;
    for (int j = 0; j < c->p->n_jobs; j++)
        if (c->must[j]) needs += drawn->price[j] + drawn->again_price[j];
    return needs > c->purse + 1;
}

static struct outcome schedule_run(const struct crew *c, struct bench_top *t, uint32_t number)
{
    struct outcome o = dispatch_run(c->d, t->desk, &t->drawn, &t->schedule, t->critical);
    if (o.more) {
        t->drawn.n_kept = c->p->n_sessions;
        draw_sessions(c->p, c->ask->seed, number, &t->drawn);
        o = dispatch_run(c->d, t->desk, &t->drawn, &t->schedule, t->critical);
    }
    /* As many sessions as the longest run so far wanted, and some; a wrong guess costs time, not
     * truth. */
    if (o.sessions > t->sessions) t->sessions = o.sessions;
    t->drawn.n_kept =
        t->sessions + SPARE < c->p->n_sessions ? t->sessions + SPARE : c->p->n_sessions;
    return o;
}

static void work_runs(void *context, size_t from, size_t to, int worker)
{
    struct crew *c = context;
    struct bench_top *t = &c->tops[worker];
    struct forecast *out = c->out;
    for (size_t run = from; run < to; run++) {
        const uint32_t number = (uint32_t)(c->ask->which ? (size_t)c->ask->which[run] : run);
        int sessions = t->drawn.n_kept;
        for (int i = 0; i < c->p->n_components && c->ask->conditions; i++)
            t->drawn.condition[i] = out->condition[(size_t)i * (size_t)out->runs + run];
        if (c->must) t->drawn.n_kept = 0; /* drawn below, if they are wanted */
        out->cost[run] =
            draw_run(c->p, c->b, c->ask->seed, number, c->ask->without, &t->drawn, &out->work[run]);
        struct outcome o = {.finish = NEVER};
        t->drawn.n_kept = sessions;
        if (!c->must || !beyond_purse(c, &t->drawn)) {
            if (c->must) draw_sessions(c->p, c->ask->seed, number, &t->drawn);
            o = schedule_run(c, t, number);
        }
        out->finish[run] = o.finish;
        out->out_of_money[run] = o.out_of_money;
        for (int h = 0; h < HOLD_COUNT; h++) out->hang[h][run] = (float)o.hang[h];
        for (int i = 0; i < c->p->n_components && !c->ask->conditions; i++)
            out->condition[(size_t)i * (size_t)out->runs + run] = t->drawn.condition[i];
        if (c->ask->detail) note_detail(c, t, (int)run);
    }
    int done = atomic_fetch_add(&c->finished, (int)(to - from)) + (int)(to - from);
    if (c->ask->progress && worker == 0)
        c->ask->progress(c->ask->progress_context, (double)done / out->runs);
}

struct forecast forecast_run(struct arena *a, const struct project *p, const struct belief *b,
                             const struct dispatch *d, const struct forecast_ask *ask)
{
    assert(ask->runs > 0);
    size_t runs = (size_t)ask->runs;
    struct forecast out = {
        .runs = ask->runs,
        .finish = ARENA_ARRAY(a, int32_t, runs),
        .cost = ARENA_ARRAY(a, double, runs),
        .work = ARENA_ARRAY(a, double, runs),
        .out_of_money = ARENA_ARRAY(a, uint8_t, runs),
        .condition = ask->conditions ? ask->conditions
                                     : ARENA_ARRAY(a, uint8_t, runs * (size_t)p->n_components),
    };
    for (int h = 0; h < HOLD_COUNT; h++) out.hang[h] = ARENA_ARRAY(a, float, runs);
    if (ask->detail) {
        out.start = ARENA_ARRAY(a, int32_t, runs * (size_t)p->n_jobs);
        out.end = ARENA_ARRAY(a, int32_t, runs * (size_t)p->n_jobs);
        out.critical = ARENA_ARRAY(a, uint8_t, runs * (size_t)p->n_jobs);
        out.held = ARENA_ARRAY(a, uint8_t, runs * (size_t)p->n_jobs);
        out.order_by = ARENA_ARRAY(a, int32_t, runs * (size_t)p->n_parts);
        out.fired = ARENA_ARRAY(a, uint8_t, runs * (size_t)p->n_setbacks);
        out.month = ARENA_ARRAY(a, float, runs *FORECAST_MONTHS);
    }
    int threads = ask->threads > 0 ? ask->threads : parallel_processors();
    struct crew crew = {.p = p, .b = b, .d = d, .ask = ask, .out = &out};
    assert(!(ask->finish_only && ask->detail));
    if (ask->finish_only && !p->purse.open) crew.must = must_be_done(a, p);
    crew.purse = purse_in_all(&p->purse);
    crew.tops = ARENA_ARRAY(a, struct bench_top, threads);
    for (int i = 0; i < threads; i++) {
        struct bench_top *t = &crew.tops[i];
        t->desk = desk_new(a, d);
        t->drawn = drawn_new(a, p);
        t->drawn.given = ask->conditions != NULL;
        t->schedule.start = ARENA_ARRAY(a, int32_t, p->n_jobs);
        t->schedule.finish = ARENA_ARRAY(a, int32_t, p->n_jobs);
        if (ask->detail) t->schedule.held = ARENA_ARRAY(a, uint8_t, p->n_jobs);
        if (ask->detail) t->schedule.orders = ARENA_ARRAY(a, struct order_placed, 2 * p->n_jobs);
        t->critical = ARENA_ARRAY(a, uint8_t, p->n_jobs);
        t->part_by = ARENA_ARRAY(a, int32_t, p->n_parts);
    }
    parallel_for(runs, CHUNK, threads, work_runs, &crew);
    return out;
}
