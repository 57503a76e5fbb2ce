/* join.h - do two ends of a join agree, and can an adapter stand between them?
 *
 * An end that is not known is not assumed to fit: the verdict is then "not known", and says which
 * end is to be measured. */
#ifndef MODEL_JOIN_H
#define MODEL_JOIN_H

#include "library/trade.h"

enum join_verdict { JOIN_FITS, JOIN_MARGINAL, JOIN_MISFIT, JOIN_UNKNOWN, JOIN_VERDICTS };
const char *
join_verdict_name(enum join_verdict v); /* "fits", "marginal", "does not fit", "not known" */

struct join_result {
    enum join_verdict verdict;
    double value,
        limit; /* in the join's unit, what was compared; NAN where words were, or nothing */
    bool measure_giver, measure_taker; /* of JOIN_UNKNOWN: which end is open */
};

/* Of figures, a side that the taker does not limit is not looked at. Within a tenth of its limit,
 * or beyond half of what ends may differ by, what is given is marginal. */
struct join_result join_judge(const struct trade_join *j, const struct trade_end *giver,
                              const struct trade_end *taker);

/* It takes in what is given, and can be set to give on what is taken; one whose ends are both open
 * is made to measure. False where an end is not known. */
bool join_bridges(const struct trade_join *j, const struct trade_adapts *by,
                  const struct trade_end *giver, const struct trade_end *taker);

#endif
