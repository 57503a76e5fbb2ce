/* sheet.h - a sheet: what a question answers, as a small tree that every face renders.
 *
 * Ten kinds of node, in reading order; nothing in it is computed again. Builders copy what they are
 * given into the arena, so that format arguments may be passing. A sheet says what is meant (a
 * verdict's tone, a column's priority), never how it looks: no colours, no widths, no markup. Text
 * may hold anything a person typed; escaping belongs to the renderer. */
#ifndef SHOW_SHEET_H
#define SHOW_SHEET_H

#include "base/arena.h"
#include "base/fail.h"
#include "library/trade.h"

enum sheet_kind {
    SHEET_HEADING,
    SHEET_TEXT,
    SHEET_FACTS, /* name: value pairs */
    SHEET_TABLE,
    SHEET_CHART,
    SHEET_CAUTION, /* what can hurt someone, and whom to defer to */
    SHEET_LINK,    /* where to go on: a command, which is also the name of a page */
    SHEET_LIST,
    SHEET_NOTE, /* how sure a figure is: its mark and source */
    SHEET_WHY,  /* a disclosure: where a number comes from */
    SHEET_KINDS
};

/* What a value means to the reader. Faces tell it by word and shape; colour only adds to them. */
enum tone { TONE_PLAIN, TONE_GOOD, TONE_CARE, TONE_BAD, TONE_FAINT, TONE_COUNT };

struct sheet_pair {
    const char *name, *value;
    enum tone tone;
};

struct sheet_pairs {
    struct sheet_pair *items;
    int count;
    size_t capacity;
};

enum align { ALIGN_LEFT, ALIGN_RIGHT };

struct sheet_column {
    const char *name;
    enum align align; /* right: figures, never wrapped */
    int priority;     /* 1 is never dropped; where room is short the highest number goes first */
};

struct sheet_cell {
    const char *text;
    enum tone tone;
};

struct sheet_table {
    const char *caption; /* may be "" */
    const char
        *behind; /* words of the disclosure that a page keeps it behind; "": it stands open */
    struct sheet_column *columns;
    int n_columns;
    size_t columns_capacity;
    struct sheet_cell *cells; /* row by row */
    int n_cells;
    size_t cells_capacity;
};

/* A display list on one shared axis. A bar runs from the axis' low end to `middle`; a range shows
 * low, middle and high (10th percentile, median, 90th; or start and finish with middle between).
 * Spans lie on rows, curves on a second axis that rises from 0; both are of named series, and a
 * face gives each series a shape of its own by its place in the list. */
enum chart_kind { CHART_BARS, CHART_RANGES, CHART_SPANS, CHART_CURVES, CHART_KINDS };

enum row_how {
    ROW_DRAWN,
    ROW_WORDS /* nothing to draw */,
    ROW_TABLE /* only in the table behind */
};

struct chart_row {
    const char *label, *text; /* text: the row's values in words, shown beside it */
    double low, middle, high; /* a row of curves is a marked point: low along, middle up */
    enum tone tone;
    enum row_how how;
};

/* A line across all rows (a ceiling, today); with curves at a height of the second axis. */
struct chart_limit {
    double at;
    const char *text;
};

struct chart_piece {
    int series, row; /* row: of spans */
    double x, y;     /* a span from x to y (a point in time where they are equal); or a curve's next
                        point */
};

struct sheet_chart {
    enum chart_kind kind;
    const char *title, *unit;
    double low, high; /* ends of the axis, low < high */
    const char *low_text, *high_text;
    struct chart_row *rows;
    int n_rows;
    size_t rows_capacity;
    struct chart_limit *limits;
    int n_limits;
    size_t limits_capacity;
    double rise; /* curves: upper end of the second axis */
    const char *rise_text;
    const char **series; /* names, for the legend */
    int n_series;
    size_t series_capacity;
    struct chart_piece *pieces;
    int n_pieces;
    size_t pieces_capacity;
    struct chart_limit *ticks; /* along the first axis, between its ends */
    int n_ticks;
    size_t ticks_capacity;
};

enum { CHART_SERIES_MOST = 4 }; /* as many shapes as faces have */

struct sheet_list {
    const char **items;
    int count;
    size_t capacity;
};

struct sheet_why {
    const char *question; /* "Why 14 hours?" */
    struct sheet_pairs inputs;
    const char *formula, *source; /* "" if none */
    enum mark mark;
};

struct sheet_node {
    enum sheet_kind kind;
    struct sheet_node *next;
    union {
        struct {
            int level; /* 1..3 */
            const char *text;
        } heading;
        const char *text;
        struct sheet_pairs facts;
        struct sheet_table table;
        struct sheet_chart chart;
        struct {
            const char *text, *defer;
        } caution;
        struct {
            const char *text, *command; /* command without the program's name: "plan" */
        } link;
        struct sheet_list list;
        struct {
            enum mark mark;
            const char *text, *source; /* source "" if none */
        } note;
        struct sheet_why why;
    } as;
};

struct sheet {
    struct arena *arena;
    const char *title;
    struct sheet_node *first, *last;
};

struct sheet *sheet_new(struct arena *a, const char *title);
void sheet_heading(struct sheet *s, int level, const char *text);
void sheet_text(struct sheet *s, const char *format, ...) __attribute__((format(printf, 2, 3)));
/* Goes on with the facts or the list that the sheet ends in, or begins new ones. */
void sheet_fact(struct sheet *s, enum tone tone, const char *name, const char *format, ...)
    __attribute__((format(printf, 4, 5)));
void sheet_item(struct sheet *s, const char *format, ...) __attribute__((format(printf, 2, 3)));
void sheet_caution(struct sheet *s, const char *text, const char *defer);
void sheet_link(struct sheet *s, const char *text, const char *command);
void sheet_note(struct sheet *s, enum mark mark, const char *text, const char *source);

/* Columns first, then cells row by row; a sheet that is shown has no half row (asserted by
 * renderers). */
struct sheet_table *sheet_table(struct sheet *s, const char *caption);
void sheet_column(struct sheet *s, struct sheet_table *t, const char *name, enum align align,
                  int priority);
void sheet_cell(struct sheet *s, struct sheet_table *t, enum tone tone, const char *format, ...)
    __attribute__((format(printf, 4, 5)));
/* A long one that few read: on a page it opens when asked. */
void sheet_behind(struct sheet *s, struct sheet_table *t, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
int sheet_table_rows(const struct sheet_table *t);

struct sheet_chart *sheet_chart(struct sheet *s, enum chart_kind kind, const char *title,
                                const char *unit, double low, const char *low_text, double high,
                                const char *high_text);
void sheet_chart_row(struct sheet *s, struct sheet_chart *c, struct chart_row row);
void sheet_chart_limit(struct sheet *s, struct sheet_chart *c, double at, const char *text);
void sheet_chart_rise(struct sheet *s, struct sheet_chart *c, double rise, const char *text);
int sheet_chart_series(struct sheet *s, struct sheet_chart *c, const char *name); /* its number */
void sheet_chart_piece(struct sheet *s, struct sheet_chart *c, struct chart_piece piece);
void sheet_chart_tick(struct sheet *s, struct sheet_chart *c, double at, const char *text);

struct sheet_why *sheet_why(struct sheet *s, const char *question, const char *formula,
                            enum mark mark, const char *source);
void sheet_why_input(struct sheet *s, struct sheet_why *w, const char *name, const char *format,
                     ...) __attribute__((format(printf, 4, 5)));

const char *sheet_kind_name(enum sheet_kind k); /* "heading" .. "why" */
const char *tone_name(enum tone t);             /* "plain" .. "faint" */
const char *mark_word(enum mark m);             /* "published" .. "demo"; "" for none */
/* To stand behind words: " [memory]"; "" for none. */
const char *mark_behind(struct arena *a, enum mark m);

#endif
