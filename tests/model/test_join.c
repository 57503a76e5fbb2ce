/* When two ends of a join agree, by each rule; and what an adapter closes. Expected verdicts follow
 * from the rules as docs/trade-data.md words them. */
#include "model/join.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#define COUNT(array) (sizeof(array) / sizeof *(array))
#define OPEN                                                                                       \
    {                                                                                              \
        0, NAN, NAN, NULL                                                                          \
    }
#define WORD(w)                                                                                    \
    {                                                                                              \
        0, NAN, NAN, w                                                                             \
    }

static const struct trade_join inside = {.rule = JOIN_INSIDE, .unit = "A"},
                               same = {.rule = JOIN_SAME},
                               near = {.rule = JOIN_NEAR, .unit = "mm", .within = 1};

static const struct {
    const struct trade_join *join;
    struct trade_end giver, taker;
    enum join_verdict verdict;
    bool measure_giver, measure_taker;
} rows[] = {
    {&inside, {0, NAN, 45, NULL}, {0, NAN, 60, NULL}, JOIN_FITS, false, false},
    {&inside, {0, NAN, 55, NULL}, {0, NAN, 60, NULL}, JOIN_MARGINAL, false, false},
    {&inside, {0, NAN, 60, NULL}, {0, NAN, 60, NULL}, JOIN_MARGINAL, false, false},
    {&inside, {0, NAN, 45, NULL}, {0, NAN, 30, NULL}, JOIN_MISFIT, false, false},
    {&inside, {0, 35, NAN, NULL}, {0, NAN, 30, NULL}, JOIN_MISFIT, false, false},
    {&inside, {0, NAN, 45, NULL}, OPEN, JOIN_UNKNOWN, false, true},
    {&inside, OPEN, {0, NAN, 30, NULL}, JOIN_UNKNOWN, true, false},
    {&inside, OPEN, OPEN, JOIN_UNKNOWN, true, true},
    {&inside, {0, 4, 7, NULL}, {0, 1.5, 3.5, NULL}, JOIN_MISFIT, false, false},
    {&inside, {0, 1, 3, NULL}, {0, 1.5, 3.5, NULL}, JOIN_MISFIT, false, false},
    {&inside, {0, 2, 3, NULL}, {0, 1.5, 3.5, NULL}, JOIN_FITS, false, false},
    {&inside, {0, NAN, 3, NULL}, {0, 1.5, 3.5, NULL}, JOIN_UNKNOWN, true, false},
    {&inside, {0, NAN, 1, NULL}, {0, 1.5, 3.5, NULL}, JOIN_MISFIT, false, false},
    {&same, WORD("negative"), WORD("Negative"), JOIN_FITS, false, false},
    {&same, WORD("positive"), WORD("negative"), JOIN_MISFIT, false, false},
    {&same, WORD("positive"), OPEN, JOIN_UNKNOWN, false, true},
    {&near, {0, 95, 95, NULL}, {0, 95, 95, NULL}, JOIN_FITS, false, false},
    {&near, {0, 95, 95, NULL}, {0, 95.8, 95.8, NULL}, JOIN_MARGINAL, false, false},
    {&near, {0, 95, 95, NULL}, {0, 155, 155, NULL}, JOIN_MISFIT, false, false},
    {&near, {0, 90, 100, NULL}, {0, 95, 95, NULL}, JOIN_FITS, false, false},
    {&near, {0, 95, 95, NULL}, OPEN, JOIN_UNKNOWN, false, true},
};

static void judges_each_rule(void **state)
{
    (void)state;
    int bad = 0;
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct join_result r = join_judge(rows[i].join, &rows[i].giver, &rows[i].taker);
        if (r.verdict == rows[i].verdict && r.measure_giver == rows[i].measure_giver &&
            r.measure_taker == rows[i].measure_taker)
            continue;
        print_error("row %zu: said %s, measure %d %d\n", i, join_verdict_name(r.verdict),
                    r.measure_giver, r.measure_taker);
        bad++;
    }
    assert_int_equal(bad, 0);
}

static const struct {
    const struct trade_join *join;
    struct trade_adapts by;
    struct trade_end giver, taker;
    bool closes;
} bridges[] = {
    /* a regulator, set between 1 and 5, behind a pump of 4 to 7 */
    {&inside, {{0, NAN, 15, NULL}, {0, 1, 5, NULL}}, {0, 4, 7, NULL}, {0, 1.5, 3.5, NULL}, true},
    {&inside, {{0, NAN, 6, NULL}, {0, 1, 5, NULL}}, {0, 4, 7, NULL}, {0, 1.5, 3.5, NULL}, false},
    {&inside, {{0, NAN, 15, NULL}, {0, 4, 9, NULL}}, {0, 4, 7, NULL}, {0, 1.5, 3.5, NULL}, false},
    {&inside, {{0, NAN, 15, NULL}, {0, 1, 5, NULL}}, {0, 4, 7, NULL}, OPEN, false},
    {&inside, {OPEN, OPEN}, {0, 4, 7, NULL}, {0, 1.5, 3.5, NULL}, true}, /* made to measure */
    {&inside, {OPEN, OPEN}, {0, 4, 7, NULL}, OPEN, false},
    {&same, {WORD("positive"), WORD("negative")}, WORD("positive"), WORD("negative"), true},
    {&same, {WORD("negative"), WORD("positive")}, WORD("positive"), WORD("negative"), false},
    {&near, {{0, 85, 145, NULL}, {0, 86, 160, NULL}}, {0, 95, 95, NULL}, {0, 155, 155, NULL}, true},
    {&near,
     {{0, 85, 145, NULL}, {0, 86, 160, NULL}},
     {0, 95, 95, NULL},
     {0, 162, 162, NULL},
     false},
};

static void closes_with_an_adapter_that_takes_one_end_and_gives_the_other(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(bridges); i++)
        if (join_bridges(bridges[i].join, &bridges[i].by, &bridges[i].giver, &bridges[i].taker) !=
            bridges[i].closes)
            fail_msg("row %zu: wrong", i);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(judges_each_rule),
        cmocka_unit_test(closes_with_an_adapter_that_takes_one_end_and_gives_the_other),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
