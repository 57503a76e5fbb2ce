#include "face/show/pdf.h"

#include <assert.h>
#include <string.h>

/* Objects: 1 catalogue, 2 pages, 3 and 4 fonts, 5 info; then a page and its content each. */
enum { CATALOGUE = 1, PAGES, PLAIN, BOLD, INFO, FIRST_PAGE };

static void begin_object(struct pdf *p, int number)
{
    p->objects[number] = p->out.length;
    text_print(&p->out, "%d 0 obj\n", number);
}

/* Latin-1 is 1252 from U+00A0 on; the rest that it has between 0x80 and 0x9F is told here. */
static int code_of(uint32_t c)
{
    static const struct {
        uint32_t c;
        int code;
    } more[] = {{0x20AC, 0x80}, {0x2018, 0x91}, {0x2019, 0x92}, {0x201C, 0x93}, {0x201D, 0x94},
                {0x2013, 0x96}, {0x2014, 0x97}, {0x2026, 0x85}, {0x0160, 0x8A}, {0x0161, 0x9A},
                {0x017D, 0x8E}, {0x017E, 0x9E}, {0x0152, 0x8C}, {0x0153, 0x9C}};
    if ((c >= 0x20 && c < 0x7F) || (c >= 0xA0 && c <= 0xFF)) return (int)c;
    for (size_t i = 0; i < sizeof more / sizeof *more; i++)
        if (more[i].c == c) return more[i].code;
    /* Latin Extended-A without its accents, from U+0100. */
    static const char bare[] = "AaAaAaCcCcCcCcDdDdEeEeEeEeEeGgGgGgGgHhHhIiIiIiIiIiIiJjKkkLlLlLlLlLl"
                               "NnNnNnnNnOoOoOoOoRrRrRrSsSsSsSsTtTtTtUuUuUuUuUuUuWwYyYZzZzZzs";
    return c >= 0x100 && c < 0x100 + sizeof bare - 1 ? bare[c - 0x100] : '?';
}

/* The next character of UTF-8 that is known to be good. */
static uint32_t next(const char **s)
{
    const unsigned char *u = (const unsigned char *)*s;
    const int n = *u < 0x80 ? 1 : *u < 0xE0 ? 2 : *u < 0xF0 ? 3 : 4;
    uint32_t c = n == 1 ? *u : *u & (0xFFu >> (n + 1));
    for (int i = 1; i < n; i++) c = c << 6 | (u[i] & 0x3Fu);
    *s += n;
    return c;
}

static void add_string(struct text *t, const char *s)
{
    text_add(t, "(");
    if (!text_is_utf8(s, strlen(s))) s = "?";
    while (*s) {
        const int code = code_of(next(&s));
        if (code == '(' || code == ')' || code == '\\')
            text_print(t, "\\%c", code);
        else if (code < 0x7F)
            text_print(t, "%c", code);
        else
            text_print(t, "\\%03o", (unsigned)code);
    }
    text_add(t, ")");
}

struct pdf pdf_begin(struct arena *a, const char *title, double width, double height)
{
    const int most = FIRST_PAGE + 2 * PDF_PAGES_MOST;
    struct pdf p = {.arena = a,
                    .out = {.arena = a},
                    .width = width,
                    .height = height,
                    .objects = ARENA_ARRAY(a, size_t, most),
                    .most = most,
                    .n_objects = FIRST_PAGE};
    text_add(&p.out, "%PDF-1.4\n");
    begin_object(&p, CATALOGUE);
    text_print(&p.out, "<< /Type /Catalog /Pages %d 0 R /Lang (en) >>\nendobj\n", PAGES);
    for (int f = PLAIN; f <= BOLD; f++) {
        begin_object(&p, f);
        text_print(&p.out,
                   "<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica%s /Encoding "
                   "/WinAnsiEncoding >>\nendobj\n",
                   f == BOLD ? "-Bold" : "");
    }
    begin_object(&p, INFO);
    text_add(&p.out, "<< /Title ");
    add_string(&p.out, title);
    text_add(&p.out, " >>\nendobj\n");
    return p;
}

static void close_page(struct pdf *p)
{
    if (p->n_pages == 0) return;
    const int page = p->n_objects;
    p->n_objects += 2;
    begin_object(p, page);
    text_print(
        &p->out,
        "<< /Type /Page /Parent %d 0 R /MediaBox [0 0 %.2f %.2f] /Contents %d 0 R /Resources "
        "<< /Font << /F0 %d 0 R /F1 %d 0 R >> >> >>\nendobj\n",
        PAGES, p->width, p->height, page + 1, PLAIN, BOLD);
    begin_object(p, page + 1);
    text_print(&p->out, "<< /Length %zu >>\nstream\n", p->page.length);
    text_add_n(&p->out, text_get(&p->page), p->page.length);
    text_add(&p->out, "\nendstream\nendobj\n");
}

void pdf_page(struct pdf *p)
{
    close_page(p);
    assert(p->n_pages < PDF_PAGES_MOST);
    p->n_pages++;
    p->page = (struct text){.arena = p->arena};
}

void pdf_text(struct pdf *p, double x, double y, double size, bool bold, const char *text)
{
    text_print(&p->page, "BT /F%d %.2f Tf %.2f %.2f Td ", bold, size, x, y);
    add_string(&p->page, text);
    text_add(&p->page, " Tj ET\n");
}

void pdf_square(struct pdf *p, double x, double y, double width, double height)
{
    text_print(&p->page, "%.3f %.3f %.3f %.3f re f\n", x, y, width, height);
}

void pdf_line(struct pdf *p, double x, double y, double to_x, double to_y)
{
    text_print(&p->page, "0.25 w %.2f %.2f m %.2f %.2f l S\n", x, y, to_x, to_y);
}

const char *pdf_end(struct pdf *p, size_t *length)
{
    assert(p->n_pages > 0);
    close_page(p);
    begin_object(p, PAGES);
    text_print(&p->out, "<< /Type /Pages /Count %d /Kids [", p->n_pages);
    for (int i = 0; i < p->n_pages; i++) text_print(&p->out, " %d 0 R", FIRST_PAGE + 2 * i);
    text_add(&p->out, " ] >>\nendobj\n");
    const size_t table = p->out.length;
    text_print(&p->out, "xref\n0 %d\n0000000000 65535 f \n", p->n_objects);
    for (int i = 1; i < p->n_objects; i++) text_print(&p->out, "%010zu 00000 n \n", p->objects[i]);
    text_print(&p->out,
               "trailer\n<< /Size %d /Root %d 0 R /Info %d 0 R >>\nstartxref\n%zu\n%%%%EOF\n",
               p->n_objects, CATALOGUE, INFO, table);
    *length = p->out.length;
    return text_get(&p->out);
}

double pdf_width(const char *text, double size)
{
    static const double MEAN_EM = 0.56; /* Helvetica's small letters, a little wide */
    return MEAN_EM * size * text_width(text);
}
