/* check_fit.h - what is wrong with joins, fittings, needs and options beyond their keys. */
#ifndef LIBRARY_CHECK_FIT_H
#define LIBRARY_CHECK_FIT_H

#include "library/fault.h"
#include "library/trade.h"

void check_fit(struct faults *f, const struct trade *t);

#endif
