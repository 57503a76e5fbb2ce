/* check_identity.h - what no row of the shapes can say of code books and rules. Part of check.h. */
#ifndef LIBRARY_CHECK_IDENTITY_H
#define LIBRARY_CHECK_IDENTITY_H

#include "library/fault.h"
#include "library/trade.h"

void check_codebooks(struct faults *f, const struct trade *t);
void check_rules(struct faults *f, const struct trade *t);

#endif
