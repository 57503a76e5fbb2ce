#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/points.h"
#include "base/random.h"

#include <math.h>
#include <string.h>

#define COUNT(array) (sizeof(array) / sizeof *(array))

static const struct points shapes[] = {
    {2, 5, 12},
    {4.7579509249533, 8, 13.45116858275}, /* one lognormal: geometric sd 1.5 on both sides */
    {5, 5, 5},                            /* no spread */
    {1, 1, 9},                            /* spread above alone */
    {0.01, 3, 3},                         /* below alone */
    {1e-6, 1, 1e6},
};

/* Closed form, recomputed to 30 digits: quantiles of a lognormal of median 8 and geometric standard
 * deviation 1.5, given by its 10 %, 50 % and 90 % points. */
static void draws_the_quantiles_of_a_lognormal(void **state)
{
    (void)state;
    static const struct {
        double p, quantile;
    } cases[] = {
        {0.05, 4.1062524011512}, {0.10, 4.7579509249533}, {0.50, 8},
        {0.80, 11.253616978041}, {0.90, 13.45116858275},  {0.95, 15.585987841872},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        const double x = points_draw(shapes[1], normal_quantile(cases[i].p));
        if (fabs(x - cases[i].quantile) > 1e-12 * x) fail_msg("p %g: %.15g", cases[i].p, x);
    }
    assert_true(fabs(points_mean(shapes[1]) - 8.685391866776) < 1e-11);
    /* Fitted from 10 % = 4 and 90 % = 15: median sqrt(60). */
    const struct points fitted = {4, sqrt(60), 15};
    assert_true(fabs(points_mean(fitted) - 8.847528845065) < 1e-11);
}

/* Property: of 100,000 draws a tenth lie below the low figure, half below the middle, a tenth above
 * the high one, and their mean is the mean told; each within four standard errors. */
static void draws_give_back_their_own_points(void **state)
{
    (void)state;
    enum { RUNS = 100000 };
    for (size_t i = 0; i < COUNT(shapes) - 1; i++) {
        const struct points p = shapes[i];
        int below_low = 0, below_middle = 0, above_high = 0;
        double sum = 0, squares = 0;
        for (uint32_t run = 0; run < RUNS; run++) {
            const double x = points_draw(p, random_normal(random_words(1, i, run, 0).word[0]));
            below_low += x < p.low;
            below_middle += x < p.middle;
            above_high += x > p.high;
            sum += x;
            squares += x * x;
        }
        const double tenth = 4 * sqrt(0.1 * 0.9 * RUNS), half = 4 * sqrt(0.25 * RUNS);
        if (p.low < p.middle) {
            assert_true(fabs(below_low - 0.1 * RUNS) < tenth);
            assert_true(fabs(below_middle - 0.5 * RUNS) < half);
        } else {
            assert_int_equal(below_low, 0);
        }
        if (p.middle < p.high)
            assert_true(fabs(above_high - 0.1 * RUNS) < tenth);
        else
            assert_int_equal(above_high, 0);
        const double mean = sum / RUNS, sd = sqrt(fmax(squares / RUNS - mean * mean, 0));
        if (fabs(mean - points_mean(p)) > 4 * sd / sqrt(RUNS) + 1e-9 * mean)
            fail_msg("shape %zu: mean %g, told %g", i, mean, points_mean(p));
    }
}

static void a_value_gives_back_its_z(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(shapes); i++)
        for (int k = -40; k <= 40; k++) {
            const double z = k / 10.0, x = points_draw(shapes[i], z);
            const bool spread =
                z < 0 ? shapes[i].low < shapes[i].middle : shapes[i].high > shapes[i].middle;
            if (fabs(points_z(shapes[i], x) - (spread ? z : 0)) > 1e-12 * (1 + fabs(z)))
                fail_msg("shape %zu, z %g: %.15g", i, z, points_z(shapes[i], x));
        }
}

static void none_is_nought(void **state)
{
    (void)state;
    const struct points none = {0, 0, 0};
    assert_true(points_valid(none));
    assert_true(points_draw(none, 3) == 0 && points_mean(none) == 0);
    const struct points twice = points_scale((struct points){2, 5, 12}, 2);
    assert_true(twice.low == 4 && twice.middle == 10 && twice.high == 24);
}

static void validity(void **state)
{
    (void)state;
    static const struct {
        struct points p;
        bool valid;
    } cases[] = {
        {{2, 5, 12}, true},   {{5, 5, 5}, true},    {{0, 5, 12}, false},  {{5, 2, 12}, false},
        {{2, 5, 4}, false},   {{-1, 5, 12}, false}, {{0, 0, 1}, false},   {{1, 2, INFINITY}, false},
        {{NAN, 2, 3}, false}, {{1, NAN, 3}, false}, {{1, 2, NAN}, false},
    };
    for (size_t i = 0; i < COUNT(cases); i++)
        if (points_valid(cases[i].p) != cases[i].valid) fail_msg("case %zu", i);
}

static void parses_points(void **state)
{
    (void)state;
    static const struct {
        const char *s;
        bool good;
        struct points p;
    } cases[] = {
        {"2/5/12", true, {2, 5, 12}},
        {" 2 / 5 / 12 ", true, {2, 5, 12}},
        {"5", true, {5, 5, 5}},
        {"0.5/0.75/1.25", true, {0.5, 0.75, 1.25}},
        {"0", true, {0, 0, 0}},
        {"0/0/0", true, {0, 0, 0}},
        {"", false, {0, 0, 0}},
        {"2/5", false, {0, 0, 0}},
        {"2/5/12/13", false, {0, 0, 0}},
        {"2//12", false, {0, 0, 0}},
        {"2/5/", false, {0, 0, 0}},
        {"/5/12", false, {0, 0, 0}},
        {"5/2/12", false, {0, 0, 0}},
        {"0/5/12", false, {0, 0, 0}},
        {"-5", false, {0, 0, 0}},
        {"2/5/nan", false, {0, 0, 0}},
        {"two", false, {0, 0, 0}},
        {"2-5-12", false, {0, 0, 0}},
        {"1/2/0000000000000000000000000000000000000000000000000000000000000000000000003",
         false,
         {0, 0, 0}},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        struct fail f = {0};
        struct points p = {0};
        if (points_parse(cases[i].s, &p, &f) != cases[i].good) fail_msg("'%s'", cases[i].s);
        assert_memory_equal(&p, &cases[i].p, sizeof p);
        if (!cases[i].good) {
            assert_int_equal(f.kind, FAIL_INPUT);
            assert_non_null(strstr(f.text, cases[i].s));
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(draws_the_quantiles_of_a_lognormal),
        cmocka_unit_test(draws_give_back_their_own_points),
        cmocka_unit_test(a_value_gives_back_its_z),
        cmocka_unit_test(none_is_nought),
        cmocka_unit_test(validity),
        cmocka_unit_test(parses_points),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
