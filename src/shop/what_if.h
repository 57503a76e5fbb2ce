/* what_if.h - the plan as it is beside the plan as it would be: the same draws for both, so that
 * what differs comes from what was said otherwise. Nothing is stored. */
#ifndef SHOP_WHAT_IF_H
#define SHOP_WHAT_IF_H

#include "shop/plan.h"

/* Enough to tell a fortnight in two years, quick enough to follow a hand on a slider; the first so
 * many of the runs of the plan. */
enum { WHAT_IF_RUNS = 1000, WHAT_IF_SECTIONS = 20 };

/* What can be said otherwise, as a plan has it: where sliders begin. */
struct what_if_now {
    double hours_a_week; /* of the week as planned */
    day start;           /* the first day of the plan */
    double a_month;      /* minor units; -1: not told */
    char currency[4];
    int direction; /* index of trade data */
};

struct what_if_side {
    struct what_if_now with;
    int runs;
    double *finish; /* by run: days since 1970, parts of a day too; +infinity: never */
    double *cost;   /* by run, minor units */
    struct quantiles finished, bill;
    double fan[PLAN_FAN]; /* in minutes from the first day, with.start */
    double never;         /* share of the runs */
};

/* The difference of a quantile, changed less as it is. Its standard error is that of sections: the
 * runs in 20 parts, the difference in each, the spread of those (mark: memory; Asmussen & Glynn,
 * Stochastic Simulation, 2007, ch. III). */
struct what_if_difference {
    enum { DIFFERS, NEVER_NOW, NEVER_BEFORE, NEVER_BOTH } kind;
    double by, error;
    bool tells; /* by at least two errors */
};

struct what_if {
    const struct trade *trade;
    const char *vehicle;
    const char *after; /* vehicles of a better rank, or NULL */
    uint64_t seed;
    day as_of;
    struct override said;
    struct what_if_side as_is, changed;
    struct what_if_difference days_p50, days_p80, money_p50, money_p80;
};

/* ask->runs are the runs of the plan; no more than WHAT_IF_RUNS of them are made. */
bool what_if_as_is(struct arena *a, const struct shop_ask *ask, struct what_if_side *out,
                   struct fail *f);
/* as_is: of the same ask, just reckoned or kept from before. */
bool what_if_reckon(struct arena *a, const struct shop_ask *ask, const struct override *said,
                    const struct what_if_side *as_is, struct what_if *out, struct fail *f);
/* One side alone: of these facts, beside what a better rank has taken. detail: see reckoning_run.
 */
bool what_if_side_of(struct arena *a, const struct shop_ask *ask, const struct facts *facts,
                     const struct taken *taken, bool detail, struct what_if_side *out,
                     struct reckoned *r, struct fail *f);
/* A side as bytes, to be kept, and back; false for bytes that are none. */
void what_if_pack(struct arena *a, const struct what_if_side *side, char **data, size_t *n);
bool what_if_unpack(struct arena *a, const char *data, size_t n, struct what_if_side *out);
/* Of two columns with the same draws; +infinity: never. */
struct what_if_difference what_if_differ(struct arena scratch, const double *as_is,
                                         const double *changed, int runs, double share);

#endif
