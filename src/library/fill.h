/* fill.h - from nodes to structs, by the rows of shape.h. All ids are known before the first entry
 * is filled, so a reference becomes an index at once. */
#ifndef LIBRARY_FILL_H
#define LIBRARY_FILL_H

#include "library/fault.h"
#include "library/ids.h"
#include "library/shape.h"
#include "library/tree.h"

struct fill {
    struct arena *arena;
    struct faults *faults;
    const struct trade *trade; /* its places are filled before what stands at them */
    const struct ids *ids;     /* [SUBJECT_COUNT] */
    int *place_seen;           /* [n_places], scratch */
    int places_read;
    const char *file; /* of the entry being filled */
};

/* Fills one entry of a subject. What has a fault is told and left blank: a reference -1, a list
 * shorter. */
void fill_entry(struct fill *c, enum subject s, const struct node *map, const struct node *header,
                bool own, void *out);

#endif
