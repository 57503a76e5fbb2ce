/* household.h - what the vehicles together ask of whoever shares the purse and the weekends: the
 * next three months, and when each is done.
 *
 * Vehicles are reckoned by rank, each around what the better ones take, as their plans are; what
 * they ask together is summed run by run, so that one pace and one calendar hold for all. Above
 * FULL_VEHICLES fewer runs serve each, so that the whole stays a few seconds. */
#ifndef SHOP_HOUSEHOLD_H
#define SHOP_HOUSEHOLD_H

#include "reckon/quantile.h"
#include "shop/reckoning.h"

enum { HOUSEHOLD_MONTHS = 3 };

/* Of a sum over all vehicles: as often less as more, and not more in four cases of five. */
struct household_need {
    double p50, p80;
};

struct household_vehicle {
    const char *name;
    const char *why; /* NULL, or why it cannot be reckoned; the rest is then nothing */
    const struct trade_direction *direction;
    bool decided;
    struct quantiles finish;      /* moments */
    const struct trade_job *gate; /* the job at which it is decided to go on; NULL: behind it */
    struct quantiles gate_finish; /* over the runs in which it is needed */
    const struct trade_job *next; /* the milestone that most likely comes next, or NULL */
    struct quantiles next_finish;
};

struct household {
    day as_of, first, until; /* first: day 0 of the plans */
    uint64_t seed;
    int runs; /* of each vehicle */
    const char *currency;
    double spent; /* all orders told, minor units */
    int orders, unpriced;
    bool purse_open;         /* no limit was told */
    double brought, reserve; /* in hand and paid in by `until`; kept back */
    struct household_need money, weekends, weekdays;
    int weekends_planned, weekdays_planned; /* of the usual weeks, and helper days, by `until` */
    bool evenings;                          /* all sessions on weekdays begin after four */
    struct household_vehicle *vehicles;
    int n_vehicles; /* by rank */
    int reckoned;   /* of them; 0: there are no sums and no currency */
};

/* ask->vehicle is not looked at. */
bool household_reckon(struct arena *a, const struct shop_ask *ask, struct household *out,
                      struct fail *f);

#endif
