#include "face/web/render_html.h"

#include "face/web/svg.h"

#include <assert.h>
#include <string.h>

/* Columns of text: a cell up to the first is kept in one line, a fact up to the second stands out.
 */
enum { SHORT_CELL = 14, SHORT_FACT = 60 };

static const char *tone_class(enum tone t)
{
    return t == TONE_PLAIN ? NULL : tone_name(t);
}

/* A figure and its percent sign stay on one line. */
static const char *joined(struct arena *a, const char *text)
{
    struct text t = {.arena = a};
    for (const char *at; (at = strstr(text, " %")); text = at + 2) {
        const bool figure = at > text && at[-1] >= '0' && at[-1] <= '9';
        text_add_n(&t, text, (size_t)(at - text));
        text_add(&t, figure ? "\u00a0%" : " %");
    }
    text_add(&t, text);
    return text_get(&t);
}

void render_html_toned(struct html *h, const char *text, enum tone tone)
{
    static const char *const sign[TONE_COUNT] = {"", "✓", "!", "✗", ""};
    if (*sign[tone] && *text) {
        html_open(h, "span");
        html_attr_print(h, "class", "sign %s", tone_name(tone));
        html_attr(h, "role", "img");
        html_attr(h, "aria-label", tone_name(tone));
        html_text(h, sign[tone]);
        html_close(h, "span");
        html_text(h, " ");
    }
    html_text(h, joined(h->out->arena, text));
}

void render_html_mark(struct html *h, enum mark mark)
{
    if (mark == MARK_NONE) return;
    html_open(h, "span");
    html_attr_print(h, "class", "mark %s", mark_word(mark));
    html_text(h, mark_word(mark));
    html_close(h, "span");
}

void render_html_caution(struct html *h, const char *text, const char *defer)
{
    html_open(h, "div");
    html_attr(h, "class", "caution");
    html_attr(h, "role", "note");
    html_open(h, "p");
    html_leaf(h, "strong", NULL, "CAUTION");
    html_print(h, " %s", text);
    html_close(h, "p");
    if (*defer) {
        html_open(h, "p");
        html_attr(h, "class", "defer");
        html_leaf(h, "b", NULL, "Defer to:");
        html_print(h, " %s", defer);
        html_close(h, "p");
    }
    html_close(h, "div");
}

/* Dates, verdicts, sums: a column of short words only is not broken where there is room. */
static bool is_short(const struct sheet_table *t, int column)
{
    for (int i = column; i < t->n_cells; i += t->n_columns)
        if (text_width(t->cells[i].text) > SHORT_CELL) return false;
    return true;
}

/* The class attribute of every cell of a column, NULL for none. Priority 1 needs no class. */
static const char **column_classes(struct arena *a, const struct sheet_table *t)
{
    const char **classes = ARENA_ARRAY(a, const char *, t->n_columns);
    for (int i = 0; i < t->n_columns; i++) {
        struct text s = {.arena = a};
        if (t->columns[i].align == ALIGN_RIGHT)
            text_add(&s, "figure");
        else if (is_short(t, i))
            text_add(&s, "short");
        if (t->columns[i].priority > 1)
            text_print(&s, "%sp%d", s.length ? " " : "", t->columns[i].priority);
        classes[i] = s.length ? text_get(&s) : NULL;
    }
    return classes;
}

static void table_head(struct html *h, const struct sheet_table *t, const char *const *classes)
{
    html_open(h, "thead");
    html_attr(h, "role", "rowgroup");
    html_open(h, "tr");
    html_attr(h, "role", "row");
    for (int i = 0; i < t->n_columns; i++) {
        bool named = *t->columns[i].name;
        const char *element = named ? "th" : "td";
        html_open(h, element);
        html_attr(h, "scope", named ? "col" : NULL);
        html_attr(h, "role", named ? "columnheader" : "cell");
        html_attr(h, "class", classes[i]);
        html_text(h, t->columns[i].name);
        html_close(h, element);
    }
    html_close(h, "tr");
    html_close(h, "thead");
}

static const char *joined_class(struct arena *a, const char *class_name, enum tone tone)
{
    if (!class_name || tone == TONE_PLAIN) return class_name ? class_name : tone_class(tone);
    return arena_print(a, "%s %s", class_name, tone_name(tone));
}

/* The first column names its row, save where it is left empty: as above. Roles are said again
 * because display:block, which the narrow layout needs, takes the table's meaning away in some
 * browsers. */
static void table_row(struct html *h, const struct sheet_table *t, int row,
                      const char *const *classes)
{
    html_open(h, "tr");
    html_attr(h, "role", "row");
    for (int i = 0; i < t->n_columns; i++) {
        const struct sheet_cell *cell = &t->cells[row * t->n_columns + i];
        bool names = i == 0 && *cell->text;
        const char *element = names ? "th" : "td";
        html_open(h, element);
        html_attr(h, "scope", names ? "row" : NULL);
        html_attr(h, "role", names ? "rowheader" : "cell");
        html_attr(h, "class", joined_class(h->out->arena, classes[i], cell->tone));
        html_attr(h, "data-label", t->columns[i].name);
        render_html_toned(h, cell->text, cell->tone);
        html_close(h, element);
    }
    html_close(h, "tr");
    html_text(h, "\n");
}

void render_html_table(struct html *h, const struct sheet_table *t)
{
    assert(t->n_columns > 0 && t->n_cells % t->n_columns == 0);
    const char **classes = column_classes(h->out->arena, t);
    if (*t->behind) {
        html_open(h, "details");
        html_leaf(h, "summary", NULL, t->behind);
    }
    html_open(h, "table");
    html_attr(h, "role", "table");
    if (*t->caption) html_leaf(h, "caption", NULL, t->caption);
    table_head(h, t, classes);
    html_open(h, "tbody");
    html_attr(h, "role", "rowgroup");
    for (int row = 0; row < t->n_cells / t->n_columns; row++) table_row(h, t, row, classes);
    html_close(h, "tbody");
    html_close(h, "table");
    if (*t->behind) html_close(h, "details");
}

static void pairs(struct html *h, const struct sheet_pairs *p)
{
    html_open(h, "dl");
    for (int i = 0; i < p->count; i++) {
        html_open(h, "div");
        html_leaf(h, "dt", NULL, p->items[i].name);
        html_open(h, "dd");
        const char *length = text_width(p->items[i].value) > SHORT_FACT ? "long" : NULL;
        html_attr(h, "class", joined_class(h->out->arena, length, p->items[i].tone));
        render_html_toned(h, p->items[i].value, p->items[i].tone);
        html_close(h, "dd");
        html_close(h, "div");
    }
    html_close(h, "dl");
}

static void note(struct html *h, enum mark mark, const char *text, const char *source)
{
    html_open(h, "p");
    html_attr(h, "class", "note");
    render_html_mark(h, mark);
    if (*text) html_print(h, "%s%s", mark == MARK_NONE ? "" : " ", text);
    if (*source) {
        html_open(h, "span");
        html_attr(h, "class", "source");
        html_print(h, " Source: %s", source);
        html_close(h, "span");
    }
    html_close(h, "p");
}

static void why(struct html *h, const struct sheet_why *w)
{
    html_open(h, "details");
    html_attr(h, "class", "why");
    html_leaf(h, "summary", NULL, w->question);
    if (w->inputs.count > 0) pairs(h, &w->inputs);
    if (*w->formula) html_leaf(h, "p", "formula", w->formula);
    if (w->mark != MARK_NONE || *w->source) note(h, w->mark, "", w->source);
    html_close(h, "details");
}

static void link_to(struct html *h, const char *text, const char *command, struct page_links links)
{
    const char *address =
        links.address ? links.address(links.context, h->out->arena, command) : NULL;
    html_open(h, "p");
    html_attr(h, "class", "onward");
    if (address) {
        html_open(h, "a");
        html_url(h, "href", address);
        html_text(h, text);
        html_close(h, "a");
    } else {
        html_print(h, "%s: ", text);
        html_open(h, "code");
        html_print(h, "fettle %s", command);
        html_close(h, "code");
    }
    html_close(h, "p");
}

static void list(struct html *h, const struct sheet_list *l)
{
    html_open(h, "ul");
    for (int i = 0; i < l->count; i++) html_leaf(h, "li", NULL, joined(h->out->arena, l->items[i]));
    html_close(h, "ul");
}

/* Levels of the headings that the sheet is inside of, outermost first. */
struct outline {
    int level[3], depth;
};

/* A screen reader's outline may not skip a rank, a sheet may: level 2 right below the title. */
static void heading(struct html *h, int level, const char *text, struct outline *within)
{
    static const char *const element[] = {"h1", "h2", "h3", "h4"};
    while (within->depth > 0 && within->level[within->depth - 1] >= level) within->depth--;
    within->level[within->depth++] = level;
    html_leaf(h, element[within->depth], NULL, text);
}

static void node(struct html *h, const struct sheet_node *n, struct page_links links,
                 struct outline *within)
{
    switch (n->kind) {
    case SHEET_HEADING:
        heading(h, n->as.heading.level, n->as.heading.text, within);
        break;
    case SHEET_TEXT:
        html_leaf(h, "p", NULL, joined(h->out->arena, n->as.text));
        break;
    case SHEET_FACTS:
        pairs(h, &n->as.facts);
        break;
    case SHEET_TABLE:
        render_html_table(h, &n->as.table);
        break;
    case SHEET_CHART:
        svg_chart(h, &n->as.chart);
        break;
    case SHEET_CAUTION:
        render_html_caution(h, n->as.caution.text, n->as.caution.defer);
        break;
    case SHEET_LINK:
        link_to(h, n->as.link.text, n->as.link.command, links);
        break;
    case SHEET_LIST:
        list(h, &n->as.list);
        break;
    case SHEET_NOTE:
        note(h, n->as.note.mark, n->as.note.text, n->as.note.source);
        break;
    case SHEET_WHY:
        why(h, &n->as.why);
        break;
    case SHEET_KINDS:
        assert(false);
    }
    html_text(h, "\n");
}

void render_html_sheet(struct html *h, const struct sheet *s, struct page_links links)
{
    if (*s->title) html_leaf(h, "h1", NULL, s->title);
    struct outline within = {0};
    for (const struct sheet_node *n = s->first; n; n = n->next) node(h, n, links, &within);
}
