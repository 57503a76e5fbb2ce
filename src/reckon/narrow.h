/* narrow.h - what the rows of an integer program say of its box: exact, in whole numbers.
 *
 * Each row's reach over the box tightens the box of its columns, until nothing changes any more or
 * a row cannot hold. Changes are kept so that they can be undone. */
#ifndef RECKON_NARROW_H
#define RECKON_NARROW_H

#include "reckon/program.h"

struct narrow_change {
    int column;
    int64_t low, high; /* before */
};

struct narrow {
    struct arena *arena;
    const struct program *p;
    int64_t *low, *high; /* the box now */
    struct narrow_change *trail;
    size_t room;
    int changes;
    int *queue, head, waiting; /* rows to look at: a ring */
    uint8_t *queued;
    bool broken; /* a column without a value is left */
};

struct narrow narrow_new(struct arena *a, const struct program *p);

void narrow_low(struct narrow *n, int column, int64_t low);
void narrow_high(struct narrow *n, int column, int64_t high);
void narrow_all(struct narrow *n);               /* looks at every row anew */
bool narrow_settle(struct narrow *n);            /* false: nothing fits in this box */
void narrow_undo(struct narrow *n, int changes); /* back to when there were so many */

#endif
