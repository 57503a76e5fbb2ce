/* factor.h - a sparse basis in triangular factors, changed a column at a time.
 *
 * Pivots: columns and rows that hold one entry first (they need no elimination), what is left by
 * columns with few entries, each with threshold pivoting. A replaced column is kept as an eta of
 * the product form. Sources: I. S. Duff, A. M. Erisman & J. K. Reid, Direct Methods for Sparse
 * Matrices; G. B. Dantzig & W. Orchard-Hays, The product form for the inverse, MTAC 8 (1954). */
#ifndef RECKON_FACTOR_H
#define RECKON_FACTOR_H

#include "base/arena.h"

/* Columns by start and entries; the column of number columns + i is the unit of row i. */
struct factor_matrix {
    int rows, columns;
    const int *start, *row;
    const double *value;
};

struct factor;

struct factor *factor_new(struct arena *a, const struct factor_matrix *matrix);

/* Puts basis (`rows` column numbers) in the order in which column basis[i] is pivoted on row i.
 * Columns that depend on others are replaced by the units that are missing; returns how many. */
int factor_make(struct factor *f, int *basis);

void factor_forward(const struct factor *f, double *x);  /* B^-1 x */
void factor_backward(const struct factor *f, double *x); /* B^-T x */

/* The column of row `row` is replaced; `alpha` is the new one through factor_forward. */
void factor_replace(struct factor *f, int row, const double *alpha);
int factor_replaced(const struct factor *f); /* since factor_make */

#endif
