/* The text renderer against golden files at three widths, and what a terminal may never be told.
 *
 * FETTLE_GOLDEN=write makes the golden files anew; read what changed before keeping them. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "face/cli/render_text.h"
#include "face/cli/wrap.h"
#include "show/sample.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static char *read_file(struct arena *a, const char *path)
{
    FILE *in = fopen(path, "rb");
    if (!in) fail_msg("%s is missing; run from the top of the tree", path);
    char *s = ARENA_ARRAY(a, char, 1 << 16);
    size_t n = fread(s, 1, (1 << 16) - 1, in);
    s[n] = '\0';
    fclose(in);
    return s;
}

static const char *rendered(struct arena *a, int width, bool colour)
{
    struct text out = {.arena = a};
    render_text(&out, sample_sheet(a), (struct render_style){width, colour});
    return text_get(&out);
}

static void test_golden(void **state)
{
    (void)state;
    static const int widths[] = {40, 80, 120};
    for (size_t i = 0; i < sizeof widths / sizeof *widths; i++) {
        struct arena a = arena_open(1 << 24);
        const char *path = arena_print(&a, "tests/cli/golden/sheet-%d.txt", widths[i]);
        const char *got = rendered(&a, widths[i], false), *mode = getenv("FETTLE_GOLDEN");
        if (mode && strcmp(mode, "write") == 0) {
            FILE *out = fopen(path, "wb");
            assert_non_null(out);
            fputs(got, out);
            assert_int_equal(fclose(out), 0);
        }
        assert_string_equal(got, read_file(&a, path));
        arena_close(&a);
    }
}

/* At every width: no line is wider, none holds a control character, and all that is never dropped
 * is there. */
static void test_every_width(void **state)
{
    (void)state;
    for (int width = 20; width <= 140; width++) {
        struct arena a = arena_open(1 << 24);
        const char *s = rendered(&a, width, false);
        for (const char *line = s; *line;) {
            size_t n = strcspn(line, "\n");
            int wide = text_width(arena_copy_n(&a, line, n));
            if (wide > width) fail_msg("width %d: %d columns: %.*s", width, wide, (int)n, line);
            for (size_t i = 0; i < n; i++)
                assert_true((unsigned char)line[i] >= 0x20 && (unsigned char)line[i] != 0x7f);
            line += n + (line[n] == '\n');
        }
        assert_true(text_is_utf8(s, strlen(s)));
        assert_null(strstr(s, "\xc2\x9b"));
        assert_null(strstr(s, "\xe2\x80\xae"));
        assert_non_null(strstr(s, "✓"));
        assert_non_null(strstr(s, "✗"));
        assert_non_null(strstr(s, "CAUTION"));
        assert_non_null(strstr(s, "[practice]"));
        arena_close(&a);
    }
}

/* Colour adds escape codes and changes nothing else. */
static void test_colour_only_adds(void **state)
{
    (void)state;
    struct arena a = arena_open(1 << 24);
    const char *plain = rendered(&a, 80, false), *coloured = rendered(&a, 80, true);
    assert_non_null(strstr(coloured, "\033[32m"));
    struct text stripped = {.arena = &a};
    for (const char *s = coloured; *s; s++)
        if (*s == '\033')
            s += strcspn(s, "m");
        else
            text_add_n(&stripped, s, 1);
    assert_string_equal(text_get(&stripped), plain);
    arena_close(&a);
}

static void test_clean(void **state)
{
    (void)state;
    static const struct {
        const char *typed, *shown;
    } cases[] = {
        {"plain words", "plain words"},
        {"caf\xc3\xa9", "caf\xc3\xa9"},
        {"\033[2J", "\\x1b[2J"},
        {"\033]0;title\007", "\\x1b]0;title\\x07"},
        {"a\tb\nc\rd", "a b c\\x0dd"},
        {"\x7f", "\\x7f"},
        {"\xc2\x9b"
         "31m",
         "\\u009b31m"},
        {"\xe2\x80\xae"
         "abc",
         "\\u202eabc"},
        {"\xff\xc3", "\\xff\\xc3"},
        {"\xc0\x80", "\\xc0\\x80"},
        {"\xed\xa0\x80", "\\xed\\xa0\\x80"},
        {"", ""},
    };
    struct arena a = arena_open(1 << 20);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        assert_string_equal(wrap_clean(&a, cases[i].typed, false), cases[i].shown);
    assert_string_equal(wrap_clean(&a, "a\nb", true), "a\nb");
    arena_close(&a);
}

static void test_lines(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        int width;
        const char *lines; /* '|' between */
    } cases[] = {
        {"", 10, ""},
        {"one", 10, "one"},
        {"one two three", 7, "one two|three"},
        {"one two three", 3, "one|two|thr|ee"},
        {"  blanks   shrink  ", 20, "blanks shrink"},
        {"a\n\nb", 5, "a||b"},
        {"駆動軸 x", 4, "駆動|軸 x"},
        {"e\xcc\x81\xcc\x81 f", 3, "e\xcc\x81\xcc\x81 f"},
        {"word", 0, "w|o|r|d"},
        {"failed 34 %, worn", 11, "failed|34 %, worn"},
        {"failed 34 %", 10, "failed|34 %"},
    };
    struct arena a = arena_open(1 << 20);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct text got = {.arena = &a};
        struct lines l = wrap_lines(&a, cases[i].text, cases[i].width);
        for (int k = 0; k < l.count; k++) text_print(&got, "%s%s", k ? "|" : "", l.line[k]);
        assert_string_equal(text_get(&got), cases[i].lines);
    }
    arena_close(&a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_golden),
        cmocka_unit_test(test_every_width),
        cmocka_unit_test(test_colour_only_adds),
        cmocka_unit_test(test_clean),
        cmocka_unit_test(test_lines),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
