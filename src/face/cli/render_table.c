/* A table in the width there is: first all columns as wide as they like; else words wrap in the
 * left-aligned ones; else columns go, highest priority number first; else each row becomes a block
 * of name and value. */
#include "face/cli/render_text.h"

#include "face/cli/wrap.h"

#include <assert.h>

enum {
    GAP = 2,
    COMFORT = 14
}; /* columns between columns; a column of words narrower than this reads badly */

struct layout {
    const struct sheet_table *table;
    const char **cell;            /* clean, with sign */
    int *natural, *least, *width; /* one a column */
    bool *shown;
    int rows;
};

static const char *cell(const struct layout *l, int row, int column)
{
    return l->cell[row * l->table->n_columns + column];
}

static void measure(struct arena *a, struct layout *l)
{
    const struct sheet_table *t = l->table;
    for (int i = 0; i < t->n_cells; i++)
        l->cell[i] = render_toned(a, t->cells[i].text, t->cells[i].tone);
    for (int c = 0; c < t->n_columns; c++) {
        const char *name = wrap_clean(a, t->columns[c].name, false);
        int natural = text_width(name), least = wrap_longest_word(a, name);
        for (int r = 0; r < l->rows; r++) {
            int wide = text_width(cell(l, r, c)), word = wrap_longest_word(a, cell(l, r, c));
            if (wide > natural) natural = wide;
            if (word > least) least = word;
        }
        if (t->columns[c].align == ALIGN_RIGHT)
            least = natural;
        else if (least < COMFORT)
            least = natural < COMFORT ? natural : COMFORT;
        l->natural[c] = natural;
        l->least[c] = least;
        l->shown[c] = true;
    }
}

static int total(const struct layout *l, const int *width)
{
    int sum = -GAP;
    for (int c = 0; c < l->table->n_columns; c++)
        if (l->shown[c]) sum += width[c] + GAP;
    return sum;
}

/* Hides the last of the columns with the highest priority number; false if all have number 1. */
static bool drop_one(struct layout *l)
{
    int worst = -1;
    for (int c = 0; c < l->table->n_columns; c++)
        if (l->shown[c] && l->table->columns[c].priority > 1 &&
            (worst < 0 || l->table->columns[c].priority >= l->table->columns[worst].priority))
            worst = c;
    if (worst < 0) return false;
    l->shown[worst] = false;
    return true;
}

/* Gives each column what it needs at least, then shares out the rest one by one to those that lack
 * most. */
static void share(struct layout *l, int width)
{
    for (int c = 0; c < l->table->n_columns; c++) l->width[c] = l->least[c];
    for (int spare = width - total(l, l->least); spare > 0; spare--) {
        int neediest = -1, lack = 0;
        for (int c = 0; c < l->table->n_columns; c++)
            if (l->shown[c] && l->natural[c] - l->width[c] > lack) {
                lack = l->natural[c] - l->width[c];
                neediest = c;
            }
        if (neediest < 0) return;
        l->width[neediest]++;
    }
}

/* One row of cells, as many lines as its tallest cell. */
static void write_row(struct text *out, const struct layout *l, const char *const *cells,
                      const struct sheet_cell *toned, struct render_style style)
{
    int n = l->table->n_columns, height = 1;
    struct lines *lines = ARENA_ARRAY(out->arena, struct lines, n);
    int last = 0;
    for (int c = 0; c < n; c++) {
        if (!l->shown[c]) continue;
        lines[c] = wrap_lines(out->arena, cells[c], l->width[c]);
        if (lines[c].count > height) height = lines[c].count;
        last = c;
    }
    for (int i = 0; i < height; i++) {
        int owed = 0; /* blanks, written only before something, so that no line ends in them */
        for (int c = 0; c <= last; c++) {
            if (!l->shown[c]) continue;
            const char *s = i < lines[c].count ? lines[c].line[i] : "";
            int blank = l->width[c] - text_width(s);
            if (l->table->columns[c].align == ALIGN_RIGHT) {
                owed += blank;
                blank = 0;
            }
            if (*s) {
                wrap_repeat(out, " ", owed);
                owed = 0;
                if (toned)
                    render_colour(out, s, toned[c].tone, style);
                else
                    render_strong(out, s, style);
            }
            owed += blank + GAP;
        }
        text_add(out, "\n");
    }
}

static void write_columns(struct text *out, const struct layout *l, struct render_style style)
{
    const struct sheet_table *t = l->table;
    const char **names = ARENA_ARRAY(out->arena, const char *, t->n_columns);
    for (int c = 0; c < t->n_columns; c++)
        names[c] = wrap_clean(out->arena, t->columns[c].name, false);
    write_row(out, l, names, NULL, style);
    wrap_repeat(out, "─", total(l, l->width));
    text_add(out, "\n");
    for (int r = 0; r < l->rows; r++)
        write_row(out, l, l->cell + r * t->n_columns, t->cells + r * t->n_columns, style);
    struct text missing = {.arena = out->arena};
    for (int c = 0; c < t->n_columns; c++)
        if (!l->shown[c]) text_print(&missing, "%s%s", missing.length ? ", " : "", names[c]);
    if (missing.length == 0) return;
    const char *said =
        arena_print(out->arena, "(a wider window shows also: %s)", text_get(&missing));
    struct lines lines = wrap_lines(out->arena, said, style.width);
    for (int i = 0; i < lines.count; i++) {
        render_colour(out, lines.line[i], TONE_FAINT, style);
        text_add(out, "\n");
    }
}

static void write_blocks(struct text *out, const struct layout *l, struct render_style style)
{
    const struct sheet_table *t = l->table;
    for (int r = 0; r < l->rows; r++)
        for (int c = 0; c < t->n_columns; c++) {
            const char *value = cell(l, r, c),
                       *name = wrap_clean(out->arena, t->columns[c].name, false);
            if (!*value && c > 0) continue;
            int indent = c == 0 ? 0 : 2;
            const char *said =
                c == 0 || !*name ? value : arena_print(out->arena, "%s: %s", name, value);
            struct lines lines = wrap_lines(out->arena, said, style.width - 2 * indent);
            for (int i = 0; i < lines.count; i++) {
                wrap_repeat(out, " ", i == 0 ? indent : 2 * indent);
                render_colour(out, lines.line[i], t->cells[r * t->n_columns + c].tone, style);
                text_add(out, "\n");
            }
        }
}

void render_table(struct text *out, const struct sheet_table *t, struct render_style style)
{
    struct arena *a = out->arena;
    int n = t->n_columns;
    struct layout l = {.table = t, .rows = sheet_table_rows(t)};
    l.cell = ARENA_ARRAY(a, const char *, t->n_cells);
    l.natural = ARENA_ARRAY(a, int, n);
    l.least = ARENA_ARRAY(a, int, n);
    l.width = ARENA_ARRAY(a, int, n);
    l.shown = ARENA_ARRAY(a, bool, n);
    render_caption(out, t->caption, style);
    if (l.rows == 0) {
        text_add(out, "(none)\n");
        return;
    }
    measure(a, &l);
    bool fits = true;
    while (total(&l, l.least) > style.width && fits) fits = drop_one(&l);
    if (!fits) {
        write_blocks(out, &l, style);
        return;
    }
    share(&l, style.width);
    write_columns(out, &l, style);
}
