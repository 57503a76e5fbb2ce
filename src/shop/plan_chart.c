#include "shop/plan_chart.h"

#include <math.h>
#include <stdlib.h>

static int by_size(const void *a, const void *b)
{
    const double *x = a, *y = b;
    return (*x > *y) - (*x < *y);
}

void plan_fan(double *finishes, int runs, double fan[PLAN_FAN])
{
    qsort(finishes, (size_t)runs, sizeof *finishes, by_size);
    for (int i = 0; i < PLAN_FAN; i++) { /* rank ceil(n p), as in quantile.h */
        int rank = (int)ceil((double)runs * i / (PLAN_FAN - 1));
        fan[i] = finishes[rank > 0 ? rank - 1 : 0];
    }
}

/* Quantiles of what a run spent so far, not sums of the months' quantiles, which no run spends. */
static void sum_so_far(struct arena scratch, const struct forecast *fc, struct plan *out)
{
    double *so_far = ARENA_ARRAY(&scratch, double, fc->runs);
    double *sample = ARENA_ARRAY(&scratch, double, fc->runs), brought = 0;
    for (int m = 0; m < out->n_months; m++) {
        struct plan_month *to = &out->months[m];
        for (int i = 0; i < fc->runs; i++)
            sample[i] = so_far[i] += (double)fc->month[(size_t)m * (size_t)fc->runs + (size_t)i];
        to->so_far_p50 = quantile_of(sample, (size_t)fc->runs, 0.5);
        to->so_far_p80 = quantile_of(sample, (size_t)fc->runs, 0.8);
        to->brought = brought += to->pay;
    }
}

void plan_chart(struct arena *a, const struct forecast *fc, struct plan *out)
{
    struct arena scratch = *a;
    plan_fan(reckoning_finishes(&scratch, fc), fc->runs, out->fan);
    sum_so_far(*a, fc, out);
}
