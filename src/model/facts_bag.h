/* facts_bag.h - what was taken apart: bags in the order of the strip-down, what lies in each, and
 * its photographs, as plain values. */
#ifndef MODEL_FACTS_BAG_H
#define MODEL_FACTS_BAG_H

#include "garage/garage.h"
#include "library/trade.h"

struct fact_piece {
    const char *id, *name;
    const char *thread, *grade, *source, *note; /* or NULL */
    const char *length, *torque;                /* as typed; or NULL */
    double length_m, torque_nm;                 /* NAN: not told */
    int count, back;                            /* back -1: not counted in */
    int renew;                                  /* -1: not told; 0 no, 1 yes */
    int fastener;                               /* of the trade data, found by its words; or -1 */
};

struct fact_bag {
    const char *id, *vehicle, *code, *what;
    const char *component, *job, *shelf, *note; /* or NULL */
    int trade_job;                              /* of the trade data, or -1 */
    day date, emptied;                          /* DAY_NONE: not told; still full */
    struct fact_piece *pieces;
    int n_pieces;
    const struct record **photographs; /* as they were taken in */
    int n_photographs;
};

/* Of one vehicle, oldest first. */
bool facts_bags_read(struct garage *g, struct arena *a, const struct trade *t, const char *vehicle,
                     struct fact_bag **out, int *count, struct fail *f);

#endif
