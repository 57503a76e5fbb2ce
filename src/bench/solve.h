/* solve.h - a calculator asked backwards: which input gives a wanted output? And its plot.
 *
 * The input is looked for in its own range, all others as given: the range is cut into steps, the
 * first step in which the output passes the wanted value is halved until it is known to a part in a
 * million. Several answers may exist; the smallest input is given. */
#ifndef BENCH_SOLVE_H
#define BENCH_SOLVE_H

#include "bench/calc.h"

enum { SOLVE_STEPS = 256 };

/* in[input] is set to the answer, and *out is what it gives. FAIL_NO: no input in the range does,
 * with the outputs at both ends. */
bool calc_solve(struct arena *a, const struct calc *c, struct calc_value *in, int input, int output,
                double wanted, struct calc_result *out, struct fail *f);

/* x over the range of the input, y the output: `count` points, those without an answer left out.
 * Returns how many there are. */
int calc_curve(struct arena *a, const struct calc *c, const struct calc_value *in, int input,
               int output, int count, double *x, double *y);

#endif
