/* The style sheet: the contrast of its colours, held against docs/look.md, and nothing fetched.
 * Source: W3C, Web Content Accessibility Guidelines 2.2, relative luminance, contrast ratio. Mark:
 * published. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/text.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

extern const char embed_style[], embed_style_end[];

static double channel(unsigned long c)
{
    double x = (double)c / 255;
    return x <= 0.04045 ? x / 12.92 : pow((x + 0.055) / 1.055, 2.4);
}

static double luminance(unsigned long rgb)
{
    return 0.2126 * channel(rgb >> 16) + 0.7152 * channel(rgb >> 8 & 255) +
           0.0722 * channel(rgb & 255);
}

static double contrast(unsigned long one, unsigned long other)
{
    double a = luminance(one), b = luminance(other);
    return (fmax(a, b) + 0.05) / (fmin(a, b) + 0.05);
}

/* The colour of a name in the nth palette: 0 light, 1 dark. */
static unsigned long colour(struct arena *a, const char *name, int palette)
{
    const char *s = embed_style;
    for (int i = 0; i <= palette && s; i++) s = strstr(i ? s + 1 : s, ":root {");
    assert_non_null(s);
    const char *declared = arena_print(a, " --%s: #", name), *end = strchr(s, '}');
    const char *at = strstr(s, declared);
    if (!at || at > end) fail_msg("no colour %s in palette %d", name, palette);
    return strtoul(at + strlen(declared), NULL, 16);
}

static void test_reference(void **state)
{
    (void)state;
    /* Black on white is 21; #767676 is the lightest grey that passes 4.5 on white. */
    assert_float_equal(contrast(0x000000, 0xFFFFFF), 21, 1e-9);
    assert_true(contrast(0x767676, 0xFFFFFF) >= 4.5 && contrast(0x777777, 0xFFFFFF) < 4.5);
}

static void test_contrast(void **state)
{
    (void)state;
    struct arena a = arena_open(1 << 20);
    FILE *in = fopen("docs/look.md", "r");
    if (!in) fail_msg("docs/look.md is missing; run from the top of the tree");
    char line[512], front[32], back[32];
    int rows = 0;
    while (fgets(line, sizeof line, in)) {
        double least, told[2];
        if (sscanf(line, "| %31s on %31s | %lf | %lf | %lf |", front, back, &least, &told[0],
                   &told[1]) != 5)
            continue;
        for (int p = 0; p < 2; p++) {
            double is = contrast(colour(&a, front, p), colour(&a, back, p));
            if (is < least || fabs(is - told[p]) > 0.0501)
                fail_msg("%s on %s, palette %d: %.2f", front, back, p, is);
        }
        assert_true(least >= 3);
        rows++;
    }
    fclose(in);
    assert_true(rows >= 25);
    arena_close(&a);
}

static void test_nothing_fetched(void **state)
{
    (void)state;
    assert_int_equal(embed_style_end - embed_style, (ptrdiff_t)strlen(embed_style));
    assert_null(strstr(embed_style, "url("));
    assert_null(strstr(embed_style, "@import"));
    assert_null(strstr(embed_style, "@font-face"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_reference),
        cmocka_unit_test(test_contrast),
        cmocka_unit_test(test_nothing_fetched),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
