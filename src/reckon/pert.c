#include "reckon/pert.h"

#include <assert.h>
#include <float.h>
#include <math.h>

bool pert_valid(struct pert e)
{
    return isfinite(e.least) && isfinite(e.most) && e.least <= e.likeliest && e.likeliest <= e.most;
}

double pert_mean(struct pert e)
{
    return (e.least + 4 * e.likeliest + e.most) / 6;
}

double pert_variance(struct pert e)
{
    double mean = pert_mean(e);
    return (mean - e.least) * (e.most - mean) / 7;
}

double pert_variance_classical(struct pert e)
{
    double sixth = (e.most - e.least) / 6;
    return sixth * sixth;
}

double pert_quantile(struct pert e, double p)
{
    double width = e.most - e.least;
    assert(pert_valid(e));
    if (width <= 0) return e.likeliest;
    return e.least + width * beta_quantile(p, 1 + 4 * (e.likeliest - e.least) / width,
                                           1 + 4 * (e.most - e.likeliest) / width);
}

double triangle_mean(struct pert e)
{
    return (e.least + e.likeliest + e.most) / 3;
}

double triangle_variance(struct pert e)
{
    double left = e.likeliest - e.least, right = e.most - e.likeliest;
    return (left * left + left * right + right * right) / 18;
}

double triangle_quantile(struct pert e, double p)
{
    double width = e.most - e.least, left = e.likeliest - e.least, right = e.most - e.likeliest;
    assert(pert_valid(e) && p >= 0 && p <= 1);
    if (width <= 0) return e.likeliest;
    if (p * width < left) return e.least + sqrt(p * width * left);
    return e.most - sqrt((1 - p) * width * right);
}

bool pert_points(struct pert e, struct points *out, struct fail *f)
{
    if (!pert_valid(e)) {
        return fail_set(f, FAIL_INPUT,
                        "estimate %g/%g/%g: give least, likeliest and most in rising order",
                        e.least, e.likeliest, e.most);
    }
    if (e.least < 0 || e.most <= 0) {
        return fail_set(f, FAIL_INPUT,
                        "estimate %g/%g/%g: give figures of 0 or more, the most above 0", e.least,
                        e.likeliest, e.most);
    }
    *out = (struct points){pert_quantile(e, 0.1), pert_quantile(e, 0.5), pert_quantile(e, 0.9)};
    return true;
}

/* lgamma writes the global signgam; the arguments here are positive, so the sign is of no interest.
 */
static double log_gamma(double x)
{
    int sign;
    return lgamma_r(x, &sign);
}

static double log_beta(double alpha, double beta)
{
    return log_gamma(alpha) + log_gamma(beta) - log_gamma(alpha + beta);
}

/* 1 + d1 / (1 + d2 / (1 + ...)) by Lentz's method as modified by I. J. Thompson & A. R. Barnett, J.
 * Comput. Phys. 64 (1986): no partial denominator may be 0. */
static double beta_fraction(double x, double alpha, double beta)
{
    const double tiny = DBL_MIN / DBL_EPSILON;
    double value = 1, c = 1, d = 0;

    for (int k = 1; k < 500; k++) {
        int m = k / 2;
        double at = alpha + 2 * m;
        double even = m * (beta - m) * x / ((at - 1) * at);
        double odd = -(alpha + m) * (alpha + beta + m) * x / (at * (at + 1));
        double term = k % 2 == 0 ? even : odd;
        d = 1 + term * d;
        if (fabs(d) < tiny) d = tiny;
        d = 1 / d;
        c = 1 + term / c;
        if (fabs(c) < tiny) c = tiny;
        value *= c * d;
        if (fabs(c * d - 1) < 2 * DBL_EPSILON) break;
    }
    return value;
}

double beta_cdf(double x, double alpha, double beta)
{
    assert(x >= 0 && x <= 1 && alpha > 0 && beta > 0);
    if (x <= 0 || x >= 1) return x;
    /* The fraction converges fast only below the mean; above it, count from the other end. */
    if (x > (alpha + 1) / (alpha + beta + 2)) return 1 - beta_cdf(1 - x, beta, alpha);
    double front = exp(alpha * log(x) + beta * log1p(-x) - log_beta(alpha, beta)) / alpha;
    return front / beta_fraction(x, alpha, beta);
}

/* Newton's steps, kept inside a bracket that bisection halves whenever a step would leave it. */
double beta_quantile(double p, double alpha, double beta)
{
    double low = 0, high = 1, x = alpha / (alpha + beta), scale = log_beta(alpha, beta);
    assert(p > 0 && p < 1);
    for (int k = 0; k < 200 && high - low > DBL_EPSILON * x; k++) {
        double off = beta_cdf(x, alpha, beta) - p;
        if (off > 0) high = x;
        if (off <= 0) low = x;
        double density = exp((alpha - 1) * log(x) + (beta - 1) * log1p(-x) - scale);
        double next = x - off / density;
        if (!(next > low && next < high)) next = (low + high) / 2;
        if (fabs(next - x) < DBL_EPSILON * x) return next;
        x = next;
    }
    return x;
}
