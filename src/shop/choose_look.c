/* choose_look.c - the unseen components, each weighed by what a look at it could change. */
#include "base/parallel.h"
#include "shop/choose_inside.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Bands are refitted for so many looks at most: the rest explain too little to matter. */
enum { LOOKS_CLOSE = 32, LOOK_SCRATCH = 1 << 26 };

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
        if (x->out->compared) l->worth = look_worth_of(&look, x->value, x->n_values, a);
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

void choose_looks(struct choosing *x)
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
        *to = (struct choose_look){
            .component = p->components[i].id,
            .kind = kind,
            .leads = used[i] == 2,
            .place = x->ask->trade->places[r->model.component_place[i]].head.name,
            .minutes = fmax(kind->look_minutes, 1),
            .shows = r->forecast.condition + (size_t)i * (size_t)r->forecast.runs};
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
