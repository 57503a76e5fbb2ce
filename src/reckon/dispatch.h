/* dispatch.h - puts the jobs of one run onto hands, bay, purse and calendar, looking only at what
 * has finished.
 *
 * A list dispatcher in the parallel scheme: at each moment the ready job of the best rank that fits
 * starts (begun ones first; but before them those that fit few moments: jobs for two, and unbroken
 * ones too long for the shortest session). Work is split over sessions unless it is unbroken; that
 * is begun where its high figure fits, or, if no session within four weeks is as long, at the start
 * of the longest of them. Parts are ordered by rank when the gate is done, those of surveys on day
 * 0, those of a setback when it happens; the purse makes them wait in that order. Source of the
 * scheme: Kolisch, Sprecher & Drexl 1995; Kolisch & Hartmann 1999. */
#ifndef RECKON_DISPATCH_H
#define RECKON_DISPATCH_H

#include "reckon/project.h"
#include "reckon/schedule.h"

/* What a job waited for last before it could start. */
enum hold {
    HOLD_NOTHING, /* could start on day 0 */
    HOLD_BEFORE,  /* a job before it */
    HOLD_WAIT,    /* the soak, cure or shop time after one */
    HOLD_PARTS,   /* delivery */
    HOLD_MONEY,   /* the purse, then delivery */
    HOLD_HANDS,   /* hands busy with another job */
    HOLD_COUNT
};

struct dispatch; /* a project made ready, shared by all threads */
struct desk;     /* one thread's working memory */

/* order: all jobs, most urgent first; NULL for the order of rank_by_tail. */
struct dispatch *dispatch_prepare(struct arena *a, const struct project *p, const int *order);
struct desk *desk_new(struct arena *a, const struct dispatch *d);

/* Jobs by falling tail: the middle figures of work (stretched to calendar time by hands and
 * sessions kept, weighted with the chance that it is needed) and waits from a job's start to the
 * end of the longest chain after it. */
int *rank_by_tail(struct arena *a, const struct project *p);

struct outcome {
    int32_t finish; /* when all of project.done are done; NEVER if the calendar or the purse ends
                       first */
    bool more;      /* it was not done when the drawn sessions were over: draw more and ask again */
    int sessions;   /* how many sessions it looked at */
    bool out_of_money;       /* an order can never be paid within the ceiling */
    double hang[HOLD_COUNT]; /* minutes of the binding chain by what held it; HANDS: time from start
                                to end of its jobs */
};

/* Schedules one run. out->start and out->finish must have room for all jobs; stints and orders are
 * recorded where they are not NULL (room: dispatch_most_stints, 2 n_jobs). `critical`, by job, is
 * set to 1 for jobs on the binding chain. */
struct outcome dispatch_run(const struct dispatch *d, struct desk *desk, const struct drawn *drawn,
                            struct schedule *out, uint8_t *critical);
int dispatch_most_stints(const struct project *p);

#endif
