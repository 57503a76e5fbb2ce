/* Forms with files, taken apart: the same whatever the pieces in which they come, and what is not
 * to the letter is refused with a line. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "face/web/multipart.h"

#include <string.h>

#define TYPE "multipart/form-data; boundary=xYz"

/* What was taken, as "name=data\n" or "name(filename)=data\n". */
static bool note_begin(void *context, const char *name, const char *filename, struct refusal *no)
{
    (void)no;
    text_print(context, filename ? "%s(%s)=" : "%s=", name, filename);
    return true;
}

static bool note_data(void *context, const char *bytes, size_t n, struct refusal *no)
{
    (void)no;
    text_add_n(context, bytes, n);
    return true;
}

static bool note_end(void *context, struct refusal *no)
{
    (void)no;
    text_add(context, "\n");
    return true;
}

#define HEAD(name) "Content-Disposition: form-data; name=\"" name "\"\r\n\r\n"
#define FILE_HEAD(called)                                                                          \
    "Content-Disposition: form-data; name=\"f\"; filename=\"" called "\"\r\n"                      \
    "Content-Type: image/jpeg\r\n\r\n"

static const struct {
    const char *type, *body;
    const char *taken; /* NULL: refused */
} table[] = {
    {TYPE, "--xYz\r\n" HEAD("a") "1\r\n--xYz--\r\n", "a=1\n"},
    {TYPE, "--xYz\r\n" HEAD("a") "1\r\n--xYz--", "a=1\n"},
    {TYPE, "--xYz--\r\n", ""},
    {TYPE, "--xYz\r\n" HEAD("a") "\r\n--xYz--\r\n", "a=\n"},
    {TYPE,
     "--xYz\r\n" HEAD("a") "1\r\n--xYz\r\n" FILE_HEAD("my photo.jpg") "\xff\xd8\r\n--xYz--\r\n",
     "a=1\nf(my photo.jpg)=\xff\xd8\n"},
    {TYPE, "--xYz\r\n" FILE_HEAD("") "\r\n--xYz--\r\n", "f()=\n"},
    {TYPE, "--xYz\r\n" FILE_HEAD("a\\\"b\\\\c") "\r\n--xYz--\r\n", "f(a\"b\\c)=\n"},
    {TYPE, "--xYz\r\n" FILE_HEAD("\xc3\xa9.jpg") "\r\n--xYz--\r\n", "f(\xc3\xa9.jpg)=\n"},
    /* What looks like a boundary and is none. */
    {TYPE, "--xYz\r\n" HEAD("a") "\r\n--xY\r\n-\r\r\n--xyz--xYz\r\n--xYz--\r\n",
     "a=\r\n--xY\r\n-\r\r\n--xyz--xYz\n"},
    {TYPE, "--xYz\r\n" HEAD("a") "\r\r\n--xYz--\r\n", "a=\r\n"},
    {TYPE, "--xYz\r\n" HEAD("a") "\n--xYz--\r\n\r\n--xYz--\r\n", "a=\n--xYz--\r\n\n"},
    {TYPE, "--xYz\r\nX-More: 1\r\ncontent-disposition:form-data;name=\"a\"\r\n\r\n1\r\n--xYz--\r\n",
     "a=1\n"},
    {"multipart/form-data; boundary=\"x:z\"", "--x:z\r\n" HEAD("a") "1\r\n--x:z--\r\n", "a=1\n"},
    {"Multipart/Form-Data;boundary=xYz", "--xYz\r\n" HEAD("a") "1\r\n--xYz--\r\n", "a=1\n"},

    {"multipart/form-data", "", NULL},
    {"multipart/form-data; boundary=", "----\r\n", NULL},
    {"multipart/form-data; boundary=\"x", "--x--", NULL},
    {"multipart/form-data; boundary=x y", "--x--", NULL},
    {"multipart/form-data; boundary=\"x\r\n\"", "--x--", NULL},
    {"multipart/form-data; boundary="
     "12345678901234567890123456789012345678901234567890123456789012345678901",
     "", NULL},
    {TYPE, "", NULL},
    {TYPE, "--xYz", NULL},
    {TYPE, "--xYz\r\n", NULL},
    {TYPE, "\r\n--xYz--\r\n", NULL},
    {TYPE, "preamble\r\n--xYz--\r\n", NULL},
    {TYPE, "--xyz--\r\n", NULL},
    {TYPE, "--xYz--\r\nepilogue", NULL},
    {TYPE, "--xYz--\r\n\r\n", NULL},
    {TYPE, "--xYz--\r", NULL},
    {TYPE, "--xYz  \r\n" HEAD("a") "1\r\n--xYz--\r\n", NULL},
    {TYPE, "--xYz\n" HEAD("a") "1\r\n--xYz--\r\n", NULL},
    {TYPE, "--xYz\r\n" HEAD("a") "1", NULL},
    {TYPE, "--xYz\r\n" HEAD("a") "1\r\n--xYz\r\n", NULL},
    {TYPE, "--xYz\r\n" HEAD("a") "1\n--xYz--\r\n", NULL},
    {TYPE, "--xYz\r\n\r\n1\r\n--xYz--\r\n", NULL},
    {TYPE, "--xYz\r\nContent-Type: text/plain\r\n\r\n1\r\n--xYz--\r\n", NULL},
    {TYPE, "--xYz\r\nContent-Disposition: form-data\r\n\r\n1\r\n--xYz--\r\n", NULL},
    {TYPE, "--xYz\r\nContent-Disposition: form-data; name=a\r\n\r\n1\r\n--xYz--\r\n", NULL},
    {TYPE, "--xYz\r\nContent-Disposition: form-data; name=\"\"\r\n\r\n1\r\n--xYz--\r\n", NULL},
    {TYPE, "--xYz\r\nContent-Disposition: form-data; name=\"a\r\n\r\n1\r\n--xYz--\r\n", NULL},
    {TYPE,
     "--xYz\r\nContent-Disposition: form-data; name=\"a\"; name=\"b\"\r\n\r\n1\r\n--xYz--\r\n",
     NULL},
    {TYPE, "--xYz\r\nContent-Disposition: attachment; name=\"a\"\r\n\r\n1\r\n--xYz--\r\n", NULL},
    {TYPE,
     "--xYz\r\nContent-Disposition: form-data; name=\"a\"; "
     "filename*=UTF-8''x\r\n\r\n1\r\n--xYz--\r\n",
     NULL},
    {TYPE,
     "--xYz\r\nContent-Disposition: form-data; name=\"a\"\r\nContent-Disposition: form-data; "
     "name=\"b\"\r\n\r\n1\r\n--xYz--\r\n",
     NULL},
    {TYPE, "--xYz\r\nContent-Transfer-Encoding: base64\r\n" HEAD("a") "MQ==\r\n--xYz--\r\n", NULL},
    {TYPE, "--xYz\r\n" HEAD("\xff") "1\r\n--xYz--\r\n", NULL},
    {TYPE, "--xYz\r\n" HEAD("\x01") "1\r\n--xYz--\r\n", NULL},
    {TYPE, "--xYz\r\nContent-Disposition: form-data; name=\"a\"\n\n1\r\n--xYz--\r\n", NULL},
};

static void the_same_in_any_pieces(void **state)
{
    (void)state;
    static const size_t pieces[] = {1, 2, 3, 7, 64, 100000};
    for (size_t i = 0; i < sizeof table / sizeof *table; i++)
        for (size_t p = 0; p < sizeof pieces / sizeof *pieces; p++) {
            struct arena a = arena_open(1 << 20);
            struct text taken = {.arena = &a};
            struct refusal no = {0};
            struct multipart m;
            const size_t all = strlen(table[i].body);
            assert_true(multipart_is(table[i].type));
            bool ok = multipart_begin(
                &m, table[i].type,
                (struct multipart_taker){&taken, note_begin, note_data, note_end}, &no);
            for (size_t at = 0; ok && at < all; at += pieces[p]) {
                /* From the heap, so that reading beyond a piece is seen. */
                const size_t n = all - at < pieces[p] ? all - at : pieces[p];
                char *piece = test_malloc(n);
                memcpy(piece, table[i].body + at, n);
                ok = multipart_take(&m, piece, n, &no);
                test_free(piece);
            }
            ok = ok && multipart_end(&m, &no);
            if (ok != (table[i].taken != NULL))
                fail_msg("row %zu in pieces of %zu: %s", i, pieces[p], ok ? "taken" : no.why.text);
            if (ok) assert_string_equal(text_get(&taken), table[i].taken);
            if (!ok) assert_true(no.status == 400 && !strchr(no.why.text, '\n') && *no.why.text);
            arena_close(&a);
        }
}

static void a_long_head_is_refused(void **state)
{
    (void)state;
    for (int extra = 0; extra < 2; extra++) {
        struct arena a = arena_open(1 << 20);
        struct text body = {.arena = &a}, taken = {.arena = &a};
        struct refusal no = {0};
        struct multipart m;
        text_add(&body, "--xYz\r\n");
        const size_t from = body.length;
        text_add(&body, "X-Long: ");
        const size_t rest = strlen("\r\n" HEAD("a"));
        while (body.length - from + rest < MULTIPART_HEAD_MOST + (size_t)extra)
            text_add(&body, "y");
        text_add(&body, "\r\n" HEAD("a") "1\r\n--xYz--\r\n");
        assert_true(multipart_begin(
            &m, TYPE, (struct multipart_taker){&taken, note_begin, note_data, note_end}, &no));
        assert_int_equal(multipart_take(&m, body.s, body.length, &no), extra == 0);
        arena_close(&a);
    }
}

static void only_that_type_is_one(void **state)
{
    (void)state;
    static const char *const others[] = {"", "multipart/form-datax", "multipart/mixed; boundary=x",
                                         "application/x-www-form-urlencoded"};
    assert_false(multipart_is(NULL));
    for (size_t i = 0; i < sizeof others / sizeof *others; i++)
        assert_false(multipart_is(others[i]));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_same_in_any_pieces),
        cmocka_unit_test(a_long_head_is_refused),
        cmocka_unit_test(only_that_type_is_one),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
