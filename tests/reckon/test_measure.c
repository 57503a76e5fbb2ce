/* test_measure.c - a measurement against its limit, and its trend: cases worked elsewhere, what
 * must not change with units and order, and how often chance alone is called a trend. */
#include "base/random.h"
#include "reckon/measure.h"

#include "reckon/near.h"

#include <string.h>

enum { MOST = 8 };
static const struct limit over_105 = {.has_low = true, .low = 105, .margin = 10},
                          under_quarter = {.has_high = true, .high = 0.25, .margin = 0.025},
                          volts = {true, true, 13.8, 14.6, 0.08}, none = {0};

static void states(void **state)
{
    (void)state;
    static const struct {
        const struct limit *limit;
        double value, gauge, left;
        const char *word;
    } cases[] = {
        {&over_105, 150, 1.5, 45, "good"},
        {&over_105, 112, 1.5, 7, "near the limit"},
        {&over_105, 106, 1.5, 1, "cannot tell"},
        {&over_105, 104, 1.5, -1, "cannot tell"},
        {&over_105, 104, 0, -1, "past it"},
        {&over_105, 105, 0, 0, "near the limit"},
        {&over_105, 90, 1.5, -15, "past it"},
        {&under_quarter, 0.10, 0.01, 0.15, "good"},
        {&under_quarter, 0.24, 0.001, 0.01, "near the limit"},
        {&under_quarter, 0.30, 0.01, -0.05, "past it"},
        {&volts, 14.2, 0.02, 0.4, "good"},
        {&volts, 13.85, 0.02, 0.05, "near the limit"},
        {&volts, 13.5, 0.02, -0.3, "past it"},
        {&volts, 15.0, 0.02, -0.4, "past it"},
        {&none, 14.2, 0, 0, "cannot tell"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const struct reading r = {0, cases[i].value};
        const struct measured m = measure_judge(cases[i].limit, &r, 1, cases[i].gauge);
        if (strcmp(measure_state_word(m.state), cases[i].word) != 0)
            fail_msg("%g is '%s', not '%s'", r.value, measure_state_word(m.state), cases[i].word);
        assert_near(m.left, cases[i].left, 1e-12);
        assert_int_equal(m.trend, TREND_FEW);
    }
}

/* Slope, error and both ends worked in Python: the ends by halving where line and band meet. */
static void trends(void **state)
{
    (void)state;
    static const struct {
        const struct limit *limit;
        struct reading r[MOST];
        int n;
        enum measure_trend trend;
        double slope, error, crosses, soonest, latest;
        bool far;
    } cases[] = {
        {&over_105,
         {{0, 150}, {100, 146}, {200, 143}, {300, 138}, {400, 135}},
         5,
         TREND_TO,
         -0.038,
         0.00163299316,
         1184.2105263,
         1064.4200274,
         1341.5191804,
         false},
        {&under_quarter,
         {{0, 0.05}, {10, 0.08}, {20, 0.10}, {30, 0.14}},
         4,
         TREND_TO,
         0.0029,
         0.00026457513,
         69.310344828,
         53.553078042,
         104.853842126,
         false},
        {&over_105, {{0, 150}, {100, 120}}, 2, TREND_FEW, 0, 0, 0, 0, 0, false},
        {&over_105, {{5, 150}, {5, 148}, {5, 146}}, 3, TREND_AT_ONCE, 0, 0, 0, 0, 0, false},
        {&over_105,
         {{0, 150}, {1, 140}, {2, 149}},
         3,
         TREND_CHANCE,
         -0.5,
         5.484827557,
         0,
         0,
         0,
         false},
        {&under_quarter, {{0, 4}, {1, 3}, {2, 2}, {3, 1}}, 4, TREND_NONE_TO, -1, 0, 0, 0, 0, false},
        {&over_105,
         {{0, 104}, {1, 103}, {2, 102}, {3, 101}},
         4,
         TREND_NONE_TO,
         -1,
         0,
         0,
         0,
         0,
         false},
        {&over_105, {{0, 150}, {1, 149}, {2, 148}, {3, 147}}, 4, TREND_TO, -1, 0, 45, 45, 45, true},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const struct measured m = measure_judge(cases[i].limit, cases[i].r, cases[i].n, 0);
        if (m.trend != cases[i].trend) fail_msg("case %zu: trend %d", i, (int)m.trend);
        assert_near(m.slope, cases[i].slope, 1e-8);
        assert_near(m.error, cases[i].error, 1e-8);
        assert_near(m.crosses, cases[i].crosses, 1e-5 * fabs(cases[i].crosses));
        assert_near(m.soonest, cases[i].soonest, 1e-5 * fabs(cases[i].soonest));
        assert_near(m.latest, cases[i].latest, 1e-5 * fabs(cases[i].latest));
        assert_int_equal(m.far, cases[i].far);
    }
}

/* Three readings on a line prove nothing if the gauge is as coarse as they differ. */
static void a_coarse_gauge_tells_no_trend(void **state)
{
    (void)state;
    const struct reading r[] = {{0, 150}, {1, 149}, {2, 148}};
    assert_int_equal(measure_judge(&over_105, r, 3, 0).trend, TREND_TO);
    assert_int_equal(measure_judge(&over_105, r, 3, 2).trend, TREND_CHANCE);
}

static double noise(uint32_t run, uint32_t i)
{
    return random_normal(random_words(11, 1, run, i).word[0]);
}

static void order_and_units_do_not_matter(void **state)
{
    (void)state;
    for (uint32_t run = 0; run < 200; run++) {
        struct reading r[MOST], turned[MOST];
        const int n = 3 + (int)(run % (MOST - 2));
        const double scale = 6.894757, shift = 1000;
        for (int i = 0; i < n; i++) {
            r[i] = (struct reading){100.0 * i, 140 - 4.0 * i + noise(run, (uint32_t)i)};
            turned[n - 1 - i] = (struct reading){r[i].at + shift, r[i].value * scale};
        }
        const struct limit other = {.has_low = true, .low = 105 * scale, .margin = 10 * scale};
        const struct measured a = measure_judge(&over_105, r, n, 0.5);
        const struct measured b = measure_judge(&other, turned, n, 0.5 * scale);
        assert_int_equal(a.state, b.state);
        assert_int_equal(a.trend, b.trend);
        assert_near(b.left, a.left * scale, 1e-9);
        assert_near(b.slope, a.slope * scale, 1e-9);
        if (a.trend != TREND_TO) continue;
        assert_near(b.crosses, a.crosses + shift, 1e-6);
        assert_near(b.latest, a.latest + shift, 1e-4 * a.latest);
        assert_true(a.soonest <= a.crosses && a.crosses <= a.latest);
    }
}

/* Of readings that only scatter, 5 of 100 are called a trend; of crossings told, 95 of 100 lie in
 * their interval. */
static void as_often_as_it_says(void **state)
{
    (void)state;
    enum { RUNS = 4000, N = 6 };
    int called = 0, told = 0, held = 0;
    for (uint32_t run = 0; run < RUNS; run++) {
        struct reading still[N], worn[N];
        for (uint32_t i = 0; i < N; i++) {
            still[i] = (struct reading){i, 130 + noise(run, i)};
            worn[i] = (struct reading){i, 130 - 3.0 * i + noise(run, i)};
        }
        called += measure_judge(&over_105, still, N, 0).trend != TREND_CHANCE;
        const struct measured m = measure_judge(&over_105, worn, N, 0);
        if (m.trend != TREND_TO) continue;
        told++;
        held += m.soonest <= 25.0 / 3 && 25.0 / 3 <= m.latest;
    }
    assert_share((double)called / RUNS, 0.05, RUNS, 0.0005);
    assert_true(told > RUNS * 9 / 10);
    assert_share((double)held / told, 0.95, told, 0.0005);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(states),
        cmocka_unit_test(trends),
        cmocka_unit_test(a_coarse_gauge_tells_no_trend),
        cmocka_unit_test(order_and_units_do_not_matter),
        cmocka_unit_test(as_often_as_it_says),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
