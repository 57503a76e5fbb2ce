/* multipart.h - a form with files as it comes in: parts are handed on in pieces, so that none is
 * held.
 *
 * Strict, because only browsers' own forms are meant: nothing before the first boundary or after
 * the last, CR LF throughout, one Content-Disposition a part with name and perhaps filename.
 *
 * Published: RFC 7578 (multipart/form-data), RFC 2046 section 5.1 (boundaries). */
#ifndef WEB_MULTIPART_H
#define WEB_MULTIPART_H

#include "face/web/request.h"

enum { MULTIPART_BOUNDARY_MOST = 70, MULTIPART_HEAD_MOST = 2048 };

/* Called in turn for each part: begin, data as often as there are pieces, end. Names last until
 * begin returns. filename NULL: a field without a file. What returns false says why. */
struct multipart_taker {
    void *context;
    bool (*begin)(void *context, const char *name, const char *filename, struct refusal *no);
    bool (*data)(void *context, const char *bytes, size_t n, struct refusal *no);
    bool (*end)(void *context, struct refusal *no);
};

enum multipart_at {
    MULTIPART_BOUNDARY,
    MULTIPART_AFTER,
    MULTIPART_HEAD,
    MULTIPART_DATA,
    MULTIPART_END
};

struct multipart {
    struct multipart_taker taker;
    enum multipart_at at;
    char boundary[MULTIPART_BOUNDARY_MOST + 8]; /* CR LF -- and the boundary */
    size_t length, matched;                     /* of it; how much of it the latest bytes are */
    char head[MULTIPART_HEAD_MOST + 1];
    size_t head_length;
};

bool multipart_is(const char *content_type); /* "multipart/form-data; ..." */
bool multipart_begin(struct multipart *m, const char *content_type, struct multipart_taker taker,
                     struct refusal *no);
bool multipart_take(struct multipart *m, const char *bytes, size_t n, struct refusal *no);
/* The body has ended: was that its end? */
bool multipart_end(const struct multipart *m, struct refusal *no);

#endif
