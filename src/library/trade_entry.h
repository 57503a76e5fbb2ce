/* trade_entry.h - the head of every entry of the trade data. */
#ifndef LIBRARY_TRADE_ENTRY_H
#define LIBRARY_TRADE_ENTRY_H

#include "base/mark.h"

#include <stdbool.h>

/* Where an entry stands, and how sure it is: the head of every entry. */
struct entry {
    const char *id, *name, *file; /* name is the id where a subject has no names */
    int line;
    enum mark mark;
    const char *source; /* id of a source, or NULL */
    const char **also;  /* other words for it */
    int n_also;
    bool own; /* from the garage's own trade/ */
};

#endif
