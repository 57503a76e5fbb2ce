/* schedule.h - what a schedule is: the shape that dispatchers fill and the independent checker
 * reads. */
#ifndef RECKON_SCHEDULE_H
#define RECKON_SCHEDULE_H

#include "base/arena.h"

#include <stdint.h>

/* An unbroken piece of hands-on work within one session. */
struct stint {
    int job, session, hands;
    bool again; /* after a setback */
    int32_t from, to;
};

/* Parts of a job (again: of its setbacks), ordered together. */
struct order_placed {
    int job;
    bool again;
    int32_t ordered, arrives;
    double price;
};

/* What a run turned out to be, before anything is scheduled: by job unless said otherwise. */
struct drawn {
    uint8_t *condition; /* by component */
    bool given;         /* the conditions are the caller's: they are not drawn */
    uint8_t *applies;   /* is the job needed */
    int32_t *minutes;   /* its own work; 0 if it is not needed */
    int32_t *wait;      /* after its end */
    int32_t *again_minutes,
        *again_wait;            /* work and wait that its setbacks add after its own work */
    int32_t *lead, *again_lead; /* the longest lead of its parts; -1: nothing to order */
    double *price, *again_price;
    uint8_t *kept;          /* by session, of the first n_kept */
    int n_kept;             /* sessions drawn: most runs end long before the calendar does */
    int32_t *buy_lead;      /* by buy: the drawn lead of that part, -1 if it is not wanted */
    uint8_t *fired;         /* by setback: how often it happened */
    double state, pace;     /* the two shared factors */
    struct draw_desk *desk; /* draw.c's own */
};

struct schedule {
    struct stint *stints;
    int n_stints;
    struct order_placed *orders;
    int n_orders;
    uint8_t *held; /* by job: what it waited for last (enum hold of dispatch.h); NULL: not wanted */
    int32_t *start,
        *finish; /* by job: NEVER if not begun, not finished; a job not needed: both its passing */
};

#endif
