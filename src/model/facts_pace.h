/* facts_pace.h - all hours that were logged in the garage, whatever the vehicle: the pace is the
 * builder's. */
#ifndef MODEL_FACTS_PACE_H
#define MODEL_FACTS_PACE_H

#include "base/day.h"
#include "garage/garage.h"
#include "library/trade.h"

struct fact_logged {
    int vehicle; /* 0: the one in hand */
    int job;     /* of the trade data, or -1 */
    double minutes;
    bool finished, setback; /* setback: one was met in it */
    day date;               /* DAY_NONE: not told */
};

struct facts_pace {
    struct fact_logged *items;
    int n, vehicles; /* vehicles >= 1 */
};

bool facts_pace_read(struct garage *g, struct arena *a, const struct trade *t, const char *vehicle,
                     struct facts_pace *out, struct fail *f);

#endif
