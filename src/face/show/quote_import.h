/* quote_import.h - a supplier's list of prices taken in, for every face: all of it or none. */
#ifndef SHOW_QUOTE_IMPORT_H
#define SHOW_QUOTE_IMPORT_H

#include "garage/garage.h"
#include "library/trade.h"

enum { QUOTE_FILE_MOST = 4 << 20 }; /* bytes */

struct quote_import {
    int added;
    const char **faults; /* "line 7: ...", in order of lines */
    int n_faults;
    size_t faults_capacity;
};

/* The first line names the columns, in any order: the fields of a quote, and `currency` for sums
 * that have none of their own. supplier: its name or id, NULL if there is a column for it. False
 * with faults: nothing was stored, and *f says how many there are; else all is stored in one act.
 */
bool quote_import(struct arena *a, struct garage *g, const struct trade *t, const char *supplier,
                  const char *bytes, size_t n, day today, struct quote_import *out, struct fail *f);
/* The same from a path on this machine. */
bool quote_import_path(struct arena *a, struct garage *g, const struct trade *t,
                       const char *supplier, const char *path, day today, struct quote_import *out,
                       struct fail *f);

#endif
