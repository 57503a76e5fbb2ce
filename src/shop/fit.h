/* fit.h - which parts work together and what each drags in: options for all that the plan needs,
 * chosen with their suppliers at the least cost.
 *
 * Need-dates and the price of a late day come from the forecast of the direction; the set is then
 * put into the forecast on the same draws, and solved once more with the dates that follow.
 * `proven` speaks of the choice of parts alone. */
#ifndef SHOP_FIT_H
#define SHOP_FIT_H

#include "model/fit_make.h"
#include "reckon/quantile.h"
#include "shop/reckoning.h"

static const double DAYS_A_MONTH = 30.44;

/* What a day late costs where the builder has not said what a month sooner is worth: common
 * practice is a rent for the place that it takes up. Minor units of the currency. */
double usual_late_day(const struct facts *facts, const struct trade *t, const char *currency);

struct fit_wish {
    int wanted;    /* an option to be taken, or -1 */
    int prefer;    /* an option of which it is asked what it would take; or -1 */
    double budget; /* minor units of currency; -1: none */
    char currency[4];
    bool reversible; /* nothing that cannot be undone */
};

/* What a wish is without one. */
struct fit_wish fit_no_wish(void);

struct fit_chain {
    int need;    /* of the model */
    int option;  /* of the model, chosen */
    int brought; /* option of the model that brought the need, or -1 */
    int depth;   /* 0: asked for by the plan */
};

struct fit_preference {
    int option; /* of the model, not chosen */
    struct fit_flip flip;
};

struct fit_side_by_side {
    struct quantiles finish; /* moments */
    struct quantiles cost;   /* minor units */
};

enum { FIT_NEXT = 2 };

struct fit {
    const struct trade *trade;
    const char *vehicle;
    int direction;
    day as_of, first;
    uint64_t seed;
    int runs;
    const struct facts *facts;
    struct fit_wish wish;
    double late_day, keep_original; /* as used, minor units */
    bool late_assumed;
    struct fit_problem problem;
    struct fit_answer answer;
    bool fits;
    struct fit_chain *chain; /* what was chosen, each need below what brought it */
    int n_chain;
    int *adapters; /* options of the model */
    int n_adapters;
    int *live; /* pairs that count in the answer: misfits that an adapter closes among them */
    int n_live;
    struct fit_answer next[FIT_NEXT];
    int n_next;
    struct fit_clash clash; /* where nothing fits */
    struct fit_preference *preferences;
    int n_preferences;
    struct fit_side_by_side as_is, with; /* the plan before, and with the set */
    int64_t without; /* of a wish for an option: what the best set costs where it need not be in it,
                        or -1 */
    bool again;      /* solved anew with the dates of the first set, and better */
};

bool fit_reckon(struct arena *a, const struct shop_ask *ask, const struct fit_wish *wish,
                struct fit *out, struct fail *f);

#endif
