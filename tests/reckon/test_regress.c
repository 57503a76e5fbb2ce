/* test_regress.c - certified least squares, the two physicists, Student's t, and what leaving one
 * out does. */
#include "base/random.h"
#include "reckon/regress.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "reckon/near.h"

#define NIST_DIR SHARED_DIR "/data/nist"

static struct arena arena;

static int open_arena(void **state)
{
    (void)state;
    arena = arena_open(1 << 26);
    return 0;
}

static int close_arena(void **state)
{
    (void)state;
    arena_close(&arena);
    return 0;
}

enum { MOST = 64, COLUMNS = 6 };

/* Relative, or absolute where 0 is expected. */
static void digits(double got, double expected, double within, const char *what)
{
    double off = expected == 0 ? fabs(got) : fabs(got / expected - 1);
    if (off <= within || (isinf(got) && isinf(expected))) return;
    fail_msg("%s: %.17g, not %.17g", what, got, expected);
}

/* Published: certified values of the NIST Statistical Reference Datasets, linear regression. */
static const struct certified {
    const char *file;
    bool constant;
    int columns;
    double within;
    double beta[COLUMNS], error[COLUMNS];
    double scatter, r2, f;
} certified[] = {
    {"norris.csv",
     true,
     2,
     1e-12,
     {-0.262323073774029, 1.00211681802045},
     {0.232818234301152, 0.429796848199937e-3},
     0.884796396144373,
     0.999993745883712,
     5436385.54079785},
    {"noint1.csv",
     false,
     1,
     1e-12,
     {2.07438016528926},
     {0.0165289256198347},
     3.56753034006338,
     0.999365492298663,
     15750.25},
    {"noint2.csv",
     false,
     1,
     1e-12,
     {0.727272727272727},
     {0.0420827318078432},
     0.369274472937998,
     0.993348115299335,
     298.666666666667},
    {"wampler1.csv", true, 6, 1e-7, {1, 1, 1, 1, 1, 1}, {0}, 0, 1, INFINITY},
    {"wampler2.csv", true, 6, 1e-7, {1, .1, .01, .001, .0001, .00001}, {0}, 0, 1, INFINITY},
};

static int read_table(const char *name, double *x, double *y)
{
    char path[300], line[200];
    snprintf(path, sizeof path, "%s/%s", NIST_DIR, name);
    FILE *in = fopen(path, "r");
    if (!in) return 0;
    int n = 0;
    if (!fgets(line, sizeof line, in)) fail_msg("%s is empty", path);
    while (fgets(line, sizeof line, in) && n < MOST) {
        char *rest;
        y[n] = strtod(line, &rest);
        x[n++] = strtod(rest + 1, NULL);
    }
    fclose(in);
    return n;
}

static void certified_values(void **state)
{
    (void)state;
    for (size_t k = 0; k < sizeof certified / sizeof *certified; k++) {
        const struct certified *c = &certified[k];
        double x[MOST], y[MOST], table[MOST * COLUMNS];
        int rows = read_table(c->file, x, y);
        if (rows == 0) {
            print_message("no %s/%s: not tried\n", NIST_DIR, c->file);
            skip();
        }
        for (int i = 0; i < rows; i++)
            for (int j = 0; j < c->columns; j++)
                table[i * c->columns + j] = pow(x[i], c->constant ? j : j + 1);
        struct regress fit;
        assert_true(regress_fit(&arena, rows, c->columns, table, y, NULL, &fit));
        for (int j = 0; j < c->columns; j++) {
            digits(fit.beta[j], c->beta[j], c->within, c->file);
            digits(fit.error[j], c->error[j], c->within, c->file);
        }
        struct regress_share share = regress_share_of(&fit, c->constant);
        /* Wampler's figures run to five millions: nothing is 1e-9 of that. */
        digits(fit.scatter, c->scatter, c->within, c->file);
        digits(share.r2, c->r2, c->within, c->file);
        if (isinf(c->f))
            assert_true(share.f > 1e20);
        else
            digits(share.f, c->f, c->within * 10, c->file);
    }
}

static void columns_alike_are_refused(void **state)
{
    (void)state;
    static const double x[] = {1, 2, 1, 2, 1, 2}, y[] = {1, 2, 3};
    struct regress fit;
    assert_false(regress_fit(&arena, 3, 2, x, y, NULL, &fit));
    assert_false(regress_fit(&arena, 1, 2, x, y, NULL, &fit)); /* more columns than rows */
    /* With something thought of each it can be told. */
    static const double mean[] = {0, 0}, sd[] = {1, 1};
    struct regress_prior prior = {mean, sd, 1, 4};
    assert_true(regress_fit(&arena, 3, 2, x, y, &prior, &fit));
    assert_near(fit.beta[1], 2 * fit.beta[0], 1e-12);
}

/* Published: G. E. P. Box & G. C. Tiao, Bayesian Inference in Statistical Analysis (1973), sec.
 * 1.2: the scatter of 40 is known, which a weight without end says. The second stage was computed
 * for this purpose. */
static void two_physicists(void **state)
{
    (void)state;
    static const struct {
        double mean, sd, after, after_sd, later, later_sd;
    } cases[] = {{900, 20, 890, 17.888544, 870.952381, 3.903600},
                 {800, 80, 840, 35.777088, 869.629630, 3.975232}};
    double x[101], y[101];
    for (int i = 0; i < 101; i++) {
        x[i] = 1;
        y[i] = i == 0 ? 850 : 870;
    }
    for (size_t k = 0; k < 2; k++) {
        struct regress_prior prior = {&cases[k].mean, &cases[k].sd, 40, 1e12};
        struct regress fit;
        assert_true(regress_fit(&arena, 1, 1, x, y, &prior, &fit));
        assert_near(fit.beta[0], cases[k].after, 1e-6);
        assert_near(fit.error[0], cases[k].after_sd, 1e-6);
        assert_true(regress_fit(&arena, 101, 1, x, y, &prior, &fit));
        assert_near(fit.beta[0], cases[k].later, 1e-6);
        assert_near(fit.error[0], cases[k].later_sd, 1e-6);
    }
}

/* Closed form (Gelman et al., sec. 3.3): one mean, prior n0 figures of mean m0, shape and scale of
 * the variance; the next figure is t about the pooled mean. */
static void normal_inverse_gamma(void **state)
{
    (void)state;
    static const double x[] = {1, 1, 1, 1, 1}, y[] = {3, 5, 4, 8, 6}, one = 1;
    double m0 = 2, n0 = 4, scatter = 1.5, weight = 3, sd = scatter / sqrt(n0);
    struct regress_prior prior = {&m0, &sd, scatter, weight};
    struct regress fit;
    assert_true(regress_fit(&arena, 5, 1, x, y, &prior, &fit));
    double mean = 5.2, within = 14.8, n = 5;
    double squares =
        weight * scatter * scatter + within + n0 * n / (n0 + n) * (mean - m0) * (mean - m0);
    double variance = squares / (weight + n);
    struct regress_next next = regress_predict(&fit, &one, arena);
    assert_near(fit.beta[0], (n0 * m0 + n * mean) / (n0 + n), 1e-12);
    assert_near(fit.freedom, weight + n, 0);
    assert_near(fit.scatter, sqrt(variance), 1e-12);
    assert_near(fit.error[0], sqrt(variance / (n0 + n)), 1e-12);
    assert_near(next.scale, sqrt(variance * (1 + 1 / (n0 + n))), 1e-12);
    /* Nothing thought of the mean: that of the figures, and one degree the less. */
    double open = INFINITY;
    prior.sd = &open;
    assert_true(regress_fit(&arena, 5, 1, x, y, &prior, &fit));
    assert_near(fit.beta[0], mean, 1e-12);
    assert_near(fit.freedom, weight + n - 1, 0);
}

/* Left out in truth and in closed form. */
static void pull_is_what_leaving_out_does(void **state)
{
    (void)state;
    enum { ROWS = 9, WIDTH = 4 };
    static const double mean[WIDTH] = {0, 0.5, 0, -1}, at[WIDTH] = {1, 0.3, -2, 1};
    const double sd[WIDTH] = {INFINITY, 0.4, 2, 0.7};
    for (uint32_t k = 0; k < 20; k++) {
        double x[ROWS * WIDTH], y[ROWS], less_x[(ROWS - 1) * WIDTH], less_y[ROWS - 1];
        for (uint32_t i = 0; i < ROWS; i++) {
            struct philox w = random_words(61, k, i, 0);
            for (int j = 0; j < WIDTH; j++)
                x[i * WIDTH + (uint32_t)j] = j == 0 ? 1 : random_normal(w.word[j]);
            y[i] = 2 * random_normal(w.word[0]);
        }
        struct regress_prior prior = {mean, sd, 0.8, 4};
        struct regress all, less;
        for (int with_prior = 0; with_prior < 2; with_prior++) {
            const struct regress_prior *thought = with_prior ? &prior : NULL;
            assert_true(regress_fit(&arena, ROWS, WIDTH, x, y, thought, &all));
            for (int out = 0; out < ROWS; out++) {
                int n = 0;
                for (int i = 0; i < ROWS; i++) {
                    if (i == out) continue;
                    memcpy(less_x + n * WIDTH, x + i * WIDTH, WIDTH * sizeof(double));
                    less_y[n++] = y[i];
                }
                assert_true(regress_fit(&arena, n, WIDTH, less_x, less_y, thought, &less));
                double moved =
                    regress_predict(&all, at, arena).mean - regress_predict(&less, at, arena).mean;
                assert_near(regress_pull(&all, out, at, arena), moved, 1e-9);
            }
        }
    }
    /* One figure alone carries the line. */
    static const double one[] = {1}, y[] = {7};
    struct regress alone;
    assert_true(regress_fit(&arena, 1, 1, one, y, NULL, &alone));
    assert_true(isinf(regress_pull(&alone, 0, one, arena)));
}

/* Published: the usual tables of Student's t (here to six decimals, as computed by several
 * programs); 1 and 2 degrees have closed forms. */
static void student(void **state)
{
    (void)state;
    static const struct {
        double chance, freedom, t, within;
    } cases[] = {
        {0.9, 5, 1.475884, 2e-5},   {0.95, 10, 1.812461, 2e-6},  {0.975, 4, 2.776445, 2e-4},
        {0.995, 5, 4.032143, 2e-5}, {0.9995, 8, 5.041305, 2e-5}, {0.9, 30, 1.310415, 2e-6},
        {0.75, 8, 0.706387, 2e-5},
    };
    for (size_t k = 0; k < sizeof cases / sizeof *cases; k++) {
        double z = normal_quantile(cases[k].chance);
        assert_near(student_quantile(z, cases[k].freedom), cases[k].t, cases[k].within);
        assert_near(student_quantile(-z, cases[k].freedom), -cases[k].t, cases[k].within);
    }
    assert_near(student_quantile(0, 7), 0, 0);
    assert_near(student_quantile(1.3, 1e9), 1.3, 1e-6);
    double last = -INFINITY; /* it never turns back, not where the two series meet either */
    for (double z = -6; z <= 6; z += 0.01) {
        double t = student_quantile(z, 6);
        assert_true(t > last);
        last = t;
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(certified_values),
        cmocka_unit_test(columns_alike_are_refused),
        cmocka_unit_test(two_physicists),
        cmocka_unit_test(normal_inverse_gamma),
        cmocka_unit_test(pull_is_what_leaving_out_does),
        cmocka_unit_test(student),
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}
