#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/day.h"

#include <string.h>

#define COUNT(array) (sizeof(array) / sizeof *(array))

/* Published: Julian day numbers (IAU conventions) 2400001 for 1858-11-17, the epoch of the modified
 * Julian date, 2451545 for 2000-01-01, a Saturday, and 2440588 for 1970-01-01, from which days
 * count here. The others were counted with a calendar program that is not this one. */
static const struct {
    int year, month, dom, days, weekday;
} known[] = {
    {1970, 1, 1, 0, 3},        {2000, 1, 1, 10957, 5},   {1858, 11, 17, -40587, 2},
    {1969, 7, 20, -165, 6},    {1969, 12, 31, -1, 2},    {1900, 2, 28, -25509, 2},
    {1900, 3, 1, -25508, 3},   {2000, 2, 29, 11016, 1},  {2000, 3, 1, 11017, 2},
    {2038, 1, 19, 24855, 1},   {2026, 11, 25, 20782, 2}, {1700, 1, 1, -98615, 4},
    {2399, 12, 31, 157053, 4}, {2100, 3, 1, 47541, 0},
};

static void counts_known_days(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(known); i++) {
        int year, month, dom;
        const day d = day_from_civil(known[i].year, known[i].month, known[i].dom);
        if (d != known[i].days || day_of_week(d) != known[i].weekday)
            fail_msg("%d-%d-%d: %d, weekday %d", known[i].year, known[i].month, known[i].dom, d,
                     day_of_week(d));
        day_to_civil(d, &year, &month, &dom);
        assert_true(year == known[i].year && month == known[i].month && dom == known[i].dom);
    }
}

/* The calendar walked day by day with the rule of leap years written out on its own. */
static void every_day_of_700_years_round_trips(void **state)
{
    (void)state;
    static const int lengths[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    day expected = -98615;
    int weekday = 4; /* 1700-01-01 was a Friday */
    for (int year = 1700; year <= 2399; year++)
        for (int month = 1; month <= 12; month++) {
            const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
            const int length = lengths[month - 1] + (month == 2 && leap ? 1 : 0);
            for (int dom = 1; dom <= length; dom++, expected++, weekday = (weekday + 1) % 7) {
                int y, m, d;
                if (!day_exists(year, month, dom)) fail_msg("%d-%d-%d", year, month, dom);
                if (day_from_civil(year, month, dom) != expected ||
                    day_of_week(expected) != weekday)
                    fail_msg("%d-%d-%d", year, month, dom);
                day_to_civil(expected, &y, &m, &d);
                if (y != year || m != month || d != dom)
                    fail_msg("%d-%d-%d back", year, month, dom);
            }
            assert_false(day_exists(year, month, length + 1));
        }
    assert_int_equal(expected, 157054);
}

static void refuses_days_that_are_none(void **state)
{
    (void)state;
    static const struct {
        const char *s, *says;
    } cases[] = {
        {"2026-02-31", "Feb 2026 has 28 days"}, {"2026-02-29", "Feb 2026 has 28 days"},
        {"1900-02-29", "Feb 1900 has 28 days"}, {"2024-02-30", "Feb 2024 has 29 days"},
        {"2026-04-31", "Apr 2026 has 30 days"}, {"2026-01-00", "has 31 days"},
        {"2026-13-01", "no month 13"},          {"2026-00-01", "no month 0"},
        {"1699-12-31", "1700 to 2399"},         {"2400-01-01", "1700 to 2399"},
        {"26-11-25", "year-month-day"},         {"2026-1-25", "year-month-day"},
        {"2026/11/25", "year-month-day"},       {"25-11-2026", "year-month-day"},
        {"2026-11-25 ", "year-month-day"},      {"-026-11-25", "year-month-day"},
        {"2026-+1-25", "year-month-day"},       {"", "year-month-day"},
        {"tomorrow", "year-month-day"},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        struct fail f = {0};
        day d = DAY_NONE;
        if (day_parse(cases[i].s, &d, &f)) fail_msg("'%s' was taken", cases[i].s);
        assert_int_equal(f.kind, FAIL_INPUT);
        assert_int_equal(d, DAY_NONE);
        if (!strstr(f.text, cases[i].says)) fail_msg("'%s' says: %s", cases[i].s, f.text);
    }
}

static void prints_and_parses(void **state)
{
    (void)state;
    struct arena a = arena_open(1 << 20);
    for (day d = -98615; d <= 157053; d += 97) {
        struct fail f = {0};
        struct arena scratch = a;
        struct text t = {.arena = &scratch};
        day back = DAY_NONE;
        day_print(&t, d);
        assert_true(day_parse(text_get(&t), &back, &f));
        assert_int_equal(back, d);
    }
    struct text t = {.arena = &a};
    day_print_long(&t, day_from_civil(2026, 11, 25));
    assert_string_equal(text_get(&t), "Wed 25 Nov 2026");
    arena_close(&a);
}

static void reckons_months(void **state)
{
    (void)state;
    static const struct {
        int from[3], months, to[3];
    } cases[] = {
        {{2026, 1, 31}, 1, {2026, 2, 28}},   {{2024, 1, 31}, 1, {2024, 2, 29}},
        {{2026, 11, 25}, 2, {2027, 1, 25}},  {{2026, 3, 31}, -1, {2026, 2, 28}},
        {{2026, 1, 15}, -1, {2025, 12, 15}}, {{2026, 12, 1}, 12, {2027, 12, 1}},
        {{2024, 2, 29}, 12, {2025, 2, 28}},  {{2026, 5, 31}, 0, {2026, 5, 31}},
        {{2026, 1, 1}, -25, {2023, 12, 1}},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        const int *from = cases[i].from, *to = cases[i].to;
        const day a = day_from_civil(from[0], from[1], from[2]);
        const day b = day_from_civil(to[0], to[1], to[2]);
        assert_int_equal(day_add_months(a, cases[i].months), b);
        assert_int_equal(day_months_between(a, b), cases[i].months);
        assert_int_equal(day_months_between(b, a), -cases[i].months);
    }
}

static void reads_weekdays_and_clocks(void **state)
{
    (void)state;
    int weekday = -1;
    for (int i = 0; i < 7; i++) {
        assert_true(day_week_parse(day_week_name(i), &weekday));
        assert_int_equal(weekday, i);
    }
    assert_true(day_week_parse("Tuesday", &weekday) && weekday == 1);
    assert_true(day_week_parse("SUN", &weekday) && weekday == 6);
    assert_false(day_week_parse("t", &weekday));
    assert_false(day_week_parse("tuesdays", &weekday));

    static const struct {
        const char *s;
        int minute; /* -1: refused */
    } cases[] = {
        {"00:00", 0},   {"19:00", 1140}, {"7:30", 450}, {"24:00", 1440}, {"23:59", 1439},
        {"24:01", -1},  {"25:00", -1},   {"12:60", -1}, {"12", -1},      {"12:5", -1},
        {"12:005", -1}, {"", -1},        {"-1:00", -1}, {"1900", -1},    {"7pm", -1},
        {":30", -1},    {"12:30 ", -1},
    };
    struct arena a = arena_open(1 << 16);
    for (size_t i = 0; i < COUNT(cases); i++) {
        struct fail f = {0};
        int minute = -1;
        const bool good = clock_parse(cases[i].s, &minute, &f);
        if (good != (cases[i].minute >= 0) || minute != cases[i].minute)
            fail_msg("'%s': %d", cases[i].s, minute);
        if (!good) continue;
        struct text t = {.arena = &a};
        clock_print(&t, minute);
        assert_true(clock_parse(text_get(&t), &minute, &f));
        assert_int_equal(minute, cases[i].minute);
    }
    arena_close(&a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(counts_known_days),
        cmocka_unit_test(every_day_of_700_years_round_trips),
        cmocka_unit_test(refuses_days_that_are_none),
        cmocka_unit_test(prints_and_parses),
        cmocka_unit_test(reckons_months),
        cmocka_unit_test(reads_weekdays_and_clocks),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
