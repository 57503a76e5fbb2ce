/* The picture of an address: what a camera looks for is there, and the text shows the same modules.
 * That cameras read it is the library's part. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "face/show/bag_label.h"
#include "face/show/qr.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The square in each of three corners (ISO/IEC 18004). Mark: memory. */
static bool is_finder(const struct qr *q, int left, int top)
{
    for (int y = 0; y < 7; y++)
        for (int x = 0; x < 7; x++) {
            int ring = x < 6 - x ? x : 6 - x, row = y < 6 - y ? y : 6 - y;
            if (row < ring) ring = row;
            if (qr_is_dark(q, left + x, top + y) != (ring != 1)) return false;
        }
    return true;
}

/* The modules that a line of half blocks shows: dark is what is not drawn. */
static bool text_is_dark(const char *line, int column, bool lower)
{
    for (; column > 0; column--) line += *line == ' ' ? 1 : 3;
    return *line == ' ' || (strncmp(line, "▀", 3) == 0 && lower) ||
           (strncmp(line, "▄", 3) == 0 && !lower);
}

static void draws_an_address(void **state)
{
    (void)state;
    struct arena a = arena_open((size_t)16 << 20);
    struct qr q;
    qr_make(&a, "https://192.168.1.20:8061/pair/K7QX2M9D", &q);
    assert_int_equal(29, q.size); /* the smallest in which so much fits, with M correction */
    assert_true(is_finder(&q, 0, 0));
    assert_true(is_finder(&q, q.size - 7, 0));
    assert_true(is_finder(&q, 0, q.size - 7));
    assert_false(qr_is_dark(&q, -1, 0) || qr_is_dark(&q, 0, q.size));
    for (int colour = 0; colour < 2; colour++) {
        struct text out = {.arena = &a};
        qr_text(&out, &q, colour);
        const char *line = text_get(&out);
        for (int y = -QR_QUIET; y < q.size + QR_QUIET; y += 2) {
            if (colour) {
                assert_int_equal('\033', *line);
                line = strchr(line, 'm') + 1;
            }
            for (int x = -QR_QUIET; x < q.size + QR_QUIET; x++) {
                assert_int_equal(qr_is_dark(&q, x, y), text_is_dark(line, x + QR_QUIET, false));
                assert_int_equal(qr_is_dark(&q, x, y + 1), text_is_dark(line, x + QR_QUIET, true));
            }
            line = strchr(line, '\n');
            assert_non_null(line);
            line++;
        }
        assert_int_equal('\0', *line);
    }
    arena_close(&a);
}

/* Every object begins where the table says, and every stream is as long as it says. */
static void check_pdf(const char *pdf, size_t length)
{
    const char *table = pdf + strtoul(strstr(pdf, "startxref") + 9, NULL, 10);
    int count;
    assert_memory_equal(pdf, "%PDF-1.4\n", 9);
    assert_memory_equal(pdf + length - 6, "%%EOF\n", 6);
    assert_int_equal(sscanf(table, "xref\n0 %d\n", &count), 1);
    for (int i = 1; i < count; i++) {
        const char *row = strchr(strchr(table, '\n') + 1, '\n') + 1 + 20 * i;
        const char *object = pdf + strtoul(row, NULL, 10);
        assert_int_equal(strtol(object, NULL, 10), i);
        assert_memory_equal(strchr(object, ' '), " 0 obj\n", 7);
        const char *end = strstr(object, "endobj"), *stream = strstr(object, "stream\n");
        if (!stream || stream > end) continue;
        const size_t n = strtoul(strstr(object, "/Length ") + 8, NULL, 10);
        assert_memory_equal(stream + 7 + n, "\nendstream", 10);
    }
}

/* The dark of a label's squares is that of the code that opens the bag's page. */
static void labels_carry_the_code_of_their_page(void **state)
{
    (void)state;
    struct arena a = arena_open((size_t)64 << 20);
    struct fail f = {0};
    struct fact_bag bags[50];
    const char *pdf;
    size_t length;
    double dark = 0, drawn = 0;
    for (int i = 0; i < 50; i++) {
        bags[i] = (struct fact_bag){.code = arena_print(&a, "B%d", i + 1),
                                    .what = "front (left) drum, \\ its screws and a good many more "
                                            "words than any label in the world will ever hold",
                                    .shelf = i % 2 ? "A2" : NULL,
                                    .emptied = i == 7 ? 100 : DAY_NONE};
        if (i == 7) continue;
        struct qr q;
        qr_make(&a, arena_print(&a, "https://192.168.1.20:8061/bag/B%d", i + 1), &q);
        int n = 0;
        for (int k = 0; k < q.size * q.size; k++) n += q.dark[k];
        dark += (double)n / (q.size * q.size);
    }
    for (enum paper p = PAPER_A4; p <= PAPER_LETTER; p++) {
        assert_true(bag_labels(&a, "Żółć € <b>", bags, 50, "https://192.168.1.20:8061", p, &pdf,
                               &length, &f));
        check_pdf(pdf, length);
    }
    assert_non_null(strstr(pdf, "/Count 3 ")); /* 49 labels, 21 a page */
    assert_null(strstr(pdf, "(B8)"));
    assert_non_null(strstr(pdf, "(front \\(left\\) drum"));
    assert_non_null(strstr(pdf, "(Z\\363lc \\200 <b>)"));
    for (const char *at = pdf; (at = strstr(at, " re f\n")) != NULL; at++) {
        const char *line = at;
        double x, y, w, h;
        while (line[-1] != '\n') line--;
        assert_int_equal(sscanf(line, "%lf %lf %lf %lf re", &x, &y, &w, &h), 4);
        drawn += w * h;
    }
    const double square = 27 * 72 / 25.4;
    assert_true(fabs(drawn / (square * square) - dark) < 0.01 * dark);
    assert_false(bag_labels(&a, "Linnet", bags + 7, 1, "http://x", PAPER_A4, &pdf, &length, &f));
    arena_close(&a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(draws_an_address),
                                       cmocka_unit_test(labels_carry_the_code_of_their_page)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
