#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/condition.h"
#include "base/fail.h"
#include "base/text.h"

#include <stdio.h>
#include <string.h>

#define COUNT(array) (sizeof(array) / sizeof *(array))

static void builds_text(void **state)
{
    (void)state;
    struct arena a = arena_open(1 << 20);
    struct text t = {.arena = &a};
    assert_string_equal(text_get(&t), "");
    text_add(&t, "");
    assert_string_equal(text_get(&t), "");
    char expected[6000] = "";
    for (int i = 0; i < 1000; i++) {
        text_print(&t, "%d,", i);
        snprintf(expected + strlen(expected), 16, "%d,", i);
    }
    text_add_n(&t, "end of it", 3);
    strcat(expected, "end");
    assert_string_equal(text_get(&t), expected);
    assert_int_equal(t.length, strlen(expected));
    arena_close(&a);
}

static void compares_words(void **state)
{
    (void)state;
    static const struct {
        const char *a, *b;
        bool same;
    } cases[] = {
        {"Wheel cylinder", "wheel-cylinder", true},
        {"wheel_cylinder ", " WHEELCYLINDER", true},
        {"", "-_ ", true},
        {"wheel", "wheels", false},
        {"wheels", "wheel", false},
        {"Ölwanne", "ölwanne", false}, /* ASCII case alone is folded */
        {NULL, "x", false},
        {NULL, NULL, false},
    };
    for (size_t i = 0; i < COUNT(cases); i++)
        if (text_same_word(cases[i].a, cases[i].b) != cases[i].same)
            fail_msg("'%s' and '%s'", cases[i].a, cases[i].b);
    assert_true(text_is("a", "a"));
    assert_false(text_is("a", "A"));
    assert_false(text_is(NULL, NULL));
    assert_true(text_starts("brake pipe", "brake"));
    assert_true(text_starts("brake", ""));
    assert_false(text_starts("bra", "brake"));
}

/* Well formed and ill formed: table 3-7 of the Unicode Standard, and RFC 3629, sections 3, 4
 * and 10. */
static void tells_utf8(void **state)
{
    (void)state;
    static const struct {
        const char *s;
        size_t n;
        bool well_formed;
    } cases[] = {
        {"", 0, true},
        {"plain", 5, true},
        {"\x7f", 1, true},
        {"\xc2\x80", 2, true},         /* U+0080, the least of two bytes */
        {"\xdf\xbf", 2, true},         /* U+07FF */
        {"\xe0\xa0\x80", 3, true},     /* U+0800 */
        {"\xed\x9f\xbf", 3, true},     /* U+D7FF, before the surrogates */
        {"\xee\x80\x80", 3, true},     /* U+E000, after them */
        {"\xef\xbf\xbf", 3, true},     /* U+FFFF */
        {"\xf0\x90\x80\x80", 4, true}, /* U+10000 */
        {"\xf4\x8f\xbf\xbf", 4, true}, /* U+10FFFF */
        {"a\0b", 3, false},
        {"\x80", 1, false}, /* continuation alone */
        {"\xbf", 1, false},
        {"\xc0\xaf", 2, false}, /* '/' in two bytes */
        {"\xc1\xbf", 2, false},
        {"\xc0\x80", 2, false}, /* NUL in two */
        {"\xe0\x80\xaf", 3, false},
        {"\xe0\x9f\xbf", 3, false},
        {"\xf0\x80\x80\xaf", 4, false},
        {"\xf0\x8f\xbf\xbf", 4, false},
        {"\xed\xa0\x80", 3, false},             /* U+D800 */
        {"\xed\xbf\xbf", 3, false},             /* U+DFFF */
        {"\xed\xa1\x8c\xed\xbe\xb4", 6, false}, /* a pair of surrogates (RFC 3629, section 3) */
        {"\xf4\x90\x80\x80", 4, false},         /* U+110000 */
        {"\xf5\x80\x80\x80", 4, false},
        {"\xf8\x88\x80\x80\x80", 5, false},
        {"\xff", 1, false},
        {"\xfe", 1, false},
        {"\xc3", 1, false}, /* cut short */
        {"\xe2\x82", 2, false},
        {"\xf0\x9f\x94", 3, false},
        {"\xc3(", 2, false},
        {"\xe2(\xa1", 3, false},
        {"\xe2\x82(", 3, false},
        {"\xf0(\x8c\xbc", 4, false},
        {"ok\xe2\x82\xac?\xff", 7, false},
        {"ok\xe2\x82\xac?", 6, true},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        char exact[16]; /* a reader past the end would be told by the sanitizer of this copy */
        memcpy(exact, cases[i].s, cases[i].n);
        if (text_is_utf8(exact, cases[i].n) != cases[i].well_formed) fail_msg("case %zu", i);
    }
}

/* Every code point encoded by the rule of RFC 3629, section 3, is told right. */
static void tells_every_code_point(void **state)
{
    (void)state;
    for (uint32_t c = 1; c <= 0x10ffff; c++) {
        const uint32_t n = c < 0x80 ? 1 : c < 0x800 ? 2 : c < 0x10000 ? 3 : 4;
        static const unsigned char lead[] = {0, 0x00, 0xc0, 0xe0, 0xf0};
        char s[4];
        for (uint32_t i = n; i-- > 1;) s[i] = (char)(0x80 | ((c >> (6 * (n - 1 - i))) & 0x3f));
        s[0] = (char)(lead[n] | c >> (6 * (n - 1)));
        const bool surrogate = c >= 0xd800 && c <= 0xdfff;
        if (text_is_utf8(s, n) == surrogate) fail_msg("U+%04X", c);
    }
}

static void measures_width(void **state)
{
    (void)state;
    static const struct {
        const char *s;
        int columns;
    } cases[] = {
        {"", 0},
        {"sill", 4},
        {"Köln", 4},
        {"e\xcc\x81", 1}, /* combining acute */
        {"工具", 4},
        {"ｆ", 2},
        {"한", 2},
        {"½ in", 4},
        {"🔧", 2},
        {"°C", 2},
        {"a\xe2\x80\x8b", 1}, /* zero width space */
        {"\xff\xfe", 2},
        {"ﬁ", 1},
    };
    for (size_t i = 0; i < COUNT(cases); i++)
        if (text_width(cases[i].s) != cases[i].columns)
            fail_msg("'%s': %d columns, not %d", cases[i].s, text_width(cases[i].s),
                     cases[i].columns);
}

static void reads_whole_numbers(void **state)
{
    (void)state;
    static const struct {
        const char *s;
        bool good;
        int64_t value;
    } cases[] = {
        {"0", true, 0},
        {" 42 ", true, 42},
        {"-7", true, -7},
        {"+7", true, 7},
        {"007", true, 7},
        {"9223372036854775807", true, INT64_MAX},
        {"-9223372036854775808", true, INT64_MIN},
        {"9223372036854775808", false, 0},
        {"-9223372036854775809", false, 0},
        {"99999999999999999999", false, 0},
        {"", false, 0},
        {"-", false, 0},
        {"1.0", false, 0},
        {"3x", false, 0},
        {"1 2", false, 0},
        {"0x10", false, 0},
        {"--1", false, 0},
        {"1e3", false, 0},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        int64_t value = 0;
        if (text_to_int(cases[i].s, &value) != cases[i].good || value != cases[i].value)
            fail_msg("'%s'", cases[i].s);
    }
}

static void reads_decimals(void **state)
{
    (void)state;
    static const struct {
        const char *s;
        bool good;
        double value;
    } cases[] = {
        {"0", true, 0},         {"-2.5", true, -2.5}, {" .5 ", true, 0.5}, {"5.", true, 5},
        {"1e-3", true, 1e-3},   {"2E+2", true, 200},  {"0.1", true, 0.1},  {"1e400", false, 0},
        {"", false, 0},         {".", false, 0},      {"-.", false, 0},    {"nan", false, 0},
        {"inf", false, 0},      {"-inf", false, 0},   {"0x1p3", false, 0}, {"4,5", false, 0},
        {"12.5 GBP", false, 0}, {"1e", false, 0},     {"1.2.3", false, 0}, {"- 1", false, 0},
        {"infinity", false, 0}, {"1e5x", false, 0},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        double value = 0;
        if (text_to_double(cases[i].s, &value) != cases[i].good || value != cases[i].value)
            fail_msg("'%s'", cases[i].s);
    }
}

/* Checked by hand; "ca"/"abc" is the case that tells optimal string alignment (3) from the
 * unrestricted distance (2). */
static void counts_edits(void **state)
{
    (void)state;
    static const struct {
        const char *a, *b;
        int edits;
    } cases[] = {
        {"", "", 0},      {"", "plan", 4},   {"kitten", "sitting", 3}, {"survye", "survey", 1},
        {"ca", "abc", 3}, {"fit", "fit", 0}, {"choose", "chose", 1},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        assert_int_equal(text_distance(cases[i].a, cases[i].b), cases[i].edits);
        assert_int_equal(text_distance(cases[i].b, cases[i].a), cases[i].edits);
    }
    char longer[301];
    memset(longer, 'a', 300);
    longer[300] = '\0';
    assert_int_equal(text_distance(longer, "a"), 63); /* compared by its first 64 */
}

/* Test vectors of the FNV distribution (test_fnv.c, by its authors), 64 bits, FNV-1a. */
static void hashes_as_published(void **state)
{
    (void)state;
    assert_int_equal(text_hash(""), 0xcbf29ce484222325u);
    assert_int_equal(text_hash("a"), 0xaf63dc4c8601ec8cu);
    assert_int_equal(text_hash("foobar"), 0x85944171f73967e8u);
}

static void first_failure_is_kept_on_one_clean_line(void **state)
{
    (void)state;
    struct fail f = {0};
    assert_false(fail_set(&f, FAIL_INPUT, "a%sb\x1b[31m \xc2\x9b tab\t %s \xff 5 °C", "\n", "é"));
    assert_int_equal(f.kind, FAIL_INPUT);
    assert_string_equal(f.text, "a?b?[31m ?? tab? é ? 5 °C");
    assert_false(fail_set(&f, FAIL_GARAGE, "later"));
    assert_int_equal(f.kind, FAIL_INPUT);
    assert_string_equal(f.text, "a?b?[31m ?? tab? é ? 5 °C");

    /* Cut within a long line, never within a character, for every alignment of the cut. */
    char longer[1200];
    for (size_t shift = 0; shift < 4; shift++) {
        memset(longer, 'x', shift);
        for (size_t i = shift; i + 3 < sizeof longer - 1; i += 3) memcpy(longer + i, "€", 3);
        longer[sizeof longer - 10] = '\0';
        longer[1180] = '\0';
        struct fail cut = {0};
        fail_set(&cut, FAIL_NO, "%s", longer);
        assert_true(text_is_utf8(cut.text, strlen(cut.text)));
        assert_null(strchr(cut.text, '?'));
        assert_string_equal(cut.text + strlen(cut.text) - 3, "...");
    }
}

static void conditions_have_names(void **state)
{
    (void)state;
    for (int c = 0; c < COND_ANSWERS; c++) {
        enum condition back = COND_SOUND;
        assert_true(condition_parse(condition_name((enum condition)c), &back));
        assert_int_equal(back, c);
    }
    enum condition c = COND_SOUND;
    assert_true(condition_parse("Not-Fitted", &c) && c == COND_NOT_FITTED);
    assert_true(condition_parse("not_fitted", &c) && c == COND_NOT_FITTED);
    assert_true(condition_parse("BODGED", &c) && c == COND_BODGED);
    assert_false(condition_parse("rotten", &c));
    assert_false(condition_parse("", &c));
    assert_int_equal(COND_COUNT, 6);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(builds_text),
        cmocka_unit_test(compares_words),
        cmocka_unit_test(tells_utf8),
        cmocka_unit_test(tells_every_code_point),
        cmocka_unit_test(measures_width),
        cmocka_unit_test(reads_whole_numbers),
        cmocka_unit_test(reads_decimals),
        cmocka_unit_test(counts_edits),
        cmocka_unit_test(hashes_as_published),
        cmocka_unit_test(first_failure_is_kept_on_one_clean_line),
        cmocka_unit_test(conditions_have_names),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
