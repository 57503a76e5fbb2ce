/* plan_chart.h - the curves of a plan: how the odds of being done rise with the date, and how money
 * comes and goes. */
#ifndef SHOP_PLAN_CHART_H
#define SHOP_PLAN_CHART_H

#include "shop/plan.h"

/* From finishes (+infinity: never), which it puts in order: the moment by which share
 * i / (PLAN_FAN - 1) of the runs is done. */
void plan_fan(double *finishes, int runs, double fan[PLAN_FAN]);
/* Fills fan, and what the months so far brought and took; months and totals are there already. */
void plan_chart(struct arena *a, const struct forecast *fc, struct plan *out);

#endif
