/* cycle.h - circles among things that point at each other: precedence of jobs, members of groups.
 *
 * Technique: Kahn's sort (CACM 5, 1962) takes away all that is in no circle and behind none; from
 * what is left, pointers are followed until one comes round. No recursion, so depth is no matter.
 */
#ifndef LIBRARY_CYCLE_H
#define LIBRARY_CYCLE_H

#include "base/arena.h"

struct links {
    const int *to;
    int count;
};

/* Calls tell with each circle found, circle[0] -> circle[1] -> ... -> circle[0], each pointing at
 * the next and the least first. Circles that share a member with one already told are not told. */
typedef void cycle_tell(void *context, const int *circle, int length);
void cycles_find(struct arena *a, const struct links *links, int count, cycle_tell *tell,
                 void *context);

#endif
