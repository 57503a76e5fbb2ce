/* what_if_keep.h - a what-if made into facts: which records it would add, change or take away, each
 * said in a line before it is done. */
#ifndef SHOW_WHAT_IF_KEEP_H
#define SHOW_WHAT_IF_KEEP_H

#include "garage/garage.h"
#include "shop/what_if.h"

struct keep_act {
    enum { KEEP_ADD, KEEP_CHANGE, KEEP_REMOVE } act;
    struct record *record;
    const char *line; /* "Purse: a month 600.00 GBP becomes 300.00 GBP" */
};

struct keep {
    struct keep_act *acts;
    int count;
    size_t capacity;
};

/* Reads only. */
bool what_if_acts(struct arena *a, const struct shop_ask *ask, const struct override *said,
                  struct keep *out, struct fail *f);
/* Within an act that the caller has begun, in which the acts were made too. */
bool what_if_keep(struct garage *g, const struct keep *keep, struct fail *f);

#endif
