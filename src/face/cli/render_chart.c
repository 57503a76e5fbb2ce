/* A chart in characters: label, bar or range, words. Where a row is too narrow for all three, the
 * drawing goes onto a line of its own. */
#include "face/cli/render_text.h"

#include "face/cli/wrap.h"

#include <assert.h>
#include <math.h>

enum { LEAST_DRAWING = 16 };

/* The cell of 0 .. cells-1 that a value falls into; what lies outside the axis is drawn at its end.
 */
static int cell_of(const struct sheet_chart *c, double value, int cells)
{
    double share = (value - c->low) / (c->high - c->low);
    int at = (int)floor(fmin(fmax(share, 0), 1) * cells);
    return at < cells ? at : cells - 1;
}

/* Spans in cells: one glyph a series; what ends in a point shows the point alone. */
static const char *const glyphs[CHART_SERIES_MOST] = {"█", "═", "░", "◆"};

static void draw_spans(const struct sheet_chart *c, const struct chart_row *row, const char **mark,
                       int cells)
{
    for (int i = 0; i < c->n_pieces; i++) {
        const struct chart_piece *p = &c->pieces[i];
        if (&c->rows[p->row] != row) continue;
        int to = cell_of(c, p->y, cells), from = p->series == 3 ? to : cell_of(c, p->x, cells);
        for (int k = from; k <= to; k++) mark[k] = glyphs[p->series];
    }
}

/* The drawing without blanks at its end. */
static const char *draw(struct arena *a, const struct sheet_chart *c, const struct chart_row *row,
                        int cells)
{
    const char **mark = ARENA_ARRAY(a, const char *, cells);
    for (int i = 0; i < cells; i++) mark[i] = " ";
    bool across = c->kind != CHART_CURVES;
    for (int i = 0; across && i < c->n_limits; i++)
        if (c->limits[i].at >= c->low && c->limits[i].at <= c->high)
            mark[cell_of(c, c->limits[i].at, cells)] = "┊";
    if (row->how == ROW_WORDS) {
        /* its words say it */
    } else if (c->kind == CHART_SPANS) {
        draw_spans(c, row, mark, cells);
    } else if (c->kind == CHART_CURVES) {
        int at = cell_of(c, row->low, cells);
        for (int i = 0; i < at; i++) mark[i] = "─";
        mark[at] = "●";
    } else if (c->kind == CHART_BARS) {
        static const char *const eighths[] = {"", "▏", "▎", "▍", "▌", "▋", "▊", "▉"};
        double share = fmin(fmax((row->middle - c->low) / (c->high - c->low), 0), 1);
        int filled = (int)lround(share * cells * 8);
        for (int i = 0; i < filled / 8; i++) mark[i] = "█";
        if (filled % 8) mark[filled / 8] = eighths[filled % 8];
    } else {
        int low = cell_of(c, row->low, cells), high = cell_of(c, row->high, cells);
        for (int i = low; i <= high; i++) mark[i] = text_is(mark[i], "┊") ? "┼" : "─";
        mark[low] = "├";
        mark[high] = "┤";
        mark[cell_of(c, row->middle, cells)] = "●";
    }
    struct text out = {.arena = a};
    int last = cells;
    while (last > 0 && text_is(mark[last - 1], " ")) last--;
    for (int i = 0; i < last; i++) text_add(&out, mark[i]);
    return text_get(&out);
}

static int widest(struct arena *a, const struct sheet_chart *c, bool label)
{
    int wide = 0;
    for (int i = 0; i < c->n_rows; i++) {
        if (c->rows[i].how == ROW_TABLE) continue;
        int w = text_width(label ? wrap_clean(a, c->rows[i].label, false)
                                 : render_toned(a, c->rows[i].text, c->rows[i].tone));
        if (w > wide) wide = w;
    }
    return wide;
}

/* Low end at the left of the drawing, high end at its right. */
static void axis(struct text *out, const struct sheet_chart *c, int indent, int cells,
                 struct render_style style)
{
    const char *low = wrap_clean(out->arena, c->low_text, false);
    const char *high = wrap_clean(out->arena, c->high_text, false);
    wrap_repeat(out, " ", indent);
    wrap_repeat(out, "─", cells);
    text_add(out, "\n");
    int between = cells - text_width(low) - text_width(high);
    if (between < 1) {
        render_caption(out, arena_print(out->arena, "from %s to %s", low, high), style);
        return;
    }
    wrap_repeat(out, " ", indent);
    text_add(out, low);
    wrap_repeat(out, " ", between);
    text_print(out, "%s\n", high);
}

static int rows_drawn(const struct sheet_chart *c)
{
    int n = 0;
    for (int i = 0; i < c->n_rows; i++) n += c->rows[i].how != ROW_TABLE;
    return n;
}

static void legend(struct text *out, const struct sheet_chart *c, struct render_style style)
{
    if (c->kind != CHART_SPANS) return;
    struct text t = {.arena = out->arena};
    for (int i = 0; i < c->n_series; i++)
        text_print(&t, "%s%s %s", i ? "  " : "", glyphs[i], c->series[i]);
    render_caption(out, text_get(&t), style);
}

void render_chart(struct text *out, const struct sheet_chart *c, struct render_style style)
{
    struct arena *a = out->arena;
    if (rows_drawn(c) == 0) return; /* curves without a mark: the table beside them says it */
    render_caption(out, *c->unit ? arena_print(a, "%s (%s)", c->title, c->unit) : c->title, style);
    int label = widest(a, c, true), words = widest(a, c, false);
    int cells = style.width - label - words - 4;
    bool beside = cells >= LEAST_DRAWING;
    if (!beside) cells = style.width - 2;
    if (cells > 60) cells = 60;
    for (int i = 0; i < c->n_rows; i++) {
        const struct chart_row *row = &c->rows[i];
        if (row->how == ROW_TABLE) continue;
        const char *name = wrap_clean(a, row->label, false);
        const char *text = render_toned(a, row->text, row->tone);
        const char *drawing = draw(a, c, row, cells);
        if (beside) {
            text_add(out, name);
            wrap_repeat(out, " ", label + 2 - text_width(name));
            render_colour(out, drawing, row->tone, style);
            if (*text) wrap_repeat(out, " ", cells + 2 - text_width(drawing));
            text_print(out, "%s\n", text);
        } else {
            struct lines l = wrap_lines(a, arena_print(a, "%s: %s", name, text), style.width);
            for (int k = 0; k < l.count; k++) text_print(out, "%s\n", l.line[k]);
            text_add(out, "  ");
            render_colour(out, drawing, row->tone, style);
            text_add(out, "\n");
        }
    }
    axis(out, c, beside ? label + 2 : 2, cells, style);
    for (int i = 0; i < c->n_limits; i++)
        render_caption(
            out, arena_print(a, "%s%s", c->kind == CHART_CURVES ? "" : "┊ ", c->limits[i].text),
            style);
    legend(out, c, style);
}
