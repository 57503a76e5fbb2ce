/* seals.h - seals to choose among, invented; as trade data would give them. */
#ifndef TESTS_SEALS_H
#define TESTS_SEALS_H

#include "bench/seal_profile.h"

#define MM(x) ((x)*1e-3)
static const struct seal_profile seals[] = {
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
};
enum { N_SEALS = sizeof seals / sizeof *seals };

#endif
