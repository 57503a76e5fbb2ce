#include "face/show/bag_label.h"

#include "face/show/pdf.h"
#include "face/show/qr.h"

#include <string.h>

enum { ADDRESS_MOST = 120, LINES_MOST = 3 };
static const double MARGIN = 10 * PDF_MM, SQUARE = 27 * PDF_MM, GAP = 2.5 * PDF_MM;

/* Drawn row by row, neighbours as one: fewer edges for a printer to smear. */
static void draw_code(struct pdf *p, const struct qr *q, double x, double y)
{
    const double module = SQUARE / q->size;
    for (int row = 0; row < q->size; row++)
        for (int from = 0; from < q->size; from++) {
            int to = from;
            while (to < q->size && qr_is_dark(q, to, row)) to++;
            if (to == from) continue;
            pdf_square(p, x + from * module, y + SQUARE - (row + 1) * module, (to - from) * module,
                       module);
            from = to;
        }
}

/* Words onto lines of that width; what does not fit is left off, with an ellipsis. */
static void draw_words(struct pdf *p, const char *words, double x, double y, double width,
                       double size, int lines)
{
    struct text line = {.arena = p->arena};
    while (*words && lines > 0) {
        const size_t n = strcspn(words, " ");
        const char *word = arena_copy_n(p->arena, words, n);
        const char *tried =
            line.length ? arena_print(p->arena, "%s %s", text_get(&line), word) : word;
        if (line.length && pdf_width(tried, size) > width) {
            pdf_text(p, x, y, size, false,
                     lines == 1 ? arena_print(p->arena, "%s ...", text_get(&line))
                                : text_get(&line));
            y -= 1.2 * size;
            lines--;
            line = (struct text){.arena = p->arena};
            continue;
        }
        line = (struct text){.arena = p->arena};
        text_add(&line, tried);
        words += n;
        words += strspn(words, " ");
    }
    if (line.length && lines > 0) pdf_text(p, x, y, size, false, text_get(&line));
}

static void draw_label(struct pdf *p, const char *vehicle, const struct fact_bag *b,
                       const char *address, double x, double y, double width, double height)
{
    struct qr q;
    qr_make(p->arena, arena_print(p->arena, "%s/bag/%s", address, b->code), &q);
    const double at = x + GAP + SQUARE + GAP, room = width - SQUARE - 3 * GAP;
    const size_t letters = strlen(b->code);
    draw_code(p, &q, x + GAP, y + (height - SQUARE) / 2);
    pdf_text(p, at, y + height - 24, letters <= 4 ? 22 : letters <= 7 ? 14 : 9, true, b->code);
    draw_words(p, b->what, at, y + height - 38, room, 8, LINES_MOST);
    if (b->shelf) draw_words(p, b->shelf, at, y + 26, room, 9, 1);
    draw_words(p, vehicle, at, y + 12, room, 7, 1);
}

bool bag_labels(struct arena *a, const char *vehicle, const struct fact_bag *bags, int count,
                const char *address, enum paper paper, const char **out, size_t *length,
                struct fail *f)
{
    const double paper_width = paper == PAPER_A4 ? 210 * PDF_MM : 8.5 * 72,
                 paper_height = paper == PAPER_A4 ? 297 * PDF_MM : 11 * 72,
                 width = (paper_width - 2 * MARGIN) / LABELS_ACROSS,
                 height = (paper_height - 2 * MARGIN) / LABELS_DOWN;
    const int a_page = LABELS_ACROSS * LABELS_DOWN;
    int n = 0;
    if (strlen(address) > ADDRESS_MOST)
        return fail_set(f, FAIL_INPUT, "labels: the address '%.40s...' is too long for a label",
                        address);
    struct pdf p = pdf_begin(a, arena_print(a, "%s: labels", vehicle), paper_width, paper_height);
    for (int i = 0; i < count; i++) {
        if (bags[i].emptied != DAY_NONE) continue;
        if (n == a_page * PDF_PAGES_MOST)
            return fail_set(f, FAIL_INPUT, "labels: more than %d; print some of them", n);
        const int at = n++ % a_page;
        if (at == 0) {
            pdf_page(&p);
            for (int k = 0; k <= LABELS_ACROSS; k++)
                pdf_line(&p, MARGIN + k * width, MARGIN, MARGIN + k * width, paper_height - MARGIN);
            for (int k = 0; k <= LABELS_DOWN; k++)
                pdf_line(&p, MARGIN, MARGIN + k * height, paper_width - MARGIN,
                         MARGIN + k * height);
        }
        draw_label(&p, vehicle, &bags[i], address, MARGIN + at % LABELS_ACROSS * width,
                   paper_height - MARGIN - (at / LABELS_ACROSS + 1) * height, width, height);
    }
    if (n == 0)
        return fail_set(f, FAIL_INPUT, "labels: no bag is full; make one: fettle bag new 'what'");
    *out = pdf_end(&p, length);
    return true;
}
