/* loom.h - the circuits of a vehicle against the rules of wire, fuse and switch: what is too thin,
 * unfused or overloaded, each named. */
#ifndef BENCH_LOOM_H
#define BENCH_LOOM_H

#include "bench/calc.h"

enum loom_use { LOOM_LAMPS, LOOM_IGNITION, LOOM_MOTOR, LOOM_OTHER, LOOM_STARTER };

struct loom_circuit {
    const char *name, *wire,
        *switch_name; /* wire as wire_table.h reads it; switch_name may be NULL */
    enum loom_use use;
    double watts, amps;        /* one of them; 0: not known */
    double length;             /* one way, m */
    double fuse, switch_rates; /* A; 0: no fuse; not known */
    bool earth_wire;           /* back by a wire of its own, else by the body */
    int insulation, bundle;    /* as in struct wire_place */
    bool engine_space;
};

enum { LOOM_FAULTS = 6 };
struct loom_line {
    bool known; /* load and wire are: what follows is set */
    double amps, drop, share, limit, bears;
    const char *needs;  /* the thinnest wire that does, NULL if this one does or none would */
    double fuse_to_fit; /* A; 0: none is sold, or none is wanted */
    enum verdict verdict;
    const char *faults[LOOM_FAULTS];
    enum verdict worth[LOOM_FAULTS];
    int n_faults;
};

struct loom {
    struct loom_line *lines; /* one a circuit */
    int bad, care;           /* circuits */
    double amps;             /* all together, but the starter */
};

/* A circuit that is not understood is a fault of its own line, never a failure. */
void loom_check(struct arena *a, const struct loom_circuit *circuits, int count, double volts,
                struct loom *out);

#endif
