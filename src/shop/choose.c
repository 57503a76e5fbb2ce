#include "shop/choose.h"

#include "base/parallel.h"
#include "base/random.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Bands are refitted for so many looks at most: the rest explain too little to matter. */
enum { LOOKS_CLOSE = 32, LOOK_SCRATCH = 1 << 26 };

struct choosing {
    struct arena *a;
    const struct shop_ask *ask;
    const struct facts *facts;
    const struct taken *taken;
    struct choose *out;
    struct reckoned *r; /* by direction */
    double *net;        /* [direction * runs + run], those with a known worth, packed */
    int *net_of;        /* packed index -> direction */
    int n_nets;
    double *worth_now; /* by run */
};

/* Worth of a direction and worth today share the market: half of the variance of each (practice).
 */
static const double MARKET_SHARE = 0.5;

static void draw_worth(const struct choosing *x, struct points p, const char *of, double *worth)
{
    uint64_t market = text_hash("worth"), own = text_hash(arena_print(x->a, "worth/%s", of));
    for (int i = 0; i < x->ask->runs; i++) {
        struct philox m = random_words(x->ask->seed, market, (uint32_t)i, 0);
        struct philox o = random_words(x->ask->seed, own, (uint32_t)i, 0);
        worth[i] = points_draw(p, sqrt(MARKET_SHARE) * random_normal(m.word[0]) +
                                      sqrt(1 - MARKET_SHARE) * random_normal(o.word[0]));
    }
}

static const struct fact_worth *worth_of(const struct facts *facts, const char *direction)
{
    static const char *const names[] = {"now", "preserve", "drive", "restore", "modify", "sell"};
    for (int i = 1; i < WORTH_COUNT; i++) {
        if (!text_is(names[i], direction)) continue;
        /* Sold as it stands it fetches what it is worth now, unless another figure was told. */
        if (i == WORTH_SELL && !facts->worth[i].set) return &facts->worth[WORTH_NOW];
        return &facts->worth[i];
    }
    return NULL;
}

static bool usable(const struct choosing *x, const struct fact_worth *w)
{
    return w && w->set && text_is(w->currency, x->out->currency);
}

static void sum_net(struct choosing *x, int d)
{
    struct choose_direction *to = &x->out->directions[d];
    const struct forecast *fc = &x->r[d].forecast;
    const struct fact_worth *w = worth_of(x->facts, to->direction->head.id);
    if (!usable(x, w) || !x->out->worth_now_known) return;
    to->worth_known = true;
    to->worth = w->minor;
    double *net = x->net + (size_t)x->n_nets * (size_t)fc->runs;
    const char *of = w == &x->facts->worth[WORTH_NOW] ? "now" : to->direction->head.id;
    draw_worth(x, w->minor, of, net);
    int ahead = 0;
    for (int i = 0; i < fc->runs; i++) {
        net[i] -= fc->cost[i] + fc->work[i] / 60 * x->out->own_rate;
        ahead += net[i] > x->worth_now[i];
    }
    to->net = quantiles_of(net, (size_t)fc->runs, *x->a);
    to->chance_ahead = (double)ahead / fc->runs;
    x->net_of[x->n_nets++] = d;
}

static bool reckon_direction(struct choosing *x, int d, struct fail *f)
{
    struct choose_direction *to = &x->out->directions[d];
    struct reckoned *r = &x->r[d];
    if (!reckoning_run(x->a, x->ask, x->facts, x->taken, d, d > 0 ? &x->r[0].belief : NULL, false,
                       r, f))
        return false;
    const struct forecast *fc = &r->forecast;
    size_t runs = (size_t)fc->runs;
    double *hours = ARENA_ARRAY(x->a, double, runs);
    for (size_t i = 0; i < runs; i++) hours[i] = fc->work[i] / 60;
    to->direction = &x->ask->trade->directions[d];
    to->decided = x->facts->direction == d;
    to->cost = quantiles_of(fc->cost, runs, *x->a);
    to->finish = quantiles_of(reckoning_finishes(x->a, fc), runs, *x->a);
    to->never = 1 - to->finish.finite;
    to->hours = quantiles_of(hours, runs, *x->a);
    for (int j = 0; j < r->model.project.n_jobs; j++)
        to->jobs += !r->model.project.jobs[j].finished;
    return true;
}

/* Which direction is best in each run, and on the mean. */
static void compare(struct choosing *x)
{
    struct choose *out = x->out;
    int runs = x->ask->runs;
    out->compared = x->n_nets >= 2;
    out->leading = reckoning_direction(x->facts, x->ask->trade);
    if (!out->compared) return;
    int *best = ARENA_ARRAY(x->a, int, x->n_nets);
    for (int i = 0; i < runs; i++) {
        int at = 0;
        for (int n = 1; n < x->n_nets; n++)
            if (x->net[(size_t)n * (size_t)runs + (size_t)i] >
                x->net[(size_t)at * (size_t)runs + (size_t)i])
                at = n;
        best[at]++;
    }
    out->leading = x->net_of[0];
    for (int n = 0; n < x->n_nets; n++) {
        struct choose_direction *d = &out->directions[x->net_of[n]];
        d->chance_best = (double)best[n] / runs;
        if (d->net.mean > out->directions[out->leading].net.mean) out->leading = x->net_of[n];
    }
}

static int by_worth(const void *a, const void *b)
{
    const struct choose_look *x = a, *y = b;
    if (x->worth.tells != y->worth.tells) return x->worth.tells ? -1 : 1;
    double wx = x->worth.tells ? x->worth.gain / x->minutes : x->money / x->minutes;
    double wy = y->worth.tells ? y->worth.gain / y->minutes : y->money / y->minutes;
    if (wx != wy) return wx > wy ? -1 : 1;
    return strcmp(x->component, y->component);
}

/* A run that never finishes counts as the end of the calendar, so that bands are finite. */
static double *finite_days(struct choosing *x, const struct reckoned *r)
{
    const struct project *p = &r->model.project;
    int32_t end = p->sessions[p->n_sessions - 1].end;
    double *days = ARENA_ARRAY(x->a, double, r->forecast.runs);
    for (int i = 0; i < r->forecast.runs; i++)
        days[i] =
            (double)(r->forecast.finish[i] == NEVER ? end : r->forecast.finish[i]) / MINUTES_A_DAY;
    return days;
}

/* ---- looks ---- */

/* Share of a column's variance that lies between the groups of a look: quick, to find whom to
 * examine closely. */
static double explained(const int *shows, const double *column, int runs)
{
    double sum[COND_COUNT] = {0}, all = 0, squares = 0, between = 0;
    int n[COND_COUNT] = {0};
    for (int i = 0; i < runs; i++) {
        sum[shows[i]] += column[i];
        n[shows[i]]++;
        all += column[i];
        squares += column[i] * column[i];
    }
    double mean = all / runs, total = squares - runs * mean * mean;
    for (int c = 0; c < COND_COUNT; c++)
        if (n[c] > 0) between += n[c] * (sum[c] / n[c] - mean) * (sum[c] / n[c] - mean);
    return total > 0 ? between / total : 0;
}

/* What all looks share. Each is weighed alone, so that threads can share them out. */
struct weighing {
    const struct choosing *x;
    const struct reckoned *r; /* of the leading direction */
    const double *days;
    const int *component;  /* by look */
    const int *close;      /* looks to examine closely */
    struct arena *scratch; /* by worker */
};

static int *shows_of(const struct weighing *w, struct arena *a, int look)
{
    int runs = w->x->ask->runs;
    int *shows = ARENA_ARRAY(a, int, runs);
    const uint8_t *drawn = w->r->forecast.condition + (size_t)w->component[look] * (size_t)runs;
    for (int i = 0; i < runs; i++) shows[i] = drawn[i];
    return shows;
}

static void weigh_worth(void *context, size_t from, size_t to, int worker)
{
    const struct weighing *w = context;
    const struct choosing *x = w->x;
    for (size_t i = from; i < to; i++) {
        struct arena a = w->scratch[worker];
        struct choose_look *l = &x->out->looks[i];
        struct look look = {
            .runs = x->ask->runs, .shows = shows_of(w, &a, (int)i), .outcomes = COND_COUNT};
        if (x->out->compared) l->worth = look_worth_of(&look, x->net, x->n_nets, a);
        l->explained = explained(look.shows, w->days, look.runs) +
                       explained(look.shows, w->r->forecast.cost, look.runs);
    }
}

static void weigh_narrowing(void *context, size_t from, size_t to, int worker)
{
    const struct weighing *w = context;
    for (size_t i = from; i < to; i++) {
        struct arena a = w->scratch[worker];
        struct choose_look *l = &w->x->out->looks[w->close[i]];
        struct look look = {
            .runs = w->x->ask->runs, .shows = shows_of(w, &a, w->close[i]), .outcomes = COND_COUNT};
        struct look_narrowing date = look_narrowing_of(&look, w->days, a);
        struct look_narrowing bill = look_narrowing_of(&look, w->r->forecast.cost, a);
        l->days = date.worth.tells ? date.worth.gain : 0;
        l->money = bill.worth.tells ? bill.worth.gain : 0;
        l->narrows = date.worth.tells || bill.worth.tells;
    }
}

/* The looks that explain the most per minute, and those that tell something of the choice. */
static int closest(struct choosing *x, int *close)
{
    const struct choose *out = x->out;
    uint8_t *taken = ARENA_ARRAY(x->a, uint8_t, out->n_looks);
    int n = 0;
    for (int i = 0; i < out->n_looks; i++)
        if (out->looks[i].worth.tells) taken[close[n++] = i] = 1;
    while (n < LOOKS_CLOSE && n < out->n_looks) {
        int best = -1;
        for (int i = 0; i < out->n_looks; i++)
            if (!taken[i] && out->looks[i].leads &&
                (best < 0 || out->looks[i].explained / out->looks[i].minutes >
                                 out->looks[best].explained / out->looks[best].minutes))
                best = i;
        if (best < 0) break;
        taken[close[n++] = best] = 1;
    }
    return n;
}

/* Components on which a job or a setback hangs: 2 in the leading direction, 1 in another only. The
 * others (0) would tell only of the vehicle's general state, and a hub cap is no place to learn
 * that. */
static uint8_t *depended_on(struct choosing *x)
{
    uint8_t *used = ARENA_ARRAY(x->a, uint8_t, x->r[0].model.project.n_components);
    for (int d = 0; d < x->out->n_directions; d++) {
        const struct project *p = &x->r[d].model.project;
        for (int i = 0; i < p->n_needs; i++)
            if (used[p->needs[i]] < 2) used[p->needs[i]] = d == x->out->leading ? 2 : 1;
    }
    return used;
}

static void weigh_looks(struct choosing *x)
{
    const uint8_t *used = depended_on(x);
    struct choose *out = x->out;
    const struct reckoned *r = &x->r[out->leading];
    const struct project *p = &r->model.project;
    int *component = ARENA_ARRAY(x->a, int, p->n_components),
        *close = ARENA_ARRAY(x->a, int, p->n_components);
    int threads = x->ask->threads > 0 ? x->ask->threads : parallel_processors();
    struct weighing w = {
        .x = x, .r = r, .days = finite_days(x, r), .component = component, .close = close};
    out->looks = ARENA_ARRAY(x->a, struct choose_look, p->n_components);
    for (int i = 0; i < p->n_components; i++) {
        if (p->components[i].known >= 0) continue;
        out->unseen++;
        if (!used[i]) continue;
        const struct trade_component *kind = &x->ask->trade->components[r->model.component_kind[i]];
        component[out->n_looks] = i;
        struct choose_look *to = &out->looks[out->n_looks++];
        *to = (struct choose_look){.component = p->components[i].id,
                                   .kind = kind,
                                   .leads = used[i] == 2,
                                   .place =
                                       x->ask->trade->places[r->model.component_place[i]].head.name,
                                   .minutes = fmax(kind->look_minutes, 1)};
        belief_odds(&r->belief, p, i, to->odds);
    }
    w.scratch = ARENA_ARRAY(x->a, struct arena, threads);
    for (int i = 0; i < threads; i++) w.scratch[i] = arena_open(LOOK_SCRATCH);
    parallel_for((size_t)out->n_looks, 4, threads, weigh_worth, &w);
    int n = closest(x, close);
    parallel_for((size_t)n, 1, threads, weigh_narrowing, &w);
    for (int i = 0; i < threads; i++) arena_close(&w.scratch[i]);
    for (int i = 0; i < out->n_looks; i++)
        out->any_tells = out->any_tells || out->looks[i].worth.tells;
    qsort(out->looks, (size_t)out->n_looks, sizeof *out->looks, by_worth);
}

bool choose_reckon(struct arena *a, const struct shop_ask *ask, struct choose *out, struct fail *f)
{
    const struct trade *t = ask->trade;
    struct facts *facts = ARENA_NEW(a, struct facts);
    struct taken *taken;
    *out = (struct choose){.as_of = ask->today, .seed = ask->seed, .runs = ask->runs};
    if (!facts_read(ask->garage, a, t, ask->vehicle, facts, f)) return false;
    if (!reckoning_taken(a, ask, facts, &taken, &out->after, f)) return false;
    size_t runs = (size_t)ask->runs;
    struct choosing x = {.a = a, .ask = ask, .facts = facts, .taken = taken, .out = out};
    x.r = ARENA_ARRAY(a, struct reckoned, t->n_directions);
    x.net = ARENA_ARRAY(a, double, runs *(size_t)t->n_directions);
    x.net_of = ARENA_ARRAY(a, int, t->n_directions);
    x.worth_now = ARENA_ARRAY(a, double, runs);
    out->vehicle = facts->name;
    out->own_rate = facts->own_rate > 0 ? facts->own_rate : 0;
    out->directions = ARENA_ARRAY(a, struct choose_direction, t->n_directions);
    out->n_directions = t->n_directions;
    for (int d = 0; d < t->n_directions; d++)
        if (!reckon_direction(&x, d, f)) return false;
    const struct model *m = &x.r[reckoning_direction(facts, t)].model;
    out->currency = m->currency;
    out->first = m->first;
    out->notes = m->notes;
    out->n_notes = m->n_notes;
    out->worth_now_known = usable(&x, &facts->worth[WORTH_NOW]);
    if (out->worth_now_known) {
        out->worth_now = facts->worth[WORTH_NOW].minor;
        draw_worth(&x, out->worth_now, "now", x.worth_now);
    }
    for (int d = 0; d < t->n_directions; d++) sum_net(&x, d);
    compare(&x);
    weigh_looks(&x);
    return true;
}
