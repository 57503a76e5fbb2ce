#include "face/web/multipart.h"

#include <assert.h>
#include <string.h>
#include <strings.h>

static bool refuse(struct refusal *no, int status, const char *what)
{
    if (no->status == 0) no->status = status;
    return fail_set(&no->why, FAIL_INPUT, "%s", what);
}

static int hex_digit(char c)
{
    return c >= '0' && c <= '9'   ? c - '0'
           : c >= 'a' && c <= 'f' ? c - 'a' + 10
           : c >= 'A' && c <= 'F' ? c - 'A' + 10
                                  : -1;
}

/* Percent-decodes n bytes; NULL for a broken escape, a NUL, or what is not UTF-8 afterwards. */
static const char *decode(struct arena *a, const char *s, size_t n, bool plus)
{
    char *out = ARENA_ARRAY(a, char, n + 1);
    size_t at = 0;
    for (size_t i = 0; i < n; i++) {
        if (s[i] == '%') {
            if (n - i < 3) return NULL;
            int high = hex_digit(s[i + 1]), low = hex_digit(s[i + 2]);
            if (high < 0 || low < 0) return NULL;
            out[at++] = (char)(high << 4 | low);
            i += 2;
        } else {
            out[at++] = plus && s[i] == '+' ? ' ' : s[i];
        }
    }
    return text_is_utf8(out, at) ? out : NULL;
}

static bool read_pairs(struct arena *a, const char *s, size_t n, struct pairs *out,
                       struct refusal *no)
{
    for (size_t from = 0; from < n;) {
        const char *end = memchr(s + from, '&', n - from);
        size_t to = end ? (size_t)(end - s) : n;
        const char *equals = memchr(s + from, '=', to - from);
        size_t cut = equals ? (size_t)(equals - s) : to, value = equals ? cut + 1 : to;
        if (to > from) {
            if (out->count == REQUEST_PAIRS_MOST)
                return refuse(no, 413, "more fields than a form of ours has; send fewer");
            struct pair p = {decode(a, s + from, cut - from, true),
                             decode(a, s + value, to - value, true)};
            if (!p.name || !p.value)
                return refuse(no, 400, "a field is not UTF-8 in percent-encoding; send it so");
            if (pairs_get(out, p.name))
                return refuse(no, 400, "a field is there twice; send it once");
            out->items[out->count++] = p;
        }
        from = to + 1;
    }
    return true;
}

const char *pairs_get(const struct pairs *p, const char *name)
{
    for (int i = 0; i < p->count; i++)
        if (text_is(p->items[i].name, name)) return p->items[i].value;
    return NULL;
}

enum method request_method(const char *name)
{
    return text_is(name, "GET")    ? METHOD_GET
           : text_is(name, "HEAD") ? METHOD_HEAD
           : text_is(name, "POST") ? METHOD_POST
                                   : METHOD_OTHER;
}

/* Segments that step out of a folder are refused rather than resolved: no page of ours has one. */
static bool path_is_plain(const char *path)
{
    for (const char *c = path; *c; c++)
        if ((unsigned char)*c < 0x20 || *c == 0x7F || *c == '\\') return false;
    for (const char *s = path; *s == '/';) {
        size_t n = strcspn(s + 1, "/");
        if ((n == 0 && s[1]) || (n == 1 && s[1] == '.') || (n == 2 && s[1] == '.' && s[2] == '.'))
            return false;
        s += 1 + n;
    }
    return true;
}

bool request_target(struct arena *a, const char *target, struct request *out, struct refusal *no)
{
    if (strlen(target) > REQUEST_LINE_MOST)
        return refuse(no, 414, "the address is too long; use one of our own");
    if (*target != '/')
        return refuse(no, 400, "the address does not begin with '/'; ask for a path");
    for (const char *c = target; *c; c++)
        if ((unsigned char)*c <= 0x20 || (unsigned char)*c >= 0x7F || *c == '#')
            return refuse(no, 400, "the address holds what must be percent-encoded; encode it");
    size_t n = strcspn(target, "?");
    /* An encoded slash would make one segment look like two. */
    for (size_t i = 0; i + 2 < n; i++)
        if (target[i] == '%' && target[i + 1] == '2' && (target[i + 2] | 0x20) == 'f')
            return refuse(no, 400, "the address holds an encoded '/'; use one of our own");
    out->path = decode(a, target, n, false);
    if (!out->path || !path_is_plain(out->path))
        return refuse(no, 400, "the address is no plain path in UTF-8; use one of our own");
    return !target[n] || read_pairs(a, target + n + 1, strlen(target + n + 1), &out->query, no);
}

static bool is_token(const char *s)
{
    for (const char *c = s; *c; c++)
        if (!((*c >= 'a' && *c <= 'z') || (*c >= 'A' && *c <= 'Z') || (*c >= '0' && *c <= '9') ||
              strchr("!#$%&'*+-.^_`|~", *c)))
            return false;
    return *s;
}

bool request_header(struct arena *a, const char *name, const char *value, struct request *out,
                    int64_t *length, struct refusal *no)
{
    if (!is_token(name)) return refuse(no, 400, "a header's name is malformed; mend it");
    for (const char *c = value; *c; c++)
        if (((unsigned char)*c < 0x20 && *c != '\t') || *c == 0x7F)
            return refuse(no, 400, "a header holds a control character");
    if (strcasecmp(name, "Transfer-Encoding") == 0)
        return refuse(no, 501, "no transfer coding is taken; send Content-Length");
    if (strcasecmp(name, "Content-Length") == 0) {
        int64_t n = 0;
        if (*length >= 0) return refuse(no, 400, "Content-Length is there twice; send it once");
        if (!*value || strlen(value) > 12 || strspn(value, "0123456789") != strlen(value) ||
            !text_to_int(value, &n))
            return refuse(no, 400, "Content-Length is no whole number");
        *length = n;
        return true;
    }
    if (strcasecmp(name, "Sec-Fetch-Mode") == 0) {
        out->navigates = text_is(value, "navigate");
        return true;
    }
    const struct {
        const char *name, **to;
        bool once; /* a second one is refused; else the first counts */
    } kept[] = {
        {"Host", &out->host, true},
        {"Cookie", &out->cookie, true},
        {"Content-Type", &out->content_type, true},
        {"Origin", &out->origin, true},
        {"If-None-Match", &out->if_none_match, false},
        {"Accept-Encoding", &out->accept_encoding, false},
    };
    for (size_t i = 0; i < sizeof kept / sizeof *kept; i++) {
        if (strcasecmp(name, kept[i].name) != 0) continue;
        if (*kept[i].to && kept[i].once)
            return refuse(no, 400, "a header that may be there once is there twice");
        if (!*kept[i].to) *kept[i].to = arena_copy(a, value);
    }
    return true;
}

bool request_length(const struct request *r, int64_t length, struct refusal *no)
{
    if (r->method == METHOD_POST && length < 0)
        return refuse(no, 411, "a form needs Content-Length");
    if (multipart_is(r->content_type))
        return length <= REQUEST_UPLOAD_MOST ||
               refuse(no, 413, "the files are larger than 500 MB together; send fewer at a time");
    return length <= REQUEST_BODY_MOST ||
           refuse(no, 413, "the body is too large; send less than 64 kB");
}

bool request_body(struct arena *a, const char *body, size_t length, struct request *out,
                  struct refusal *no)
{
    static const char form[] = "application/x-www-form-urlencoded";
    if (out->method != METHOD_POST) return true;
    const char *type = out->content_type ? out->content_type : "";
    if (strncasecmp(type, form, sizeof form - 1) != 0 ||
        (type[sizeof form - 1] && !strchr("; ", type[sizeof form - 1])))
        return refuse(no, 415, "only forms are taken, as application/x-www-form-urlencoded");
    return read_pairs(a, body, length, &out->form, no);
}

/* The next line, ended by CR LF, as a string of its own; NULL if there is none within `most` bytes.
 */
static const char *next_line(struct arena *a, const char *bytes, size_t length, size_t *at,
                             size_t most)
{
    size_t room = length - *at < most ? length - *at : most;
    const char *end = memchr(bytes + *at, '\n', room);
    if (!end || end == bytes + *at || end[-1] != '\r') return NULL;
    size_t n = (size_t)(end - 1 - (bytes + *at));
    if (memchr(bytes + *at, '\0', n)) return NULL;
    const char *line = arena_copy_n(a, bytes + *at, n);
    *at += n + 2;
    return line;
}

static bool read_first_line(struct arena *a, const char *line, struct request *out,
                            struct refusal *no)
{
    const char *one = strchr(line, ' '), *two = one ? strchr(one + 1, ' ') : NULL;
    if (!two || strchr(two + 1, ' '))
        return refuse(no, 400, "the first line is not METHOD ADDRESS HTTP/1.1");
    const char *method = arena_copy_n(a, line, (size_t)(one - line));
    if (!is_token(method)) return refuse(no, 400, "the method is malformed");
    if (!text_is(two + 1, "HTTP/1.1") && !text_is(two + 1, "HTTP/1.0"))
        return refuse(no, text_starts(two + 1, "HTTP/") ? 505 : 400,
                      "only HTTP/1.1 is spoken here");
    out->method = request_method(method);
    return request_target(a, arena_copy_n(a, one + 1, (size_t)(two - one - 1)), out, no);
}

static bool read_header_line(struct arena *a, const char *line, struct request *out,
                             int64_t *length, struct refusal *no)
{
    const char *colon = strchr(line, ':');
    if (!colon) return refuse(no, 400, "a header has no ':'");
    const char *value = colon + 1 + strspn(colon + 1, " \t");
    size_t n = strlen(value);
    while (n > 0 && (value[n - 1] == ' ' || value[n - 1] == '\t')) n--;
    return request_header(a, arena_copy_n(a, line, (size_t)(colon - line)),
                          arena_copy_n(a, value, n), out, length, no);
}

bool request_read_head(struct arena *a, const char *bytes, size_t length, struct request *out,
                       size_t *head, size_t *body, struct refusal *no)
{
    size_t at = 0;
    int64_t said = -1;
    *out = (struct request){0};
    const char *line = next_line(a, bytes, length, &at, REQUEST_LINE_MOST);
    if (!line)
        return length >= REQUEST_LINE_MOST ? refuse(no, 414, "the first line is too long")
                                           : refuse(no, 400, "no first line that ends in CR LF");
    if (!read_first_line(a, line, out, no)) return false;
    for (int count = 0;; count++) {
        size_t room = at < REQUEST_HEAD_MOST ? REQUEST_HEAD_MOST - at : 0;
        line = next_line(a, bytes, length, &at, room);
        if (!line && (room == 0 || length - at >= room))
            return refuse(no, 431, "the headers are too long");
        if (!line) return refuse(no, 400, "the headers do not end in an empty line");
        if (!*line) break;
        if (count == REQUEST_HEADERS_MOST) return refuse(no, 431, "there are too many headers");
        if (!read_header_line(a, line, out, &said, no)) return false;
    }
    *head = at;
    *body = said > 0 ? (size_t)said : 0;
    return request_length(out, said, no);
}

const char *request_cookie(struct arena *a, const struct request *r, const char *name)
{
    size_t n = strlen(name);
    for (const char *s = r->cookie; s && *s;) {
        s += strspn(s, " ;");
        size_t length = strcspn(s, ";");
        if (length > n && strncmp(s, name, n) == 0 && s[n] == '=')
            return arena_copy_n(a, s + n + 1, length - n - 1);
        s += length;
    }
    return NULL;
}

void response_header(struct response *r, const char *name, const char *value)
{
    assert(r->n_headers < RESPONSE_HEADERS_MOST && !strpbrk(value, "\r\n"));
    r->headers[r->n_headers++] = (struct pair){name, value};
}

bool response_has(const struct response *r, const char *name)
{
    for (int i = 0; i < r->n_headers; i++)
        if (text_is(r->headers[i].name, name)) return true;
    return false;
}

const char *response_reason(int status)
{
    static const struct {
        int status;
        const char *reason;
    } known[] = {
        {200, "OK"},
        {303, "See Other"},
        {304, "Not Modified"},
        {400, "Bad Request"},
        {403, "Forbidden"},
        {404, "Not Found"},
        {405, "Method Not Allowed"},
        {409, "Conflict"},
        {411, "Length Required"},
        {413, "Content Too Large"},
        {414, "URI Too Long"},
        {415, "Unsupported Media Type"},
        {421, "Misdirected Request"},
        {422, "Unprocessable Content"},
        {429, "Too Many Requests"},
        {431, "Request Header Fields Too Large"},
        {500, "Internal Server Error"},
        {501, "Not Implemented"},
        {503, "Service Unavailable"},
        {505, "HTTP Version Not Supported"},
    };
    for (size_t i = 0; i < sizeof known / sizeof *known; i++)
        if (known[i].status == status) return known[i].reason;
    assert(false);
    return "";
}

void response_write(struct text *out, const struct response *r, bool head_only)
{
    text_print(out, "HTTP/1.1 %d %s\r\n", r->status, response_reason(r->status));
    if (r->type) text_print(out, "Content-Type: %s\r\n", r->type);
    for (int i = 0; i < r->n_headers; i++)
        text_print(out, "%s: %s\r\n", r->headers[i].name, r->headers[i].value);
    text_print(out, "Content-Length: %zu\r\nConnection: close\r\n\r\n", r->length);
    if (!head_only && !r->file) text_add_n(out, r->body, r->length);
}
