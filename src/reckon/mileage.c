#include "reckon/mileage.h"

#include "base/random.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { SCALES = 256 };

/* A beta density at `share` of 0..1, its mean `mean`; parameters of at least 1, for a paper of the
 * last week may well show the last reading. `scale`: 1 / B(a, b) by mean, see make_scales. */
static double beta(const double scale[SCALES + 1], double share, double mean, double steady)
{
    if (share < 0 || share > 1) return 0;
    double a = fmax(steady * mean, 1), b = fmax(steady * (1 - mean), 1);
    double x = fmin(fmax(share, 1e-3), 1 - 1e-3), at = mean * SCALES;
    int low = (int)at;
    double factor =
        low >= SCALES ? scale[SCALES] : scale[low] + (at - low) * (scale[low + 1] - scale[low]);
    return factor * exp((a - 1) * log(x) + (b - 1) * log1p(-x));
}

static const double *make_scales(struct arena *a, double steady)
{
    double *scale = ARENA_ARRAY(a, double, SCALES + 1);
    for (int i = 0; i <= SCALES; i++) {
        double mean = (double)i / SCALES;
        double p = fmax(steady * mean, 1), q = fmax(steady * (1 - mean), 1);
        scale[i] = tgamma(p + q) / (tgamma(p) * tgamma(q));
    }
    return scale;
}

/* What is asked, and what is made once for it. */
struct asking {
    const struct mileage_ask *ask;
    const double *scale;
};

/* The density of having run `miles` by `years`, when `all` were run by `end`. */
static double by_then(const struct asking *by, double miles, double years, double all, double end)
{
    if (all <= 0 || end <= 0) return 0;
    return beta(by->scale, miles / all, fmin(fmax(years / end, 0.02), 0.98), by->ask->steady) / all;
}

/* Papers first .. end - 1 read off one clock that is true but for its turns, at times of that
 * clock: years during which it ran. `before[i][j]`: density of those before i, right or wrong,
 * where i is right and the clock had turned j times by then; what came after does not matter to it.
 */
struct chain {
    const struct asking *by;
    int first, end;
    double time[MILEAGE_PAPERS_MOST], finish;
    double before[MILEAGE_PAPERS_MOST][MILEAGE_TURNS_MOST + 1];
};

static double shown(const struct mileage_ask *ask, int paper, int turns)
{
    return ask->papers[paper].reading + turns * ask->turn;
}

/* Density of papers first .. end - 1 when the clock's own miles were `all` at `time`. */
static double chain_to(const struct chain *c, int end, double all, double time)
{
    const struct mileage_ask *ask = c->by->ask;
    const double wrong = ask->wrong / ask->turn;
    double density = 0, skipped = 1;
    for (int i = end - 1; i >= c->first; i--) {
        double right = 0;
        for (int j = 0; j <= MILEAGE_TURNS_MOST && shown(ask, i, j) <= all; j++)
            if (c->before[i][j] > 0)
                right += c->before[i][j] * by_then(c->by, shown(ask, i, j), c->time[i], all, time);
        density += skipped * (1 - ask->wrong) * right;
        skipped *= wrong;
    }
    return density + skipped;
}

static double chain_whole(const struct chain *c, double all)
{
    return chain_to(c, c->end, all, c->finish);
}

/* A clock that came at `start` and did not run from `stood` to `again`. */
static void chain_make(const struct asking *by, int first, double start, double stood, double again,
                       struct chain *c)
{
    const struct mileage_ask *ask = by->ask;
    c->by = by;
    c->first = first;
    c->end = ask->n_papers;
    c->finish = ask->years - start - (again - stood);
    for (int i = first; i < c->end; i++) {
        double years = fmin(ask->papers[i].years, ask->years);
        c->time[i] = years - start - (fmin(fmax(years, stood), again) - stood);
        for (int j = 0; j <= MILEAGE_TURNS_MOST; j++)
            c->before[i][j] = chain_to(c, i, shown(ask, i, j), c->time[i]);
    }
}

/* ---- stories ---- */

enum {
    CELLS = 250,
    MOMENTS = 12, /* at which a clock may have been changed, even in time */
    STRETCHES = 8 /* of life, during some of which it may have stood */
};

struct weighing {
    const struct mileage_ask *ask;
    struct asking by;
    struct mileage *out;
    double log_median;
    struct chain *whole; /* all papers, off the first clock */
};

static void add(struct mileage *m, enum mileage_story story, int turns, double miles, double chance)
{
    if (!(chance > 0) || miles > MILEAGE_MOST) return;
    m->points[m->n_points] = (struct mileage_point){story, turns, miles};
    m->chance[m->n_points++] = chance;
}

/* Prior density of true miles. */
static double density_of(const struct weighing *w, double miles)
{
    double z = (log(fmax(miles, 1)) - w->log_median) / w->ask->a_year_spread;
    return exp(-0.5 * z * z) / (fmax(miles, 1) * w->ask->a_year_spread * 2.5066282746310002);
}

static double chance_of_cell(const struct weighing *w, int cell)
{
    double low = cell * MILEAGE_CELL, high = low + MILEAGE_CELL, s = w->ask->a_year_spread;
    double below = cell == 0 ? 0 : normal_cdf((log(low) - w->log_median) / s);
    return normal_cdf((log(high) - w->log_median) / s) - below;
}

static void true_clock(const struct weighing *w, double chance)
{
    for (int k = 0; k <= MILEAGE_TURNS_MOST; k++) {
        double miles = w->ask->reading + k * w->ask->turn;
        add(w->out, STORY_TRUE, k, miles,
            chance * density_of(w, miles) * chain_whole(w->whole, miles));
    }
}

/* It stood for one stretch of its life after another, any run of them but all; short ones are
 * likelier, for there are more of them. */
static void stood_still(struct arena scratch, const struct weighing *w, double chance)
{
    const struct mileage_ask *ask = w->ask;
    const double stretch = ask->years / STRETCHES;
    const int pairs = STRETCHES * (STRETCHES + 1) / 2 - 1;
    struct chain *c = ARENA_NEW(&scratch, struct chain);
    double papers[STRETCHES][MILEAGE_TURNS_MOST + 1] = {{0}};
    for (int gap = 1; gap < STRETCHES; gap++)
        for (int from = 0; from + gap <= STRETCHES; from++) {
            chain_make(&w->by, 0, 0, from * stretch, (from + gap) * stretch, c);
            for (int k = 0; k <= MILEAGE_TURNS_MOST; k++)
                papers[gap][k] += chain_whole(c, ask->reading + k * ask->turn) / pairs;
        }
    for (int k = 0; k <= MILEAGE_TURNS_MOST; k++) {
        double counted = ask->reading + k * ask->turn;
        for (int i = (int)(counted / MILEAGE_CELL); i < CELLS; i++) {
            double miles = (i + 0.5) * MILEAGE_CELL, sum = 0;
            for (int gap = 1; gap < STRETCHES; gap++)
                sum += papers[gap][k] *
                       by_then(&w->by, counted, ask->years - gap * stretch, miles, ask->years);
            add(w->out, STORY_STOOD, k, miles, chance * chance_of_cell(w, i) * sum);
        }
    }
}

/* At any moment of its life another clock came in, at 0 or (as often) as it came off another
 * vehicle; setting back is the same. Papers after that are read off the other one. */
static void changed_clock(struct arena scratch, const struct weighing *w, double chance)
{
    const struct mileage_ask *ask = w->ask;
    struct chain *later = ARENA_ARRAY(&scratch, struct chain, MOMENTS);
    double moment[MOMENTS], any[MOMENTS], later_density[MOMENTS];
    for (int m = 0; m < MOMENTS; m++) {
        int at = 0;
        moment[m] = ask->years * (m + 0.5) / MOMENTS;
        while (at < ask->n_papers && ask->papers[at].years <= moment[m]) at++;
        chain_make(&w->by, at, moment[m], ask->years, ask->years, &later[m]);
        later_density[m] = chain_whole(&later[m], ask->reading);
        any[m] = pow(1 / ask->turn, ask->n_papers - at + 1);
    }
    for (int i = 0; i < CELLS; i++) {
        double miles = (i + 0.5) * MILEAGE_CELL, sum = 0, earlier = 1;
        for (int m = 0; m < MOMENTS; m++) {
            if (m == 0 || later[m].first != later[m - 1].first)
                earlier = chain_to(w->whole, later[m].first, miles, ask->years);
            double at_nought =
                later_density[m] *
                by_then(&w->by, ask->reading, ask->years - moment[m], miles, ask->years);
            sum += earlier * (at_nought + any[m]) / 2 / MOMENTS;
        }
        add(w->out, STORY_CHANGED, 0, miles, chance * chance_of_cell(w, i) * sum);
    }
}

/* Only papers, or nothing at all. */
static void no_clock(const struct weighing *w, bool papers)
{
    for (int i = 0; i < CELLS; i++) {
        double miles = (i + 0.5) * MILEAGE_CELL;
        add(w->out, STORY_NO_CLOCK, 0, miles,
            chance_of_cell(w, i) * (papers ? chain_whole(w->whole, miles) : 1));
    }
}

static double total_of(const struct mileage *m)
{
    double total = 0;
    for (int i = 0; i < m->n_points; i++) total += m->chance[i];
    return total;
}

void mileage_weigh(struct arena *a, const struct mileage_ask *ask, struct mileage *out)
{
    assert(ask->years > 0 && ask->a_year > 0 && ask->a_year_spread > 0 && ask->turn > 0);
    assert(ask->n_papers <= MILEAGE_PAPERS_MOST && ask->changed + ask->stood < 1);
    const int most = (MILEAGE_TURNS_MOST + 1) * (CELLS + 1) + CELLS;
    *out = (struct mileage){.points = ARENA_ARRAY(a, struct mileage_point, most),
                            .chance = ARENA_ARRAY(a, double, most)};
    struct arena scratch = *a;
    struct weighing w = {.ask = ask,
                         .by = {ask, make_scales(&scratch, ask->steady)},
                         .out = out,
                         .log_median = log(ask->a_year * ask->years),
                         .whole = ARENA_NEW(&scratch, struct chain)};
    chain_make(&w.by, 0, 0, ask->years, ask->years, w.whole);
    if (ask->clock) {
        true_clock(&w, 1 - ask->changed - ask->stood);
        changed_clock(scratch, &w, ask->changed);
        stood_still(scratch, &w, ask->stood);
    } else {
        no_clock(&w, true);
    }
    double total = total_of(out);
    if (!(total > 0)) {
        out->impossible = true;
        out->n_points = 0;
        no_clock(&w, false);
        total = total_of(out);
    }
    for (int i = 0; i < out->n_points; i++) out->chance[i] /= total;
}

/* ---- what is asked of it ---- */

struct weighted {
    double miles, weight;
    int point;
};

static int by_miles(const void *a, const void *b)
{
    const struct weighted *x = a, *y = b;
    if (x->miles != y->miles) return x->miles < y->miles ? -1 : 1;
    return x->point - y->point;
}

static const struct weighted *sort_by_miles(struct arena *a, const struct mileage *m,
                                            const double *weight)
{
    struct weighted *sorted = ARENA_ARRAY(a, struct weighted, m->n_points);
    for (int i = 0; i < m->n_points; i++)
        sorted[i] = (struct weighted){m->points[i].miles, weight[i], i};
    qsort(sorted, (size_t)m->n_points, sizeof *sorted, by_miles);
    return sorted;
}

double mileage_quantile(const struct mileage *m, const double *weight, double p,
                        struct arena scratch)
{
    const struct weighted *sorted = sort_by_miles(&scratch, m, weight);
    double sum = 0;
    for (int i = 0; i < m->n_points; i++)
        if ((sum += sorted[i].weight) >= p) return sorted[i].miles;
    return m->n_points > 0 ? sorted[m->n_points - 1].miles : 0;
}

double *mileage_ranks(struct arena *a, const struct mileage *m, const double *weight)
{
    double *rank = ARENA_ARRAY(a, double, m->n_points), sum = 0;
    struct arena scratch = *a;
    const struct weighted *sorted = sort_by_miles(&scratch, m, weight);
    for (int i = 0; i < m->n_points; i++) {
        rank[sorted[i].point] = sum;
        sum += sorted[i].weight;
    }
    return rank;
}

double mileage_of_story(const struct mileage *m, const double *weight, enum mileage_story story,
                        int turns)
{
    double sum = 0;
    for (int i = 0; i < m->n_points; i++)
        if (m->points[i].story == story && (turns < 0 || m->points[i].turns == turns))
            sum += weight[i];
    return sum;
}

int mileage_falls(const struct mileage_paper *papers, int n)
{
    for (int i = 1; i < n; i++)
        if (papers[i].reading < papers[i - 1].reading) return i;
    return -1;
}
