/* tool_cost.h - buy, borrow or hire: how a tool that is wanted in several spells is had at least
 * cost, exactly, by dynamic programming over the spells.
 *
 * A hired or borrowed tool may be kept from one spell to the next, where that costs less than
 * fetching it again; one that is bought is there from then on. */
#ifndef RECKON_TOOL_COST_H
#define RECKON_TOOL_COST_H

#include "base/arena.h"

#include <stdint.h>

enum tool_way { WAY_BUY, WAY_HIRE, WAY_BORROW, TOOL_WAYS };

struct tool_spell {
    int32_t from, to; /* days, both wanted */
};

struct tool_way_cost {
    enum tool_way way;
    double price, a_day; /* buy: price; hire, borrow: price each time, and a day that it is kept */
    int32_t until;       /* hire, borrow: the last day; INT32_MAX: no end */
};

struct tool_step {
    int way;         /* of those that were given */
    int first, last; /* spells */
    double cost;
};

/* spells: in order of time, apart. steps: room for n_spells; *n_steps of them cover all spells in
 * order. INFINITY where some spell cannot be covered. Of equal costs the way given first. */
double tool_cost(struct arena scratch, const struct tool_way_cost *ways, int n_ways,
                 const struct tool_spell *spells, int n_spells, struct tool_step *steps,
                 int *n_steps);

#endif
