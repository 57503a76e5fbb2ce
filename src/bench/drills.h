/* drills.h - the drills that can be bought: metric, inch by 64ths, numbers and letters. */
#ifndef BENCH_DRILLS_H
#define BENCH_DRILLS_H

#include "base/arena.h"

enum drill_kind { DRILL_METRIC = 1, DRILL_INCH = 2, DRILL_ANY = 3 };

struct drill {
    const char *name; /* "6.8 mm", "17/64 in", "No. 7", "letter Q" */
    double size;      /* m */
};

enum { DRILL_LOW_UM = 500, DRILL_HIGH_UM = 50000 }; /* the sizes listed, in micrometres */

/* The nearest of these kinds to a size (held to the sizes listed); or the smallest not under it. */
struct drill drill_nearest(struct arena *a, double size, enum drill_kind kinds);
struct drill drill_not_under(struct arena *a, double size, enum drill_kind kinds);
/* By its name in one of the forms above; size 0 if there is none such. */
double drill_size(const char *name);

#endif
