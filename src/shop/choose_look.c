/* choose_look.c - components not seen and clues not told, each weighed by what it could change. A
 * look shows a component as it is; a clue shows signs, of known odds in each part of what may be
 * true of the vehicle's past. */
#include "base/parallel.h"
#include "shop/choose_inside.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Bands are refitted for so many looks at most: the rest explain too little to matter. */
enum { LOOKS_CLOSE = 32, LOOK_SCRATCH = 1 << 26 };

static const char *name_of(const struct choose_look *l)
{
    return l->clue ? l->clue->head.id : l->component;
}

/* What could change the choice, by its gain a minute; then what moves the bill, by that. */
static int by_worth(const void *a, const void *b)
{
    const struct choose_look *x = a, *y = b;
    if (x->worth.tells != y->worth.tells) return x->worth.tells ? -1 : 1;
    double wx = (x->worth.tells ? x->worth.gain : x->moves) / x->minutes;
    double wy = (y->worth.tells ? y->worth.gain : y->moves) / y->minutes;
    if (wx != wy) return wx > wy ? -1 : 1;
    if (x->money / x->minutes != y->money / y->minutes)
        return x->money / x->minutes > y->money / y->minutes ? -1 : 1;
    return strcmp(name_of(x), name_of(y));
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
    enum clue_of *of;      /* by look: of a clue, what it bears on */
    const double **signs;  /* by look: of a clue, odds of its signs */
    const int *close;      /* looks to examine closely */
    struct arena *scratch; /* by worker */
};

static struct look look_at(const struct weighing *w, struct arena *a, int look)
{
    const struct choose_look *l = &w->x->out->looks[look];
    int runs = w->x->ask->runs;
    if (l->clue)
        return (struct look){runs, w->x->part[w->of[look]], past_parts(w->of[look]), w->signs[look],
                             l->n_signs};
    int *shows = ARENA_ARRAY(a, int, runs);
    for (int i = 0; i < runs; i++) shows[i] = l->shows[i];
    return (struct look){.runs = runs, .shows = shows, .outcomes = COND_COUNT};
}

/* Signs rarer than this are not told of as a swing (practice). Hundreds are tried, so that what
 * they could save, and swing, must be beyond so many errors; and one of the signs must lead
 * elsewhere. */
static const double SIGN_RARE = 0.05, ERRORS = 3;

static void weigh_signs(const struct weighing *w, const struct look *look, struct choose_look *l,
                        struct arena a)
{
    const struct choose *out = w->x->out;
    struct look_sign *signs = ARENA_ARRAY(&a, struct look_sign, l->n_signs);
    int low = -1, high = -1;
    look_signs_of(look, w->x->value, out->compared ? w->x->n_values : 0, out->led_by,
                  w->r->forecast.cost, signs, a);
    bool elsewhere = false;
    for (int s = 0; s < l->n_signs; s++) elsewhere |= signs[s].choice != out->led_by;
    l->worth.tells = elsewhere && l->worth.gain > ERRORS * l->worth.error;
    for (int s = 0; s < l->n_signs; s++) {
        l->signs[s].chance = signs[s].chance;
        l->signs[s].choice = l->worth.tells || !out->compared ? signs[s].choice : out->led_by;
        l->signs[s].bill = signs[s].mean;
        if (signs[s].chance < SIGN_RARE) continue;
        if (low < 0 || signs[s].mean < signs[low].mean) low = s;
        if (high < 0 || signs[s].mean > signs[high].mean) high = s;
    }
    if (low < 0 || !l->leads) return;
    double apart = signs[high].mean - signs[low].mean;
    if (!(apart > ERRORS * hypot(signs[low].error, signs[high].error))) return;
    double mean = 0, variance = 0;
    for (int s = 0; s < l->n_signs; s++) mean += signs[s].chance * signs[s].mean;
    for (int s = 0; s < l->n_signs; s++)
        variance += signs[s].chance * ((signs[s].mean - mean) * (signs[s].mean - mean) -
                                       signs[s].error * signs[s].error);
    l->swing = apart;
    l->moves = sqrt(fmax(0, variance));
}

static void weigh_worth(void *context, size_t from, size_t to, int worker)
{
    const struct weighing *w = context;
    const struct choosing *x = w->x;
    for (size_t i = from; i < to; i++) {
        struct arena a = w->scratch[worker];
        struct choose_look *l = &x->out->looks[i];
        struct look look = look_at(w, &a, (int)i);
        if (x->out->compared) l->worth = look_worth_of(&look, x->value, x->n_values, a);
        weigh_signs(w, &look, l, a);
        if (l->clue) continue;
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
        struct look look = look_at(w, &a, w->close[i]);
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
        if (out->looks[i].worth.tells && !out->looks[i].clue) taken[close[n++] = i] = 1;
    while (n < LOOKS_CLOSE && n < out->n_looks) {
        int best = -1;
        for (int i = 0; i < out->n_looks; i++)
            if (!taken[i] && !out->looks[i].clue && out->looks[i].leads &&
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

static void add_components(struct choosing *x)
{
    const uint8_t *used = depended_on(x);
    struct choose *out = x->out;
    const struct reckoned *r = &x->r[out->leading];
    const struct project *p = &r->model.project;
    for (int i = 0; i < p->n_components; i++) {
        if (p->components[i].known >= 0) continue;
        out->unseen++;
        if (!used[i]) continue;
        const struct trade_component *kind = &x->ask->trade->components[r->model.component_kind[i]];
        struct choose_look *to = &out->looks[out->n_looks++];
        *to = (struct choose_look){
            .component = p->components[i].id,
            .kind = kind,
            .leads = used[i] == 2,
            .place = x->ask->trade->places[r->model.component_place[i]].head.name,
            .how = kind->seen_by,
            .minutes = fmax(kind->look_minutes, 1),
            .n_signs = COND_COUNT,
            .signs = ARENA_ARRAY(x->a, struct choose_sign, COND_COUNT),
            .shows = r->forecast.condition + (size_t)i * (size_t)r->forecast.runs};
        for (int c = 0; c < COND_COUNT; c++)
            to->signs[c].id = to->signs[c].text = condition_name((enum condition)c);
        memcpy(to->odds, r->model.odds[i], sizeof to->odds);
    }
}

static void add_clues(struct choosing *x, const struct evidence *e, struct weighing *w)
{
    const struct trade *t = x->ask->trade;
    struct choose *out = x->out;
    for (int i = 0; i < e->problem.n_clues; i++) {
        const struct trade_clue *clue = &t->clues[e->clue_of[i]];
        if (e->fact_of[i] >= 0) continue;
        w->of[out->n_looks] = t->clusters[clue->cluster].of;
        w->signs[out->n_looks] = past_signs(x->a, &x->past, e, i);
        struct choose_look *to = &out->looks[out->n_looks++];
        *to =
            (struct choose_look){.clue = clue,
                                 .leads = true,
                                 .place = clue->place >= 0 ? t->places[clue->place].head.name : "",
                                 .how = clue->how,
                                 .minutes = fmax(clue->minutes, 1),
                                 .n_signs = clue->n_outcomes,
                                 .signs = ARENA_ARRAY(x->a, struct choose_sign, clue->n_outcomes)};
        for (int o = 0; o < clue->n_outcomes; o++) {
            to->signs[o].id = clue->outcomes[o].id;
            to->signs[o].text = clue->outcomes[o].text;
        }
    }
}

void choose_looks(struct choosing *x)
{
    struct choose *out = x->out;
    const struct reckoned *r = &x->r[out->leading];
    const int most = r->model.project.n_components + x->ask->trade->n_clues;
    int *close = ARENA_ARRAY(x->a, int, most);
    int threads = x->ask->threads > 0 ? x->ask->threads : parallel_processors();
    struct weighing w = {.x = x,
                         .r = r,
                         .days = finite_days(x, r),
                         .of = ARENA_ARRAY(x->a, enum clue_of, most),
                         .signs = ARENA_ARRAY(x->a, const double *, most),
                         .close = close};
    out->looks = ARENA_ARRAY(x->a, struct choose_look, most);
    add_components(x);
    add_clues(x, &x->past.miles, &w);
    add_clues(x, &x->past.identity, &w);
    add_clues(x, &x->past.original, &w);
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
