/* choice.h - what chosen options make of a job: their parts and hours take the place of its own. */
#ifndef MODEL_CHOICE_H
#define MODEL_CHOICE_H

#include "model/facts_buy.h"

struct chosen_work {
    bool any;    /* else the job is as the trade data has it */
    bool always; /* an upgrade is made whatever the old part is like */
    struct points hours;
    const struct trade_buy *parts;
    int n_parts;
};

/* wanted: by job of trade data, is it in the plan? A need belongs to the first of its jobs that is.
 * What a chosen option brings, and the adapters at its joins, belong to its job. */
struct chosen_work choice_work(struct arena *a, const struct trade *t, const struct facts_buy *buy,
                               const bool *wanted, int job);

#endif
