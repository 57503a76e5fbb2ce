/* Forms with files: whatever the bytes, taken at once and in pieces they give the same parts and
 * the same verdict. Input: the size of the pieces (1 byte), then the body. */
#include "face/web/multipart.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size);

static bool note_begin(void *context, const char *name, const char *filename, struct refusal *no)
{
    (void)no;
    assert(*name);
    text_print(context, "<%s|%s>", name, filename ? filename : "");
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
    text_add(context, "</>");
    return true;
}

static bool take(struct text *out, const unsigned char *data, size_t size, size_t piece)
{
    struct refusal no = {0};
    struct multipart m;
    struct multipart_taker taker = {out, note_begin, note_data, note_end};
    bool ok = multipart_begin(&m, "multipart/form-data; boundary=x", taker, &no);
    assert(ok);
    for (size_t at = 0; ok && at < size; at += piece) {
        const size_t n = size - at < piece ? size - at : piece;
        char *copy = malloc(n); /* reading beyond it is seen */
        memcpy(copy, data + at, n);
        ok = multipart_take(&m, copy, n, &no);
        free(copy);
    }
    ok = ok && multipart_end(&m, &no);
    assert(ok == (no.status == 0) && (ok || (*no.why.text && !strchr(no.why.text, '\n'))));
    return ok;
}

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size)
{
    if (size < 2) return 0;
    struct arena a = arena_open((size_t)64 << 20);
    struct text whole = {.arena = &a}, pieces = {.arena = &a};
    bool ok = take(&whole, data + 1, size - 1, size);
    assert(take(&pieces, data + 1, size - 1, 1 + data[0] % 9) == ok);
    assert(whole.length == pieces.length);
    assert(whole.length == 0 || memcmp(whole.s, pieces.s, whole.length) == 0);
    arena_close(&a);
    return 0;
}
