/* simplex.h - the linear relaxation of an integer program in a box, solved again and again as the
 * box changes.
 *
 * Dual simplex: steepest edge, long steps over boxes (bound flipping), Harris' ratio test with
 * costs shifted by what it oversteps, costs perturbed against stalling. Since every column has a
 * box, any basis is dual feasible; a changed box needs no beginning anew. Sources: J. J.
 * Forrest & D. Goldfarb, Mathematical Programming 57 (1992) 341-374; A. Koberstein, The dual
 * simplex method, techniques for a fast and stable implementation, 2005.
 *
 * The floating answer is never trusted for a proof: simplex_bound reckons from any duals a bound
 * that holds, simplex_barren holds what it found of rows to the box. */
#ifndef RECKON_SIMPLEX_H
#define RECKON_SIMPLEX_H

#include "reckon/program.h"

enum simplex_end {
    SIMPLEX_BEST,   /* x is optimal within tolerances */
    SIMPLEX_CUT,    /* its bound passed `cutoff` */
    SIMPLEX_BARREN, /* no x in the box */
    SIMPLEX_STUCK,  /* numbers or the work failed; the duals still give a bound */
};

struct simplex;

struct simplex *simplex_new(struct arena *a, const struct program *p);

/* Within [low, high]; cutoff: an objective that is not worth reaching; at most `most_steps`. */
enum simplex_end simplex_solve(struct simplex *s, const int64_t *low, const int64_t *high,
                               double cutoff, int most_steps);
const double *simplex_x(const struct simplex *s); /* by column */
int64_t simplex_steps(const struct simplex *s);   /* since new */

/* A lower bound of the cost over [low, high] from the present duals, and the reduced costs that
 * belong to it: a column that leaves its cheap end by k costs k |reduced| more. */
double simplex_bound(struct simplex *s, const int64_t *low, const int64_t *high, double *reduced);

/* After SIMPLEX_BARREN: whether the row that it found indeed cannot hold. */
bool simplex_barren(const struct simplex *s, const int64_t *low, const int64_t *high);

#endif
