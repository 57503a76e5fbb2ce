/* list.h - several readings typed in one line: "165, 160, 150, 158 psi", "165 160 150 158". A unit
 * stands for all that stand before it without one; else they have the bare one. */
#ifndef BENCH_LIST_H
#define BENCH_LIST_H

#include "base/unit.h"

struct list_kind {
    const char *name; /* of the input, for the line that refuses */
    enum quantity quantity;
    const char *bare; /* as unit_parse takes it */
    double low, high; /* SI, both allowed */
};

/* At most `most` into out. 0: refused, with a line that begins with the name. */
int list_read(struct arena *a, const struct list_kind *kind, const char *typed, double *out,
              int most, struct fail *f);

#endif
