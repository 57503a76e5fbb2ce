#include "reckon/look.h"

#include "reckon/quantile.h"

#include <assert.h>
#include <math.h>

/* Runs are independent, so that any split will do: even and odd ones. */
static int half_of(int run)
{
    return run % 2;
}

/* Runs of each outcome in each half: counts[half * outcomes + outcome]. */
static int *count_outcomes(struct arena *a, const struct look *look)
{
    int *counts = ARENA_ARRAY(a, int, 2 * look->outcomes);
    assert(look->runs >= 2 && look->outcomes >= 1);
    for (int r = 0; r < look->runs; r++) {
        assert(look->shows[r] >= 0 && look->shows[r] < look->outcomes);
        counts[half_of(r) * look->outcomes + look->shows[r]]++;
    }
    return counts;
}

static struct look_worth worth_of_gains(const double *gain, int runs, struct arena scratch)
{
    struct quantiles q = quantiles_of(gain, (size_t)runs, scratch);
    return (struct look_worth){q.mean, q.error, q.mean > 2 * q.error};
}

/* Of equals the first. */
static int best_of(const double *sum, int choices)
{
    int best = 0;
    for (int c = 1; c < choices; c++) {
        if (sum[c] > sum[best]) best = c;
    }
    return best;
}

static int signs_of(const struct look *look)
{
    return look->signs ? look->n_signs : look->outcomes;
}

/* P(sign | outcome). */
static double odds_of(const struct look *look, int outcome, int sign)
{
    return look->signs ? look->signs[outcome * look->n_signs + sign] : outcome == sign;
}

/* What is chosen on one half: blind, and after each sign. */
struct chosen {
    int blind, *after;
};

static struct chosen choose_on_half(struct arena *a, const struct look *look, const double *sum,
                                    const int *counts, int choices)
{
    const int outcomes = look->outcomes, n = signs_of(look);
    struct chosen c = {.after = ARENA_ARRAY(a, int, n)};
    double *weighed = ARENA_ARRAY(a, double, choices), *all = ARENA_ARRAY(a, double, choices);
    for (int g = 0; g < outcomes; g++)
        for (int d = 0; d < choices; d++) all[d] += sum[g * choices + d];
    c.blind = best_of(all, choices);
    for (int s = 0; s < n; s++) {
        double expected = 0; /* runs that would show it */
        for (int d = 0; d < choices; d++) weighed[d] = 0;
        for (int g = 0; g < outcomes; g++) {
            const double p = odds_of(look, g, s);
            expected += p * counts[g];
            for (int d = 0; d < choices && p > 0; d++) weighed[d] += p * sum[g * choices + d];
        }
        c.after[s] = expected < LOOK_FEWEST ? c.blind : best_of(weighed, choices);
    }
    return c;
}

/* Sums of net by [half][outcome][choice]. */
static double *sum_nets(struct arena *a, const struct look *look, const double *net, int choices)
{
    double *sum = ARENA_ARRAY(a, double, 2 * look->outcomes * choices);
    for (int r = 0; r < look->runs; r++) {
        double *to = sum + (half_of(r) * look->outcomes + look->shows[r]) * choices;
        for (int c = 0; c < choices; c++) {
            double value = net[(size_t)c * (size_t)look->runs + (size_t)r];
            assert(isfinite(value));
            to[c] += value;
        }
    }
    return sum;
}

struct look_worth look_worth_of(const struct look *look, const double *net, int choices,
                                struct arena scratch)
{
    const int outcomes = look->outcomes, runs = look->runs;
    const int *counts = count_outcomes(&scratch, look);
    const double *sum = sum_nets(&scratch, look, net, choices);
    double *gain = ARENA_ARRAY(&scratch, double, runs);
    /* By the half that is valued and what is so: how likely each choice is to be taken. */
    double *taken = ARENA_ARRAY(&scratch, double, 2 * outcomes * choices);
    int blind[2];

    assert(choices >= 1);
    for (int h = 0; h < 2; h++) {
        const int other = 1 - h;
        struct chosen c = choose_on_half(&scratch, look, sum + other * outcomes * choices,
                                         counts + other * outcomes, choices);
        blind[h] = c.blind;
        for (int g = 0; g < outcomes; g++)
            for (int s = 0; s < signs_of(look); s++)
                taken[(h * outcomes + g) * choices + c.after[s]] += odds_of(look, g, s);
    }
    for (int r = 0; r < runs; r++) {
        const double *share = taken + (half_of(r) * outcomes + look->shows[r]) * choices;
        const double *of_run = net + r, without = of_run[(size_t)blind[half_of(r)] * (size_t)runs];
        for (int c = 0; c < choices; c++)
            if (share[c] > 0) gain[r] += share[c] * (of_run[(size_t)c * (size_t)runs] - without);
    }
    return worth_of_gains(gain, runs, scratch);
}

/* A column by what is so, less its mean over all runs. */
struct grouped {
    double mean, *sum, *squares;
};

static struct grouped group_column(struct arena *a, const struct look *look, const double *column,
                                   const double *less)
{
    struct grouped g = {.sum = ARENA_ARRAY(a, double, look->outcomes),
                        .squares = ARENA_ARRAY(a, double, look->outcomes)};
    for (int r = 0; r < look->runs; r++) g.mean += (column[r] - (less ? less[r] : 0)) / look->runs;
    for (int r = 0; r < look->runs; r++) {
        const double apart = column[r] - (less ? less[r] : 0) - g.mean;
        g.sum[look->shows[r]] += apart;
        g.squares[look->shows[r]] += apart * apart;
    }
    return g;
}

/* Its mean after a sign and the error of that: the runs weighed by the odds that they show it. */
struct after {
    double mean, error;
};

static struct after mean_after(const struct look *look, int sign, const int *counts,
                               const struct grouped *g)
{
    double weight = 0, sum = 0, squares = 0;
    for (int k = 0; k < look->outcomes; k++) {
        const double p = odds_of(look, k, sign);
        weight += p * counts[k];
        sum += p * g->sum[k];
    }
    const double mean = sum / weight;
    for (int k = 0; k < look->outcomes; k++) {
        const double p = odds_of(look, k, sign);
        squares += p * p * (g->squares[k] - 2 * mean * g->sum[k] + counts[k] * mean * mean);
    }
    return (struct after){g->mean + mean, sqrt(fmax(0, squares)) / weight};
}

void look_signs_of(const struct look *look, const double *net, int choices, int leading,
                   const double *of, struct look_sign *signs, struct arena scratch)
{
    const int outcomes = look->outcomes;
    int *counts = count_outcomes(&scratch, look);
    double *sum = sum_nets(&scratch, look, net, choices);
    double *weighed = ARENA_ARRAY(&scratch, double, choices);
    for (int g = 0; g < outcomes; g++) { /* here the halves are one */
        counts[g] += counts[outcomes + g];
        for (int d = 0; d < choices; d++) sum[g * choices + d] += sum[(outcomes + g) * choices + d];
    }
    struct grouped quantity = {0};
    if (of) quantity = group_column(&scratch, look, of, NULL);
    for (int s = 0; s < signs_of(look); s++) {
        struct arena inner = scratch;
        double expected = 0;
        for (int d = 0; d < choices; d++) weighed[d] = 0;
        for (int g = 0; g < outcomes; g++) {
            const double p = odds_of(look, g, s);
            expected += p * counts[g];
            for (int d = 0; d < choices; d++) weighed[d] += p * sum[g * choices + d];
        }
        signs[s] = (struct look_sign){.chance = expected / look->runs, .choice = leading};
        if (!(expected > 0)) continue;
        if (of) {
            struct after told = mean_after(look, s, counts, &quantity);
            signs[s].mean = told.mean;
            signs[s].error = told.error;
        }
        if (choices < 2 || expected < LOOK_FEWEST) continue;
        const int best = best_of(weighed, choices);
        if (best == leading) continue;
        struct grouped ahead = group_column(&inner, look, net + (size_t)best * (size_t)look->runs,
                                            net + (size_t)leading * (size_t)look->runs);
        struct after better = mean_after(look, s, counts, &ahead);
        if (better.mean > 2 * better.error) signs[s].choice = best;
    }
}

struct band {
    double low, high;
};

static struct band band_of(double *sample, int n)
{
    return (struct band){quantile_of(sample, (size_t)n, 0.1), quantile_of(sample, (size_t)n, 0.9)};
}

static double interval_score(struct band b, double x)
{
    return b.high - b.low + 10 * (fmax(0, b.low - x) + fmax(0, x - b.high));
}

/* Copies the runs of one half that show `outcome` (-1: all of the half); returns how many. */
static int gather(const struct look *look, const double *quantity, int half, int outcome,
                  double *into)
{
    int n = 0;
    for (int r = 0; r < look->runs; r++) {
        if (half_of(r) == half && (outcome < 0 || look->shows[r] == outcome)) {
            into[n++] = quantity[r];
        }
    }
    return n;
}

struct look_narrowing look_narrowing_of(const struct look *look, const double *quantity,
                                        struct arena scratch)
{
    int outcomes = look->outcomes, runs = look->runs;
    const int *counts = count_outcomes(&scratch, look);
    struct band *known = ARENA_ARRAY(&scratch, struct band, 2 * outcomes), blind[2];
    double *held = ARENA_ARRAY(&scratch, double, runs);
    double *gain = ARENA_ARRAY(&scratch, double, runs);
    struct look_narrowing out = {0};

    for (int r = 0; r < runs; r++) assert(isfinite(quantity[r]));
    for (int h = 0; h < 2; h++) {
        blind[h] = band_of(held, gather(look, quantity, h, -1, held));
        for (int k = 0; k < outcomes; k++) {
            int g = h * outcomes + k;
            known[g] = blind[h];
            if (counts[g] >= LOOK_FEWEST) {
                known[g] = band_of(held, gather(look, quantity, h, k, held));
            }
        }
    }
    for (int r = 0; r < runs; r++) {
        int other = 1 - half_of(r);
        struct band with = known[other * outcomes + look->shows[r]], without = blind[other];
        gain[r] = interval_score(without, quantity[r]) - interval_score(with, quantity[r]);
        out.band += (without.high - without.low) / runs;
        out.band_known += (with.high - with.low) / runs;
    }
    out.worth = worth_of_gains(gain, runs, scratch);
    return out;
}
