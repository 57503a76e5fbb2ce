/* tyre_code.h - what is written on a tyre's side: its size, old and new, its load index, its speed
 * symbol and the date it was made. */
#ifndef BENCH_TYRE_CODE_H
#define BENCH_TYRE_CODE_H

#include "base/arena.h"
#include "base/fail.h"

enum tyre_build { TYRE_RADIAL, TYRE_CROSS_PLY, TYRE_BELTED };

struct tyre {
    const char *form; /* "metric", "metric without aspect", "inch", "letter", "flotation" */
    enum tyre_build build;
    double width;         /* m; 0: its letter does not tell it */
    double aspect;        /* section height by width, as it is written or as was usual */
    double rim, diameter; /* m; the diameter is over the tread, without load */
    double rolling;       /* circumference as it rolls, m */
    double doubt;         /* share by which the diameter may be off; 0: it follows from the code */
    int load_index;       /* 0: not written; it may be one that the table lacks */
    char speed;           /* symbol, 0: not written */
};

/* "185/60R14", "P205/70R15 95H", "165SR13", "185R14", "6.00-16", "5.60x15", "A78-14",
 * "31x10.50R15". FAIL_INPUT beginning with `input`, and what is misread in it. */
bool tyre_parse(const char *input, const char *typed, struct tyre *out, struct fail *f);
extern const char *const tyre_build_names[]; /* by enum tyre_build */
/* As it rolls, about: the convention of the makers for this build. */
double tyre_rolls(enum tyre_build build, double diameter);

double tyre_load(int index);    /* kg; 0: not in the table, 71 to 110 */
double tyre_speed(char symbol); /* m/s; 0: not in the table, L to Y */

struct tyre_date {
    int week, years[3], n_years; /* three years before 2000: the decade is not told */
};
/* The digits at the end of a DOT number: "2304", "DOT XXXX XXX 158". */
bool tyre_date_parse(const char *input, const char *typed, struct tyre_date *out, struct fail *f);

#endif
