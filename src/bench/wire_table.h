/* wire_table.h - wire by its designation, its resistance, and the current that its covering bears:
 * "10 AWG", "2.5 mm2", "44/0.012" (strands by inches), "28/0.30" (strands by millimetres). */
#ifndef BENCH_WIRE_TABLE_H
#define BENCH_WIRE_TABLE_H

#include "base/arena.h"
#include "base/fail.h"

struct wire {
    const char *name;
    double area;      /* of the copper, m2 */
    double per_metre; /* ohm at 20 C */
};

/* FAIL_INPUT beginning with `input`. */
bool wire_parse(struct arena *a, const char *input, const char *typed, struct wire *out,
                struct fail *f);
/* The sizes that are sold, thinnest first; false after the last. */
bool wire_awg(int nth, struct arena *a, struct wire *out);
bool wire_metric(int nth, struct arena *a, struct wire *out);

/* Copper's resistance against that at 20 C; kelvin. */
double wire_warm(double temperature);

/* Where it runs. */
struct wire_place {
    int insulation; /* index of wire_insulations */
    bool engine_space;
    int bundle; /* index of wire_bundles */
};
extern const char *const wire_insulations[]; /* "60", "75", ... degrees C; NULL-terminated */
extern const char *const wire_bundles[];     /* "1", "3", "4-6", "7-24" */
/* A; INFINITY never: 0 where the table does not reach (over 4/0 AWG). */
double wire_ampacity(double area, const struct wire_place *where);

#endif
