/* request.h - a request and its response as plain structs, and a strict reader of HTTP/1.1 bytes.
 *
 * Pages know nothing of sockets: `fettle serve --once`, the tests, the fuzzer and the server all
 * make a struct request and write out a struct response. What is not understood to the letter is
 * refused with a status and one line.
 *
 * Published: RFC 9112 (message syntax), RFC 9110 (fields, status), RFC 3986 (paths,
 * percent-encoding), WHATWG URL Standard (application/x-www-form-urlencoded). */
#ifndef WEB_REQUEST_H
#define WEB_REQUEST_H

#include "base/fail.h"
#include "base/text.h"

enum {
    REQUEST_LINE_MOST = 4096,  /* bytes of the first line */
    REQUEST_HEAD_MOST = 16384, /* of all lines before the body */
    REQUEST_HEADERS_MOST = 64,
    REQUEST_BODY_MOST = 65536,
    REQUEST_UPLOAD_MOST = 500 * 1000 * 1000, /* a form with files, all of it */
    REQUEST_PAIRS_MOST = 256,
};

enum method { METHOD_GET, METHOD_HEAD, METHOD_POST, METHOD_FILES, METHOD_OTHER };

struct pair {
    const char *name, *value;
};

struct pairs {
    struct pair items[REQUEST_PAIRS_MOST];
    int count;
};

struct file_new;

/* A file that came with a form: written and sealed, and removed when the request ends unless the
 * page keeps it (garage/file.h). */
struct request_file {
    const char *field, *called; /* the name that the sender gives it: for messages alone */
    struct file_new *file;
};

struct request {
    enum method method;
    const char
        *path; /* decoded, begins with '/', no empty, "." or ".." segment, no control character */
    struct pairs query, form;
    const char *host, *cookie, *if_none_match, *accept_encoding, *content_type,
        *origin;    /* NULL: not sent */
    bool navigates; /* a person's browser goes there, by Sec-Fetch-Mode (W3C Fetch Metadata) */
    bool multipart; /* a form with files */
    const struct request_file *files;
    int n_files;
};

/* A refusal is a status and a line; the response is made of it by site.h. */
struct refusal {
    int status;
    struct fail why;
};

/* Line and headers at the beginning of the bytes: how many those are, and how long the body is. */
bool request_read_head(struct arena *a, const char *bytes, size_t length, struct request *out,
                       size_t *head, size_t *body, struct refusal *no);

/* Its parts, for a server that reads headers itself. The target is raw: "/a%20b?c=d". */
bool request_target(struct arena *a, const char *target, struct request *out, struct refusal *no);
enum method request_method(const char *name);
/* Keeps a header that matters; refuses a second Host, Content-Length or Cookie, any
 * Transfer-Encoding, and control characters. `length` is -1 before a Content-Length was seen. */
bool request_header(struct arena *a, const char *name, const char *value, struct request *out,
                    int64_t *length, struct refusal *no);
/* All headers are there: is the body's length given where it must be, and within the limits? */
bool request_length(const struct request *r, int64_t length, struct refusal *no);
/* The body is there: reads the fields of a form. */
bool request_body(struct arena *a, const char *body, size_t length, struct request *out,
                  struct refusal *no);

/* A field's value, NULL if it was not sent. A name that was sent twice counts as refused by
 * request_body. */
const char *pairs_get(const struct pairs *p, const char *name);
/* The value of a cookie, or NULL. */
const char *request_cookie(struct arena *a, const struct request *r, const char *name);

enum { RESPONSE_HEADERS_MOST = 16 };

struct response {
    int status;
    const char *type; /* content type */
    struct pair
        headers[RESPONSE_HEADERS_MOST]; /* all but Content-Type, Content-Length, Connection, Date */
    int n_headers;
    const char *body; /* in the arena of the request */
    size_t length;
    int file; /* 0: none; else a descriptor from which `length` bytes are sent in place of the body;
                 whoever sends it closes it */
};

void response_header(struct response *r, const char *name, const char *value);
bool response_has(const struct response *r, const char *name);
const char *response_reason(int status); /* "Not Found" */
/* As HTTP/1.1 bytes, to be written as they are. head_only: no body, but its length; nor the bytes
 * of a file. */
void response_write(struct text *out, const struct response *r, bool head_only);

#endif
