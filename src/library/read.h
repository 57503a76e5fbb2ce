/* read.h - from sources to trade: parse all, know all ids, fill, check. */
#ifndef LIBRARY_READ_H
#define LIBRARY_READ_H

#include "library/source.h"
#include "library/trade.h"

/* False if there was any fault; *out is then for looking at only. While a file cannot be read at
 * all, only that is told: what it holds would be told as missing everywhere. An own entry takes the
 * place of the carried one with its id. */
bool trade_read(struct arena *a, const struct sources *sources, struct trade *out,
                struct trade_faults *faults);
/* The subjects that the sources hold, as bits; what cannot be read counts as nothing. */
unsigned trade_subjects(struct arena *a, const struct sources *sources);

#endif
