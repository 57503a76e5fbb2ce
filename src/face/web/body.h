/* body.h - the body of a request as it comes in, for the server and for `--once` alike: a form is
 * kept, a form with files is taken apart while it comes, its files straight into the garage's
 * folder.
 *
 * A file is taken only after the page has admitted the form by the fields before it (its token
 * first). What is refused half-way is read on to its end and let go, so that a browser shows why.
 */
#ifndef WEB_BODY_H
#define WEB_BODY_H

#include "face/web/multipart.h"
#include "face/web/site.h"

enum { BODY_FILES_MOST = 50 };

struct body {
    struct arena *arena;
    const struct site *site;
    struct request *request;
    struct text bytes;      /* a form's; or the value of the field at hand */
    const char *name;       /* of that field */
    size_t kept;            /* bytes of all fields */
    struct multipart parts; /* if request->multipart */
    struct request_file files[BODY_FILES_MOST];
    struct file_new *file; /* the one at hand, or NULL */
    struct refusal no;     /* the first one; all that follows is let go */
    struct response page;  /* said as a page, if it has a status */
};

/* After the headers. All live as long as the body. */
void body_begin(struct body *b, struct arena *a, const struct site *site, struct request *r);
void body_take(struct body *b, const char *bytes, size_t n);
/* It has come to its end: the answer to the request. */
void body_answer(struct body *b, struct response *out);
/* Lets go of the files that no page has kept; at any time, more than once. */
void body_close(struct body *b);

#endif
