#include "reckon/ladder.h"

#include <assert.h>
#include <math.h>

/* Levels of stuckness: the binomial of eight tosses, which is the normal to a few per cent, mean 0
 * and deviation 1. */
static const double weight[LADDER_LEVELS] = {1 / 256.,  8 / 256.,  28 / 256., 56 / 256., 70 / 256.,
                                             56 / 256., 28 / 256., 8 / 256.,  1 / 256.};
static double level(int k)
{
    return (k - (LADDER_LEVELS - 1) / 2.0) / sqrt((LADDER_LEVELS - 1) / 4.0);
}

static int power(int step)
{
    int p = 1;
    while (step-- > 0) p *= 3;
    return p;
}

static int digit(ladder_state s, int step)
{
    return s / power(step) % 3;
}

/* Chances by level whose mean under the belief is `works`: the same odds, shifted by stuckness. */
static void fit_step(double works, double stuck, const double *belief, double *cures)
{
    double low = -60, high = 60;
    if (works <= 0 || works >= 1) {
        for (int k = 0; k < LADDER_LEVELS; k++) cures[k] = works >= 1;
        return;
    }
    for (int i = 0; i < 100; i++) {
        const double middle = (low + high) / 2;
        double mean = 0;
        for (int k = 0; k < LADDER_LEVELS; k++) {
            cures[k] = 1 / (1 + exp(stuck * level(k) - middle));
            mean += belief[k] * cures[k];
        }
        if (mean < works)
            low = middle;
        else
            high = middle;
    }
}

static void fail_step(double *belief, const double *cures)
{
    double sum = 0;
    for (int k = 0; k < LADDER_LEVELS; k++) sum += belief[k] *= 1 - cures[k];
    for (int k = 0; k < LADDER_LEVELS && sum > 0; k++) belief[k] /= sum;
}

static void start_belief(double *belief)
{
    for (int k = 0; k < LADDER_LEVELS; k++) belief[k] = weight[k];
}

static void fit_steps(struct ladder_solved *x)
{
    double belief[LADDER_LEVELS];
    start_belief(belief);
    for (int i = 0; i < x->ladder->n; i++) {
        fit_step(x->ladder->steps[i].works, x->ladder->stuck, belief, x->cures[i]);
        fail_step(belief, x->cures[i]);
    }
}

static ladder_state without(const struct ladder *l, ladder_state s, unsigned gone)
{
    for (int i = 0; i < l->n; i++)
        if (gone >> i & 1 && digit(s, i) == 0) s += 2 * power(i);
    return s;
}

ladder_state ladder_start(const struct ladder *l)
{
    return without(l, 0, l->gone);
}

ladder_state ladder_after(const struct ladder *l, ladder_state s, int step, bool worse)
{
    assert(digit(s, step) != 1);
    s += (digit(s, step) == 0 ? 1 : -1) * power(step);
    return without(l, s, l->steps[step].ends | (worse ? l->steps[step].worse_ends : 0));
}

bool ladder_open(const struct ladder *l, ladder_state s, int step)
{
    if (digit(s, step) != 0) return false;
    for (int i = 0; i < l->n; i++)
        if (l->steps[step].needs >> i & 1 && digit(s, i) != 1) return false;
    return true;
}

void ladder_odds(const struct ladder_solved *x, ladder_state s, int step,
                 double odds[LADDER_OUTCOMES])
{
    double belief[LADDER_LEVELS], cured = 0;
    start_belief(belief);
    for (int i = 0; i < x->ladder->n; i++)
        if (digit(s, i) == 1) fail_step(belief, x->cures[i]);
    for (int k = 0; k < LADDER_LEVELS; k++) cured += belief[k] * x->cures[step][k];
    if (x->ladder->steps[step].works >= 1)
        cured = 1; /* to the last bit: what follows may cost
                      without end */
    odds[LADDER_CURED] = fmin(cured, 1);
    odds[LADDER_WORSE] = (1 - odds[LADDER_CURED]) * x->ladder->steps[step].worse;
    odds[LADDER_NO_CHANGE] = fmax(0, 1 - odds[LADDER_CURED] - odds[LADDER_WORSE]);
}

static void solve_state(const struct ladder_solved *x, ladder_state s);

static double cost_from(const struct ladder_solved *x, ladder_state s)
{
    if (isnan(x->cost[s])) solve_state(x, s);
    return x->cost[s];
}

double ladder_cost(const struct ladder_solved *x, ladder_state s, int step)
{
    const struct ladder *l = x->ladder;
    double odds[LADDER_OUTCOMES], cost = l->steps[step].cost;
    ladder_odds(x, s, step, odds);
    if (odds[LADDER_NO_CHANGE] > 0)
        cost += odds[LADDER_NO_CHANGE] * cost_from(x, ladder_after(l, s, step, false));
    if (odds[LADDER_WORSE] > 0)
        cost += odds[LADDER_WORSE] *
                (l->steps[step].worse_cost + cost_from(x, ladder_after(l, s, step, true)));
    return cost;
}

static void solve_state(const struct ladder_solved *x, ladder_state s)
{
    double best = x->ladder->stop;
    int which = LADDER_STOP;
    for (int i = 0; i < x->ladder->n; i++) {
        if (!ladder_open(x->ladder, s, i)) continue;
        const double cost = ladder_cost(x, s, i);
        if (cost >= best) continue;
        best = cost;
        which = i;
    }
    x->cost[s] = best;
    x->best[s] = (signed char)which;
}

struct ladder_solved ladder_solve(struct arena *a, const struct ladder *l)
{
    assert(l->n > 0 && l->n <= LADDER_STEPS);
    const int states = power(l->n);
    struct ladder_solved x = {.ladder = l,
                              .cost = ARENA_ARRAY(a, double, states),
                              .best = ARENA_ARRAY(a, signed char, states)};
    for (int s = 0; s < states; s++) x.cost[s] = (double)NAN;
    fit_steps(&x);
    /* States that cannot be reached are told too: what was tried by hand may be any of them. */
    for (int s = 0; s < states; s++) cost_from(&x, s);
    return x;
}
