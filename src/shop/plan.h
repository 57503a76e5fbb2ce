/* plan.h - what happens when, what it costs, what must be ordered now: one vehicle, one direction.
 */
#ifndef SHOP_PLAN_H
#define SHOP_PLAN_H

#include "reckon/quantile.h"
#include "shop/reckoning.h"
#include "shop/tripwire.h"

struct plan_job {
    const struct trade_job *job;
    double chance;   /* share of the runs in which it is needed */
    double critical; /* share of those in which it was on the binding chain */
    double weight;   /* what it adds to the chain: critical x chance x its middle hours and wait, in
                        minutes */
    double money;    /* share of those in which it waited for money last */
    bool finished;
    int32_t start,
        finish; /* medians of the moments in the runs where it is done; NEVER if in none */
};

struct plan_order {
    const struct trade_part *part;
    double count; /* what all likely jobs want together, at least what one wants */
    int32_t
        by; /* the moment before which 10 % of the runs would have to order; may be before day 0 */
    double chance;               /* that it is wanted */
    double price;                /* middle, each, minor units */
    double lead_days;            /* middle */
    bool waits_for_gate;         /* wanted only by jobs that wait for the decision */
    const struct trade_job *job; /* the first job that wants it */
};

/* A stretch of work in the plan that is shown. */
struct plan_stint {
    int session;
    day day;
    int from, to; /* minutes of the day */
    int hands;
    const struct trade_job *job;
    bool begins, ends;
    bool helped; /* more hands are there than in any session of the usual week */
};

struct plan_setback {
    const struct trade_setback *setback;
    const struct trade_job *job;
    double chance; /* share of runs in which it happens */
    double days,
        error;    /* days that it adds to the finish, mean over all runs, and its standard error */
    double money; /* mean over all runs, minor units */
};

struct plan_month {
    day first;
    double pay;      /* what the purse brings */
    double p50, p80; /* ordered in it */
    double brought;  /* by its end since the first day; and ordered by then: */
    double so_far_p50, so_far_p80;
};

/* Something that lasts, in the plan that is shown. */
enum plan_lane { LANE_HANDS, LANE_BAY, LANE_WAIT, LANE_DELIVERY };

struct plan_span {
    enum plan_lane lane;
    int32_t from, to;            /* moments */
    const struct trade_job *job; /* NULL: of the bay, from the first job there to the last */
};

struct plan_milestone {
    const struct trade_job *job;
    struct quantiles finish; /* minutes, over the runs in which it is needed */
};

enum {
    PLAN_SETBACKS = 3,
    PLAN_MONTHS = 24,
    PLAN_WEEKS = 4,
    PLAN_AHEAD = 13 /* weeks */,
    PLAN_FAN = 41
};

struct plan {
    const struct trade *trade;
    const char *vehicle;
    const struct trade_direction *direction;
    bool decided; /* false: no direction was decided, "drive" is shown */
    day first, as_of;
    uint64_t seed;
    int runs;
    const char *currency;
    const char **notes;
    int n_notes;
    const char *after;       /* vehicles of a better rank, or NULL */
    struct crossed *crossed; /* tripwires: the choice is open again */
    int n_crossed;
    double fan[PLAN_FAN];    /* the moment by which share i / (PLAN_FAN - 1) of the runs is done;
                                +infinity: never; [0] the first of all */
    struct quantiles finish; /* moments; +infinity where fewer runs finish */
    struct quantiles hours;  /* hands-on */
    struct quantiles cost;   /* minor units */
    double never, no_money;  /* shares of runs: not done within the calendar; of those, stopped by
                                the ceiling */
    double horizon_years;
    double hang[HOLD_COUNT]; /* share of the time to the finish by what held it */
    bool purse_open;
    double a_month;                   /* what a month brings, minor units; 0 unknown */
    double in_hand, ceiling, reserve; /* as the plan used them */
    struct plan_job *jobs;
    int n_jobs; /* in order of median start, finished ones left out */
    struct plan_order *orders;
    int n_orders; /* by date; those on their way left out */
    struct plan_stint *stints;
    int n_stints; /* the shown plan: the next PLAN_WEEKS weeks */
    struct plan_span *spans;
    int n_spans;          /* the shown plan: what lasts within the next PLAN_AHEAD weeks, lane by
                             lane, in order of time */
    int32_t shown_finish; /* where the shown plan ends if nothing goes wrong */
    bool shown_former;    /* its order is that of the adopted plan, because that ends earlier */
    const char *order;    /* job ids by start in the shown plan, for adopting it */
    struct plan_setback setbacks[PLAN_SETBACKS];
    int n_setbacks;
    struct plan_month *months;
    int n_months;
    struct plan_milestone *milestones;
    int n_milestones;
    bool money_binds;
    double more_money, more_days,
        more_error; /* so much more a month (minor) ends it so many days sooner, on average */
    struct calendar calendar;
    int answers[ANSWER_COUNT];
};

bool plan_reckon(struct arena *a, const struct shop_ask *ask, struct plan *out, struct fail *f);
/* The same with what it rests on, for questions that go on from there; without what more money
 * would bring. */
bool plan_reckon_base(struct arena *a, const struct shop_ask *ask, struct plan *out,
                      const struct reckoned **reckoned, const struct facts **known, struct fail *f);

#endif
