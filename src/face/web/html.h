/* html.h - a writer of HTML and inline SVG that escapes what it is given and closes what it opens.
 *
 * Text and attribute values may hold anything a person typed: bytes that are not UTF-8, and
 * characters that a document may not hold (controls, noncharacters), become U+FFFD. Names of
 * elements and attributes are the program's own; a wrong one is a fault of ours and asserted, as is
 * a close that does not match, an attribute after content, more than HTML_DEPTH open elements, an
 * event handler or a style attribute, and text inside <script> or <style>: pages carry no script or
 * style of their own, so that the content security policy can forbid them.
 *
 *     struct html h = html_begin(&text);
 *     html_open(&h, "p");
 *     html_attr(&h, "class", "faint");
 *     html_text(&h, "5 < 7");
 *     html_close(&h, "p");
 *     html_end(&h);
 */
#ifndef WEB_HTML_H
#define WEB_HTML_H

#include "base/text.h"

#define HTML_DEPTH 64

struct html {
    struct text *out;
    const char *open[HTML_DEPTH]; /* names of open elements, outermost first */
    int depth;
    bool in_tag; /* the start tag of the innermost still takes attributes */
    int ids;     /* given out by html_id */
};

/* The text must outlive the writer. Names given later must too until closed (string literals). */
struct html html_begin(struct text *out);
void html_end(struct html *h); /* asserts that all is closed */

void html_doctype(struct html *h); /* before the first element */
/* Opens an element; a void one (br, img, input, ...) takes attributes and is never closed. */
void html_open(struct html *h, const char *element);
void html_close(struct html *h, const char *element); /* the innermost, which must be this one */

/* Attributes of the element opened last, each once. A value of NULL leaves the attribute out. */
void html_attr(struct html *h, const char *name, const char *value);
void html_attr_print(struct html *h, const char *name, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
void html_flag(struct html *h, const char *name, bool on); /* without a value: checked, open */
/* href, src, action and formaction are written by this one only. Relative addresses, fragments,
 * http:, https: and mailto: pass; whatever else ("javascript:", "//host", blanks, backslashes)
 * is written as "#". */
void html_url(struct html *h, const char *name, const char *address);
bool html_url_is_safe(const char *address);

void html_text(struct html *h, const char *text);
void html_print(struct html *h, const char *format, ...) __attribute__((format(printf, 2, 3)));
/* An element that holds only text; class_name NULL or "" for none. */
void html_leaf(struct html *h, const char *element, const char *class_name, const char *text);

/* Writes what another writer wrote and ended, as it is: it was escaped then. It must come before
 * anything that takes an id here: `ids` of its writer go on from there. */
void html_splice(struct html *h, const char *written, int ids);

/* A number that no other call for this writer gives: for id attributes that refer to each other. */
int html_id(struct html *h);
/* Adds s as one part of an address: everything but letters, digits and -._~ as %XX (RFC 3986). */
void html_percent(struct text *out, const char *s);

#endif
