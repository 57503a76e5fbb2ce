/* test_code.c - dates of casting and of glass against the time of assembly; ranges of letters. */
#include "reckon/code.h"

#include "reckon/near.h"

#include <string.h>

static struct arena arena;

static int set_up(void **state)
{
    (void)state;
    arena = arena_open((size_t)1 << 28);
    return 0;
}

static int take_down(void **state)
{
    (void)state;
    arena_close(&arena);
    return 0;
}

enum { OLDEST = 1920, MOST = 8 };

static int cast_parts[] = {DATE_MONTH_LETTER, DATE_DAY, DATE_YEAR_LAST};
static int full_parts[] = {DATE_DAY, DATE_MONTH, DATE_YEAR};
static int short_parts[] = {DATE_DAY, DATE_MONTH, DATE_YEAR_TWO};
static int glass_parts[] = {DATE_YEAR_LAST, DATE_QUARTER_DOTS};
static int week_parts[] = {DATE_WEEK, DATE_YEAR_TWO};
static const struct code_date cast = {cast_parts, 3, {7, 30, 150}};
static const struct code_date full = {full_parts, 3, {7, 30, 150}};
static const struct code_date two = {short_parts, 3, {7, 30, 150}};
static const struct code_date glass = {glass_parts, 2, {7, 30, 150}};
static const struct code_date week = {week_parts, 2, {7, 30, 150}};

static const struct {
    const struct code_date *date;
    const char *text, *from, *to; /* built between; NULL: not known */
    enum date_verdict verdict;
    const char *fits; /* the first day of each candidate of the best verdict */
} cases[] = {
    /* Case 10.13, "C 14 5": 14 March of a year that ends in 5 (generic; mark memory). */
    {&cast, "C 14 5", NULL, NULL, DATE_FITS,
     "1925-03-14 1935-03-14 1945-03-14 1955-03-14 1965-03-14 1975-03-14"},
    {&cast, "C145", "1955-05-02", "1955-05-02", DATE_FITS, "1955-03-14"},
    {&cast, "c-14-5", "1955-05-02", "1955-05-02", DATE_FITS, "1955-03-14"},
    {&cast, "c/14.5", "1955-05-02", "1955-05-02", DATE_FITS, "1955-03-14"},
    {&cast, "C 14 5", "1955-03-14", "1955-03-14", DATE_FITS, "1955-03-14"},
    /* the day after assembly: only an earlier decade is left, and that asks */
    {&cast, "C 15 5", "1955-03-14", "1955-03-14", DATE_LONG_BEFORE,
     "1925-03-15 1935-03-15 1945-03-15"},
    /* known to a year only: what may fit fits */
    {&cast, "L 31 5", "1955-01-01", "1955-12-31", DATE_FITS, "1955-12-31"},
    {&cast, "B 29 6", "1956-04-01", "1956-04-01", DATE_FITS, "1956-02-29"},
    {&cast, "B 29 5", "1955-04-01", "1955-04-01", DATE_UNREADABLE, ""},
    {&cast, "M 1 5", NULL, NULL, DATE_UNREADABLE, ""},
    {&cast, "C 32 5", NULL, NULL, DATE_UNREADABLE, ""},
    {&cast, "C 14", NULL, NULL, DATE_UNREADABLE, ""},
    {&cast, "C 14 5 x", NULL, NULL, DATE_UNREADABLE, ""},
    {&cast, "", NULL, NULL, DATE_UNREADABLE, ""},
    {&cast, "C 14 5 C 14 5 C 14 5 C 14 5 C 14 5 C 14 5 C 14 5", NULL, NULL, DATE_UNREADABLE, ""},
    /* nothing is unknown here: after assembly excludes */
    {&full, "15 3 1955", "1955-03-14", "1955-03-14", DATE_AFTER, "1955-03-15"},
    {&full, "14-3-1955", "1955-03-14", "1955-03-14", DATE_FITS, "1955-03-14"},
    /* twice the usual high figure, 300 days, and one more */
    {&full, "18.5.1954", "1955-03-14", "1955-03-14", DATE_FITS, "1954-05-18"},
    {&full, "17.5.1954", "1955-03-14", "1955-03-14", DATE_LONG_BEFORE, "1954-05-17"},
    {&full, "1 1 2027", NULL, NULL, DATE_UNREADABLE, ""}, /* not yet */
    {&two, "14 3 55", "1955-05-02", "1955-05-02", DATE_FITS, "1955-03-14"},
    {&two, "140355", "1955-05-02", "1955-05-02", DATE_FITS, "1955-03-14"},
    {&two, "14 3 25", NULL, NULL, DATE_FITS, "1925-03-14 2025-03-14"},
    {&glass, "5..", "1955-07-02", "1955-07-02", DATE_FITS, "1955-04-01"},
    {&glass, "5 ....", "1955-07-02", "1955-07-02", DATE_LONG_BEFORE,
     "1925-10-01 1935-10-01 1945-10-01"},
    {&glass, "5.....", NULL, NULL, DATE_UNREADABLE, ""},
    {&week, "14 55", "1955-05-02", "1955-05-02", DATE_FITS, "1955-04-02"},
};

static day day_of(const char *text)
{
    struct fail f = {0};
    day d = DAY_NONE;
    if (text && !day_parse(text, &d, &f)) fail_msg("%s", f.text);
    return d;
}

static void dates_against_assembly(void **state)
{
    (void)state;
    const day today = day_from_civil(2026, 11, 25);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const struct date_reading r =
            code_read_date(&arena, cases[i].date, cases[i].text, day_of(cases[i].from),
                           day_of(cases[i].to), OLDEST, today);
        struct text fits = {.arena = &arena};
        for (int k = 0; k < r.n_candidates; k++) {
            if (r.candidates[k].verdict != r.verdict) continue;
            if (fits.length > 0) text_add(&fits, " ");
            day_print(&fits, r.candidates[k].from);
        }
        const char *got = text_get(&fits);
        if (r.verdict != cases[i].verdict ||
            strncmp(got, cases[i].fits, strlen(cases[i].fits)) != 0 ||
            (cases[i].from && strlen(got) != strlen(cases[i].fits)))
            fail_msg("'%s' against %s: verdict %d, %s", cases[i].text,
                     cases[i].to ? cases[i].to : "nothing", (int)r.verdict, got);
        assert_true((r.verdict == DATE_UNREADABLE) == (r.misfit != NULL));
    }
}

static void ranges(void **state)
{
    (void)state;
    assert_true(code_in("A-HJ-N", 'H'));
    assert_false(code_in("A-HJ-N", 'I'));
    assert_true(code_in("A-HJ-N", 'J'));
    assert_true(code_in("890", '9'));
    assert_false(code_in("890", '-'));
    assert_true(code_in("A-", '-')); /* nothing after it: itself */
    assert_false(code_in("A-Z", '\0'));
    assert_false(code_in(NULL, 'A'));
}

static void normal_form(void **state)
{
    (void)state;
    assert_string_equal(code_normal(&arena, " ab-1/2. z\t"), "AB12Z");
    assert_string_equal(code_normal(&arena, "\xc3\xa9\x01"), "\xc3\xa9\x01");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(dates_against_assembly),
        cmocka_unit_test(ranges),
        cmocka_unit_test(normal_form),
    };
    return cmocka_run_group_tests(tests, set_up, take_down);
}
