#include "bench/seal_profile.h"

#include <math.h>

/* Practice. */
const struct seal_band seal_bands[] = {
    [SEAL_SPONGE] = {0.30, 0.50, 0.60},
    [SEAL_SOLID] = {0.10, 0.20, 0.25},
    [SEAL_FOAM] = {0.30, 0.50, 0.60},
};

#define MM(x) ((x)*1e-3)
/* Invented shapes, for there is no list that all makers share: they stand for what is sold by the
 * metre. */
const struct seal_profile seal_profiles[] = {
    {"grip-6", "clip-on edge, sponge bulb", SEAL_SPONGE, HELD_BY_FLANGE, MM(1.0), MM(2.0), MM(6),
     MM(7), 3},
    {"grip-8", "clip-on edge, sponge bulb", SEAL_SPONGE, HELD_BY_FLANGE, MM(1.0), MM(3.0), MM(8),
     MM(9), 4},
    {"grip-10", "clip-on edge, sponge bulb", SEAL_SPONGE, HELD_BY_FLANGE, MM(1.0), MM(3.0), MM(10),
     MM(11), 5},
    {"grip-12", "clip-on edge, sponge bulb", SEAL_SPONGE, HELD_BY_FLANGE, MM(1.5), MM(4.0), MM(12),
     MM(13), 6},
    {"grip-14", "clip-on edge, sponge bulb", SEAL_SPONGE, HELD_BY_FLANGE, MM(1.5), MM(4.0), MM(14),
     MM(15), 7},
    {"grip-17", "clip-on edge, sponge bulb", SEAL_SPONGE, HELD_BY_FLANGE, MM(2.0), MM(5.0), MM(17),
     MM(18), 9},
    {"grip-20", "clip-on edge, sponge bulb", SEAL_SPONGE, HELD_BY_FLANGE, MM(2.0), MM(5.0), MM(20),
     MM(21), 11},
    {"groove-8", "foot for a groove, sponge bulb", SEAL_SPONGE, HELD_IN_GROOVE, MM(4.0), MM(6.0),
     MM(8), MM(9), 4},
    {"groove-12", "foot for a groove, sponge bulb", SEAL_SPONGE, HELD_IN_GROOVE, MM(5.0), MM(8.0),
     MM(12), MM(13), 6},
    {"groove-16", "foot for a groove, sponge bulb", SEAL_SPONGE, HELD_IN_GROOVE, MM(6.0), MM(10.0),
     MM(16), MM(17), 8},
    {"groove-cord-5", "solid cord for a groove", SEAL_SOLID, HELD_IN_GROOVE, MM(4.5), MM(5.0),
     MM(5), MM(5), 20},
    {"glue-bulb-10", "glued foot, sponge bulb", SEAL_SPONGE, HELD_BY_GLUE, 0, 0, MM(10), MM(11), 5},
    {"glue-bulb-13", "glued foot, sponge bulb", SEAL_SPONGE, HELD_BY_GLUE, 0, 0, MM(13), MM(14), 7},
    {"glue-bulb-16", "glued foot, sponge bulb", SEAL_SPONGE, HELD_BY_GLUE, 0, 0, MM(16), MM(17), 8},
    {"foam-6", "flat foam strip, glued", SEAL_FOAM, HELD_BY_GLUE, 0, 0, MM(6), MM(12), 6},
    {"foam-10", "flat foam strip, glued", SEAL_FOAM, HELD_BY_GLUE, 0, 0, MM(10), MM(12), 6},
    {"foam-15", "flat foam strip, glued", SEAL_FOAM, HELD_BY_GLUE, 0, 0, MM(15), MM(15), 8},
    {0},
};
_Static_assert(sizeof seal_profiles / sizeof *seal_profiles <= SEAL_PROFILES_MOST, "tried");

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

int seal_best(const struct seal_place *at, const bool *tried)
{
    int best = -1;
    for (int i = 0; seal_profiles[i].name; i++) {
        if (tried[i] || !seal_holds(&seal_profiles[i], at)) continue;
        if (best < 0 ||
            seal_margin(&seal_profiles[i], at) > seal_margin(&seal_profiles[best], at) + HAIR)
            best = i;
    }
    return best;
}
