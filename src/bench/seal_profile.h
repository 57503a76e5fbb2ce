/* seal_profile.h - which weatherstrip of a list fits a gap that was measured at several points.
 *
 * A profile fits if it holds on the flange or in the groove, and its compression stays in the band
 * of its kind at the widest and at the narrowest gap. What was not measured is never assumed to
 * fit: without a flange or a groove only those that are glued are tried. */
#ifndef BENCH_SEAL_PROFILE_H
#define BENCH_SEAL_PROFILE_H

#include "base/seal.h"

#include <stdbool.h>

struct seal_band {
    double low, high, most; /* of compression: seals well from, to; crushed beyond */
};
extern const struct seal_band seal_bands[]; /* by kind */

struct seal_profile {
    const char *name, *text;
    enum seal_kind kind;
    enum seal_hold hold;
    double low, high; /* flange thickness or groove width that it holds on, m */
    double free;      /* height uncompressed, m */
    double bulb;      /* breadth of what is pressed, m */
    double force;     /* that closes 100 mm to 40 % (a solid one: to 15 %), N */
};
/* What is chosen among: the rows of the sum seal-profile. */
struct seal_list {
    const struct seal_profile *items;
    int n;
};

/* Measured, m. Not measured: 0. */
struct seal_place {
    double widest, narrowest, mean; /* of the gap */
    double flange, groove, bulb;
};

/* Has it somewhere to hold, and is its bulb about as broad as the old one's? */
bool seal_holds(const struct seal_profile *p, const struct seal_place *at);
/* How far inside its band it stays, in compression; below 0 it leaves it. */
double seal_margin(const struct seal_profile *p, const struct seal_place *at);
/* On 100 mm of it at the mean gap, N; 0 if it does not touch there. */
double seal_force(const struct seal_profile *p, const struct seal_place *at);
/* Of those that hold and were not tried (by index), the one that stays the furthest inside its
 * band, of equals the first; -1: none is left. */
int seal_best(struct seal_list list, const struct seal_place *at, const bool *tried);

#endif
