/* A reading as it is typed: unit, limit, those before it, and slips that are asked about. */
#include "shop/measured.h"
#include "shop/scene.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static struct scene scene;

static int set_up(void **state)
{
    (void)state;
    scene_open(&scene);
    scene_add(&scene, "vehicle", "name=First", NULL);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    scene_close(&scene);
    return 0;
}

static bool measure(const char *what, const char *value, const char *where, const char *low,
                    const char *high, struct measured_reading *x, struct fail *f)
{
    const struct measured_ask ask = {
        scene.garage, &scene.trade, scene.vehicle, day_from_civil(2026, 11, 25), what, value,
        where,        low,          high};
    *f = (struct fail){0};
    return measured_read(&scene.arena, &ask, x, f);
}

/* Never measured before: the limit alone tells a slip. asks: what every question must speak of;
 * NULL: none is asked. */
static const struct {
    const char *what, *value, *low, *high;
    double read;
    enum measure_state state;
    const char *asks;
} rows[] = {
    {"battery", "12.7", NULL, NULL, 12.7, MEASURE_GOOD, NULL},
    {"battery", "12.7 V", NULL, NULL, 12.7, MEASURE_GOOD, NULL},
    {"battery", "12700 mV", NULL, NULL, 12.7, MEASURE_GOOD, NULL},
    {"Battery at rest, 12 V", "12.3", NULL, NULL, 12.3, MEASURE_NEAR, NULL},
    {"battery", "11.5", NULL, NULL, 11.5, MEASURE_PAST, NULL},
    {"battery", "127", NULL, NULL, 127, MEASURE_GOOD, "12.7 would fit"},
    {"battery", "1.27", NULL, NULL, 1.27, MEASURE_PAST, "12.7 would fit"},
    {"oil-priming", "2 bar", NULL, NULL, 29.0075, MEASURE_NEAR, NULL},
    {"oil-priming", "2.5", NULL, NULL, 2.5, MEASURE_PAST, "2.5 bar (36.3 psi) would fit"},
    {"compression", "0.78", NULL, NULL, 0.78, MEASURE_PAST, "78 would fit"},
    {"compression", "60", NULL, NULL, 60, MEASURE_PAST, NULL},
    {"standing-drain", "0.02 A", NULL, NULL, 20, MEASURE_GOOD, NULL},
    {"valve-clearance", "0.3 mm", "0.25", "0.35", 0.3, MEASURE_GOOD, NULL},
    {"valve-clearance", "12 thou", "0.25", "0.35", 0.3048, MEASURE_GOOD, NULL},
    {"valve-clearance", "3", "0.25", "0.35", 3, MEASURE_PAST, "0.3 would fit"},
    {"end float", "0.12 mm", NULL, "0.15", 0.12, MEASURE_GOOD, NULL},
};

static bool asked(const struct measured_reading *x, const char *words)
{
    for (int i = 0; i < x->n_questions; i++)
        if (strstr(x->questions[i], words)) return true;
    return false;
}

static void against_a_limit(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct measured_reading x;
        struct fail f;
        if (!measure(rows[i].what, rows[i].value, NULL, rows[i].low, rows[i].high, &x, &f))
            fail_msg("row %zu: %s", i, f.text);
        if (fabs(x.value - rows[i].read) > 1e-4 || x.judged.state != rows[i].state)
            fail_msg("row %zu: %g, %s", i, x.value, measure_state_word(x.judged.state));
        if (!rows[i].asks ? x.n_questions > 0 : !asked(&x, rows[i].asks))
            fail_msg("row %zu: asks %s", i, x.n_questions ? x.questions[0] : "nothing");
    }
}

static void refused_in_a_line(void **state)
{
    static const char *const bad[][4] = {
        {"battery", "high", NULL, "is no figure"},
        {"battery", "12.6 psi", NULL, "is no unit for that"},
        {"battery", "12.6 volts and a bit", NULL, "is no unit for that"},
        {"battery", "", NULL, "is no figure"},
        {"battery", "12.6", "low", "low: 'low' is no figure"},
        {"isolator-works", "1", NULL, "is seen, not measured"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        struct measured_reading x;
        struct fail f;
        assert_false(measure(bad[i][0], bad[i][1], NULL, bad[i][2], NULL, &x, &f));
        if (f.kind != FAIL_INPUT || !strstr(f.text, bad[i][3])) fail_msg("row %zu: %s", i, f.text);
    }
}

/* An empty book value is never a pass. */
static void the_book_says(void **state)
{
    (void)state;
    struct measured_reading x;
    struct fail f;
    assert_true(measure("valve-clearance", "0.3 mm", NULL, NULL, NULL, &x, &f));
    assert_true(x.look_up);
    assert_false(x.limit.has_low || x.limit.has_high);
    assert_true(measure("valve-clearance", "0.3 mm", NULL, NULL, "0.35", &x, &f));
    assert_false(x.look_up);
    assert_true(x.maker);
}

/* With a history that tells what is right: of the same thing at the same place. */
static void against_those_before(void **state)
{
    static const char *const days[][2] = {{"date=2024-11-01", "value=30"},
                                          {"date=2025-06-01", "value=29"},
                                          {"date=2026-01-01", "value=28"},
                                          {"date=2026-08-01", "value=27"}};
    (void)state;
    struct measured_reading x;
    struct fail f;
    for (size_t i = 0; i < sizeof days / sizeof *days; i++)
        scene_add(&scene, "measurement", "what=oil-priming", "unit=psi", "where=gallery",
                  days[i][0], days[i][1], NULL);
    assert_true(measure("oil-priming", "26", "gallery", NULL, NULL, &x, &f));
    assert_int_equal(x.before, 4);
    assert_int_equal(x.n_questions, 0);
    assert_int_equal(x.judged.trend, TREND_TO);
    assert_non_null(x.words.crosses);
    assert_true(measure("oil-priming", "2.6", "gallery", NULL, NULL, &x, &f));
    assert_true(asked(&x, "26 would fit"));
    assert_true(measure("oil-priming", "1.8", "gallery", NULL, NULL, &x, &f));
    assert_true(asked(&x, "1.8 bar (26.1 psi) would fit"));
    assert_true(measure("oil-priming", "70", "gallery", NULL, NULL, &x, &f));
    assert_true(asked(&x, "as it was before"));
    assert_true(measure("oil-priming", "26", "another", NULL, NULL, &x, &f));
    assert_int_equal(x.before, 0);
    scene_add(&scene, "measurement", "what=oil-priming", "unit=psi", "where=gallery",
              "date=2026-11-25", "value=26", NULL);
    assert_true(measure("oil-priming", "26", "gallery", NULL, NULL, &x, &f));
    assert_true(asked(&x, "is stored already"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(against_a_limit),
        cmocka_unit_test(refused_in_a_line),
        cmocka_unit_test(the_book_says),
        cmocka_unit_test(against_those_before),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
