#include "face/web/svg.h"

#include "face/web/render_html.h"

#include <assert.h>
#include <math.h>

/* CSS pixels down; one line of text is 18 high, set in about 14. ROOM is what fits across at 320 px
 * in columns of text: a longer label is cut in the drawing and whole in the table. */
enum { LINE = 18, BASELINE = 13, TRACK = 12, GAP = 12, ROOM = 34 };

/* Share of the axis in percent; what lies outside is drawn at its end. */
static double percent(const struct sheet_chart *c, double value)
{
    return fmin(fmax((value - c->low) / (c->high - c->low), 0), 1) * 100;
}

static const char *cut(struct arena *a, const char *s)
{
    if (text_width(s) <= ROOM) return s;
    struct text t = {.arena = a};
    while (*s) {
        size_t n = 1;
        while (((unsigned char)s[n] & 0xC0) == 0x80) n++;
        text_add_n(&t, s, n);
        s += n;
        if (text_width(text_get(&t)) >= ROOM - 1) break;
    }
    text_add(&t, "…");
    return text_get(&t);
}

enum anchor { START, END };

/* Text whose start or end is `dx` pixels from x, in percent. */
static void label(struct html *h, double x, int dx, int y, enum anchor anchor,
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

static void box(struct html *h, const char *class_name, double from, double to, int y, int height)
{
    html_open(h, "rect");
    html_attr(h, "class", class_name);
    html_attr_print(h, "x", "%.2f%%", from);
    html_attr_print(h, "y", "%d", y);
    html_attr_print(h, "width", "%.2f%%", to - from);
    html_attr_print(h, "height", "%d", height);
    html_close(h, "rect");
}

static void upright(struct html *h, const char *class_name, double x, int top, int bottom)
{
    html_open(h, "line");
    html_attr(h, "class", class_name);
    html_attr_print(h, "x1", "%.2f%%", x);
    html_attr_print(h, "x2", "%.2f%%", x);
    html_attr_print(h, "y1", "%d", top);
    html_attr_print(h, "y2", "%d", bottom);
    html_close(h, "line");
}

static void track(struct html *h, const struct sheet_chart *c, const struct chart_row *row, int y)
{
    double low = percent(c, row->low), middle = percent(c, row->middle),
           high = percent(c, row->high);
    box(h, "track", 0, 100, y, TRACK);
    if (c->kind == CHART_BARS) {
        box(h, "bar", 0, middle, y, TRACK);
        return;
    }
    box(h, "range", low, fmax(low, high), y + 3, TRACK - 6);
    upright(h, "end", low, y, y + TRACK);
    upright(h, "end", high, y, y + TRACK);
    html_open(h, "circle");
    html_attr(h, "class", "middle");
    html_attr_print(h, "cx", "%.2f%%", middle);
    html_attr_print(h, "cy", "%d", y + TRACK / 2);
    html_attr_print(h, "r", "%d", TRACK / 2);
    html_close(h, "circle");
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
        if (text_width(c->rows[i].label) + text_width(words(a, &c->rows[i])) + 2 > ROOM)
            return false;
    return true;
}

static int row_height(bool one_line)
{
    return (one_line ? LINE : 2 * LINE) + TRACK + GAP;
}

static void draw_tracks(struct html *h, const struct sheet_chart *c, int top, bool one_line)
{
    for (int i = 0; i < c->n_rows; i++) {
        enum tone tone = c->rows[i].tone;
        html_open(h, "g");
        html_attr(h, "class", tone == TONE_PLAIN ? NULL : tone_name(tone));
        track(h, c, &c->rows[i], top + (i + 1) * row_height(one_line) - TRACK - GAP);
        html_close(h, "g");
    }
}

static void draw_words(struct html *h, const struct sheet_chart *c, int top, bool one_line)
{
    for (int i = 0; i < c->n_rows; i++) {
        int y = top + i * row_height(one_line) + BASELINE;
        const char *value = words(h->out->arena, &c->rows[i]);
        label(h, 0, 0, y, START, "label", c->rows[i].label);
        if (one_line)
            label(h, 100, 0, y, END, "value", value);
        else
            label(h, 0, 0, y + LINE, START, "value", value);
    }
}

/* A line from its own words at the top down through every track. */
static void draw_limits(struct html *h, const struct sheet_chart *c, int bottom)
{
    for (int i = 0; i < c->n_limits; i++) {
        double x = percent(c, c->limits[i].at);
        bool left = x > 50;
        upright(h, "limit", x, i * LINE, bottom);
        label(h, x, left ? -6 : 6, i * LINE + BASELINE, left ? END : START, "limit",
              c->limits[i].text);
    }
}

static void draw(struct html *h, const struct sheet_chart *c)
{
    bool one_line = fits_one_line(h->out->arena, c);
    int top = c->n_limits * LINE, bottom = top + c->n_rows * row_height(one_line);
    int id = html_id(h);
    html_open(h, "svg");
    html_attr(h, "role", "img");
    html_attr(h, "width", "100%");
    html_attr_print(h, "height", "%d", bottom + LINE + 4);
    html_attr_print(h, "aria-labelledby", "chart-%d chart-%d-is", id, id);
    html_open(h, "title");
    html_attr_print(h, "id", "chart-%d", id);
    html_text(h, c->title);
    html_close(h, "title");
    html_open(h, "desc");
    html_attr_print(h, "id", "chart-%d-is", id);
    html_print(h, "%d %s on an axis from %s to %s%s%s. The table below says the same.", c->n_rows,
               c->kind == CHART_BARS ? "bars" : "ranges (low, middle, high)", c->low_text,
               c->high_text, *c->unit ? ", in " : "", c->unit);
    html_close(h, "desc");
    draw_tracks(h, c, top, one_line);
    box(h, "axis", 0, 100, bottom, 1);
    draw_limits(h, c, bottom);
    draw_words(h, c, top, one_line);
    label(h, 0, 0, bottom + LINE, START, "tick", c->low_text);
    label(h, 100, 0, bottom + LINE, END, "tick", c->high_text);
    html_close(h, "svg");
}

static void table_behind(struct html *h, const struct sheet_chart *c)
{
    struct sheet *s = sheet_new(h->out->arena, "");
    struct sheet_table *t = sheet_table(s, c->title);
    sheet_column(s, t, "Row", ALIGN_LEFT, 1);
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
