/* pace.h - how the builder works: hours logged against the estimate by kind of work, the share of
 * planned sessions that happen, lay-offs. The plan reckons with the same figures. */
#ifndef SHOP_PACE_H
#define SHOP_PACE_H

#include "shop/reckoning.h"

struct pace_kind {
    const struct trade_system *system; /* NULL: any work */
    int jobs;                          /* finished, with hours */
    double logged, estimated;          /* minutes */
    double factor, low, high;          /* of the next job's middle figure: half, 10 and 90 % */
};

struct pace {
    const struct trade *trade;
    const char *vehicle;
    struct pace_kind all;
    struct pace_kind *kinds; /* those with jobs, the most first */
    int n_kinds, left_out;
    struct habit habit;
    double kept, kept_low, kept_high; /* as the plan uses it; 10 and 90 % */
    double kept_usual, layoffs_usual; /* before anything was logged */
    double layoffs_a_month, layoff_weeks;
};

bool pace_reckon(struct arena *a, const struct shop_ask *ask, struct pace *out, struct fail *f);

#endif
