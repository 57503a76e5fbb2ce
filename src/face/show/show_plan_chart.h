/* show_plan_chart.h - the charts of a plan. */
#ifndef SHOW_SHOW_PLAN_CHART_H
#define SHOW_SHOW_PLAN_CHART_H

#include "face/show/sheet.h"
#include "shop/plan.h"

/* What lasts in the weeks to come: hands, bay, waits, deliveries. */
void chart_ahead(struct sheet *s, const struct plan *p);
void chart_milestones(struct sheet *s, const struct plan *p);
/* How the odds of being done rise with the date; `other`, if it is not NULL, is a second curve
 * beside it. Marks are those of the first. */
struct fan {
    const char *name; /* for the legend, where there are two */
    day first;        /* day 0 of its moments */
    const double *at; /* PLAN_FAN moments */
};
void chart_fan(struct sheet *s, const struct fan *fan, const struct fan *other);
/* What the purse brings, and what is spent of it, month by month. */
void chart_money(struct sheet *s, const struct plan *p);

#endif
