/* dispatch_inside.h - shared by dispatch.c and dispatch_prepare.c: a project made ready. Not for
 * others. */
#ifndef RECKON_DISPATCH_INSIDE_H
#define RECKON_DISPATCH_INSIDE_H

#include "reckon/dispatch.h"

/* Jobs are numbered by rank in here: 0 is the most urgent, so that a set of jobs is a bit set whose
 * first bit is the job to take. */
struct dispatch {
    const struct project *p;
    int n, words;
    int *job;           /* rank -> job */
    int *rank;          /* job -> rank */
    int *n_before;      /* jobs before it */
    struct range *next; /* into nexts: ranks that come after it */
    int *nexts;
    int *hands;
    int32_t **room; /* by rank: NULL, or for unbroken jobs by session: minutes that must be left to
                       begin it */
    uint8_t *bay, *unbroken;
    uint64_t *rare; /* bit set: fits few moments: needs two, or is unbroken and too long for the
                       shortest session */
    double *warm;
    int *survey, n_survey; /* ranks whose parts are ordered on day 0 */
    int *later, n_later;   /* and when the gate is done */
    int gate;              /* rank, or -1 */
};

static inline int32_t later_of(int32_t a, int32_t b)
{
    return a > b ? a : b;
}

static inline bool is_in(const uint64_t *set, int r)
{
    return set[r / 64] >> (r % 64) & 1;
}

static inline void put_in(uint64_t *set, int r)
{
    set[r / 64] |= (uint64_t)1 << (r % 64);
}

static inline void take_out(uint64_t *set, int r)
{
    set[r / 64] &= ~((uint64_t)1 << (r % 64));
}

#endif
