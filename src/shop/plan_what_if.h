/* plan_what_if.h - what a setback costs and what more money wins: the same draws, with and without.
 */
#ifndef SHOP_PLAN_WHAT_IF_H
#define SHOP_PLAN_WHAT_IF_H

#include "shop/plan.h"

/* Fills setbacks (those that cost the most days in expectation) and more_*. */
bool plan_what_ifs(struct arena *a, const struct shop_ask *ask, const struct reckoned *r,
                   const struct taken *taken, struct plan *out, struct fail *f);

#endif
