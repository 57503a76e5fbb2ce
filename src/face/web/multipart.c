#include "face/web/multipart.h"

#include <string.h>
#include <strings.h>

static const char form_data[] = "multipart/form-data";

static bool refuse(struct refusal *no, const char *what)
{
    if (no->status == 0) no->status = 400;
    return fail_set(&no->why, FAIL_INPUT, "%s", what);
}

bool multipart_is(const char *type)
{
    const size_t n = sizeof form_data - 1;
    return type && strncasecmp(type, form_data, n) == 0 && (!type[n] || strchr("; ", type[n]));
}

/* RFC 2046: bchars, without the blank, which no browser uses. */
static bool is_boundary(const char *s, size_t n)
{
    if (n < 1 || n > MULTIPART_BOUNDARY_MOST) return false;
    for (size_t i = 0; i < n; i++)
        if (!((s[i] >= 'a' && s[i] <= 'z') || (s[i] >= 'A' && s[i] <= 'Z') ||
              (s[i] >= '0' && s[i] <= '9') || (s[i] && strchr("'()+_,-./:=?", s[i]))))
            return false;
    return true;
}

bool multipart_begin(struct multipart *m, const char *type, struct multipart_taker taker,
                     struct refusal *no)
{
    static const char wanted[] = "boundary=";
    const char *s = type + sizeof form_data - 1;
    s += strspn(s, "; ");
    bool good = strncasecmp(s, wanted, sizeof wanted - 1) == 0;
    size_t n = 0;
    if (good) {
        s += sizeof wanted - 1;
        const bool quoted = *s == '"';
        s += quoted;
        n = strcspn(s, quoted ? "\"" : "; ");
        good = is_boundary(s, n) && (quoted ? s[n] == '"' && !s[n + 1] : !s[n]);
    }
    if (!good)
        return refuse(no, "the form has no boundary that can be read; send it from our page");
    *m = (struct multipart){.taker = taker, .at = MULTIPART_BOUNDARY};
    memcpy(m->boundary, "\r\n--", 4);
    memcpy(m->boundary + 4, s, n);
    m->length = n + 4;
    m->matched = 2; /* the first one begins the body, without a line end before it */
    return true;
}

/* ---- the head of a part ---- */

/* One parameter of Content-Disposition, NAME="VALUE", unquoted in place; *s moves past it. */
static bool read_parameter(char **s, const char **name, const char **value)
{
    char *at = *s;
    at += strspn(at, " \t");
    *name = at;
    char *equals = at + strcspn(at, "=\" \t;");
    if (*equals != '=' || equals == at || equals[1] != '"') return false;
    *equals = '\0';
    char *to = equals + 2;
    *value = to;
    for (at = to; *at && *at != '"'; at++) {
        if (*at == '\\' && (at[1] == '"' || at[1] == '\\')) at++;
        *to++ = *at;
    }
    if (*at != '"') return false;
    *s = at + 1;
    *to = '\0';
    return true;
}

static bool read_disposition(char *s, const char **name, const char **filename)
{
    static const char form[] = "form-data";
    if (strncasecmp(s, form, sizeof form - 1) != 0) return false;
    for (s += sizeof form - 1; *s;) {
        const char *what, *value;
        s += strspn(s, " \t");
        if (*s++ != ';' || !read_parameter(&s, &what, &value)) return false;
        const char **to = strcasecmp(what, "name") == 0       ? name
                          : strcasecmp(what, "filename") == 0 ? filename
                                                              : NULL;
        if (!to || *to) return false;
        *to = value;
    }
    return *name && **name;
}

static bool read_head(struct multipart *m, struct refusal *no)
{
    static const char disposition[] = "Content-Disposition:", coding[] = "Content-Transfer-";
    const char *name = NULL, *filename = NULL;
    bool found = false;
    m->head[m->head_length] = '\0';
    if (!text_is_utf8(m->head, m->head_length))
        return refuse(no, "the head of a part is not UTF-8; send the form from our page");
    for (char *line = m->head; *line;) {
        char *end = strstr(line, "\r\n");
        *end = '\0'; /* there is one: the head ends in an empty line */
        for (const char *c = line; *c; c++)
            if ((unsigned char)*c < 0x20 && *c != '\t')
                return refuse(no, "the head of a part holds a control character");
        if (strncasecmp(line, coding, sizeof coding - 1) == 0)
            return refuse(no, "a part is in a transfer encoding; send its bytes as they are");
        if (strncasecmp(line, disposition, sizeof disposition - 1) == 0) {
            char *value = line + sizeof disposition - 1;
            value += strspn(value, " \t");
            if (found || !read_disposition(value, &name, &filename))
                return refuse(no,
                              "a part does not say its name as forms do; send it from our page");
            found = true;
        }
        line = end + 2;
    }
    if (!found) return refuse(no, "a part has no Content-Disposition; send the form from our page");
    m->head_length = 0;
    m->at = MULTIPART_DATA;
    return m->taker.begin(m->taker.context, name, filename, no);
}

static bool take_head(struct multipart *m, char c, struct refusal *no)
{
    if (m->head_length == MULTIPART_HEAD_MOST)
        return refuse(no, "the head of a part is too long; send the form from our page");
    m->head[m->head_length++] = c;
    const char *end = m->head + m->head_length;
    if (c != '\n') return true;
    if (m->head_length < 4 || memcmp(end - 4, "\r\n\r\n", 4) != 0)
        return (m->head_length >= 2 && end[-2] == '\r' && m->head_length > 2) ||
               refuse(no, "the head of a part does not end its lines in CR LF");
    m->head_length -= 2; /* the empty line */
    return read_head(m, no);
}

/* ---- the bytes of a part ---- */

/* The boundary begins with CR, which stands nowhere else in it: what was matched and fails is data,
 * and only the byte at hand can begin another. Returns how many bytes were used up. */
static size_t take_data(struct multipart *m, const char *bytes, size_t n, bool *ok,
                        struct refusal *no)
{
    if (m->matched == 0) {
        const char *cr = memchr(bytes, '\r', n);
        size_t plain = cr ? (size_t)(cr - bytes) : n;
        if (plain > 0) {
            *ok = m->taker.data(m->taker.context, bytes, plain, no);
            return plain;
        }
    }
    if (*bytes == m->boundary[m->matched]) {
        if (++m->matched == m->length) {
            m->matched = 0;
            m->at = MULTIPART_AFTER;
            *ok = m->taker.end(m->taker.context, no);
        }
        return 1;
    }
    const size_t matched = m->matched;
    m->matched = 0;
    *ok = m->taker.data(m->taker.context, m->boundary, matched, no);
    return 0; /* the byte is looked at once more */
}

static bool take_one(struct multipart *m, char c, struct refusal *no)
{
    switch (m->at) {
    case MULTIPART_BOUNDARY:
        if (c != m->boundary[m->matched])
            return refuse(no, "the form does not begin with its boundary; send it from our page");
        if (++m->matched == m->length) {
            m->matched = 0;
            m->at = MULTIPART_AFTER;
        }
        return true;
    case MULTIPART_AFTER: /* CR LF and another part, or -- and the end */
        if (m->matched == 0 && (c == '\r' || c == '-')) {
            m->matched = c == '\r' ? 1 : 2;
            return true;
        }
        if (m->matched == 0 || c != (m->matched == 1 ? '\n' : '-')) break;
        m->at = m->matched == 1 ? MULTIPART_HEAD : MULTIPART_END;
        m->matched = 0;
        return true;
    case MULTIPART_HEAD:
        return take_head(m, c, no);
    case MULTIPART_END: /* a last line end, as most send it */
        if (m->matched > 1 || c != "\r\n"[m->matched]) break;
        m->matched++;
        return true;
    case MULTIPART_DATA:
        break;
    }
    return refuse(no,
                  "something other than a part follows a boundary; send the form from our page");
}

bool multipart_take(struct multipart *m, const char *bytes, size_t n, struct refusal *no)
{
    bool ok = true;
    for (size_t at = 0; ok && at < n;) {
        if (m->at == MULTIPART_DATA)
            at += take_data(m, bytes + at, n - at, &ok, no);
        else
            ok = take_one(m, bytes[at++], no);
    }
    return ok;
}

bool multipart_end(const struct multipart *m, struct refusal *no)
{
    if (m->at == MULTIPART_END && m->matched != 1) return true;
    return refuse(no, "the form was cut short; send it once more");
}
