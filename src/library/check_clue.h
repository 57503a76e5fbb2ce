/* check_clue.h - the tables of clues: as many columns as they need, each summing to 1. */
#ifndef LIBRARY_CHECK_CLUE_H
#define LIBRARY_CHECK_CLUE_H

#include "library/fault.h"
#include "library/trade.h"

void check_clues(struct faults *f, const struct trade *t);

#endif
