/* pert.h - estimates given as least, likeliest, most, and the distributions that such figures stand
 * for.
 *
 * Fettle's own figures are percentiles (base/points.h). This is for estimates that come in the
 * older shape, and for reference: pert_points turns one into the three percentiles.
 *
 * The beta-PERT distribution on least .. most has alpha = 1 + 4 (likeliest - least) / (most -
 * least) and beta = 1 + 4 (most - likeliest) / (most - least), so alpha + beta = 6 and its mean is
 * the classical (least + 4 likeliest + most) / 6. Its variance is (mean - least) (most - mean) / 7.
 * The classical
 * ((most - least) / 6)^2 is another number, equal only by chance: each is given under its own name.
 *
 * Published: D. G. Malcolm, J. H. Roseboom, C. E. Clark & W. Fazar, Operations Research 7 (1959)
 * 646-669 (mean and classical variance). Incomplete beta: continued fraction of Abramowitz &
 * Stegun, Handbook of Mathematical Functions (1964), 26.5.8. */
#ifndef RECKON_PERT_H
#define RECKON_PERT_H

#include "base/points.h"

struct pert {
    double least, likeliest,
        most; /* least <= likeliest <= most, finite; all equal: a certain value */
};

bool pert_valid(struct pert e);

double pert_mean(struct pert e);               /* of the beta-PERT, and the classical one */
double pert_variance(struct pert e);           /* of the beta-PERT */
double pert_variance_classical(struct pert e); /* ((most - least) / 6)^2 */
double pert_quantile(struct pert e, double p); /* of the beta-PERT, 0 < p < 1 */

double triangle_mean(struct pert e);
double triangle_variance(struct pert e);
double triangle_quantile(struct pert e, double p); /* 0 <= p <= 1 */

/* The three percentiles of the beta-PERT. Fails if least is negative, or most not above 0: a
 * duration or a price is meant. */
bool pert_points(struct pert e, struct points *out, struct fail *f);

/* Regularised incomplete beta function I_x(alpha, beta), 0 <= x <= 1, alpha, beta > 0, and its
 * inverse. Tested to 1e-13 against binomial sums for whole alpha, beta from 1 to 12, the inverse to
 * 1e-12 up to (80, 3). Below 1 the inverse near an end is only as good as the spacing of doubles.
 */
double beta_cdf(double x, double alpha, double beta);
double beta_quantile(double p, double alpha, double beta);

#endif
