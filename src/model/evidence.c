#include "model/evidence.h"

#include <math.h>
#include <string.h>

/* Rows of the axis of miles: as many, evenly by the logarithm. */
enum { ROWS = 36, CLOCK_ROWS = 2 };
static const double ROW_LOW = 4000, ROW_HIGH = 500000;
static const double DAYS_A_YEAR = 365.2425;

static double row_miles(int row)
{
    return ROW_LOW * pow(ROW_HIGH / ROW_LOW, (double)row / (ROWS - 1));
}

static int row_of_miles(double miles)
{
    double at = log(fmax(miles, ROW_LOW) / ROW_LOW) / log(ROW_HIGH / ROW_LOW) * (ROWS - 1);
    return at >= ROWS - 1 ? ROWS - 1 : (int)lround(at);
}

/* Odds of an outcome at true miles, even between the bands with the logarithm. */
static double odds_at(const struct trade_outcome *o, double miles)
{
    if (miles <= clue_band_miles[0]) return o->odds[0];
    for (int b = 1; b < CLUE_BANDS; b++) {
        if (miles > clue_band_miles[b]) continue;
        double share =
            log(miles / clue_band_miles[b - 1]) / log(clue_band_miles[b] / clue_band_miles[b - 1]);
        return o->odds[b - 1] + share * (o->odds[b] - o->odds[b - 1]);
    }
    return o->odds[CLUE_BANDS - 1];
}

/* One outcome at a row under a cause; cause NULL: none of them. */
static double odds_of(enum clue_of of, const struct trade_outcome *o, int row,
                      const struct trade_cause *cause)
{
    if (of == CLUE_OF_MILES) return odds_at(o, row_miles(row) * (cause ? cause->looks : 1));
    double second = cause ? cause->looks : row;
    return o->odds[0] + second * (o->odds[1] - o->odds[0]);
}

static int rows_of(enum clue_of of)
{
    return of == CLUE_OF_MILES ? ROWS : CLOCK_ROWS;
}

static const double *table_of(struct arena *a, const struct trade_cluster *k,
                              const struct trade_clue *c)
{
    const int causes = k->n_causes + 1;
    double *table = ARENA_ARRAY(a, double, rows_of(k->of) * causes * c->n_outcomes), *to = table;
    for (int r = 0; r < rows_of(k->of); r++)
        for (int s = 0; s < causes; s++)
            for (int o = 0; o < c->n_outcomes; o++)
                *to++ = odds_of(k->of, &c->outcomes[o], r, s > 0 ? &k->causes[s - 1] : NULL);
    return table;
}

static const double *chances_of(struct arena *a, const struct trade_cluster *k)
{
    double *chance = ARENA_ARRAY(a, double, k->n_causes + 1);
    chance[0] = 1;
    for (int i = 0; i < k->n_causes; i++) chance[0] -= chance[i + 1] = k->causes[i].chance;
    return chance;
}

static bool can_be_looked_at(const struct trade *t, const struct trade_clue *c,
                             const int answers[ANSWER_COUNT])
{
    for (int i = 0; i < c->n_components; i++)
        if (fitted_holds(&t->components[c->components[i]].fitted, answers)) return true;
    return c->n_components == 0;
}

struct collect {
    struct arena *a;
    const struct trade *t;
    const struct facts *facts;
    const int *answers;
};

static int fact_of(const struct facts_clue *past, int clue)
{
    for (int i = 0; i < past->n_clues; i++)
        if (past->clues[i].clue == clue) return i;
    return -1;
}

/* All clues that bear on `of` (and on `also`), with their clusters, over hypotheses that are given.
 */
static void collect(const struct collect *x, enum clue_of of, enum clue_of also,
                    const double *prior, int n, const struct clue_axis *axes, int n_axes,
                    struct evidence *out)
{
    const struct trade *t = x->t;
    struct clue_cluster *clusters = ARENA_ARRAY(x->a, struct clue_cluster, t->n_clusters);
    struct clue *clues = ARENA_ARRAY(x->a, struct clue, t->n_clues);
    int n_clusters = 0, n_clues = 0;
    *out = (struct evidence){.clue_of = ARENA_ARRAY(x->a, int, t->n_clues),
                             .fact_of = ARENA_ARRAY(x->a, int, t->n_clues),
                             .cluster_of = ARENA_ARRAY(x->a, int, t->n_clusters)};
    for (int k = 0; k < t->n_clusters; k++) {
        const struct trade_cluster *cluster = &t->clusters[k];
        if (cluster->of != of && cluster->of != also) continue;
        if (cluster->papers && x->facts->past.n_papers > 0) continue;
        for (int i = 0; i < t->n_clues; i++) {
            int fact = fact_of(&x->facts->past, i);
            if (t->clues[i].cluster != k ||
                (fact < 0 && !can_be_looked_at(t, &t->clues[i], x->answers)))
                continue;
            out->clue_of[n_clues] = i;
            out->fact_of[n_clues] = fact;
            out->told += fact >= 0;
            clues[n_clues++] =
                (struct clue){.cluster = n_clusters,
                              .n_outcomes = t->clues[i].n_outcomes,
                              .table = table_of(x->a, cluster, &t->clues[i]),
                              .seen = fact >= 0 ? x->facts->past.clues[fact].outcome : CLUE_UNSEEN};
        }
        out->cluster_of[n_clusters] = k;
        clusters[n_clusters++] = (struct clue_cluster){.axis = cluster->of == of ? 0 : 1,
                                                       .chance = chances_of(x->a, cluster),
                                                       .n_causes = cluster->n_causes + 1};
    }
    out->problem =
        (struct clue_problem){prior, n, axes, n_axes, clusters, n_clusters, clues, n_clues};
    clue_weigh(x->a, &out->problem, &out->weighed);
}

static void collect_claim(const struct collect *x, enum clue_of of, double holds,
                          struct evidence *out)
{
    static const int rows[] = {0, 1};
    struct clue_axis *axis = ARENA_NEW(x->a, struct clue_axis);
    double *prior = ARENA_ARRAY(x->a, double, 2);
    *axis = (struct clue_axis){2, rows};
    prior[0] = holds;
    prior[1] = 1 - holds;
    collect(x, of, of, prior, 2, axis, 1, out);
}

/* Years as far as miles go: an old vehicle is driven less. */
static double driven_years(const struct figures *g, double years)
{
    if (years < 0) return 0;
    return years <= g->full_years ? years
                                  : g->full_years + (years - g->full_years) * g->later_share;
}

/* When it was built and laid up, as years of our calendar. */
static void life_of(const struct facts *facts, const struct figures *g, struct past *out,
                    double *built, double *laid_up)
{
    double standing = facts->standing >= 0 ? facts->standing : g->standing_if_unknown;
    double told = facts->past.told_year > 0 ? facts->past.told_year + 0.5 : 2000;
    *laid_up = told - standing;
    *built = facts->year > 0 ? facts->year + 0.5 : *laid_up - g->years_in_use;
    out->years_known = facts->year > 0 && facts->standing >= 0;
    if (*built > *laid_up - 0.5) *built = *laid_up - 0.5;
}

static const struct mileage_paper *papers_of(struct arena *a, const struct facts_clue *past,
                                             const struct figures *g, double built, int *n)
{
    struct mileage_paper *papers = ARENA_ARRAY(a, struct mileage_paper, MILEAGE_PAPERS_MOST);
    int from = past->n_papers > MILEAGE_PAPERS_MOST ? past->n_papers - MILEAGE_PAPERS_MOST : 0;
    for (*n = 0; from + *n < past->n_papers; ++*n) {
        const struct fact_paper *p = &past->papers[from + *n];
        double year = (p->date - day_from_civil(2000, 1, 1)) / DAYS_A_YEAR + 2000;
        papers[*n] = (struct mileage_paper){driven_years(g, year - built), p->miles};
    }
    return papers;
}

static double log_spread(struct points p)
{
    const double z90 = 1.2815515655446004;
    return log(p.high / p.low) / (2 * z90);
}

static void ask_of(struct arena *a, const struct facts *facts, const struct figures *g,
                   struct past *out)
{
    const struct fact_clock *clock = &facts->past.clock;
    double built, laid_up;
    life_of(facts, g, out, &built, &laid_up);
    out->miles_unit = clock->km ? MILES_A_KM : 1;
    out->digits = clock->digits > 0 ? clock->digits : (int)g->clock_digits;
    while (clock->digits == 0 && clock->reading >= pow(10, out->digits)) out->digits++;
    out->ask = (struct mileage_ask){
        .years = driven_years(g, laid_up - built),
        .a_year = g->miles_a_year.middle,
        .a_year_spread = log_spread(g->miles_a_year),
        .clock = clock->told,
        .reading = clock->reading * out->miles_unit,
        .turn = pow(10, out->digits) * out->miles_unit,
        .changed = g->clock_changed,
        .stood = clock->working == 1   ? g->clock_stood.low
                 : clock->working == 0 ? g->clock_stood.high
                                       : g->clock_stood.middle,
        .steady = g->mileage_steadiness,
        .wrong = g->paper_wrong,
    };
    out->ask.papers = papers_of(a, &facts->past, g, built, &out->ask.n_papers);
    out->papers_left = facts->past.n_papers - out->ask.n_papers;
    out->usual = out->ask.years * out->ask.a_year;
}

void past_weigh(struct arena *a, const struct trade *t, const struct facts *facts,
                const struct figures *figures, const int answers[ANSWER_COUNT], struct past *out)
{
    *out = (struct past){0};
    ask_of(a, facts, figures, out);
    mileage_weigh(a, &out->ask, &out->mileage);
    const struct mileage *m = &out->mileage;
    int *miles = ARENA_ARRAY(a, int, m->n_points), *clock = ARENA_ARRAY(a, int, m->n_points);
    struct clue_axis *axes = ARENA_ARRAY(a, struct clue_axis, 2);
    for (int i = 0; i < m->n_points; i++) {
        miles[i] = row_of_miles(m->points[i].miles);
        clock[i] = m->points[i].story == STORY_CHANGED;
    }
    axes[0] = (struct clue_axis){ROWS, miles};
    axes[1] = (struct clue_axis){CLOCK_ROWS, clock};
    const struct collect x = {a, t, facts, answers};
    collect(&x, CLUE_OF_MILES, CLUE_OF_CLOCK, m->chance, m->n_points, axes, 2, &out->miles);
    collect_claim(&x, CLUE_OF_IDENTITY, figures->identity_holds, &out->identity);
    collect_claim(&x, CLUE_OF_ORIGINALITY, figures->original_holds, &out->original);
    out->known = out->ask.clock || out->ask.n_papers > 0 || out->miles.told > 0;
}

void past_doublings(const struct past *p, struct arena scratch, double out[DOUBLINGS])
{
    for (int i = 0; i < DOUBLINGS; i++)
        out[i] = log2(fmax(mileage_quantile(&p->mileage, p->miles.weighed.posterior,
                                            (i + 0.5) / DOUBLINGS, scratch),
                           1000) /
                      p->usual);
}

double past_usual_spread(const struct figures *figures)
{
    return log_spread(figures->miles_a_year) / log(2);
}

int past_parts(enum clue_of of)
{
    return of == CLUE_OF_MILES || of == CLUE_OF_CLOCK ? DOUBLINGS : 2;
}

/* Each hypothesis lies in one part of the miles, or across the edge of some. */
const double *past_signs(struct arena *a, const struct past *p, const struct evidence *e, int clue)
{
    const struct clue_problem *q = &e->problem;
    const struct clue_axis *axis = &q->axes[q->clusters[q->clues[clue].cluster].axis];
    const int n = q->clues[clue].n_outcomes;
    double *row = ARENA_ARRAY(a, double, axis->n_rows *n);
    clue_signs(&e->weighed, *a, clue, row);
    if (e != &p->miles) return row; /* its rows are what is so and what is not */
    const double *weight = e->weighed.posterior, *rank = mileage_ranks(a, &p->mileage, weight);
    double *out = ARENA_ARRAY(a, double, DOUBLINGS *n);
    for (int h = 0; h < q->n_hypotheses; h++) {
        const double from = rank[h] * DOUBLINGS, to = from + weight[h] * DOUBLINGS;
        for (int k = (int)from; k < DOUBLINGS && k < to; k++) {
            const double share = fmin(to, k + 1) - fmax(from, k);
            for (int o = 0; o < n; o++) out[k * n + o] += share * row[axis->row_of[h] * n + o];
        }
    }
    for (int k = 0; k < DOUBLINGS; k++) { /* the last digits */
        double sum = 0;
        for (int o = 0; o < n; o++) sum += out[k * n + o];
        for (int o = 0; o < n && sum > 0; o++) out[k * n + o] /= sum;
    }
    return out;
}
