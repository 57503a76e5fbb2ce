/* quantile.h - what a sample of runs says: quantiles, mean, spread, and how sure the mean is.
 *
 * Definition: the p-quantile of n values is the smallest of them that at least p of the n do not
 * exceed, i.e. the value of rank ceil(n p): an outcome that a run really had, never one between
 * two. Published: definition 1 of R. J. Hyndman & Y. Fan, "Sample quantiles in statistical
 * packages", The American Statistician 50 (1996) 361-365.
 *
 * A value may be +infinity (a run that never finishes), which sorts last: a p80 of infinity says
 * that fewer than 80 % of the runs finish. NaN and -infinity are faults. */
#ifndef RECKON_QUANTILE_H
#define RECKON_QUANTILE_H

#include "base/arena.h"

/* Selection in O(n) on average; reorders the sample. n >= 1, 0 < p <= 1. */
double quantile_of(double *sample, size_t n, double p);

struct quantiles {
    double p10, p50, p80, p90;
    double mean, sd; /* sd with n - 1; both +infinity if any value is */
    double error;    /* standard error of the mean: sd / sqrt(n) */
    double finite;   /* share of the values that are finite */
};

/* Leaves the sample as it is. n >= 1; sd and error are 0 for n = 1. */
struct quantiles quantiles_of(const double *sample, size_t n, struct arena scratch);

#endif
