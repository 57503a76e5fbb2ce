/* plan_shown.h - the plan that is shown: the likely jobs at their middle figures, session by
 * session. */
#ifndef SHOP_PLAN_SHOWN_H
#define SHOP_PLAN_SHOWN_H

#include "shop/plan.h"

/* Fills stints, shown_finish, shown_former, order. The order of the adopted plan is tried beside
 * the rule's, and the one that ends earlier is shown; the schedule is checked by the independent
 * checker before it is. */
bool plan_show(struct arena *a, const struct reckoned *r, const struct facts *facts,
               struct plan *out, struct fail *f);

#endif
