/* override.h - the facts as they would be if the builder said otherwise. Pure: nothing is stored.
 */
#ifndef MODEL_OVERRIDE_H
#define MODEL_OVERRIDE_H

#include "model/facts.h"

enum { HELPERS_MOST = 52 };

/* What is said otherwise; override_none leaves all as it is. */
struct override {
    double hours_a_week; /* -1: as it is */
    day start;           /* DAY_NONE: as it is */
    int helpers;         /* helper days beyond those that were told */
    double a_month;      /* minor units, -1: as it is */
    char currency[4];    /* of a_month, for a garage that has none yet */
    int direction;       /* index of trade data, -1: as it is */
};

struct override override_none(void);
bool override_is_none(const struct override *o);

/* The week with other hours, for a builder who told times of the week. Fewer: the longest times
 * stay, the last of them cut, for setting up costs the same in a short one. More: usual times of
 * the week are added where none was told. */
struct week_change {
    int told; /* index of the facts' slots, or -1: a new one */
    bool drop;
    struct fact_slot slot; /* as it becomes */
};
int override_week(struct arena *a, const struct facts *facts, double hours,
                  struct week_change **out);

/* The added helper days: a fortnight apart, from a week after the first day on, at the longest
 * time of the week, on days that are free. */
int override_helpers(struct arena *a, const struct facts *facts, const struct override *o,
                     day today, struct fact_helper **out);

/* `facts` is left as it is; what did not change is shared with it. */
struct facts override_facts(struct arena *a, const struct facts *facts, const struct override *o,
                            day today);

#endif
