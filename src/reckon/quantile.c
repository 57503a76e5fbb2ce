#include "reckon/quantile.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static void swap(double *a, double *b)
{
    double held = *a;
    *a = *b;
    *b = held;
}

/* Puts the value of rank k (from 0) at x[k], none larger before it, none smaller behind: C. A. R.
 * Hoare's selection (Comm. ACM 4, 1961), the pivot the median of three. */
static void select_rank(double *x, size_t n, size_t k)
{
    size_t from = 0, to = n - 1;
    while (from < to) {
        size_t middle = from + (to - from) / 2;
        if (x[middle] < x[from]) swap(&x[middle], &x[from]);
        if (x[to] < x[from]) swap(&x[to], &x[from]);
        if (x[to] < x[middle]) swap(&x[to], &x[middle]);
        double pivot = x[middle];
        size_t i = from, j = to;
        for (;;) {
            while (x[i] < pivot) i++;
            while (pivot < x[j]) j--;
            if (i >= j) break;
            swap(&x[i++], &x[j--]);
        }
        /* Now x[from..j] <= pivot <= x[j+1..to], j < to. */
        if (k <= j) {
            to = j;
        } else {
            from = j + 1;
        }
    }
}

/* Rank ceil(n p), from 0. A product such as 100 x 0.07 that comes out a hair above a whole number
 * is that whole number. */
static size_t rank_of(size_t n, double p)
{
    assert(n >= 1 && p > 0 && p <= 1);
    double rank = ceil((double)n * p * (1 - 1e-12));
    return rank < 1 ? 0 : (size_t)rank - 1;
}

double quantile_of(double *sample, size_t n, double p)
{
    size_t k = rank_of(n, p);
    select_rank(sample, n, k);
    return sample[k];
}

struct quantiles quantiles_of(const double *sample, size_t n, struct arena scratch)
{
    static const double levels[] = {0.10, 0.50, 0.80, 0.90};
    double value[4];
    assert(n >= 1);
    double *x = ARENA_ARRAY(&scratch, double, n);
    size_t finite = 0, done = 0;
    double sum = 0, squares = 0;

    memcpy(x, sample, n * sizeof *x);
    for (size_t i = 0; i < n; i++) {
        assert(!isnan(x[i]) && x[i] > -INFINITY);
        if (isfinite(x[i])) finite++;
        sum += x[i];
    }
    /* What lies before a rank that was selected stays before it: each selection starts there. */
    for (size_t q = 0; q < 4; q++) {
        size_t k = rank_of(n, levels[q]);
        select_rank(x + done, n - done, k - done);
        value[q] = x[k];
        done = k;
    }
    struct quantiles out = {value[0], value[1], value[2], value[3], .mean = sum / (double)n};
    out.finite = (double)finite / (double)n;
    if (finite < n) {
        out.sd = out.error = INFINITY;
        return out;
    }
    for (size_t i = 0; i < n; i++) squares += (sample[i] - out.mean) * (sample[i] - out.mean);
    if (n > 1) out.sd = sqrt(squares / (double)(n - 1));
    out.error = out.sd / sqrt((double)n);
    return out;
}
