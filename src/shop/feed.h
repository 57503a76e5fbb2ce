/* feed.h - days that matter, of the whole garage: sessions, deliveries, last days to send back,
 * pieces that come back, what is to be measured again. From facts alone; nothing is reckoned. */
#ifndef SHOP_FEED_H
#define SHOP_FEED_H

#include "shop/reckoning.h"

enum { FEED_SESSION_DAYS = 56 }; /* sessions of so many days ahead */

struct feed_event {
    const char *uid;            /* the same for the same thing, whenever it is asked */
    const char *summary, *text; /* text: or NULL */
    day date;
    int from, to; /* minutes of the local day; -1: the whole day */
};

struct feed {
    struct feed_event *events;
    int n;
    size_t capacity;
};

/* ask: garage, trade and today. */
bool feed_read(struct arena *a, const struct shop_ask *ask, struct feed *out, struct fail *f);
void feed_add(struct arena *a, struct feed *feed, struct feed_event e);

#endif
