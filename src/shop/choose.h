/* choose.h - what shall become of it: the directions side by side on the same draws, and the look
 * that could change the choice.
 *
 * net = worth when done - money still to spend - hours x own rate, all in the same run. Worths are
 * the builder's three points; without them money and date are compared and no net is reckoned. */
#ifndef SHOP_CHOOSE_H
#define SHOP_CHOOSE_H

#include "reckon/look.h"
#include "reckon/quantile.h"
#include "shop/reckoning.h"

struct choose_direction {
    const struct trade_direction *direction;
    bool decided;
    struct quantiles cost, finish, hours; /* minor units; moments; hours */
    double never;        /* share of runs that do not finish within the calendar and the purse */
    bool worth_known;    /* the builder gave worth done, and now */
    struct points worth; /* minor units */
    struct quantiles net;
    double chance_ahead; /* P(net > worth today) */
    double chance_best;  /* share of runs in which its net is the largest */
    int jobs;            /* jobs of the direction on this vehicle */
};

struct choose_look {
    const char *component; /* id with its place */
    const struct trade_component *kind;
    const char *place;
    double minutes;
    double odds[COND_COUNT];
    struct look_worth worth; /* minor units; gain 0 where no worths are known */
    bool leads;              /* a job or setback of the leading direction hangs on it */
    double explained; /* share of the variance of date plus that of bill that it explains, 0..2 */
    double days,
        money; /* how far the 10-90 % band of date (days) and bill (minor) of `leading` narrows */
    bool narrows; /* beyond two errors */
};

struct choose {
    const char *vehicle, *currency;
    day first, as_of;
    uint64_t seed;
    int runs;
    const char **notes;
    int n_notes;
    const char *after;
    struct points worth_now;
    bool worth_now_known;
    double own_rate; /* minor units an hour; 0 where none was told */
    struct choose_direction *directions;
    int n_directions;
    int leading;   /* best mean net; without worths the decided one or "drive" */
    bool compared; /* nets of at least two directions are known */
    struct choose_look *looks;
    int n_looks;    /* worth most first */
    int unseen;     /* components that nobody has seen */
    bool any_tells; /* a look could change the choice, beyond two errors */
};

bool choose_reckon(struct arena *a, const struct shop_ask *ask, struct choose *out, struct fail *f);

#endif
