/* pdf.h - a small writer of PDF: pages of text, lines and filled squares, for sheets of labels.
 *
 * Nothing is compressed and no font is carried: Helvetica is one that every reader has. Latin
 * letters that Windows code page 1252 lacks lose their accents; other letters become '?'. The same
 * pages make the same bytes. Measures are in points, y upwards from the bottom of the page.
 *
 * Published: ISO 32000-1 (PDF 1.7), sections 7 (syntax), 9.6.2.2 (standard fonts). */
#ifndef SHOW_PDF_H
#define SHOW_PDF_H

#include "base/text.h"

struct pdf {
    struct arena *arena;
    struct text out;
    double width, height;
    size_t *objects; /* where each begins; [0] is free */
    int n_objects, n_pages, most;
    struct text page; /* of the page that is open */
};

enum { PDF_PAGES_MOST = 500 };
#define PDF_MM (72 / 25.4)

struct pdf pdf_begin(struct arena *a, const char *title, double width, double height);
void pdf_page(struct pdf *p); /* a new one */
void pdf_text(struct pdf *p, double x, double y, double size, bool bold, const char *text);
void pdf_square(struct pdf *p, double x, double y, double width, double height);
void pdf_line(struct pdf *p, double x, double y, double to_x, double to_y);
/* The whole of it; at least one page was begun. */
const char *pdf_end(struct pdf *p, size_t *length);
/* How wide the text stands, in points: reckoned generously from the widest letters. */
double pdf_width(const char *text, double size);

#endif
