/* show_plan.h - the plan as a sheet and as JSON. */
#ifndef SHOW_SHOW_PLAN_H
#define SHOW_SHOW_PLAN_H

#include "face/show/sheet.h"
#include "shop/plan.h"

#include <jansson.h>

struct sheet *show_plan(struct arena *a, const struct plan *p);
/* The end of an intake: when, how long, how much, and what the figures rest on. */
struct sheet *show_first_forecast(struct arena *a, const struct plan *p);
json_t *show_plan_json(struct arena *a, const struct plan *p);

#endif
