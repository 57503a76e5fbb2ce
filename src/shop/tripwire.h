/* tripwire.h - what the builder said, with a cool head, would open the choice again, and whether
 * that has come to pass. */
#ifndef SHOP_TRIPWIRE_H
#define SHOP_TRIPWIRE_H

#include "model/facts_worth.h"

struct crossed {
    double limit, spent;                /* minor units; limit 0: not of money */
    day passed;                         /* DAY_NONE: not of a date */
    const struct fact_finding *finding; /* NULL: not of a finding */
    const char *why;                    /* or NULL */
};

/* One for each part of a tripwire that is crossed. Spent exactly the limit, or found on the very
 * day, is not yet crossed; a condition as bad as the one told is. */
void tripwires_crossed(struct arena *a, const struct facts *facts, const struct facts_worth *more,
                       day today, struct crossed **out, int *n);

#endif
