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

/* The drawing without blanks at its end. */
static const char *draw(struct arena *a, const struct sheet_chart *c, const struct chart_row *row,
                        int cells)
{
    const char **mark = ARENA_ARRAY(a, const char *, cells);
    for (int i = 0; i < cells; i++) mark[i] = " ";
    for (int i = 0; i < c->n_limits; i++)
        if (c->limits[i].at >= c->low && c->limits[i].at <= c->high)
            mark[cell_of(c, c->limits[i].at, cells)] = "┊";
    if (c->kind == CHART_BARS) {
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

void render_chart(struct text *out, const struct sheet_chart *c, struct render_style style)
{
    struct arena *a = out->arena;
    render_caption(out, *c->unit ? arena_print(a, "%s (%s)", c->title, c->unit) : c->title, style);
    int label = widest(a, c, true), words = widest(a, c, false);
    int cells = style.width - label - words - 4;
    bool beside = cells >= LEAST_DRAWING;
    if (!beside) cells = style.width - 2;
    if (cells > 60) cells = 60;
    for (int i = 0; i < c->n_rows; i++) {
        const struct chart_row *row = &c->rows[i];
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
        render_caption(out, arena_print(a, "┊ %s", c->limits[i].text), style);
}
