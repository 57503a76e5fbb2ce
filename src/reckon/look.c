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

struct look_worth look_worth_of(const struct look *look, const double *net, int choices,
                                struct arena scratch)
{
    int outcomes = look->outcomes, runs = look->runs;
    const int *counts = count_outcomes(&scratch, look);
    /* By half: net sums [outcome][choice] and [choice], the choice by outcome and without a look.
     */
    double *sum = ARENA_ARRAY(&scratch, double, 2 * outcomes * choices);
    double *all = ARENA_ARRAY(&scratch, double, 2 * choices);
    int *chosen = ARENA_ARRAY(&scratch, int, 2 * outcomes);
    int blind[2];
    double *gain = ARENA_ARRAY(&scratch, double, runs);

    assert(choices >= 1);
    for (int r = 0; r < runs; r++) {
        int group = half_of(r) * outcomes + look->shows[r];
        for (int c = 0; c < choices; c++) {
            double value = net[(size_t)c * (size_t)runs + (size_t)r];
            assert(isfinite(value));
            sum[group * choices + c] += value;
            all[half_of(r) * choices + c] += value;
        }
    }
    for (int h = 0; h < 2; h++) {
        blind[h] = best_of(all + h * choices, choices);
        for (int g = h * outcomes; g < (h + 1) * outcomes; g++) {
            chosen[g] = counts[g] < LOOK_FEWEST ? blind[h] : best_of(sum + g * choices, choices);
        }
    }
    for (int r = 0; r < runs; r++) {
        int other = 1 - half_of(r);
        const double *of_run = net + r;
        gain[r] = of_run[(size_t)chosen[other * outcomes + look->shows[r]] * (size_t)runs] -
                  of_run[(size_t)blind[other] * (size_t)runs];
    }
    return worth_of_gains(gain, runs, scratch);
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
