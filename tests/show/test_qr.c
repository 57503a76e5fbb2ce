/* The picture of an address: what a camera looks for is there, and the text shows the same modules.
 * That cameras read it is the library's part. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "face/show/qr.h"

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

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(draws_an_address)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
