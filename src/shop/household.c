#include "shop/household.h"

#include "model/facts_worth.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const size_t ROOM_BYTES = (size_t)1 << 30; /* address space only */

/* FULL_VEHICLES are reckoned with all runs, more share as many. The coming months are narrower than
 * a finish, so fewer runs tell them: the 80 % figure to about a fortieth of its rank at 400. */
enum {
    FULL_VEHICLES = 8,
    RUNS_LEAST = 200,
    NEAR_RUNS = 400,
    NEAR_LEAST = 100,
    AFTERNOON = 16 * 60
};

/* What happens before `until`, by run over all vehicles. */
struct near {
    int runs;
    double *money;
    int n_sessions; /* of the garage's calendar that begin before `until` */
    uint8_t *used;  /* [run * n_sessions + session] */
};

static int32_t limit_of(const struct household *out)
{
    return (int32_t)(out->until - out->first) * MINUTES_A_DAY;
}

/* ---- the coming months ---- */

static struct near near_new(struct arena *a, const struct household *out,
                            const struct calendar *calendar, int runs)
{
    struct near near = {.runs = runs, .money = ARENA_ARRAY(a, double, runs)};
    while (near.n_sessions < calendar->n_sessions &&
           calendar->sessions[near.n_sessions].start < limit_of(out))
        near.n_sessions++;
    near.used = ARENA_ARRAY(a, uint8_t, (size_t)runs * (size_t)near.n_sessions);
    return near;
}

static void add_near(struct arena scratch, const struct shop_ask *ask, const struct household *out,
                     const struct reckoned *r, struct near *near)
{
    const struct project *p = &r->model.project;
    struct drawn drawn = drawn_new(&scratch, p);
    struct desk *desk = desk_new(&scratch, r->dispatch);
    struct schedule s = {.stints = ARENA_ARRAY(&scratch, struct stint, dispatch_most_stints(p)),
                         .orders = ARENA_ARRAY(&scratch, struct order_placed, 2 * p->n_jobs),
                         .start = ARENA_ARRAY(&scratch, int32_t, p->n_jobs),
                         .finish = ARENA_ARRAY(&scratch, int32_t, p->n_jobs)};
    for (int run = 0; run < near->runs; run++) {
        double work;
        draw_run(p, &r->belief, ask->seed, (uint32_t)run, -1, &drawn, &work);
        /* What comes after the sessions that were drawn is not asked: they reach past `until`. */
        dispatch_run(r->dispatch, desk, &drawn, &s, NULL);
        for (int i = 0; i < s.n_orders; i++)
            if (s.orders[i].ordered < limit_of(out)) near->money[run] += s.orders[i].price;
        for (int i = 0; i < s.n_stints; i++) {
            int session = r->model.session_of[s.stints[i].session];
            if (session < near->n_sessions)
                near->used[(size_t)run * (size_t)near->n_sessions + (size_t)session] = 1;
        }
    }
}

static bool is_weekend(day d)
{
    return day_of_week(d) >= 5;
}

/* How many days on weekdays, and how many weekends, have a session of which used[] says so; used
 * NULL: that there are at all. */
static void count_days(const struct household *out, const struct calendar *calendar,
                       const uint8_t *used, int n, int *weekdays, int *weekends)
{
    day last_day = DAY_NONE, last_saturday = DAY_NONE;
    *weekdays = *weekends = 0;
    for (int i = 0; i < n; i++) {
        if (used && !used[i]) continue;
        const day d = out->first + calendar->sessions[i].start / MINUTES_A_DAY;
        if (!is_weekend(d)) {
            *weekdays += d != last_day;
            last_day = d;
            continue;
        }
        const day saturday = d - (day_of_week(d) - 5);
        *weekends += saturday != last_saturday;
        last_saturday = saturday;
    }
}

static struct household_need need_of(double *sample, int n)
{
    return (struct household_need){quantile_of(sample, (size_t)n, 0.5),
                                   quantile_of(sample, (size_t)n, 0.8)};
}

static void sum_near(struct arena scratch, const struct calendar *calendar, const struct near *near,
                     struct household *out)
{
    double *weekdays = ARENA_ARRAY(&scratch, double, near->runs),
           *weekends = ARENA_ARRAY(&scratch, double, near->runs);
    for (int run = 0; run < near->runs; run++) {
        int days, ends;
        count_days(out, calendar, near->used + (size_t)run * (size_t)near->n_sessions,
                   near->n_sessions, &days, &ends);
        weekdays[run] = days;
        weekends[run] = ends;
    }
    out->money = need_of(near->money, near->runs);
    out->weekdays = need_of(weekdays, near->runs);
    out->weekends = need_of(weekends, near->runs);
    count_days(out, calendar, NULL, near->n_sessions, &out->weekdays_planned,
               &out->weekends_planned);
    out->evenings = true;
    for (int i = 0; i < near->n_sessions; i++) {
        const int32_t start = calendar->sessions[i].start;
        if (!is_weekend(out->first + start / MINUTES_A_DAY) && start % MINUTES_A_DAY < AFTERNOON)
            out->evenings = false;
    }
}

/* ---- one vehicle ---- */

static struct quantiles job_end(struct arena scratch, const struct forecast *fc, int job)
{
    double *sample = ARENA_ARRAY(&scratch, double, fc->runs);
    for (int i = 0; i < fc->runs; i++) {
        int32_t end = fc->end[(size_t)job * (size_t)fc->runs + (size_t)i];
        sample[i] = end == NEVER ? (double)INFINITY : end;
    }
    return quantiles_of(sample, (size_t)fc->runs, scratch);
}

static void sum_vehicle(struct arena scratch, const struct reckoned *r,
                        struct household_vehicle *to)
{
    const struct project *p = &r->model.project;
    double *finish = reckoning_finishes(&scratch, &r->forecast);
    to->finish = quantiles_of(finish, (size_t)r->forecast.runs, scratch);
    for (int j = 0; j < p->n_jobs; j++) {
        const struct trade_job *job = &r->model.trade->jobs[r->model.trade_job[j]];
        if (p->jobs[j].finished || (!job->milestone && !p->jobs[j].gate)) continue;
        const struct quantiles end = job_end(scratch, &r->forecast, j);
        if (p->jobs[j].gate) to->gate = job, to->gate_finish = end;
        if (job->milestone && !p->jobs[j].gate && (!to->next || end.p50 < to->next_finish.p50))
            to->next = job, to->next_finish = end;
    }
}

static void sum_orders(const struct facts *facts, struct household *out)
{
    for (int i = 0; i < facts->n_orders; i++) {
        if (facts->orders[i].returned != DAY_NONE) continue; /* and its price with it */
        out->orders++;
        out->unpriced += facts->orders[i].minor < 0;
        if (facts->orders[i].minor > 0) out->spent += facts->orders[i].minor;
    }
    for (int i = 0; i < facts->buy.n_sent; i++) {
        const struct fact_sent *s = &facts->buy.sent[i];
        const double rate = s->deposit > 0 ? facts_minor(facts, s->currency, facts->currency) : 0;
        out->spent += s->deposit * fmax(rate, 0);
    }
}

static void sum_purse(const struct project_purse *purse, struct household *out)
{
    out->purse_open = purse->open;
    out->brought = purse->in_hand;
    out->reserve = purse->reserve;
    for (int i = 0; i < purse->n_paydays && purse->payday[i] < limit_of(out); i++)
        out->brought += purse->pay[i];
}

struct walk {
    struct arena *a;
    struct shop_ask ask;
    struct household *out;
    struct near near;
    struct calendar calendar;
    struct taken *taken;
    struct text names;
    int done, count;
};

static void show_progress(void *context, double share)
{
    const struct walk *w = context;
    w->ask.progress(w->ask.progress_context, (w->done + share) / w->count);
}

/* Facts, model and forecast lie in `room`. */
static bool walk_one_in(struct walk *w, struct arena *room, const char *id,
                        struct household_vehicle *to, struct fail *f)
{
    struct arena *a = w->a;
    struct facts *facts = ARENA_NEW(room, struct facts);
    struct shop_ask ask = w->ask;
    struct household *out = w->out;
    ask.vehicle = id;
    ask.progress = w->ask.progress ? show_progress : NULL;
    ask.progress_context = w;
    if (!facts_read(ask.garage, room, ask.trade, id, facts, f)) return false;
    const int direction = reckoning_direction(facts, ask.trade);
    *to = (struct household_vehicle){.name = arena_copy(a, facts->name),
                                     .direction = &ask.trade->directions[direction],
                                     .decided = facts->direction >= 0};
    sum_orders(facts, out);
    struct fail why = {0};
    struct reckoned *r = ARENA_NEW(room, struct reckoned);
    if (!reckoning_run(room, &ask, facts, w->taken, direction, NULL, true, r, &why)) {
        if (why.kind != FAIL_INPUT) *f = why;
        to->why = arena_copy(a, why.text);
        return why.kind == FAIL_INPUT;
    }
    if (!w->near.money) { /* calendar and purse are the garage's */
        out->first = r->model.first;
        out->currency = arena_copy(a, r->model.currency);
        w->calendar = r->model.calendar;
        int runs =
            NEAR_RUNS * FULL_VEHICLES / (w->count > FULL_VEHICLES ? w->count : FULL_VEHICLES);
        if (runs < NEAR_LEAST) runs = NEAR_LEAST;
        w->near = near_new(a, out, &w->calendar, ask.runs < runs ? ask.runs : runs);
        sum_purse(&r->model.project.purse, out);
    }
    out->reckoned++;
    sum_vehicle(*room, r, to);
    add_near(*room, &ask, out, r, &w->near);
    return true;
}

/* The room is given back, but for the first's, whose calendar serves for all. */
static bool walk_one(struct walk *w, const char *id, struct household_vehicle *to, struct fail *f)
{
    if (!w->near.money) return walk_one_in(w, w->a, id, to, f);
    struct arena room = arena_open(ROOM_BYTES);
    const bool good = walk_one_in(w, &room, id, to, f);
    arena_close(&room);
    return good;
}

bool household_reckon(struct arena *a, const struct shop_ask *ask, struct household *out,
                      struct fail *f)
{
    struct walk w = {.a = a, .ask = *ask, .out = out, .names = {.arena = a}};
    const char **ids;
    if (!reckoning_ranked(a, ask->garage, NULL, &ids, &w.count, f)) return false;
    if (w.count > FULL_VEHICLES) w.ask.runs = ask->runs * FULL_VEHICLES / w.count;
    if (w.ask.runs < RUNS_LEAST) w.ask.runs = ask->runs < RUNS_LEAST ? ask->runs : RUNS_LEAST;
    *out = (struct household){.as_of = ask->today,
                              .first = ask->today,
                              .until = day_add_months(ask->today, HOUSEHOLD_MONTHS),
                              .seed = ask->seed,
                              .runs = w.ask.runs,
                              .currency = "",
                              .purse_open = true};
    out->vehicles = ARENA_ARRAY(a, struct household_vehicle, w.count);
    for (; w.done < w.count; w.done++) {
        struct household_vehicle *to = &out->vehicles[out->n_vehicles++];
        if (!walk_one(&w, ids[w.done], to, f)) return false;
        /* After one that cannot be reckoned nothing is known of what is left for the others. */
        if (!to->why && w.done + 1 < w.count &&
            !reckoning_reserve(a, &w.ask, ids[w.done], &w.taken, &w.names, f))
            return false;
    }
    if (w.near.money) sum_near(*a, &w.calendar, &w.near, out);
    return true;
}
