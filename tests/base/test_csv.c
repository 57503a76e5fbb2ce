/* Tables as other programs write them. */
#include "base/csv.h"

#include "base/text.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

/* What was read, told again: [line|cell|cell] a row. */
static const struct {
    const char *in, *out;
} read[] = {
    {"", ""},
    {"\n\r\n\n", ""},
    {"a,b\n1,2\n", "[1|a|b][2|1|2]"},
    {"a,b\r\n1,2", "[1|a|b][2|1|2]"},
    {"a,b\r1,2\r", "[1|a|b][2|1|2]"},
    {"\xef\xbb\xbfpart,price\nx,1", "[1|part|price][2|x|1]"},
    {"a,b\n\n\n1,\n", "[1|a|b][4|1|]"},
    {",\n", "[1||]"},
    {"\"a\"\n", "[1|a]"},
    {"\"\"\n", "[1|]"},
    {"a\n\"x,\"\"y\"\"\"\n", "[1|a][2|x,\"y\"]"},
    {"a,b\n\"two\r\nlines\",2\n3,4\n", "[1|a|b][2|two\nlines|2][4|3|4]"},
    {"a;b\n1,5;2\n", "[1|a|b][2|1,5|2]"},
    {"a\tb\n1\t2\n", "[1|a|b][2|1|2]"},
    {"\"a;b\",c\n1,2\n", "[1|a;b|c][2|1|2]"},
    {"a, b \n", "[1|a| b ]"},
    {"na\xc3\xafve,\xe2\x82\xac\n", "[1|na\xc3\xafve|\xe2\x82\xac]"},
};

static void tables_are_read(void **state)
{
    (void)state;
    struct arena a = arena_open((size_t)1 << 24);
    for (size_t i = 0; i < sizeof read / sizeof *read; i++) {
        struct csv csv;
        struct fail f = {0};
        struct text t = {.arena = &a};
        if (!csv_read(&a, read[i].in, strlen(read[i].in), &csv, &f)) fail_msg("%s", f.text);
        for (int k = 0; k < csv.n_rows; k++) {
            text_print(&t, "[%d", csv.rows[k].line);
            for (int c = 0; c < csv.rows[k].n_cells; c++)
                text_print(&t, "|%s", csv.rows[k].cells[c]);
            text_add(&t, "]");
        }
        assert_string_equal(text_get(&t), read[i].out);
    }
    arena_close(&a);
}

static const struct {
    const char *in, *says;
} refused[] = {
    {"a,b\n1,\"2\n3,4\n", "line 2: a double quote opens and none closes it"},
    {"a,b\n1,\"", "line 2: a double quote opens"},
    {"a,b\n\n1,\"2\"x\n", "line 3: text stands behind a closing double quote"},
    {"a,b\n1,2\"\n", "line 2: a double quote stands within a cell"},
    {"a\n\"two\nlines\"x\n", "line 3: text stands behind"},
    {"a\nb\n\xff\n", "line 3: is not UTF-8"},
    {"a\n\xc3", "line 2: is not UTF-8"},
};

static void broken_ones_are_refused_with_their_line(void **state)
{
    (void)state;
    struct arena a = arena_open((size_t)1 << 24);
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++) {
        struct csv csv;
        struct fail f = {0};
        assert_false(csv_read(&a, refused[i].in, strlen(refused[i].in), &csv, &f));
        assert_int_equal(f.kind, FAIL_INPUT);
        if (!text_starts(f.text, refused[i].says))
            fail_msg("'%s' does not begin with '%s'", f.text, refused[i].says);
    }
    struct csv csv;
    struct fail f = {0};
    assert_false(csv_read(&a, "a\nb\0c\n", 6, &csv, &f)); /* a zero byte is not text */
    assert_non_null(strstr(f.text, "line 2"));
    arena_close(&a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(tables_are_read),
        cmocka_unit_test(broken_ones_are_refused_with_their_line),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
