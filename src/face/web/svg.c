#include "face/web/svg.h"

#include "face/web/render_html.h"
#include "face/web/svg_draw.h"

#include <assert.h>
#include <math.h>

/* TICK_SHARE: percent of the narrowest axis, on a phone, that a month and its year take. */
enum { TRACK = 12, GAP = 12, SWATCH = 36, TICK_SHARE = 26 };

static void track(struct html *h, const struct sheet_chart *c, const struct chart_row *row, int y)
{
    double low = svg_percent(c, row->low), middle = svg_percent(c, row->middle),
           high = svg_percent(c, row->high);
    svg_box(h, "track", 0, 100, y, TRACK);
    if (row->how == ROW_WORDS) return;
    if (c->kind == CHART_BARS) {
        svg_box(h, "bar", 0, middle, y, TRACK);
    } else if (c->kind == CHART_RANGES) {
        svg_box(h, "range", low, fmax(low, high), y + 3, TRACK - 6);
        svg_line(h, "end", low, y, low, y + TRACK);
        svg_line(h, "end", high, y, high, y + TRACK);
        svg_ring(h, "middle", middle, y + TRACK / 2, TRACK / 2);
    }
    for (int i = 0; i < c->n_pieces; i++) {
        const struct chart_piece *p = &c->pieces[i];
        if (&c->rows[p->row] == row)
            svg_span(h, p->series, svg_percent(c, p->x), svg_percent(c, p->y), y, TRACK);
    }
}

static const char *words(struct arena *a, const struct chart_row *row)
{
    static const char *const sign[TONE_COUNT] = {"", "✓ ", "! ", "✗ ", ""};
    return *row->text ? arena_print(a, "%s%s", sign[row->tone], row->text) : "";
}

/* Label and words of every row share a line if those of all rows do. */
static bool fits_one_line(struct arena *a, const struct sheet_chart *c)
{
    for (int i = 0; i < c->n_rows; i++)
        if (c->rows[i].how != ROW_TABLE &&
            text_width(c->rows[i].label) + text_width(words(a, &c->rows[i])) + 2 > SVG_ROOM)
            return false;
    return true;
}

static int row_height(bool one_line)
{
    return (one_line ? SVG_LINE : 2 * SVG_LINE) + TRACK + GAP;
}

static int rows_drawn(const struct sheet_chart *c)
{
    int n = 0;
    for (int i = 0; i < c->n_rows; i++) n += c->rows[i].how != ROW_TABLE;
    return n;
}

static void draw_tracks(struct html *h, const struct sheet_chart *c, int top, bool one_line)
{
    for (int i = 0, at = 0; i < c->n_rows; i++) {
        enum tone tone = c->rows[i].tone;
        if (c->rows[i].how == ROW_TABLE) continue;
        html_open(h, "g");
        html_attr(h, "class", tone == TONE_PLAIN ? NULL : tone_name(tone));
        track(h, c, &c->rows[i], top + ++at * row_height(one_line) - TRACK - GAP);
        html_close(h, "g");
    }
}

static void draw_words(struct html *h, const struct sheet_chart *c, int top, bool one_line)
{
    for (int i = 0, at = 0; i < c->n_rows; i++) {
        if (c->rows[i].how == ROW_TABLE) continue;
        int y = top + at++ * row_height(one_line) + SVG_BASELINE;
        const char *value = words(h->out->arena, &c->rows[i]);
        svg_label(h, 0, 0, y, SVG_START, "label", c->rows[i].label);
        if (one_line)
            svg_label(h, 100, 0, y, SVG_END, "value", value);
        else
            svg_label(h, 0, 0, y + SVG_LINE, SVG_START, "value", value);
    }
}

/* A line from its own words at the top down through every track. */
static void draw_limits(struct html *h, const struct sheet_chart *c, int top, int bottom)
{
    for (int i = 0; i < c->n_limits; i++) {
        double x = svg_percent(c, c->limits[i].at);
        bool left = x > 50;
        svg_line(h, "limit", x, top + i * SVG_LINE, x, bottom);
        svg_label(h, x, left ? -6 : 6, top + i * SVG_LINE + SVG_BASELINE,
                  left ? SVG_END : SVG_START, "limit", c->limits[i].text);
    }
}

/* What each shape stands for, a line each: sample, then words. */
static void draw_legend(struct html *h, const struct sheet_chart *c)
{
    for (int i = 0; i < c->n_series; i++) {
        int y = i * SVG_LINE;
        html_open(h, "svg");
        html_attr_print(h, "width", "%d", SWATCH);
        html_attr_print(h, "height", "%d", y + SVG_LINE);
        if (c->kind == CHART_SPANS) {
            svg_span(h, i, 5, 80, y + 2, TRACK);
        } else {
            html_open(h, "line");
            html_attr_print(h, "class", "curve s%d", i);
            html_attr(h, "x1", "0");
            html_attr_print(h, "x2", "%d", SWATCH - 4);
            html_attr_print(h, "y1", "%d", y + SVG_LINE / 2);
            html_attr_print(h, "y2", "%d", y + SVG_LINE / 2);
            html_close(h, "line");
        }
        html_close(h, "svg");
        svg_label(h, 0, SWATCH + 4, y + SVG_BASELINE, SVG_START, "label", c->series[i]);
    }
}

/* Ends of the first axis on the last line, what lies between on one of its own. */
static void draw_axis(struct html *h, const struct sheet_chart *c, int bottom)
{
    svg_box(h, "axis", 0, 100, bottom, 1);
    int y = bottom + SVG_LINE;
    double taken = 0; /* percent of the axis that have words under them */
    for (int i = 0; i < c->n_ticks; i++) {
        double x = svg_percent(c, c->ticks[i].at);
        bool left = x > 100 - TICK_SHARE;
        svg_line(h, "end-of-tick", x, bottom, x, bottom + SVG_LINE);
        if ((left ? x - TICK_SHARE : x) < taken) continue; /* the stroke alone says enough */
        svg_label(h, x, left ? -4 : 4, y, left ? SVG_END : SVG_START, "tick", c->ticks[i].text);
        taken = left ? x : x + TICK_SHARE;
    }
    if (c->n_ticks > 0) y += SVG_LINE;
    svg_label(h, 0, 0, y, SVG_START, "tick", c->low_text);
    svg_label(h, 100, 0, y, SVG_END, "tick", c->high_text);
}

static void describe(struct html *h, const struct sheet_chart *c)
{
    static const char *const what[CHART_KINDS] = {"bars", "ranges (low, middle, high)",
                                                  "rows of spans", "marked points on curves"};
    html_print(h, "%d %s on an axis from %s to %s%s%s.", rows_drawn(c), what[c->kind], c->low_text,
               c->high_text, *c->unit ? ", in " : "", c->unit);
    for (int i = 0; i < c->n_series; i++)
        html_print(h, "%s%s", i ? "; " : " Shapes: ", c->series[i]);
    html_print(h, "%s The table below says the same.", c->n_series ? "." : "");
}

static void draw(struct html *h, const struct sheet_chart *c)
{
    bool curves = c->kind == CHART_CURVES, one_line = fits_one_line(h->out->arena, c);
    int legend = c->n_series > 1 ? c->n_series * SVG_LINE + 8 : 0;
    int top = legend + (curves ? (*c->rise_text ? SVG_LINE : 0) : c->n_limits * SVG_LINE);
    int bottom = top + (curves ? SVG_PLOT : rows_drawn(c) * row_height(one_line));
    int id = html_id(h);
    html_open(h, "svg");
    html_attr(h, "role", "img");
    html_attr(h, "width", "100%");
    html_attr_print(h, "height", "%d", bottom + (c->n_ticks ? 2 : 1) * SVG_LINE + 4);
    html_attr_print(h, "aria-labelledby", "chart-%d chart-%d-is", id, id);
    html_open(h, "title");
    html_attr_print(h, "id", "chart-%d", id);
    html_text(h, c->title);
    html_close(h, "title");
    html_open(h, "desc");
    html_attr_print(h, "id", "chart-%d-is", id);
    describe(h, c);
    html_close(h, "desc");
    if (legend) draw_legend(h, c);
    if (curves) {
        svg_label(h, 0, 0, top - SVG_LINE + SVG_BASELINE, SVG_START, "tick", c->rise_text);
        svg_curves(h, c, top);
    } else {
        draw_tracks(h, c, top, one_line);
        draw_limits(h, c, legend, bottom);
        draw_words(h, c, top, one_line);
    }
    draw_axis(h, c, bottom);
    html_close(h, "svg");
}

static void table_behind(struct html *h, const struct sheet_chart *c)
{
    struct sheet *s = sheet_new(h->out->arena, "");
    struct sheet_table *t = sheet_table(s, c->title);
    sheet_column(s, t, c->kind == CHART_CURVES ? "At" : "Row", ALIGN_LEFT, 1);
    sheet_column(s, t, *c->unit ? c->unit : "Value", ALIGN_LEFT, 1);
    for (int i = 0; i < c->n_rows; i++) {
        sheet_cell(s, t, TONE_PLAIN, "%s", c->rows[i].label);
        sheet_cell(s, t, c->rows[i].tone, "%s", c->rows[i].text);
    }
    for (int i = 0; i < c->n_limits; i++) {
        sheet_cell(s, t, TONE_PLAIN, "Limit");
        sheet_cell(s, t, TONE_PLAIN, "%s", c->limits[i].text);
    }
    sheet_cell(s, t, TONE_FAINT, "Axis");
    sheet_cell(s, t, TONE_FAINT, "%s to %s", c->low_text, c->high_text);
    html_open(h, "details");
    html_leaf(h, "summary", NULL, "The same as a table");
    render_html_table(h, t);
    html_close(h, "details");
}

void svg_chart(struct html *h, const struct sheet_chart *c)
{
    assert(c->low < c->high);
    html_open(h, "figure");
    html_attr(h, "class", "chart");
    html_open(h, "figcaption");
    html_text(h, c->title);
    if (*c->unit) html_print(h, " (%s)", c->unit);
    html_close(h, "figcaption");
    draw(h, c);
    table_behind(h, c);
    html_close(h, "figure");
}
