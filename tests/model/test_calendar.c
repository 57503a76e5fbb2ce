/* The calendar: from the told week to sessions. Expected times are worked out by hand. */
#include "model/calendar.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static struct arena arena;

static int set_up(void **state)
{
    (void)state;
    arena = arena_open(64 << 20);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    arena_close(&arena);
    return 0;
}

static struct facts facts_blank(void)
{
    return (struct facts){.hours_a_week = -1, .sessions_kept = -1};
}

/* Wednesday 25 November 2026 is day 0. */
static struct calendar_ask ask_of(int days)
{
    struct calendar_ask ask = {.first = day_from_civil(2026, 11, 25),
                               .days = days,
                               .set_up = 25,
                               .clear_up = 20,
                               .heated_least = 15,
                               .hours_if_unknown = 6};
    for (int i = 0; i < 12; i++) ask.temperature[i] = i + 1;
    return ask;
}

static void slots_become_sessions(void **state)
{
    (void)state;
    struct fact_slot slots[] = {{1, 19 * 60, 22 * 60, 0}, {5, 9 * 60, 17 * 60, 0}};
    struct facts facts = facts_blank();
    facts.slots = slots;
    facts.n_slots = 2;
    facts.hands = 2;
    struct calendar_ask ask = ask_of(14);
    struct calendar c;
    struct fail f = {0};
    assert_true(calendar_make(&arena, &facts, &ask, &c, &f));
    assert_int_equal(c.n_sessions, 4); /* Sat 28, Tue 1, Sat 5, Tue 8 */
    assert_int_equal(c.sessions[0].start, 3 * 1440 + 9 * 60 + 25);
    assert_int_equal(c.sessions[0].end, 3 * 1440 + 17 * 60 - 20);
    assert_int_equal(c.sessions[1].start, 6 * 1440 + 19 * 60 + 25);
    assert_int_equal(c.sessions[0].hands, 2);
    assert_true(c.sessions[0].degrees == 11);
    assert_true(c.sessions[1].degrees == 12);
    assert_true(c.hours_a_week == 11);
    assert_false(c.week_assumed);
    assert_false(c.helper_assumed);
}

static void hours_become_a_week(void **state)
{
    (void)state;
    static const double hours[] = {0.5, 1, 3, 6, 10, 20, 40, 80};
    for (size_t i = 0; i < sizeof hours / sizeof hours[0]; i++) {
        struct facts facts = facts_blank();
        facts.hours_a_week = hours[i];
        facts.hands = 1;
        struct calendar_ask ask = ask_of(28);
        struct calendar c;
        struct fail f = {0};
        assert_true(calendar_make(&arena, &facts, &ask, &c, &f));
        assert_true(c.week_assumed);
        /* Told to five minutes a slot. */
        assert_true(c.hours_a_week >= (hours[i] < 78 ? hours[i] : 74) - 0.01);
        assert_true(c.hours_a_week <= hours[i] + 0.5);
    }
}

static void overlapping_slots_are_joined(void **state)
{
    (void)state;
    struct fact_slot slots[] = {{5, 9 * 60, 13 * 60, 1}, {5, 12 * 60, 17 * 60, 2}};
    struct facts facts = facts_blank();
    facts.slots = slots;
    facts.n_slots = 2;
    struct calendar_ask ask = ask_of(7);
    struct calendar c;
    struct fail f = {0};
    assert_true(calendar_make(&arena, &facts, &ask, &c, &f));
    assert_int_equal(c.n_sessions, 1);
    assert_int_equal(c.sessions[0].hands, 2);
    assert_int_equal(c.sessions[0].end - c.sessions[0].start, 8 * 60 - 45);
}

static void helpers_come_when_told_then_once_a_month(void **state)
{
    (void)state;
    struct fact_slot slots[] = {{5, 9 * 60, 17 * 60, 0}};
    struct fact_helper helpers[] = {{day_from_civil(2026, 12, 5), 9 * 60, 17 * 60, 2}};
    struct facts facts = facts_blank();
    facts.slots = slots;
    facts.n_slots = 1;
    facts.hands = 1;
    facts.helpers = helpers;
    facts.n_helpers = 1;
    struct calendar_ask ask = ask_of(95); /* to 27 February */
    struct calendar c;
    struct fail f = {0};
    assert_true(calendar_make(&arena, &facts, &ask, &c, &f));
    assert_true(c.helper_assumed);
    int helped[16] = {0}, n = 0;
    for (int i = 0; i < c.n_sessions; i++)
        if (c.sessions[i].hands > 1) helped[n++] = i;
    /* Told: 5 December with two more; assumed: the first Saturday after it in that month, then of
     * January, February. */
    assert_int_equal(n, 4);
    assert_int_equal(c.sessions[helped[0]].hands, 3);
    assert_int_equal(c.sessions[helped[1]].start / 1440, day_from_civil(2026, 12, 12) - ask.first);
    assert_int_equal(c.sessions[helped[2]].start / 1440, day_from_civil(2027, 1, 2) - ask.first);
    assert_int_equal(c.sessions[helped[3]].start / 1440, day_from_civil(2027, 2, 6) - ask.first);
}

static void away_days_have_no_session(void **state)
{
    (void)state;
    struct fact_slot slots[] = {{5, 9 * 60, 17 * 60, 0}};
    struct fact_away away[] = {{day_from_civil(2026, 11, 28), day_from_civil(2026, 12, 5)}};
    struct facts facts = facts_blank();
    facts.slots = slots;
    facts.n_slots = 1;
    facts.aways = away;
    facts.n_aways = 1;
    struct calendar_ask ask = ask_of(21);
    struct calendar c;
    struct fail f = {0};
    assert_true(calendar_make(&arena, &facts, &ask, &c, &f));
    assert_int_equal(c.n_sessions, 1);
    ask.days = 14; /* both Saturdays away: no session is left, and it says what to do */
    assert_false(calendar_make(&arena, &facts, &ask, &c, &f));
    assert_int_equal(f.kind, FAIL_INPUT);
    assert_true(text_starts(f.text, "calendar: no session is left"));
}

static void a_heated_place_is_warm(void **state)
{
    (void)state;
    struct facts facts = facts_blank();
    facts.heated = TRI_YES;
    struct calendar_ask ask = ask_of(7);
    struct calendar c;
    struct fail f = {0};
    assert_true(calendar_make(&arena, &facts, &ask, &c, &f));
    assert_true(c.hours_assumed);
    for (int i = 0; i < c.n_sessions; i++) assert_true(c.sessions[i].degrees == 15);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(slots_become_sessions),
        cmocka_unit_test(hours_become_a_week),
        cmocka_unit_test(overlapping_slots_are_joined),
        cmocka_unit_test(helpers_come_when_told_then_once_a_month),
        cmocka_unit_test(away_days_have_no_session),
        cmocka_unit_test(a_heated_place_is_warm),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
