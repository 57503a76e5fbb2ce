/* test_pert.c - moments and quantiles of three-point estimates against published sums and
 * references. */
#include "base/random.h"
#include "reckon/pert.h"

#include "reckon/near.h"
#include "reckon/reliable.h"

#include <string.h>

static const double levels[6] = {0.05, 0.10, 0.50, 0.80, 0.90, 0.95};

/* Source: Hillier & Lieberman, as in reliable.h: variances, their sum 9 along the critical path of
 * 44, and P(T <= 47) = 0.84 from the normal table; the other odds from the same normal. */
static void classical(void **state)
{
    (void)state;
    static const double variance[RELIABLE_JOBS] = {
        [A] = 1 / 9.0, [B] = 1, [C] = 4, [D] = 1, [E] = 4 / 9.0, [F] = 1,       [G] = 1,
        [H] = 4,       [I] = 1, [J] = 1, [K] = 0, [L] = 1,       [M] = 1 / 9.0, [N] = 4 / 9.0,
    };
    static const double mean[RELIABLE_JOBS] = {2, 4, 10, 6, 4, 5, 7, 9, 7, 8, 4, 5, 2, 6};
    static const int critical[] = {A, B, C, E, F, J, L, N};
    static const struct {
        double by, chance;
    } odds[] = {{38, 0.022750}, {40, 0.091211}, {44, 0.5}, {47, 0.841345}, {50, 0.977250}};
    double path_mean = 0, path_variance = 0;

    for (int j = 0; j < RELIABLE_JOBS; j++) {
        assert_near(pert_mean(reliable_estimate[j]), mean[j], 1e-12);
        assert_near(pert_variance_classical(reliable_estimate[j]), variance[j], 1e-12);
    }
    for (int i = 0; i < 8; i++) {
        path_mean += pert_mean(reliable_estimate[critical[i]]);
        path_variance += pert_variance_classical(reliable_estimate[critical[i]]);
    }
    assert_near(path_mean, 44, 1e-12);
    assert_near(path_variance, 9, 1e-12);
    for (size_t k = 0; k < sizeof odds / sizeof odds[0]; k++) {
        double z = (odds[k].by - path_mean) / sqrt(path_variance);
        assert_near(normal_cdf(z), odds[k].chance, 5e-7);
    }
}

/* Reference: closed forms; quantiles by a 30-digit incomplete beta and by SciPy, which agreed. */
static void beta_references(void **state)
{
    (void)state;
    static const struct {
        struct pert e;
        double mean, variance, classical, quantile[6];
    } cases[] = {
        {{1, 2, 6},
         2.5,
         0.75,
         25 / 36.0,
         {1.294886938059, 1.449510652296, 2.383361296963, 3.251293069079, 3.726670252168,
          4.106383620081}},
        {{2, 4, 9},
         4.5,
         1.607142857142857,
         49 / 36.0,
         {2.630158653357, 2.904353459303, 4.382588601420, 5.625879640753, 6.272702746348,
          6.773921493496}},
        {{5, 8, 17},
         9,
         4.571428571428571,
         4,
         {5.917284696948, 6.346819502550, 8.765722045468, 10.882308115666, 12.006684495434,
          12.888899816014}},
    };
    for (size_t k = 0; k < sizeof cases / sizeof cases[0]; k++) {
        struct pert e = cases[k].e;
        assert_near(pert_mean(e), cases[k].mean, 1e-12);
        assert_near(pert_variance(e), cases[k].variance, 1e-12);
        assert_near(pert_variance_classical(e), cases[k].classical, 1e-12);
        for (int q = 0; q < 6; q++) {
            assert_near(pert_quantile(e, levels[q]), cases[k].quantile[q], 1e-11);
        }
    }
}

/* Reference: closed forms, recomputed to 12 decimals by another program. */
static void triangle_references(void **state)
{
    (void)state;
    static const double quantile[6] = {2.836660026534, 3.183215956620, 4.816699867330,
                                       6.354248688935, 7.129171306613, 7.677124344468};
    struct pert e = {2, 4, 9};
    assert_near(triangle_mean(e), 5, 1e-12);
    assert_near(triangle_variance(e), 13 / 6.0, 1e-12);
    for (int q = 0; q < 6; q++) assert_near(triangle_quantile(e, levels[q]), quantile[q], 1e-11);
    assert_near(triangle_quantile(e, 0), 2, 0);
    assert_near(triangle_quantile(e, 1), 9, 0);
    assert_near(triangle_quantile((struct pert){3, 3, 3}, 0.7), 3, 0);
    assert_near(triangle_quantile((struct pert){0, 0, 1}, 0.75), 0.5, 1e-15); /* 1 - sqrt(1/4) */
}

/* For whole alpha and beta the incomplete beta is a binomial tail: Abramowitz & Stegun 26.5.24. */
static void beta_is_binomial(void **state)
{
    (void)state;
    static const double at[] = {1e-9, 1e-3, 0.1, 0.25, 0.5, 0.7, 0.9, 0.999};
    for (int alpha = 1; alpha <= 12; alpha++) {
        for (int beta = 1; beta <= 12; beta++) {
            for (size_t i = 0; i < sizeof at / sizeof at[0]; i++) {
                int n = alpha + beta - 1;
                double term = 1, tail = 0; /* C(n, k) x^k (1 - x)^(n - k) */
                for (int k = 1; k <= n; k++) term *= 1 - at[i];
                for (int k = 0; k <= n; k++) {
                    if (k >= alpha) tail += term;
                    term *= (double)(n - k) / (k + 1) * at[i] / (1 - at[i]);
                }
                assert_near(beta_cdf(at[i], alpha, beta), tail, 1e-13);
            }
        }
    }
    assert_near(beta_cdf(0, 2, 3), 0, 0);
    assert_near(beta_cdf(1, 2, 3), 1, 0);
}

static void beta_inverse_returns(void **state)
{
    (void)state;
    static const double p[] = {1e-6, 0.01, 0.1, 0.3, 0.5, 0.8, 0.99, 1 - 1e-6};
    static const double shape[][2] = {{1, 1}, {1, 5}, {5, 1}, {2.5, 3.5}, {1.5, 4.5}, {80, 3}};
    for (size_t s = 0; s < sizeof shape / sizeof shape[0]; s++) {
        for (size_t i = 0; i < sizeof p / sizeof p[0]; i++) {
            double x = beta_quantile(p[i], shape[s][0], shape[s][1]);
            assert_near(beta_cdf(x, shape[s][0], shape[s][1]), p[i], 1e-12);
        }
    }
}

static void to_points(void **state)
{
    (void)state;
    static const struct {
        struct pert e;
        const char *wrong; /* NULL: taken */
    } cases[] = {
        {{1, 2, 6}, NULL},         {{0, 0, 3}, NULL},       {{4, 4, 4}, NULL},
        {{-1, 2, 6}, "0 or more"}, {{0, 0, 0}, "above 0"},  {{3, 2, 6}, "rising"},
        {{1, 7, 6}, "rising"},     {{1, NAN, 6}, "rising"}, {{1, 2, INFINITY}, "rising"},
    };
    for (size_t k = 0; k < sizeof cases / sizeof cases[0]; k++) {
        struct points got;
        struct fail f = {0};
        assert_int_equal(pert_points(cases[k].e, &got, &f), cases[k].wrong == NULL);
        if (cases[k].wrong) assert_non_null(strstr(f.text, cases[k].wrong));
        if (!cases[k].wrong) assert_true(points_valid(got));
    }
    struct points got;
    struct fail f = {0};
    assert_true(pert_points((struct pert){1, 2, 6}, &got, &f));
    assert_near(got.low, 1.449510652296, 1e-11);
    assert_near(got.middle, 2.383361296963, 1e-11);
    assert_near(got.high, 3.726670252168, 1e-11);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(classical),
        cmocka_unit_test(beta_references),
        cmocka_unit_test(triangle_references),
        cmocka_unit_test(beta_is_binomial),
        cmocka_unit_test(beta_inverse_returns),
        cmocka_unit_test(to_points),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
