#include "face/show/sheet.h"

#include "base/text.h"

#include <assert.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>

struct sheet *sheet_new(struct arena *a, const char *title)
{
    struct sheet *s = ARENA_NEW(a, struct sheet);
    s->arena = a;
    s->title = arena_copy(a, title);
    return s;
}

static struct sheet_node *append(struct sheet *s, enum sheet_kind kind)
{
    struct sheet_node *n = ARENA_NEW(s->arena, struct sheet_node);
    n->kind = kind;
    if (s->last)
        s->last->next = n;
    else
        s->first = n;
    s->last = n;
    return n;
}

/* The node that the sheet ends in if it is of the kind, else a new one. */
static struct sheet_node *go_on(struct sheet *s, enum sheet_kind kind)
{
    return s->last && s->last->kind == kind ? s->last : append(s, kind);
}

static const char *copy(struct sheet *s, const char *text)
{
    return text ? arena_copy(s->arena, text) : "";
}

static const char *print(struct arena *a, const char *format, va_list arguments)
{
    va_list again;
    va_copy(again, arguments);
    int n = vsnprintf(NULL, 0, format, again);
    va_end(again);
    assert(n >= 0);
    char *out = ARENA_ARRAY(a, char, n + 1);
    vsnprintf(out, (size_t)n + 1, format, arguments);
    return out;
}

void sheet_heading(struct sheet *s, int level, const char *text)
{
    assert(level >= 1 && level <= 3);
    struct sheet_node *n = append(s, SHEET_HEADING);
    n->as.heading.level = level;
    n->as.heading.text = copy(s, text);
}

void sheet_text(struct sheet *s, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    append(s, SHEET_TEXT)->as.text = print(s->arena, format, arguments);
    va_end(arguments);
}

static void add_pair(struct arena *a, struct sheet_pairs *p, struct sheet_pair pair)
{
    p->items = arena_grow(a, p->items, (size_t)p->count, &p->capacity, sizeof *p->items);
    p->items[p->count++] = pair;
}

void sheet_fact(struct sheet *s, enum tone tone, const char *name, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    struct sheet_pair pair = {copy(s, name), print(s->arena, format, arguments), tone};
    va_end(arguments);
    add_pair(s->arena, &go_on(s, SHEET_FACTS)->as.facts, pair);
}

void sheet_item(struct sheet *s, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    const char *text = print(s->arena, format, arguments);
    va_end(arguments);
    struct sheet_list *l = &go_on(s, SHEET_LIST)->as.list;
    l->items = arena_grow(s->arena, l->items, (size_t)l->count, &l->capacity, sizeof *l->items);
    l->items[l->count++] = text;
}

void sheet_caution(struct sheet *s, const char *text, const char *defer)
{
    struct sheet_node *n = append(s, SHEET_CAUTION);
    n->as.caution.text = copy(s, text);
    n->as.caution.defer = copy(s, defer);
}

void sheet_link(struct sheet *s, const char *text, const char *command)
{
    struct sheet_node *n = append(s, SHEET_LINK);
    n->as.link.text = copy(s, text);
    n->as.link.command = copy(s, command);
}

void sheet_note(struct sheet *s, enum mark mark, const char *text, const char *source)
{
    struct sheet_node *n = append(s, SHEET_NOTE);
    n->as.note.mark = mark;
    n->as.note.text = copy(s, text);
    n->as.note.source = copy(s, source);
}

struct sheet_table *sheet_table(struct sheet *s, const char *caption)
{
    struct sheet_node *n = append(s, SHEET_TABLE);
    n->as.table.caption = copy(s, caption);
    n->as.table.behind = "";
    return &n->as.table;
}

void sheet_column(struct sheet *s, struct sheet_table *t, const char *name, enum align align,
                  int priority)
{
    assert(t->n_cells == 0 && priority >= 1);
    t->columns = arena_grow(s->arena, t->columns, (size_t)t->n_columns, &t->columns_capacity,
                            sizeof *t->columns);
    t->columns[t->n_columns++] = (struct sheet_column){copy(s, name), align, priority};
}

void sheet_cell(struct sheet *s, struct sheet_table *t, enum tone tone, const char *format, ...)
{
    assert(t->n_columns > 0);
    va_list arguments;
    va_start(arguments, format);
    const char *text = print(s->arena, format, arguments);
    va_end(arguments);
    t->cells =
        arena_grow(s->arena, t->cells, (size_t)t->n_cells, &t->cells_capacity, sizeof *t->cells);
    t->cells[t->n_cells++] = (struct sheet_cell){text, tone};
}

void sheet_behind(struct sheet *s, struct sheet_table *t, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    t->behind = print(s->arena, format, args);
    va_end(args);
}

int sheet_table_rows(const struct sheet_table *t)
{
    if (t->n_columns == 0) return 0;
    assert(t->n_cells % t->n_columns == 0);
    return t->n_cells / t->n_columns;
}

struct sheet_chart *sheet_chart(struct sheet *s, enum chart_kind kind, const char *title,
                                const char *unit, double low, const char *low_text, double high,
                                const char *high_text)
{
    assert(isfinite(low) && isfinite(high) && low < high);
    struct sheet_chart *c = &append(s, SHEET_CHART)->as.chart;
    c->kind = kind;
    c->title = copy(s, title);
    c->unit = copy(s, unit);
    c->low = low;
    c->high = high;
    c->low_text = copy(s, low_text);
    c->high_text = copy(s, high_text);
    c->rise = 1;
    c->rise_text = "";
    return c;
}

void sheet_chart_row(struct sheet *s, struct sheet_chart *c, struct chart_row row)
{
    assert(isfinite(row.low) && isfinite(row.middle) && isfinite(row.high));
    row.label = copy(s, row.label);
    row.text = copy(s, row.text);
    c->rows = arena_grow(s->arena, c->rows, (size_t)c->n_rows, &c->rows_capacity, sizeof *c->rows);
    c->rows[c->n_rows++] = row;
}

void sheet_chart_limit(struct sheet *s, struct sheet_chart *c, double at, const char *text)
{
    assert(isfinite(at));
    c->limits = arena_grow(s->arena, c->limits, (size_t)c->n_limits, &c->limits_capacity,
                           sizeof *c->limits);
    c->limits[c->n_limits++] = (struct chart_limit){at, copy(s, text)};
}

void sheet_chart_tick(struct sheet *s, struct sheet_chart *c, double at, const char *text)
{
    assert(isfinite(at));
    c->ticks =
        arena_grow(s->arena, c->ticks, (size_t)c->n_ticks, &c->ticks_capacity, sizeof *c->ticks);
    c->ticks[c->n_ticks++] = (struct chart_limit){at, copy(s, text)};
}

void sheet_chart_rise(struct sheet *s, struct sheet_chart *c, double rise, const char *text)
{
    assert(isfinite(rise) && rise > 0);
    c->rise = rise;
    c->rise_text = copy(s, text);
}

int sheet_chart_series(struct sheet *s, struct sheet_chart *c, const char *name)
{
    assert(c->n_series < CHART_SERIES_MOST);
    c->series = arena_grow(s->arena, c->series, (size_t)c->n_series, &c->series_capacity,
                           sizeof *c->series);
    c->series[c->n_series] = copy(s, name);
    return c->n_series++;
}

void sheet_chart_piece(struct sheet *s, struct sheet_chart *c, struct chart_piece piece)
{
    assert(isfinite(piece.x) && isfinite(piece.y));
    assert(piece.series >= 0 && piece.series < c->n_series);
    assert(c->kind == CHART_CURVES || (piece.row >= 0 && piece.row < c->n_rows));
    c->pieces = arena_grow(s->arena, c->pieces, (size_t)c->n_pieces, &c->pieces_capacity,
                           sizeof *c->pieces);
    c->pieces[c->n_pieces++] = piece;
}

struct sheet_why *sheet_why(struct sheet *s, const char *question, const char *formula,
                            enum mark mark, const char *source)
{
    struct sheet_why *w = &append(s, SHEET_WHY)->as.why;
    w->question = copy(s, question);
    w->formula = copy(s, formula);
    w->mark = mark;
    w->source = copy(s, source);
    return w;
}

void sheet_why_input(struct sheet *s, struct sheet_why *w, const char *name, const char *format,
                     ...)
{
    va_list arguments;
    va_start(arguments, format);
    add_pair(s->arena, &w->inputs,
             (struct sheet_pair){copy(s, name), print(s->arena, format, arguments), TONE_PLAIN});
    va_end(arguments);
}

const char *sheet_kind_name(enum sheet_kind k)
{
    static const char *const names[SHEET_KINDS] = {"heading", "text", "facts", "table", "chart",
                                                   "caution", "link", "list",  "note",  "why"};
    assert((unsigned)k < SHEET_KINDS);
    return names[k];
}

const char *tone_name(enum tone t)
{
    static const char *const names[TONE_COUNT] = {"plain", "good", "care", "bad", "faint"};
    assert((unsigned)t < TONE_COUNT);
    return names[t];
}

const char *mark_word(enum mark m)
{
    static const char *const names[] = {"", "published", "practice", "memory", "demo"};
    assert((unsigned)m < sizeof names / sizeof *names);
    return names[m];
}

const char *mark_behind(struct arena *a, enum mark m)
{
    return m == MARK_NONE ? "" : arena_print(a, " [%s]", mark_word(m));
}
