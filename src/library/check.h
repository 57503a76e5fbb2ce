/* check.h - faults that show only once everything is read: what entries say of each other. Works on
 * the structs alone, and bears what an earlier fault left blank. */
#ifndef LIBRARY_CHECK_H
#define LIBRARY_CHECK_H

#include "library/fault.h"

void check_trade(struct faults *f, const struct trade *t);

#endif
