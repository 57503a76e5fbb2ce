/* find.h - full-text search over everything: every record of the garage and every entry of the
 * trade data, in British and American words. */
#ifndef SHOP_FIND_H
#define SHOP_FIND_H

#include "garage/garage.h"
#include "library/trade.h"

struct found {
    const struct record *record; /* or NULL: of the trade data */
    const char *vehicle;         /* of a record: the name of its vehicle, or "" */
    enum subject subject;
    int index;
    const char *name, *words; /* what it is; what it says, in one line */
};

struct find {
    struct found *hits; /* the best first, records before the trade data */
    int count;
    bool all;  /* they have every word; false: some of them, for none had all */
    bool more; /* there are more than are told */
};

enum { FIND_MOST = 60 };

/* FAIL_INPUT where there is no word to look for. */
bool find_everything(struct arena *a, struct garage *g, const struct trade *t, const char *words,
                     struct find *out, struct fail *f);

#endif
