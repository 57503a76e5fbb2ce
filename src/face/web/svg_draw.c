#include "face/web/svg_draw.h"

#include <math.h>

double svg_percent(const struct sheet_chart *c, double value)
{
    return fmin(fmax((value - c->low) / (c->high - c->low), 0), 1) * 100;
}

static const char *cut(struct arena *a, const char *s)
{
    if (text_width(s) <= SVG_ROOM) return s;
    struct text t = {.arena = a};
    while (*s) {
        size_t n = 1;
        while (((unsigned char)s[n] & 0xC0) == 0x80) n++;
        text_add_n(&t, s, n);
        s += n;
        if (text_width(text_get(&t)) >= SVG_ROOM - 1) break;
    }
    text_add(&t, "…");
    return text_get(&t);
}

void svg_label(struct html *h, double x, int dx, int y, enum svg_anchor anchor,
               const char *class_name, const char *text)
{
    static const char *const name[] = {NULL, "end"};
    if (!*text) return;
    html_open(h, "text");
    html_attr_print(h, "x", "%.2f%%", x);
    html_attr_print(h, "y", "%d", y);
    if (dx) html_attr_print(h, "dx", "%d", dx);
    html_attr(h, "text-anchor", name[anchor]);
    html_attr(h, "class", class_name);
    html_text(h, cut(h->out->arena, text));
    html_close(h, "text");
}

void svg_box(struct html *h, const char *class_name, double from, double to, int y, int height)
{
    html_open(h, "rect");
    html_attr(h, "class", class_name);
    html_attr_print(h, "x", "%.2f%%", from);
    html_attr_print(h, "y", "%d", y);
    html_attr_print(h, "width", "%.2f%%", to - from);
    html_attr_print(h, "height", "%d", height);
    html_close(h, "rect");
}

void svg_line(struct html *h, const char *class_name, double x1, int y1, double x2, int y2)
{
    html_open(h, "line");
    html_attr(h, "class", class_name);
    html_attr_print(h, "x1", "%.2f%%", x1);
    html_attr_print(h, "x2", "%.2f%%", x2);
    html_attr_print(h, "y1", "%d", y1);
    html_attr_print(h, "y2", "%d", y2);
    html_close(h, "line");
}

void svg_ring(struct html *h, const char *class_name, double x, int y, int radius)
{
    html_open(h, "circle");
    html_attr(h, "class", class_name);
    html_attr_print(h, "cx", "%.2f%%", x);
    html_attr_print(h, "cy", "%d", y);
    html_attr_print(h, "r", "%d", radius);
    html_close(h, "circle");
}

/* A shape in pixels at a place in percent: a drawing within the drawing. */
static void diamond(struct html *h, double x, int y, int radius)
{
    html_open(h, "svg");
    html_attr_print(h, "x", "%.2f%%", x);
    html_attr_print(h, "y", "%d", y);
    html_attr(h, "class", "diamond");
    html_open(h, "path");
    html_attr_print(h, "d", "M0 %d L%d 0 L0 %d L%d 0 Z", -radius, radius, radius, -radius);
    html_close(h, "path");
    html_close(h, "svg");
}

void svg_span(struct html *h, int series, double from, double to, int y, int height)
{
    int middle = y + height / 2;
    switch (series) {
    case 0:
        svg_box(h, "block", from, to, y, height);
        break;
    case 1:
        svg_box(h, "open", from, to, y + 1, height - 2);
        break;
    case 2:
        svg_line(h, "dashed", from, middle, to, middle);
        break;
    default:
        svg_line(h, "thread", from, middle, to, middle);
        diamond(h, to, middle, height / 2);
    }
}
