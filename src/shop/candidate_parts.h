/* candidate_parts.h - a parts car: what of another vehicle's order list it could serve. */
#ifndef SHOP_CANDIDATE_PARTS_H
#define SHOP_CANDIDATE_PARTS_H

#include "shop/candidate.h"

/* Fills out->parts where its advert names a vehicle that it serves. */
bool candidate_parts_reckon(struct arena *a, const struct shop_ask *ask, struct candidate *out,
                            struct fail *f);

#endif
