/* tools.h - which tools the plan wants, by when, which are not here, and how each is had at least
 * cost: bought, hired or borrowed; and who knows, who lends, who promised what. */
#ifndef SHOP_TOOLS_H
#define SHOP_TOOLS_H

#include "model/facts_session.h"
#include "reckon/tool_cost.h"
#include "shop/plan.h"

struct tool_offer {
    int tool; /* of the trade data */
    enum tool_way way;
    double minor, a_day; /* in the garage's currency */
    bool counted;        /* false: no rate is known for its currency, so it is left out */
    day until;           /* DAY_NONE: no end told */
    const char *whose;   /* or NULL */
};

/* One tool that likely jobs want. */
struct tool_need {
    int tool;
    enum tool_have have; /* on the day that it is wanted first */
    day by;              /* the first of its spells */
    int n_jobs;
    const struct trade_job *first;
    struct tool_spell *spells; /* days, by the medians of the plan; closer than a week: one */
    int n_spells;
    const struct tool_offer **offers;
    int n_offers;
    struct tool_step *steps; /* over offers, where it is not here; n_steps 0: no way covers it */
    int n_steps;
    double cost; /* minor units; INFINITY: no way is known */
};

struct tool_promise {
    const char *who, *what;
    day by; /* DAY_NONE: no day told */
    bool late;
};

struct tools {
    const struct trade *trade;
    const char *vehicle, *currency;
    day as_of;
    struct tool_need *needs; /* those not here first, by day */
    int n_needs, n_wanting;  /* wanting: not here, or not told */
    double cost;             /* of all that a way is known for */
    struct record *people;
    int n_people;
    struct tool_promise *promises; /* not kept yet; by day */
    int n_promises;
};

enum { TOOL_KEEP_DAYS = 7 };

bool tools_reckon(struct arena *a, const struct shop_ask *ask, struct tools *out, struct fail *f);
const char *tool_way_name(enum tool_way way); /* "buy", "hire", "borrow" */

#endif
