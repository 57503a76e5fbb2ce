/* buying_inside.h - what the files of buying share; for src/shop alone. */
#ifndef SHOP_BUYING_INSIDE_H
#define SHOP_BUYING_INSIDE_H

#include "model/offer.h"
#include "shop/buying.h"

struct baskets {
    struct arena *a;
    const struct trade *t;
    const struct facts *facts; /* of any vehicle: suppliers, quotes and rates are the garage's */
    struct offer_book book;
    struct buying *out;
};

/* x->out->baskets. */
void buying_baskets(struct baskets *x, const struct buying_vehicle *vehicles, int n);
/* The lowest quote for so many pieces, carriage left out; of one supplier, or of all (-1). False if
 * there is none. */
bool buying_best(struct baskets *x, const struct buying_want *want, int supplier,
                 const char *vehicle, struct buying_item *out);
/* x->out->spares. */
void buying_spares(struct baskets *x, const struct buying_vehicle *vehicles, int n);

#endif
