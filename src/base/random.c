#include "base/random.h"

#include <assert.h>
#include <math.h>

/* Numerator and denominator side by side: both are reckoned in one vector register, since this is
 * the inner loop of every draw. */
typedef double pair __attribute__((vector_size(16)));

struct ratio {
    pair c[8]; /* coefficients of x^0 .. x^7, {above, below} */
};

static inline double ratio_at(const struct ratio *r, double x)
{
    const double x2 = x * x, x4 = x2 * x2;
    const pair *c = r->c;
    const pair sum = ((c[0] + c[1] * x) + (c[2] + c[3] * x) * x2) +
                     ((c[4] + c[5] * x) + (c[6] + c[7] * x) * x2) * x4;
    return sum[0] / sum[1];
}

/* AS 241, PPND16: rational approximations in three regions, relative accuracy about 1 in 10^16. The
 * mantissas of each region add up to the published check sums, 55.88319288..., 49.33206503...,
 * 47.52583317.... */
static const struct ratio middle = {{
    {3.3871328727963666080e0, 1.0},
    {1.3314166789178437745e2, 4.2313330701600911252e1},
    {1.9715909503065514427e3, 6.8718700749205790830e2},
    {1.3731693765509461125e4, 5.3941960214247511077e3},
    {4.5921953931549871457e4, 2.1213794301586595867e4},
    {6.7265770927008700853e4, 3.9307895800092710610e4},
    {3.3430575583588128105e4, 2.8729085735721942674e4},
    {2.5090809287301226727e3, 5.2264952788528545610e3},
}};
static const struct ratio near = {{
    {1.42343711074968357734e0, 1.0},
    {4.63033784615654529590e0, 2.05319162663775882187e0},
    {5.76949722146069140550e0, 1.67638483018380384940e0},
    {3.64784832476320460504e0, 6.89767334985100004550e-1},
    {1.27045825245236838258e0, 1.48103976427480074590e-1},
    {2.41780725177450611770e-1, 1.51986665636164571966e-2},
    {2.27238449892691845833e-2, 5.47593808499534494600e-4},
    {7.74545014278341407640e-4, 1.05075007164441684324e-9},
}};
static const struct ratio far = {{
    {6.65790464350110377720e0, 1.0},
    {5.46378491116411436990e0, 5.99832206555887937690e-1},
    {1.78482653991729133580e0, 1.36929880922735805310e-1},
    {2.96560571828504891230e-1, 1.48753612908506148525e-2},
    {2.65321895265761230930e-2, 7.86869131145613259100e-4},
    {1.24266094738807843860e-3, 1.84631831751005468180e-5},
    {2.71155556874348757815e-5, 1.42151175831644588870e-7},
    {2.01033439929228813265e-7, 2.04426310338993978564e-15},
}};

double normal_quantile(double p)
{
    const double q = p - 0.5;
    if (fabs(q) <= 0.425) return q * ratio_at(&middle, 0.180625 - q * q); /* 17 draws of 20 */
    assert(p > 0.0 && p < 1.0);
    const double r = sqrt(-log(q < 0.0 ? p : 1.0 - p));
    const double z = r <= 5.0 ? ratio_at(&near, r - 1.6) : ratio_at(&far, r - 5.0);
    return copysign(z, q);
}

double normal_cdf(double z)
{
    return 0.5 * erfc(-z * 0.70710678118654752440); /* 1 / sqrt(2) */
}

double random_normal_tail(double q)
{
    double r = sqrt(-log(q < 0 ? 0.5 + q : 0.5 - q)), z;
    if (r <= 5) {
        r -= 1.6;
        z = (((0.17023821103 * r + 1.3067284816) * r + 2.75681539) * r + 1.4234372777) /
            ((0.12021132975 * r + 0.7370016425) * r + 1);
    } else {
        r -= 5;
        z = (((0.017337203997 * r + 0.42868294337) * r + 3.081226386) * r + 6.657905115) /
            ((0.012258202635 * r + 0.24197894225) * r + 1);
    }
    return q < 0 ? -z : z;
}
