#include "face/web/pack.h"

#include <string.h>
#include <strings.h>
#include <zlib.h>

enum { GZIP_LEAST = 1024 };

/* "gzip" among the codings, and not as "gzip;q=0". */
static bool takes_gzip(const char *accept)
{
    for (const char *s = accept; s && *s;) {
        s += strspn(s, " \t,");
        size_t n = strcspn(s, ",");
        if (n >= 4 && strncasecmp(s, "gzip", 4) == 0 && (n == 4 || strchr("; \t", s[4]))) {
            const char *q = memchr(s, '=', n);
            return !q || strspn(q + 1, "0.") != (size_t)(s + n - q - 1);
        }
        s += n;
    }
    return false;
}

void pack_response(struct arena *a, const struct request *r, struct response *out)
{
    if (out->length <= GZIP_LEAST) return;
    response_header(out, "Vary", "Accept-Encoding");
    if (!takes_gzip(r->accept_encoding)) return;
    z_stream z = {0};
    /* 15 + 16: the largest window, with a gzip header. */
    if (deflateInit2(&z, Z_BEST_SPEED, Z_DEFLATED, 15 + 16, 8, Z_DEFAULT_STRATEGY) != Z_OK) return;
    uLong bound = deflateBound(&z, out->length);
    unsigned char *small = arena_take(a, bound, 1);
    z.next_in = (unsigned char *)(uintptr_t)out->body; /* zlib does not write to it */
    z.avail_in = (uInt)out->length;
    z.next_out = small;
    z.avail_out = (uInt)bound;
    if (deflate(&z, Z_FINISH) == Z_STREAM_END) {
        out->body = (const char *)small;
        out->length = z.total_out;
        response_header(out, "Content-Encoding", "gzip");
    }
    deflateEnd(&z);
}
