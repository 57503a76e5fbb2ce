/* svg_draw.h - the few strokes that charts are made of: percent across, CSS pixels down. */
#ifndef WEB_SVG_DRAW_H
#define WEB_SVG_DRAW_H

#include "face/show/sheet.h"
#include "face/web/html.h"

/* One line of text is SVG_LINE high, its foot SVG_BASELINE below its top. SVG_ROOM is what fits
 * across at 320 px in columns of text: a longer label is cut in the drawing and whole in the table.
 */
enum { SVG_LINE = 18, SVG_BASELINE = 13, SVG_ROOM = 34, SVG_PLOT = 180 };
enum svg_anchor { SVG_START, SVG_END };

/* Share of the axis in percent; what lies outside is drawn at its end. */
double svg_percent(const struct sheet_chart *c, double value);
/* Text whose start or end is `dx` pixels from x, in percent. */
void svg_label(struct html *h, double x, int dx, int y, enum svg_anchor anchor,
               const char *class_name, const char *text);
void svg_box(struct html *h, const char *class_name, double from, double to, int y, int height);
void svg_line(struct html *h, const char *class_name, double x1, int y1, double x2, int y2);
void svg_ring(struct html *h, const char *class_name, double x, int y, int radius);
/* One shape a series: a block, an open box, a dashed beam, a thread that ends in a diamond. */
void svg_span(struct html *h, int series, double from, double to, int y, int height);

/* The body of a chart of curves, `top` pixels down and SVG_PLOT high. */
void svg_curves(struct html *h, const struct sheet_chart *c, int top);

#endif
