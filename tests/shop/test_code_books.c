/* test_code_books.c - the code books that the program carries, against published numbers.
 *
 * "regulation": the sample of 49 CFR 565 (1996 text, table V), check digit left open; "agency": the
 * sample in the agency's leaflet; "widely used": a number in many public tests; "reckoned": made
 * for this table by the rule of the regulation. All sums were reckoned anew, independently of the
 * code. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/text.h"
#include "library/trade.h"
#include "reckon/code.h"

#include <string.h>

static struct arena arena;
static struct trade trade;

static int open_trade(void **state)
{
    struct trade_faults faults = {0};
    struct fail f = {0};
    (void)state;
    arena = arena_open((size_t)1 << 30);
    if (!trade_load(&arena, NULL, &trade, &faults, &f)) fail_msg("%s", f.text);
    return 0;
}

static int close_trade(void **state)
{
    (void)state;
    arena_close(&arena);
    return 0;
}

static const struct trade_codebook *book_called(const char *id)
{
    const int i = trade_find(&trade, SUBJECT_CODEBOOKS, id);
    if (i < 0) fail_msg("no code book '%s'", id);
    return &trade.codebooks[i];
}

/* The cases 10.01 to 10.10 of the collection that docs/bench.md lists. */
static const struct {
    const char *from, *text;
    int sum;
    char due;
    enum code_verdict check;
    int misfits;
} checks[] = {
    {"10.01 regulation", "1G4AH59H45G118341", 411, '4', CODE_FITS, 0},
    {"regulation, another digit", "1G4AH59H?5G118341", 411, '4', CODE_DIFFERS, 1},
    {"10.02 agency", "1J9RP1A36A1644345", 314, '6', CODE_FITS, 0},
    {"10.03 widely used", "1M8GDM9AXKP042788", 351, 'X', CODE_FITS, 0},
    {"10.04 reckoned", "11111111111111111", 89, '1', CODE_FITS, 0},
    {"10.05 reckoned: last digit changed", "1G4AH59H45G118347", 423, '5', CODE_DIFFERS, 0},
    {"10.06 reckoned: two digits swapped", "1M8GDM9AXKP042878", 352, '0', CODE_DIFFERS, 0},
    {"10.07 reckoned: of no American maker", "VZZZZZ8K9BA123456", 404, '8', CODE_DIFFERS, 0},
    {"10.08 lower case and blanks", "1m8gdm9a xkp 042788", 351, 'X', CODE_FITS, 0},
    {"10.09 reckoned", "3ZZCD45E2GH000123", -1, '2', CODE_FITS, 0},
    {"10.10 reckoned", "5ZZAA11A7LX765432", -1, '7', CODE_FITS, 0},
};

static void check_digits(void **state)
{
    (void)state;
    const struct codebook *b = &book_called("vin-north-america")->book;
    for (size_t i = 0; i < sizeof checks / sizeof *checks; i++) {
        const struct code_reading r = code_read(&arena, b, checks[i].text, 2026);
        if (r.check != checks[i].check || r.check_due != checks[i].due ||
            r.n_misfits != checks[i].misfits ||
            (checks[i].sum >= 0 && r.check_sum != checks[i].sum))
            fail_msg("%s: %s: sum %d, due %c, %d misfits", checks[i].from, checks[i].text,
                     r.check_sum, r.check_due, r.n_misfits);
    }
}

static const struct {
    const char *text;
    int year[2]; /* 0: none */
} years[] = {
    {"3ZZCD45E2GH000123", {1986, 0}}, /* 10.09: position 7 is a figure */
    {"5ZZAA11A7LX765432", {1990, 0}}, /* 10.10 */
    {"5ZZAA1BA7LX765432", {2020, 0}}, /* a letter: the later thirty years */
    {"1M8GDM9AXKP042788", {1989, 0}}, {"11111111111111111", {2001, 0}},
};

static void years_of_making(void **state)
{
    (void)state;
    const struct codebook *b = &book_called("vin-north-america")->book;
    for (size_t i = 0; i < sizeof years / sizeof *years; i++) {
        const struct code_reading r = code_read(&arena, b, years[i].text, 2026);
        if (r.n_years != 1 || r.years[0] != years[i].year[0])
            fail_msg("%s: %d years, first %d", years[i].text, r.n_years,
                     r.n_years ? r.years[0] : 0);
    }
}

static const struct {
    const char *text, *misfit;
} broken[] = {
    /* 10.08 */
    {"1M8GDM9AXKP04278", "has 16 characters, not 17"},
    {"1M8GDM9AXKP0427881", "has 18 characters, not 17"},
    {"1M8GDM9AXKPO42788", "position 12 holds 'O'"},
    {"IM8GDM9AXKP042788", "position 1 holds 'I'"},
    {"1M8GDM9AXQP042788", "position 10 holds 'Q'"},
    {"", "has 0 characters"},
    {"1M8GDM9AXKP0427\t8\x01", "position 17 holds a character that is no letter"},
};

static void what_does_not_fit(void **state)
{
    (void)state;
    for (int k = 0; k < 2; k++) {
        const struct codebook *b = &book_called(k ? "vin" : "vin-north-america")->book;
        for (size_t i = 0; i < sizeof broken / sizeof *broken; i++) {
            const struct code_reading r = code_read(&arena, b, broken[i].text, 2026);
            bool told = false;
            for (int m = 0; m < r.n_misfits; m++)
                told |= strstr(r.misfits[m], broken[i].misfit) != NULL;
            if (!told)
                fail_msg("'%s': %s", broken[i].text, r.n_misfits ? r.misfits[0] : "nothing told");
        }
    }
}

/* Elsewhere than in North America a check digit is no rule: the book that says so has none of its
 * own, and names the one that does. */
static void a_check_digit_elsewhere_is_information(void **state)
{
    (void)state;
    const struct trade_codebook *b = book_called("vin");
    const struct code_reading r = code_read(&arena, &b->book, "VZZZZZ8K9BA123456", 2026);
    assert_int_equal(r.n_misfits, 0);
    assert_int_equal(r.check, CODE_NONE);
    assert_string_equal(r.lines[0].means, "Europe");
    assert_true(b->informed_by >= 0);
    assert_string_equal(trade.codebooks[b->informed_by].head.id, "vin-north-america");
}

/* What was read in the regulation is published; regions and letters of the years are not. */
static void marks_of_the_vehicle_number(void **state)
{
    (void)state;
    const struct trade_codebook *anywhere = book_called("vin"),
                                *america = book_called("vin-north-america");
    assert_int_equal(america->head.mark, MARK_PUBLISHED);
    assert_int_equal(america->book.year.mark, MARK_MEMORY);
    for (int i = 0; i < anywhere->book.n_places; i++) {
        const struct code_place *p = &anywhere->book.places[i];
        assert_int_equal(p->mark, text_is(p->name, "maker") ? MARK_NONE : MARK_MEMORY);
    }
}

/* The invented maker's book reads a number of one letter of check, and a year whose cycle nothing
 * tells. */
static void a_book_of_ones_own(void **state)
{
    (void)state;
    const struct codebook *b = &book_called("ostrand-chassis")->book;
    const struct code_reading r = code_read(&arena, b, "LNE-J R 04817 B", 2026);
    assert_int_equal(r.n_misfits, 0);
    assert_string_equal(r.lines[0].means, "Linnet");
    assert_int_equal(r.check_sum, 0 * 7 + 4 * 5 + 8 * 4 + 1 * 3 + 7 * 2);
    assert_int_equal(r.check_due, "ABCDEFGH"[69 % 8]);
    assert_int_equal(r.n_years, 4);
    assert_int_equal(r.years[0], 1959);
    assert_int_equal(r.years[1], 1980);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(check_digits),
        cmocka_unit_test(years_of_making),
        cmocka_unit_test(what_does_not_fit),
        cmocka_unit_test(a_check_digit_elsewhere_is_information),
        cmocka_unit_test(marks_of_the_vehicle_number),
        cmocka_unit_test(a_book_of_ones_own),
    };
    return cmocka_run_group_tests(tests, open_trade, close_trade);
}
