/* bench_ask.h - a calculator asked by name and by named values, for every face.
 *
 * A value is typed for an input. Backwards: one input is "?", and one output is given the value
 * wanted of it. */
#ifndef SHOW_BENCH_ASK_H
#define SHOW_BENCH_ASK_H

#include "bench/calc.h"
#include "library/trade.h"

struct bench_typed {
    const char *name, *value;
};

enum { BENCH_CURVE = 60 };

struct bench_asked {
    const struct calc *calc;
    struct calc_value in[CALC_VALUES];
    struct calc_result result;
    int solved; /* index of the input that was looked for, or -1 */
    enum unit_system system;
    int n_curve; /* points of its plot; 0 if it has none */
    double x[BENCH_CURVE], y[BENCH_CURVE];
};

/* A name that the calculator does not have, the same twice, and what its inputs do not take:
 * FAIL_INPUT, the line beginning with the name where there is one. */
/* t: needed only where the sum chooses among trade data. */
bool bench_ask(struct arena *a, const struct calc *c, const struct trade *t,
               const struct bench_typed *typed, int count, enum unit_system system,
               struct bench_asked *out, struct fail *f);
/* The calculator, or FAIL_INPUT with the nearest. */
bool bench_find(const char *name, const struct calc **out, struct fail *f);

#endif
