#include "bench/seal_profile.h"

#include <math.h>

/* Practice. */
const struct seal_band seal_bands[] = {
    [SEAL_SPONGE] = {0.30, 0.50, 0.60},
    [SEAL_SOLID] = {0.10, 0.20, 0.25},
    [SEAL_FOAM] = {0.30, 0.50, 0.60},
};

/* A bulb of another breadth than so much of the old one's finds no room, or no face to press on
 * (practice); and 40.0 % as reckoned from millimetres is still 40 %. */
static const double BULB_APART = 0.25, HAIR = 1e-9;

static bool within(double x, double low, double high)
{
    return x >= low - HAIR && x <= high + HAIR;
}

bool seal_holds(const struct seal_profile *p, const struct seal_place *at)
{
    if (at->bulb > 0 && fabs(p->bulb - at->bulb) > BULB_APART * at->bulb + HAIR) return false;
    if (p->hold == HELD_BY_FLANGE) return at->flange > 0 && within(at->flange, p->low, p->high);
    if (p->hold == HELD_IN_GROOVE) return at->groove > 0 && within(at->groove, p->low, p->high);
    return at->flange <= 0 && at->groove <= 0;
}

double seal_margin(const struct seal_profile *p, const struct seal_place *at)
{
    const struct seal_band *band = &seal_bands[p->kind];
    const double least = 1 - at->widest / p->free, most = 1 - at->narrowest / p->free;
    return fmin(least - band->low, band->high - most) + HAIR;
}

double seal_force(const struct seal_profile *p, const struct seal_place *at)
{
    const double usual = (seal_bands[p->kind].low + seal_bands[p->kind].high) / 2;
    return p->force * fmax(0, 1 - at->mean / p->free) / usual;
}

int seal_best(struct seal_list list, const struct seal_place *at, const bool *tried)
{
    int best = -1;
    for (int i = 0; i < list.n; i++) {
        if (tried[i] || !seal_holds(&list.items[i], at)) continue;
        if (best < 0 || seal_margin(&list.items[i], at) > seal_margin(&list.items[best], at) + HAIR)
            best = i;
    }
    return best;
}
