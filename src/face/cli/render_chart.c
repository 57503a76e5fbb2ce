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
        for (int i = low; i <= high; i++) mark[i] = "─";
        mark[low] = "├";
        mark[high] = "┤";
        mark[cell_of(c, row->middle, cells)] = "●";
    }
    struct text out = {.arena = a};
    for (int i = 0; i < cells; i++) text_add(&out, mark[i]);
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
static void axis(struct text *out, const struct sheet_chart *c, int indent, int cells)
{
    const char *low = wrap_clean(out->arena, c->low_text, false);
    const char *high = wrap_clean(out->arena, c->high_text, false);
    wrap_repeat(out, " ", indent);
    wrap_repeat(out, "─", cells);
    text_add(out, "\n");
    wrap_repeat(out, " ", indent);
    text_add(out, low);
    int between = cells - text_width(low) - text_width(high);
    wrap_repeat(out, " ", between > 1 ? between : 1);
    text_print(out, "%s\n", high);
}

void render_chart(struct text *out, const struct sheet_chart *c, struct render_style style)
{
    struct arena *a = out->arena;
    const char *title = wrap_clean(a, c->title, false), *unit = wrap_clean(a, c->unit, false);
    render_strong(out, *unit ? arena_print(a, "%s (%s)", title, unit) : title, style);
    text_add(out, "\n");
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
            text_print(out, "%s%s\n", *text ? "  " : "", text);
        } else {
            struct lines l = wrap_lines(a, arena_print(a, "%s: %s", name, text), style.width);
            for (int k = 0; k < l.count; k++) text_print(out, "%s\n", l.line[k]);
            text_add(out, "  ");
            render_colour(out, drawing, row->tone, style);
            text_add(out, "\n");
        }
    }
    axis(out, c, beside ? label + 2 : 2, cells);
    for (int i = 0; i < c->n_limits; i++)
        text_print(out, "┊ %s\n", wrap_clean(a, c->limits[i].text, false));
}
