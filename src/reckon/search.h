/* search.h - an integer program to its proven optimum, by branch and bound.
 *
 * Depth first over the linear relaxation (simplex.h), each node narrowed by its rows (narrow.h) and
 * by reduced costs. When a better answer lets enough columns be fixed for good, the search begins
 * anew on what is left. Branches on the columns of lowest rank first, on that which raised the
 * bound most so far (pseudo-costs, M. Benichou et al., Mathematical Programming 1 (1971) 76-94). */
#ifndef RECKON_SEARCH_H
#define RECKON_SEARCH_H

#include "reckon/program.h"

struct search_ask {
    int64_t most_nodes;
    bool first; /* any answer will do */
};

struct search_end {
    bool found, proven; /* proven: of the least cost, or, not found, that there is none */
    int64_t *x;         /* by column */
    int64_t cost, bound;
    int64_t nodes, steps;
};

struct search_end search_program(struct arena *a, const struct program *p,
                                 const struct search_ask *ask);

#endif
