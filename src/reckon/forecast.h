/* forecast.h - many runs of a project, kept as columns by run.
 *
 * The same seed gives the same bytes for any number of threads. Nothing is summarised here:
 * quantiles and shares are taken from the columns by whoever shows them, so that all answers come
 * from the same draws. */
#ifndef RECKON_FORECAST_H
#define RECKON_FORECAST_H

#include "reckon/belief.h"
#include "reckon/dispatch.h"
#include "reckon/draw.h"

struct forecast_ask {
    uint64_t seed;
    int runs, threads; /* threads 0: one a processor */
    const int *which;  /* the numbers of the runs; NULL: 0 .. runs - 1 */
    int without;       /* a setback that never happens, or -1 */
    /* By component: those of the same runs of the same vehicle in another direction, which has the
     * same draws of them; NULL: drawn. */
    uint8_t *conditions;
    bool detail; /* also the columns by job and part */
    /* Finish, cost and work are enough: a run whose orders come to more than the purse will ever
     * hold is not put onto the calendar, since it cannot finish; its hang and out_of_money are left
     * at 0. Not with detail. */
    bool finish_only;
    /* Called from the calling thread's work now and then with the share done; may be NULL. */
    void (*progress)(void *context, double share);
    void *progress_context;
};

enum { FORECAST_MONTHS = 72 }; /* later months count as the last */

/* Columns have one value a run; those by job, part, component are [index * runs + run]. */
struct forecast {
    int runs;
    int32_t *finish; /* moment, or NEVER */
    double *cost;    /* of all that the run needs, minor units */
    double *work;    /* hands-on minutes */
    uint8_t *out_of_money;
    float *hang[HOLD_COUNT];
    uint8_t *condition; /* by component */
    /* With detail: */
    int32_t *start, *end; /* by job; NEVER where it is not needed or not reached */
    uint8_t *critical;    /* by job */
    uint8_t *held;        /* by job: enum hold, of those that started */
    int32_t *order_by;    /* by part: first use - drawn lead - time to check; NEVER where it is not
                             wanted */
    uint8_t *fired;       /* by setback: how often */
    float *month;         /* by month: money ordered in it */
};

struct forecast forecast_run(struct arena *a, const struct project *p, const struct belief *b,
                             const struct dispatch *d, const struct forecast_ask *ask);

#endif
