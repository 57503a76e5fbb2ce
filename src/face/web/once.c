#include "face/web/once.h"

#include "face/web/body.h"

#include <string.h>

enum { PIECE = 65536 };

static size_t fill(once_read *read, void *context, char *out, size_t n)
{
    size_t have = 0, more;
    while (have < n && (more = read(context, out + have, n - have)) > 0) have += more;
    return have;
}

static void refuse_length(struct arena *a, struct response *out)
{
    struct refusal no = {.status = 400};
    fail_set(&no.why, FAIL_INPUT, "the body is not as long as Content-Length says");
    site_refuse(a, &no, out);
}

void once_answer(struct arena *a, const struct site *site, once_read *read, void *context,
                 struct response *out, bool *head_only)
{
    struct request *r = ARENA_NEW(a, struct request);
    struct body *b = ARENA_NEW(a, struct body);
    struct refusal no = {0};
    char *bytes = ARENA_ARRAY(a, char, PIECE);
    size_t have = fill(read, context, bytes, PIECE), head, got = 0, wanted;
    bool read_well = request_read_head(a, bytes, have, r, &head, &wanted, &no);
    *head_only = r->method == METHOD_HEAD;
    if (!read_well) {
        site_refuse(a, &no, out);
        return;
    }
    body_begin(b, a, site, r);
    const char *piece = bytes + head;
    for (size_t n = have - head; n > 0 && got <= wanted; n = read(context, bytes, PIECE)) {
        got += n;
        if (got <= wanted) body_take(b, piece, n);
        piece = bytes;
    }
    if (got == wanted) {
        body_answer(b, out);
    } else {
        refuse_length(a, out);
        body_close(b);
    }
}

struct memory {
    const char *bytes;
    size_t left;
};

static size_t read_memory(void *context, char *out, size_t n)
{
    struct memory *m = context;
    if (n > m->left) n = m->left;
    if (n > 0) memcpy(out, m->bytes, n);
    m->bytes += n;
    m->left -= n;
    return n;
}

void once_answer_bytes(struct arena *a, const struct site *site, const char *bytes, size_t length,
                       struct response *out, bool *head_only)
{
    struct memory m = {bytes, length};
    once_answer(a, site, read_memory, &m, out, head_only);
}
