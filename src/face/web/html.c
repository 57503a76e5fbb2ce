#include "face/web/html.h"

#include <assert.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#define REPLACEMENT "\xEF\xBF\xBD" /* U+FFFD */

static bool is_one_of(const char *name, const char *const *list)
{
    for (; *list; list++)
        if (text_is(name, *list)) return true;
    return false;
}

static bool is_void(const char *element)
{
    static const char *const list[] = {"area",  "base",   "br",    "col",  "embed",
                                       "hr",    "img",    "input", "link", "meta",
                                       "param", "source", "track", "wbr",  NULL};
    return is_one_of(element, list);
}

static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

static bool is_name(const char *s)
{
    if (!is_letter(*s)) return false;
    while (is_letter(*s) || (*s >= '0' && *s <= '9') || *s == '-') s++;
    return *s == '\0';
}

static void finish_tag(struct html *h)
{
    if (h->in_tag) text_add(h->out, ">");
    h->in_tag = false;
    if (h->depth > 0 && is_void(h->open[h->depth - 1])) h->depth--;
}

/* ---- characters ---------------------------------------------------------------------------- */

/* Bytes of the sequence at s, its code point in *point; 0 if it is not UTF-8. Shortest forms only,
 * no surrogates (RFC 3629). The NUL at the end stops a sequence cut short. */
static size_t decode(const unsigned char *s, uint32_t *point)
{
    static const uint32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
    size_t n = s[0] < 0x80   ? 1
               : s[0] < 0xC2 ? 0
               : s[0] < 0xE0 ? 2
               : s[0] < 0xF0 ? 3
               : s[0] < 0xF5 ? 4
                             : 0;
    if (n <= 1) {
        *point = s[0];
        return n;
    }
    uint32_t p = s[0] & (0x7Fu >> n);
    for (size_t i = 1; i < n; i++) {
        if ((s[i] & 0xC0) != 0x80) return 0;
        p = p << 6 | (s[i] & 0x3Fu);
    }
    *point = p;
    return p < least[n] || p > 0x10FFFF || (p >= 0xD800 && p <= 0xDFFF) ? 0 : n;
}

/* What the HTML standard calls a control or a noncharacter, blanks apart. */
static bool is_forbidden(uint32_t p)
{
    if (p < 0x20) return p != '\t' && p != '\n' && p != '\f' && p != '\r';
    return (p >= 0x7F && p <= 0x9F) || (p >= 0xFDD0 && p <= 0xFDEF) || (p & 0xFFFE) == 0xFFFE;
}

/* One escape serves text and double-quoted attributes, so that no context can be mistaken. */
static const char *escape_of(unsigned char c)
{
    switch (c) {
    case '&':
        return "&amp;";
    case '<':
        return "&lt;";
    case '>':
        return "&gt;";
    case '"':
        return "&quot;";
    case '\'':
        return "&#39;";
    default:
        return NULL;
    }
}

static void add_escaped(struct text *out, const char *s)
{
    const char *run = s; /* bytes from here on are good as they are, not yet added */
    while (*s) {
        uint32_t point;
        size_t n = decode((const unsigned char *)s, &point);
        const char *instead = n == 0 || is_forbidden(point) ? REPLACEMENT
                              : n == 1                      ? escape_of((unsigned char)*s)
                                                            : NULL;
        size_t step = n == 0 ? 1 : n;
        if (instead) {
            text_add_n(out, run, (size_t)(s - run));
            text_add(out, instead);
            run = s + step;
        }
        s += step;
    }
    text_add_n(out, run, (size_t)(s - run));
}

/* ---- elements ------------------------------------------------------------------------------ */

struct html html_begin(struct text *out)
{
    return (struct html){.out = out};
}

void html_end(struct html *h)
{
    finish_tag(h);
    assert(h->depth == 0);
}

void html_doctype(struct html *h)
{
    assert(h->depth == 0 && !h->in_tag);
    text_add(h->out, "<!doctype html>\n");
}

void html_open(struct html *h, const char *element)
{
    finish_tag(h);
    assert(is_name(element) && h->depth < HTML_DEPTH);
    text_add(h->out, "<");
    text_add(h->out, element);
    h->open[h->depth++] = element;
    h->in_tag = true;
}

void html_close(struct html *h, const char *element)
{
    finish_tag(h);
    assert(h->depth > 0 && text_is(h->open[h->depth - 1], element));
    h->depth--;
    text_add(h->out, "</");
    text_add(h->out, element);
    text_add(h->out, ">");
}

/* ---- attributes ---------------------------------------------------------------------------- */

static const char *print_copy(struct arena *a, const char *format, va_list args)
{
    va_list again;
    va_copy(again, args);
    const int n = vsnprintf(NULL, 0, format, again);
    va_end(again);
    assert(n >= 0);
    char *s = arena_take(a, (size_t)n + 1, 1);
    vsnprintf(s, (size_t)n + 1, format, args);
    return s;
}

static void write_attribute(struct html *h, const char *name, const char *value)
{
    assert(h->in_tag && is_name(name));
    text_add(h->out, " ");
    text_add(h->out, name);
    text_add(h->out, "=\"");
    add_escaped(h->out, value);
    text_add(h->out, "\"");
}

static bool same_start(const char *s, const char *lower)
{
    for (; *lower; s++, lower++) {
        char c = *s;
        if ((c >= 'A' && c <= 'Z' ? (char)(c + 32) : c) != *lower) return false;
    }
    return true;
}

static bool is_address(const char *name)
{
    static const char *const list[] = {"href",   "src",    "action", "formaction", "cite", "data",
                                       "poster", "srcset", "ping",   "srcdoc",     NULL};
    return is_one_of(name, list);
}

static void check_plain(const char *name)
{
    assert(!is_address(name));
    assert(!same_start(name, "on") && !same_start(name, "style"));
}

void html_attr(struct html *h, const char *name, const char *value)
{
    check_plain(name);
    if (value) write_attribute(h, name, value);
}

void html_attr_print(struct html *h, const char *name, const char *format, ...)
{
    check_plain(name);
    va_list args;
    va_start(args, format);
    write_attribute(h, name, print_copy(h->out->arena, format, args));
    va_end(args);
}

void html_flag(struct html *h, const char *name, bool on)
{
    check_plain(name);
    assert(h->in_tag && is_name(name));
    if (!on) return;
    text_add(h->out, " ");
    text_add(h->out, name);
}

/* A browser drops tabs and line ends inside an address and reads '\\' as '/', so none may pass. */
bool html_url_is_safe(const char *address)
{
    for (const char *s = address; *s; s++)
        if ((unsigned char)*s <= 0x20 || *s == 0x7F || *s == '\\') return false;
    if (address[0] == '/' && address[1] == '/') return false;
    size_t scheme = strcspn(address, ":/?#");
    return address[scheme] != ':' || same_start(address, "http://") ||
           same_start(address, "https://") || same_start(address, "mailto:");
}

void html_url(struct html *h, const char *name, const char *address)
{
    assert(is_address(name));
    if (address) write_attribute(h, name, html_url_is_safe(address) ? address : "#");
}

/* ---- text ---------------------------------------------------------------------------------- */

void html_text(struct html *h, const char *text)
{
    const char *within = h->depth > 0 ? h->open[h->depth - 1] : "";
    bool first = h->in_tag && !is_void(within);
    finish_tag(h);
    if (!*text) return;
    assert(!text_is(within, "script") && !text_is(within, "style"));
    /* A parser drops a line end right after these start tags; the first of two is ours. */
    if (first && *text == '\n' && (text_is(within, "textarea") || text_is(within, "pre")))
        text_add(h->out, "\n");
    add_escaped(h->out, text);
}

void html_print(struct html *h, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    html_text(h, print_copy(h->out->arena, format, args));
    va_end(args);
}

void html_leaf(struct html *h, const char *element, const char *class_name, const char *text)
{
    html_open(h, element);
    if (class_name && *class_name) html_attr(h, "class", class_name);
    html_text(h, text);
    html_close(h, element);
}

void html_splice(struct html *h, const char *written, int ids)
{
    assert(h->ids == 0);
    finish_tag(h);
    text_add(h->out, written);
    h->ids = ids;
}

int html_id(struct html *h)
{
    return ++h->ids;
}

void html_percent(struct text *out, const char *s)
{
    for (; *s; s++) {
        if (is_letter(*s) || (*s >= '0' && *s <= '9') || strchr("-._~", *s))
            text_add_n(out, s, 1);
        else
            text_print(out, "%%%02X", (unsigned char)*s);
    }
}
