/* Circuits that are sound and circuits with one fault each: the fault is named, and nothing else.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "bench/loom.h"
#include "bench/wire_table.h"

#include <math.h>
#include <string.h>

static struct arena arena;

enum { COVER_75 = 1 };
#define LAMPS(WIRE, WATTS, LENGTH, FUSE, SWITCH)                                                   \
    {                                                                                              \
        .name = "headlamps", .wire = WIRE, .switch_name = "light switch", .use = LOOM_LAMPS,       \
        .watts = WATTS, .length = LENGTH, .fuse = FUSE, .switch_rates = SWITCH,                    \
        .insulation = COVER_75                                                                     \
    }
static const struct loom_circuit sound = LAMPS("4 mm2", 110, 3, 15, 15);

static struct loom_line check(struct loom_circuit c, double volts)
{
    struct loom loom;
    loom_check(&arena, &c, 1, volts, &loom);
    return loom.lines[0];
}

static void each_fault_is_named(void **state)
{
    (void)state;
    static const struct {
        struct loom_circuit circuit;
        double volts;
        enum verdict verdict;
        const char *says; /* the one fault; NULL: none */
    } cases[] = {
        {LAMPS("4 mm2", 110, 3, 15, 15), 12, VERDICT_GOOD, NULL},
        {LAMPS("12 AWG", 110, 3, 15, 15), 12, VERDICT_GOOD, NULL},
        {LAMPS("4 mm2", 110, 3, 0, 15), 12, VERDICT_BAD, "unfused: fit 15 A"},
        {LAMPS("4 mm2", 110, 3, 15, 8), 12, VERDICT_BAD, "overloaded: light switch for 8 A"},
        {LAMPS("4 mm2", 110, 3, 15, 0), 12, VERDICT_CARE, "not known what light switch may"},
        {LAMPS("4 mm2", 110, 12, 15, 15), 12, VERDICT_CARE, "undersized: it loses 4.5 %"},
        {LAMPS("0.5 mm2", 100, 0.3, 5, 15), 12, VERDICT_BAD, "undersized: 8.33 A on a wire that"},
        {LAMPS("4 mm2", 110, 3, 40, 15), 12, VERDICT_BAD, "fuse of 40 A does not guard"},
        {LAMPS("4 mm2", 110, 3, 7.5, 15), 12, VERDICT_BAD, "fuse of 7.5 A blows at 9.17 A"},
        {LAMPS("4 mm2", 110, 3, 10, 15), 12, VERDICT_CARE, "fuse of 10 A is near"},
        {LAMPS("4 mm2", 0, 3, 15, 15), 12, VERDICT_CARE, "its load is not known"},
        {LAMPS("thick", 110, 3, 15, 15), 12, VERDICT_CARE, "wire: 'thick' is no wire"},
        /* a starter has no fuse, and a drop of its own */
        {{.name = "starter", .wire = "35 mm2", .use = LOOM_STARTER, .amps = 150, .length = 2},
         12,
         VERDICT_GOOD,
         NULL},
        {{.name = "starter", .wire = "16 mm2", .use = LOOM_STARTER, .amps = 300, .length = 3},
         12,
         VERDICT_CARE,
         "undersized: it loses"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const struct loom_line line = check(cases[i].circuit, cases[i].volts);
        if (line.verdict != cases[i].verdict)
            fail_msg("case %zu: verdict %d: %s", i, line.verdict,
                     line.n_faults ? line.faults[0] : "no fault");
        if (!cases[i].says && line.n_faults > 0) fail_msg("case %zu: %s", i, line.faults[0]);
        bool said = !cases[i].says;
        for (int k = 0; k < line.n_faults && !said; k++)
            said = text_starts(line.faults[k], cases[i].says);
        if (!said) fail_msg("case %zu: '%s' is not said", i, cases[i].says);
    }
}

/* 6 V doubles the current and halves what may be lost. */
static void half_the_volts_is_four_times_the_share(void **state)
{
    (void)state;
    const struct loom_line at_12 = check(sound, 12), at_6 = check(sound, 6);
    assert_true(fabs(at_6.share / at_12.share - 4) < 1e-9);
    assert_true(at_6.verdict > at_12.verdict);
}

/* What it says to take is enough when taken. */
static void the_advice_mends_it(void **state)
{
    (void)state;
    static const char *const wires[] = {"0.5 mm2", "1.5 mm2", "18 AWG", "14 AWG"};
    int mended = 0;
    for (int w = 0; w < 4; w++)
        for (double watts = 10; watts < 400; watts += 30)
            for (double length = 1; length < 9; length += 2) {
                struct loom_circuit c = LAMPS(wires[w], watts, length, 0, 100);
                c.engine_space = w % 2;
                c.bundle = w % 3;
                struct loom_line line = check(c, 12);
                if (line.needs) c.wire = line.needs;
                line = check(c, 12);
                if (line.needs) c.wire = line.needs;
                c.fuse = line.fuse_to_fit;
                line = check(c, 12);
                if (c.fuse > 0 && line.verdict != VERDICT_GOOD)
                    fail_msg("%s %g W %g m fuse %g: %s", c.wire, watts, length, c.fuse,
                             line.faults[0]);
                mended += c.fuse > 0;
            }
    assert_true(mended > 100);
}

static void all_faults_fit(void **state)
{
    (void)state;
    struct loom loom;
    struct loom_circuit worst[2] = {LAMPS("0.5 mm2", 0, 15, 100, 1), LAMPS("4 mm2", 110, 3, 0, 15)};
    worst[0].amps = 60;
    worst[0].engine_space = true;
    worst[0].bundle = 3;
    loom_check(&arena, worst, 2, 6, &loom);
    assert_int_equal(loom.bad, 2);
    assert_true(loom.lines[0].n_faults >= 3);
    assert_true(fabs(loom.amps - (60 + 110.0 / 6)) < 1e-9);
}

static void a_shared_switch_is_summed(void **state)
{
    (void)state;
    struct loom loom;
    struct loom_circuit two[2] = {LAMPS("4 mm2", 110, 3, 15, 10), LAMPS("1 mm2", 20, 3, 5, 10)};
    loom_check(&arena, two, 2, 12, &loom);
    assert_int_equal(loom.care, 2);
    assert_true(text_starts(loom.lines[1].faults[0], "light switch for 10 A switches 10.8 A"));
    two[1].switch_name = "another";
    loom_check(&arena, two, 2, 12, &loom);
    assert_int_equal(loom.care, 0);
}

static int set_up(void **state)
{
    (void)state;
    arena = arena_open((size_t)1 << 26);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    arena_close(&arena);
    return 0;
}

int main(void)
{
#define T(f) cmocka_unit_test_setup_teardown(f, set_up, tear_down)
    const struct CMUnitTest tests[] = {
        T(each_fault_is_named),       T(half_the_volts_is_four_times_the_share),
        T(the_advice_mends_it),       T(all_faults_fit),
        T(a_shared_switch_is_summed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
