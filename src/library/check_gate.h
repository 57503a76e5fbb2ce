/* check_gate.h - what is wrong with gates and proofs beyond their keys. */
#ifndef LIBRARY_CHECK_GATE_H
#define LIBRARY_CHECK_GATE_H

#include "library/fault.h"
#include "library/trade.h"

void check_gates(struct faults *f, const struct trade *t);

#endif
