/* Curves on two axes. The lines are drawn in a box of 1000 by 1000 that is stretched over the plot,
 * strokes excepted; rings and words lie over it in percent and pixels, so that they keep their
 * shape. */
#include "face/web/svg_draw.h"

#include <math.h>

enum { SCALE = 1000 };

/* Down from the top of the plot, in parts of `whole`. */
static double depth(const struct sheet_chart *c, double y, double whole)
{
    return (1 - fmin(fmax(y / c->rise, 0), 1)) * whole;
}

static void draw_line(struct html *h, const struct sheet_chart *c, int series)
{
    html_open(h, "polyline");
    html_attr_print(h, "class", "curve s%d", series);
    struct text points = {.arena = h->out->arena};
    for (int i = 0; i < c->n_pieces; i++)
        if (c->pieces[i].series == series)
            text_print(&points, "%s%.0f,%.0f", points.length ? " " : "",
                       svg_percent(c, c->pieces[i].x) * SCALE / 100,
                       depth(c, c->pieces[i].y, SCALE));
    html_attr(h, "points", text_get(&points));
    html_close(h, "polyline");
}

static void draw_lines(struct html *h, const struct sheet_chart *c, int top)
{
    html_open(h, "svg");
    html_attr_print(h, "y", "%d", top);
    html_attr(h, "width", "100%");
    html_attr_print(h, "height", "%d", SVG_PLOT);
    html_attr_print(h, "viewBox", "0 0 %d %d", SCALE, SCALE);
    html_attr(h, "preserveAspectRatio", "none");
    for (int i = c->n_series - 1; i >= 0; i--) draw_line(h, c, i); /* the first lies on top */
    html_close(h, "svg");
}

/* The words stand on the side where a rising curve leaves room: above it to the left, or below it
 * to the right. */
static void draw_point(struct html *h, const struct sheet_chart *c, const struct chart_row *row,
                       int top)
{
    double x = svg_percent(c, row->low);
    int y = top + (int)lround(depth(c, row->middle, SVG_PLOT));
    bool left = x > 50;
    svg_ring(h, "middle", x, y, 5);
    svg_label(h, x, left ? -11 : 11, y + 5, left ? SVG_END : SVG_START, "value",
              arena_print(h->out->arena, "%s: %s", row->label, row->text));
}

void svg_curves(struct html *h, const struct sheet_chart *c, int top)
{
    svg_box(h, "ground", 0, 100, top, SVG_PLOT);
    for (int i = 0; i < c->n_ticks; i++) {
        double x = svg_percent(c, c->ticks[i].at);
        svg_line(h, "grid", x, top, x, top + SVG_PLOT);
    }
    for (int i = 0; i < c->n_limits; i++) {
        int y = top + (int)lround(depth(c, c->limits[i].at, SVG_PLOT));
        svg_line(h, "limit", 0, y, 100, y);
    }
    draw_lines(h, c, top);
    for (int i = 0; i < c->n_limits; i++) /* below its line, where a rising curve begins */
        svg_label(h, 0, 6, top + (int)lround(depth(c, c->limits[i].at, SVG_PLOT)) + SVG_LINE - 2,
                  SVG_START, "limit", c->limits[i].text);
    for (int i = 0; i < c->n_rows; i++)
        if (c->rows[i].how == ROW_DRAWN) draw_point(h, c, &c->rows[i], top);
}
