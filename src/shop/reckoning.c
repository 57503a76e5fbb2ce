#include "shop/reckoning.h"

#include "garage/kinds.h"
#include "reckon/quantile.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const size_t RESERVE_BYTES = (size_t)1 << 30; /* address space only */

int reckoning_direction(const struct facts *facts, const struct trade *t)
{
    return facts->direction >= 0 ? facts->direction : trade_find_direction(t, "drive");
}

double *reckoning_finishes(struct arena *a, const struct forecast *fc)
{
    double *finish = ARENA_ARRAY(a, double, fc->runs);
    for (int i = 0; i < fc->runs; i++)
        finish[i] = fc->finish[i] == NEVER ? (double)INFINITY : fc->finish[i];
    return finish;
}

bool reckoning_run(struct arena *a, const struct shop_ask *ask, const struct facts *facts,
                   const struct taken *taken, int direction, const struct reckoned *like,
                   bool detail, struct reckoned *out, struct fail *f)
{
    struct model_ask want = {.today = ask->today,
                             .direction = direction,
                             .taken = taken,
                             .like = like ? &like->model : NULL};
    if (!model_make(a, ask->trade, facts, &want, &out->model, f)) return false;
    const struct project *p = &out->model.project;
    out->belief = out->model.belief;
    out->dispatch = dispatch_prepare(a, p, NULL);
    struct forecast_ask how = {.seed = ask->seed,
                               .runs = ask->runs,
                               .threads = ask->threads,
                               .without = -1,
                               .conditions = like ? like->forecast.condition : NULL,
                               .detail = detail,
                               .finish_only = !detail,
                               .progress = ask->progress,
                               .progress_context = ask->progress_context};
    out->forecast = forecast_run(a, p, &out->belief, out->dispatch, &how);
    return true;
}

/* ---- reservations of a better rank ---- */

struct ranked {
    const char *id;
    int rank, age; /* age: the order in which they came */
};

static int by_rank(const void *a, const void *b)
{
    const struct ranked *x = a, *y = b;
    return x->rank != y->rank ? x->rank - y->rank : x->age - y->age;
}

/* The run whose finish is the 80 % one, or, where fewer finish, the slowest that does; -1 if none
 * finishes. */
static int run_at_80(const struct forecast *fc, struct arena scratch)
{
    double *finish = reckoning_finishes(&scratch, fc);
    double *sample = ARENA_ARRAY(&scratch, double, fc->runs);
    memcpy(sample, finish, (size_t)fc->runs * sizeof *sample);
    double want = quantile_of(sample, (size_t)fc->runs, 0.8);
    int best = -1;
    for (int i = 0; i < fc->runs; i++) {
        if (isinf(finish[i]) || finish[i] > want) continue;
        if (best < 0 || finish[i] > finish[best]) best = i;
    }
    return best;
}

static int by_moment(const void *a, const void *b)
{
    const struct taken_order *x = a, *y = b;
    return (x->when > y->when) - (x->when < y->when);
}

/* What the run takes, into `a`; all else in `scratch`. */
static void add_taken(struct arena *a, struct arena scratch, const struct shop_ask *ask,
                      const struct reckoned *r, int run, struct taken *taken)
{
    const struct project *p = &r->model.project;
    struct drawn drawn = drawn_new(&scratch, p);
    double work;
    draw_run(p, &r->belief, ask->seed, (uint32_t)run, -1, &drawn, &work);
    struct schedule s = {.stints = ARENA_ARRAY(&scratch, struct stint, dispatch_most_stints(p)),
                         .orders = ARENA_ARRAY(&scratch, struct order_placed, 2 * p->n_jobs),
                         .start = ARENA_ARRAY(&scratch, int32_t, p->n_jobs),
                         .finish = ARENA_ARRAY(&scratch, int32_t, p->n_jobs)};
    dispatch_run(r->dispatch, desk_new(&scratch, r->dispatch), &drawn, &s, NULL);
    int first_bay = -1, last_bay = -1;
    for (int i = 0; i < s.n_stints; i++) {
        int session = r->model.session_of[s.stints[i].session];
        if (s.stints[i].to > taken->until[session]) taken->until[session] = s.stints[i].to;
        if (!p->jobs[s.stints[i].job].bay) continue;
        if (first_bay < 0 || session < first_bay) first_bay = session;
        if (session > last_bay) last_bay = session;
    }
    /* A vehicle in pieces keeps its bay from the first job there to the last. */
    for (int i = first_bay; i >= 0 && i <= last_bay; i++) taken->bays[i]++;
    struct taken_order *orders = ARENA_ARRAY(a, struct taken_order, taken->n_orders + s.n_orders);
    if (taken->n_orders > 0)
        memcpy(orders, taken->orders, (size_t)taken->n_orders * sizeof *orders);
    for (int i = 0; i < s.n_orders; i++)
        orders[taken->n_orders++] = (struct taken_order){s.orders[i].ordered, s.orders[i].price};
    qsort(orders, (size_t)taken->n_orders, sizeof *orders, by_moment);
    taken->orders = orders;
}

/* In `room`, but for what it takes, which lies in `a`. */
static bool reserve(struct arena *a, struct arena *room, const struct shop_ask *ask,
                    const char *vehicle, struct taken **taken, struct text *names, struct fail *f)
{
    struct facts facts;
    struct reckoned r;
    struct shop_ask other = *ask;
    other.vehicle = vehicle;
    other.runs = ask->runs < 1000
                     ? ask->runs
                     : 1000; /* one run of it is used: its 80 % finish to a few per cent */
    other.progress = NULL;
    if (!facts_read(ask->garage, room, ask->trade, vehicle, &facts, f)) return false;
    if (ask->override) { /* of the garage, not of the vehicle in hand */
        struct override shared = *ask->override;
        shared.direction = -1;
        facts = override_facts(room, &facts, &shared, ask->today);
    }
    int direction = reckoning_direction(&facts, ask->trade);
    if (!reckoning_run(room, &other, &facts, *taken, direction, NULL, false, &r, f)) return false;
    int run = run_at_80(&r.forecast, *room);
    if (run < 0) return true; /* it never ends: it takes nothing that can be told */
    if (!*taken) {
        *taken = ARENA_NEW(a, struct taken);
        (*taken)->n_sessions = r.model.calendar.n_sessions;
        (*taken)->until = ARENA_ARRAY(a, int32_t, r.model.calendar.n_sessions);
        (*taken)->bays = ARENA_ARRAY(a, uint8_t, r.model.calendar.n_sessions);
    }
    add_taken(a, *room, ask, &r, run, *taken);
    text_print(names, "%s%s", names->length > 0 ? ", " : "", facts.name);
    return true;
}

bool reckoning_reserve(struct arena *a, const struct shop_ask *ask, const char *vehicle,
                       struct taken **taken, struct text *names, struct fail *f)
{
    struct arena room = arena_open(RESERVE_BYTES); /* given back: there may be forty of them */
    const bool good = reserve(a, &room, ask, vehicle, taken, names, f);
    arena_close(&room);
    return good;
}

bool reckoning_ranked(struct arena *a, struct garage *g, const char *also, const char ***out,
                      int *count, struct fail *f)
{
    struct record *vehicles;
    int n;
    *count = 0;
    if (!garage_list(g, a, record_kind_find("vehicle"), NULL, &vehicles, &n, f)) return false;
    struct ranked *ranked = ARENA_ARRAY(a, struct ranked, n);
    /* One that is not in the garage takes nothing of those that are. */
    for (int i = 0; i < n; i++)
        if (vehicle_owned(&vehicles[i]) == OWNED_YES || text_is(vehicles[i].id, also))
            ranked[(*count)++] =
                (struct ranked){vehicles[i].id, (int)record_integer(&vehicles[i], "rank", 99), i};
    qsort(ranked, (size_t)*count, sizeof *ranked, by_rank);
    *out = ARENA_ARRAY(a, const char *, *count);
    for (int i = 0; i < *count; i++) (*out)[i] = ranked[i].id;
    return true;
}

bool reckoning_taken(struct arena *a, const struct shop_ask *ask, const struct facts *facts,
                     struct taken **taken, const char **who, struct fail *f)
{
    const char **ids;
    int n;
    struct text names = {.arena = a};
    *taken = NULL;
    *who = NULL;
    if (!reckoning_ranked(a, ask->garage, facts->vehicle_id, &ids, &n, f)) return false;
    for (int i = 0; i < n && !text_is(ids[i], facts->vehicle_id); i++)
        if (!reckoning_reserve(a, ask, ids[i], taken, &names, f)) return false;
    if (names.length > 0) *who = names.s;
    return true;
}
