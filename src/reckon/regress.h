/* regress.h - lines through figures: least squares, the same with what was thought beforehand, and
 * how far each figure pulls the answer.
 *
 * Everything goes by Householder reflections of the table itself; the normal equations, which lose
 * half of the digits, are never formed.
 *
 * With a prior (normal-inverse-gamma): given the variance s2 of a figure about the line, the
 * coefficients are normal about prior.mean with sd prior.sd * s / prior.scatter, apart from each
 * other; s2 is inverse-gamma of shape prior.weight / 2, so that prior.scatter is the sd thought of,
 * worth prior.weight figures. That is the least squares of the table with a row more for each
 * coefficient, and so done. prior.sd of +infinity is a coefficient of which nothing was thought: it
 * costs one degree of freedom. What the next figure will be is Student's t.
 *
 * Published: Householder QR, G. H. Golub, Numerische Mathematik 7 (1965) 206-216. Published:
 * conjugate regression, A. Gelman et al., Bayesian Data Analysis, 3rd ed., sec. 14.2 and 14.8.
 * Published: what leaving one out does, R. D. Cook, Technometrics 19 (1977) 15-18. Published:
 * quantile of t, G. W. Hill, Algorithm 396, Communications of the ACM 13 (1970) 619-620. */
#ifndef RECKON_REGRESS_H
#define RECKON_REGRESS_H

#include "base/arena.h"

struct regress_prior {
    const double *mean, *sd; /* by column; sd in the unit of y, +infinity: nothing was thought */
    double scatter;          /* sd of a figure about the line, as thought beforehand; > 0 */
    double weight;           /* of how many figures that thought is worth; > 0 */
};

struct regress {
    int rows, columns;
    const double *x, *y; /* x[row * columns + column] */
    double *beta;        /* estimates; with a prior their means */
    double *error;       /* their standard errors; with a prior their scale (t of `freedom`) */
    double *r;           /* upper triangle, columns x columns: r'r is x'x and the prior's rows */
    double squares;      /* sum of squared residuals, those of the prior's rows included */
    double freedom;      /* degrees of freedom; 0: the line goes through every figure */
    double scatter;      /* residual sd; 0 where freedom is 0 */
};

/* rows >= 1, columns >= 1, all finite. False if the columns cannot be told apart (or are more than
 * the rows): then no line is the best. prior NULL: plain least squares. */
bool regress_fit(struct arena *a, int rows, int columns, const double *x, const double *y,
                 const struct regress_prior *prior, struct regress *out);

/* Share of the variance explained, and Fisher's F of the whole line; plain least squares only.
 * `constant`: the line has a constant, which is not counted (and the mean is taken off). */
struct regress_share {
    double r2, f; /* f may be +infinity */
};
struct regress_share regress_share_of(const struct regress *fit, bool constant);

/* The next figure at x[columns]: Student's t about `mean`, scaled by `scale`, of fit->freedom
 * degrees. */
struct regress_next {
    double mean, scale;
};
struct regress_next regress_predict(const struct regress *fit, const double *x,
                                    struct arena scratch);

/* How far the mean at x would move if row `row` had never been there: with it less without it. */
double regress_pull(const struct regress *fit, int row, const double *x, struct arena scratch);

/* The t quantile of the chance that a standard normal stays under z. freedom > 0; to about six
 * figures from 3 degrees up. */
double student_quantile(double z, double freedom);

#endif
