/* A sheet as HTML: against a golden file, and with hostile text in every text of every kind of
 * node.
 *
 * FETTLE_GOLDEN=write makes the golden file anew; read what changed before keeping it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "face/web/render_html.h"
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

/* "try ..." has no page; whatever else is an address as it stands, which is the worst case. */
static const char *as_it_stands(const void *context, struct arena *a, const char *command)
{
    (void)context;
    return text_starts(command, "try ") ? NULL : arena_copy(a, command);
}

static const char *rendered(struct arena *a, const struct sheet *s)
{
    struct text out = {.arena = a};
    struct html h = html_begin(&out);
    render_html_sheet(&h, s, (struct page_links){.address = as_it_stands});
    html_end(&h);
    return text_get(&out);
}

static void test_golden(void **state)
{
    (void)state;
    static const char path[] = "tests/web/golden/sheet.html";
    struct arena a = arena_open(1 << 24);
    const char *got = rendered(&a, sample_sheet(&a)), *mode = getenv("FETTLE_GOLDEN");
    if (mode && strcmp(mode, "write") == 0) {
        FILE *out = fopen(path, "wb");
        assert_non_null(out);
        fputs(got, out);
        assert_int_equal(fclose(out), 0);
    }
    assert_string_equal(got, read_file(&a, path));
    arena_close(&a);
}

/* ---- hostile text ---- */

/* Every text of every kind of node is t. */
static const struct sheet *filled(struct arena *a, const char *t)
{
    struct sheet *s = sheet_new(a, t);
    sheet_heading(s, 1, t);
    sheet_heading(s, 2, t);
    sheet_heading(s, 3, t);
    sheet_text(s, "%s", t);
    for (enum tone tone = 0; tone < TONE_COUNT; tone++) sheet_fact(s, tone, t, "%s", t);
    struct sheet_table *table = sheet_table(s, t);
    sheet_column(s, table, t, ALIGN_LEFT, 1);
    sheet_column(s, table, t, ALIGN_RIGHT, 3);
    for (enum tone tone = 0; tone < TONE_COUNT; tone++) {
        sheet_cell(s, table, tone, "%s", t);
        sheet_cell(s, table, tone, "%s", t);
    }
    for (enum chart_kind kind = CHART_BARS; kind < CHART_KINDS; kind++) {
        struct sheet_chart *c = sheet_chart(s, kind, t, t, 0, t, 10, t);
        for (enum tone tone = 0; tone < TONE_COUNT; tone++)
            sheet_chart_row(
                s, c,
                (struct chart_row){.label = t, .text = t, .middle = 5, .high = 9, .tone = tone});
        sheet_chart_limit(s, c, 7, t);
        if (kind < CHART_SPANS) continue;
        sheet_chart_rise(s, c, 10, t);
        sheet_chart_tick(s, c, 3, t);
        sheet_chart_tick(s, c, 9, t);
        for (int i = 0; i < 2; i++) sheet_chart_series(s, c, t);
        sheet_chart_piece(s, c, (struct chart_piece){1, 0, 2, 5});
    }
    sheet_caution(s, t, t);
    sheet_link(s, t, t);
    sheet_link(s, t, arena_print(a, "try %s", t));
    sheet_item(s, "%s", t);
    sheet_note(s, MARK_PRACTICE, t, t);
    struct sheet_why *w = sheet_why(s, t, t, MARK_MEMORY, t);
    sheet_why_input(s, w, t, "%s", t);
    return s;
}

/* The text without its references: those that the writer uses, no others. */
static const char *decoded(struct arena *a, const char *s, size_t n)
{
    static const struct {
        const char *written, *means;
    } list[] = {{"&amp;", "&"}, {"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&#39;", "'"}};
    struct text out = {.arena = a};
    for (size_t i = 0; i < n;) {
        size_t k = 0;
        while (s[i] == '&' && k < 5 && !text_starts(s + i, list[k].written)) k++;
        if (k == 5) fail_msg("a bare & at: %.30s", s + i);
        text_add_n(&out, s[i] == '&' ? list[k].means : s + i, 1);
        i += s[i] == '&' ? strlen(list[k].written) : 1;
    }
    return text_get(&out);
}

static int count(const char *s, const char *word)
{
    int n = 0;
    for (; (s = strstr(s, word)); s += strlen(word)) n++;
    return n;
}

struct reading {
    struct text shape; /* tags and the names of their attributes */
    int shown;         /* how often the word stands in text */
    int labelled;      /* and in attributes */
};

/* A reader that knows only double-quoted attributes: whatever else comes fails. */
static struct reading read_html(struct arena *a, const char *s, const char *word)
{
    struct reading r = {.shape = {.arena = a}};
    while (*s) {
        size_t n = strcspn(s, "<");
        assert_true(memchr(s, '>', n) == NULL && memchr(s, '"', n) == NULL);
        r.shown += count(decoded(a, s, n), word);
        s += n;
        if (!*s) break;
        n = strcspn(s, " >");
        text_add_n(&r.shape, s, n);
        s += n;
        while (*s == ' ') {
            const char *name = ++s;
            n = strcspn(s, "=");
            text_print(&r.shape, " %.*s", (int)n, name);
            s += n;
            assert_true(s[0] == '=' && s[1] == '"');
            const char *value = s += 2;
            s += strcspn(s, "\"<>");
            assert_true(*s == '"');
            const char *means = decoded(a, value, (size_t)(s - value));
            if (n == 4 && memcmp(name, "href", 4) == 0)
                assert_true(html_url_is_safe(means));
            else
                r.labelled += count(means, word);
            s++;
        }
        assert_true(*s == '>');
        text_add(&r.shape, ">");
        s++;
    }
    return r;
}

/* Hostile text makes the very tags that harmless text of the same width makes, and is shown as
 * often. */
static void test_payloads(void **state)
{
    (void)state;
    struct arena file = arena_open(1 << 20);
    int tried = 0;
    for (char *next, *s = read_file(&file, "tests/web/payloads.txt"); *s; s = next) {
        next = s + strcspn(s, "\n");
        if (*next) *next++ = '\0';
        struct arena a = arena_open(1 << 24);
        struct text harmless = {.arena = &a};
        for (int i = text_width(s); i > 0; i--) text_add(&harmless, "Q");
        struct reading evil = read_html(&a, rendered(&a, filled(&a, s)), s);
        struct reading good =
            read_html(&a, rendered(&a, filled(&a, text_get(&harmless))), text_get(&harmless));
        assert_string_equal(text_get(&evil.shape), text_get(&good.shape));
        assert_int_equal(evil.shown, good.shown);
        assert_int_equal(evil.labelled, good.labelled);
        assert_true(evil.shown > 60 && evil.labelled >= 10);
        tried++;
        arena_close(&a);
    }
    assert_true(tried >= 50);
    arena_close(&file);
}

/* What may not stand in a document, in every text: the document is still UTF-8 without controls. */
static void test_bad_bytes(void **state)
{
    (void)state;
    static const char *const bad[] = {"\xFF",     "a\xC3",    "\xED\xA0\x80",
                                      "\x1B[31m", "\xC2\x9B", "\x7F"};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        struct arena a = arena_open(1 << 24);
        const char *s = rendered(&a, filled(&a, bad[i]));
        assert_true(text_is_utf8(s, strlen(s)));
        assert_null(strpbrk(s, "\x1B\x7F"));
        assert_null(strstr(s, "\xC2\x9B"));
        assert_non_null(strstr(s, "\xEF\xBF\xBD"));
        arena_close(&a);
    }
}

/* Two sheets on one page share no id, and each reference finds its element. */
static void test_ids(void **state)
{
    (void)state;
    struct arena a = arena_open(1 << 24);
    struct text out = {.arena = &a};
    struct html h = html_begin(&out);
    for (int i = 0; i < 2; i++) render_html_sheet(&h, filled(&a, "x"), (struct page_links){0});
    html_end(&h);
    int refs = 0;
    for (const char *s = text_get(&out); (s = strstr(s, " aria-labelledby=\"")); refs++) {
        s += strlen(" aria-labelledby=\"");
        size_t n = strcspn(s, " ");
        const char *first = arena_print(&a, " id=\"%.*s\"", (int)n, s);
        const char *second = arena_print(&a, " id=\"%.*s-is\"", (int)n, s);
        assert_int_equal(count(text_get(&out), first), 1);
        assert_int_equal(count(text_get(&out), second), 1);
    }
    assert_int_equal(refs, 8); /* two sheets, every kind of chart in each */
    arena_close(&a);
}

/* No rank of heading is skipped, and levels that are alike are of one rank. */
static void test_outline(void **state)
{
    (void)state;
    static const struct {
        const char *levels, *ranks;
    } cases[] = {
        {"123", "234"}, {"222", "222"},   {"3", "2"},
        {"131", "232"}, {"2312", "2323"}, {"1323", "2334"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct arena a = arena_open(1 << 20);
        struct sheet *s = sheet_new(&a, "t");
        for (const char *c = cases[i].levels; *c; c++) sheet_heading(s, *c - '0', "x");
        struct text ranks = {.arena = &a};
        for (const char *c = rendered(&a, s); (c = strstr(c, "<h")); c += 2)
            if (c[2] != '1') text_add_n(&ranks, c + 2, 1);
        assert_string_equal(text_get(&ranks), cases[i].ranks);
        arena_close(&a);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_golden),    cmocka_unit_test(test_payloads),
        cmocka_unit_test(test_bad_bytes), cmocka_unit_test(test_ids),
        cmocka_unit_test(test_outline),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
