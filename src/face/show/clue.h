/* clue.h - a clue as it is told: by its words, for every face. */
#ifndef SHOW_CLUE_H
#define SHOW_CLUE_H

#include "garage/garage.h"
#include "library/trade.h"

struct clue_told {
    const char *clue, *outcome; /* ids or words */
    const char *value, *note;   /* as typed; may be NULL or "" */
};

/* Stores what a clue showed, as an act of its own. *again: it was told before, and this one counts
 * now. */
bool clue_tell(struct arena *a, struct garage *g, const struct trade *t, const char *vehicle,
               const struct clue_told *told, day today, struct record **out, bool *again,
               struct fail *f);

#endif
