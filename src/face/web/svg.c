#include "face/web/svg.h"

#include "face/web/render_html.h"

#include <math.h>

/* The least that tells the chart: its rows in words. */
void svg_chart(struct html *h, const struct sheet_chart *c)
{
    html_open(h, "figure");
    html_leaf(h, "figcaption", NULL, c->title);
    html_open(h, "dl");
    for (int i = 0; i < c->n_rows; i++) {
        html_open(h, "div");
        html_leaf(h, "dt", NULL, c->rows[i].label);
        html_open(h, "dd");
        render_html_toned(h, c->rows[i].text, c->rows[i].tone);
        html_close(h, "dd");
        html_close(h, "div");
    }
    html_close(h, "dl");
    html_close(h, "figure");
}
