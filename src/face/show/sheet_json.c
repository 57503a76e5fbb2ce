#include "face/show/sheet_json.h"

#include "base/text.h"

#include <assert.h>
#include <math.h>

static json_t *pairs_to_json(const struct sheet_pairs *p)
{
    json_t *out = json_array();
    for (int i = 0; i < p->count; i++) {
        const struct sheet_pair *pair = &p->items[i];
        json_array_append_new(out,
                              json_pack("[s, s, i]", pair->name, pair->value, (int)pair->tone));
    }
    return out;
}

static json_t *table_to_json(const struct sheet_table *t)
{
    json_t *columns = json_array(), *cells = json_array();
    for (int i = 0; i < t->n_columns; i++) {
        const struct sheet_column *c = &t->columns[i];
        json_array_append_new(columns, json_pack("[s, i, i]", c->name, (int)c->align, c->priority));
    }
    for (int i = 0; i < t->n_cells; i++)
        json_array_append_new(cells, json_pack("[s, i]", t->cells[i].text, (int)t->cells[i].tone));
    return json_pack("{s: s, s: s, s: o, s: o}", "caption", t->caption, "behind", t->behind,
                     "columns", columns, "cells", cells);
}

static json_t *limits_to_json(const struct chart_limit *limits, int count)
{
    json_t *out = json_array();
    for (int i = 0; i < count; i++)
        json_array_append_new(out, json_pack("[f, s]", limits[i].at, limits[i].text));
    return out;
}

static json_t *chart_to_json(const struct sheet_chart *c)
{
    json_t *rows = json_array(), *series = json_array(), *pieces = json_array();
    for (int i = 0; i < c->n_rows; i++) {
        const struct chart_row *r = &c->rows[i];
        json_array_append_new(rows, json_pack("[s, s, f, f, f, i, i]", r->label, r->text, r->low,
                                              r->middle, r->high, (int)r->tone, (int)r->how));
    }
    for (int i = 0; i < c->n_series; i++) json_array_append_new(series, json_string(c->series[i]));
    for (int i = 0; i < c->n_pieces; i++) {
        const struct chart_piece *p = &c->pieces[i];
        json_array_append_new(pieces, json_pack("[i, i, f, f]", p->series, p->row, p->x, p->y));
    }
    return json_pack("{s: i, s: s, s: s, s: f, s: s, s: f, s: s, s: f, s: s, s: o, s: o, s: o, "
                     "s: o, s: o}",
                     "chart", (int)c->kind, "title", c->title, "unit", c->unit, "low", c->low,
                     "low_text", c->low_text, "high", c->high, "high_text", c->high_text, "rise",
                     c->rise, "rise_text", c->rise_text, "rows", rows, "limits",
                     limits_to_json(c->limits, c->n_limits), "ticks",
                     limits_to_json(c->ticks, c->n_ticks), "series", series, "pieces", pieces);
}

static json_t *list_to_json(const struct sheet_list *l)
{
    json_t *items = json_array();
    for (int i = 0; i < l->count; i++) json_array_append_new(items, json_string(l->items[i]));
    return json_pack("{s: o}", "items", items);
}

static json_t *node_to_json(const struct sheet_node *n)
{
    json_t *out = NULL;
    switch (n->kind) {
    case SHEET_HEADING:
        out = json_pack("{s: i, s: s}", "level", n->as.heading.level, "text", n->as.heading.text);
        break;
    case SHEET_TEXT:
        out = json_pack("{s: s}", "text", n->as.text);
        break;
    case SHEET_FACTS:
        out = json_pack("{s: o}", "pairs", pairs_to_json(&n->as.facts));
        break;
    case SHEET_TABLE:
        out = table_to_json(&n->as.table);
        break;
    case SHEET_CHART:
        out = chart_to_json(&n->as.chart);
        break;
    case SHEET_CAUTION:
        out = json_pack("{s: s, s: s}", "text", n->as.caution.text, "defer", n->as.caution.defer);
        break;
    case SHEET_LINK:
        out = json_pack("{s: s, s: s}", "text", n->as.link.text, "command", n->as.link.command);
        break;
    case SHEET_LIST:
        out = list_to_json(&n->as.list);
        break;
    case SHEET_NOTE:
        out = json_pack("{s: i, s: s, s: s}", "mark", (int)n->as.note.mark, "text", n->as.note.text,
                        "source", n->as.note.source);
        break;
    case SHEET_WHY:
        out = json_pack("{s: s, s: s, s: i, s: s, s: o}", "question", n->as.why.question, "formula",
                        n->as.why.formula, "mark", (int)n->as.why.mark, "source", n->as.why.source,
                        "inputs", pairs_to_json(&n->as.why.inputs));
        break;
    case SHEET_KINDS:
        break;
    }
    assert(out); /* jansson refuses only what is not UTF-8, and that is refused where it is typed */
    json_object_set_new(out, "kind", json_string(sheet_kind_name(n->kind)));
    return out;
}

json_t *sheet_to_json(const struct sheet *s)
{
    json_t *nodes = json_array();
    for (const struct sheet_node *n = s->first; n; n = n->next)
        json_array_append_new(nodes, node_to_json(n));
    return json_pack("{s: s, s: o}", "title", s->title, "nodes", nodes);
}

/* ---- and back ---- */

static bool one_of(int value, int count)
{
    return value >= 0 && value < count;
}

static bool tone_from(const json_t *row, size_t at, enum tone *out)
{
    const json_t *j = json_array_get(row, at);
    if (!json_is_integer(j) || !one_of((int)json_integer_value(j), TONE_COUNT)) return false;
    *out = (enum tone)json_integer_value(j);
    return true;
}

static bool text_from(const json_t *j, const char **out)
{
    *out = json_string_value(j);
    return *out != NULL;
}

static bool number_from(const json_t *j, double *out)
{
    *out = json_number_value(j);
    return json_is_number(j);
}

static bool key_text(const json_t *j, const char *key, const char **out)
{
    return text_from(json_object_get(j, key), out);
}

static bool key_index(const json_t *j, const char *key, int count, int *out)
{
    const json_t *value = json_object_get(j, key);
    if (!json_is_integer(value)) return false;
    *out = (int)json_integer_value(value);
    return one_of(*out, count);
}

static bool facts_from(struct sheet *s, const json_t *j)
{
    const json_t *pairs = json_object_get(j, "pairs");
    for (size_t i = 0; i < json_array_size(pairs); i++) {
        const json_t *pair = json_array_get(pairs, i);
        const char *name, *value;
        enum tone tone;
        if (!text_from(json_array_get(pair, 0), &name) ||
            !text_from(json_array_get(pair, 1), &value) || !tone_from(pair, 2, &tone))
            return false;
        sheet_fact(s, tone, name, "%s", value);
    }
    return json_array_size(pairs) > 0;
}

static bool table_from(struct sheet *s, const json_t *j)
{
    const json_t *columns = json_object_get(j, "columns"), *cells = json_object_get(j, "cells");
    const char *caption, *behind;
    if (!key_text(j, "caption", &caption) || !key_text(j, "behind", &behind)) return false;
    struct sheet_table *t = sheet_table(s, caption);
    sheet_behind(s, t, "%s", behind);
    for (size_t i = 0; i < json_array_size(columns); i++) {
        const json_t *c = json_array_get(columns, i);
        const char *name;
        if (!text_from(json_array_get(c, 0), &name)) return false;
        json_int_t align = json_integer_value(json_array_get(c, 1));
        json_int_t priority = json_integer_value(json_array_get(c, 2));
        if (align < ALIGN_LEFT || align > ALIGN_RIGHT || priority < 1 || priority > 1000)
            return false;
        sheet_column(s, t, name, (enum align)align, (int)priority);
    }
    if (t->n_columns == 0 || json_array_size(cells) % (size_t)t->n_columns != 0) return false;
    for (size_t i = 0; i < json_array_size(cells); i++) {
        const char *text;
        enum tone tone;
        const json_t *cell = json_array_get(cells, i);
        if (!text_from(json_array_get(cell, 0), &text) || !tone_from(cell, 1, &tone)) return false;
        sheet_cell(s, t, tone, "%s", text);
    }
    return true;
}

static bool limits_from(struct sheet *s, struct sheet_chart *c, const json_t *limits,
                        void (*add)(struct sheet *, struct sheet_chart *, double, const char *))
{
    for (size_t i = 0; i < json_array_size(limits); i++) {
        const json_t *limit = json_array_get(limits, i);
        double at;
        const char *text;
        if (!number_from(json_array_get(limit, 0), &at) ||
            !text_from(json_array_get(limit, 1), &text))
            return false;
        add(s, c, at, text);
    }
    return true;
}

static bool pieces_from(struct sheet *s, struct sheet_chart *c, const json_t *j)
{
    const json_t *series = json_object_get(j, "series"), *pieces = json_object_get(j, "pieces");
    const char *name;
    if (json_array_size(series) > CHART_SERIES_MOST) return false;
    for (size_t i = 0; i < json_array_size(series); i++) {
        if (!text_from(json_array_get(series, i), &name)) return false;
        sheet_chart_series(s, c, name);
    }
    for (size_t i = 0; i < json_array_size(pieces); i++) {
        const json_t *piece = json_array_get(pieces, i);
        const json_t *of = json_array_get(piece, 0), *row = json_array_get(piece, 1);
        struct chart_piece p = {(int)json_integer_value(of), (int)json_integer_value(row), 0, 0};
        if (!json_is_integer(of) || !one_of(p.series, c->n_series) || !json_is_integer(row) ||
            (c->kind == CHART_SPANS && !one_of(p.row, c->n_rows)) ||
            !number_from(json_array_get(piece, 2), &p.x) ||
            !number_from(json_array_get(piece, 3), &p.y))
            return false;
        sheet_chart_piece(s, c, p);
    }
    return c->n_pieces == 0 || c->kind == CHART_SPANS || c->kind == CHART_CURVES;
}

static bool chart_from(struct sheet *s, const json_t *j)
{
    int kind;
    const char *title, *unit, *low_text, *high_text, *rise_text;
    double low, high, rise;
    if (!key_index(j, "chart", CHART_KINDS, &kind) || !key_text(j, "title", &title) ||
        !key_text(j, "unit", &unit) || !key_text(j, "low_text", &low_text) ||
        !key_text(j, "high_text", &high_text) || !number_from(json_object_get(j, "low"), &low) ||
        !number_from(json_object_get(j, "high"), &high) || !(low < high) ||
        !number_from(json_object_get(j, "rise"), &rise) || !(rise > 0) ||
        !key_text(j, "rise_text", &rise_text))
        return false;
    struct sheet_chart *c =
        sheet_chart(s, (enum chart_kind)kind, title, unit, low, low_text, high, high_text);
    sheet_chart_rise(s, c, rise, rise_text);
    const json_t *rows = json_object_get(j, "rows");
    for (size_t i = 0; i < json_array_size(rows); i++) {
        const json_t *row = json_array_get(rows, i), *how = json_array_get(row, 6);
        struct chart_row r;
        if (!text_from(json_array_get(row, 0), &r.label) ||
            !text_from(json_array_get(row, 1), &r.text) ||
            !number_from(json_array_get(row, 2), &r.low) ||
            !number_from(json_array_get(row, 3), &r.middle) ||
            !number_from(json_array_get(row, 4), &r.high) || !tone_from(row, 5, &r.tone) ||
            !json_is_integer(how) || !one_of((int)json_integer_value(how), ROW_TABLE + 1))
            return false;
        r.how = (enum row_how)json_integer_value(how);
        sheet_chart_row(s, c, r);
    }
    return limits_from(s, c, json_object_get(j, "limits"), sheet_chart_limit) &&
           limits_from(s, c, json_object_get(j, "ticks"), sheet_chart_tick) && pieces_from(s, c, j);
}

static bool list_from(struct sheet *s, const json_t *j)
{
    const json_t *items = json_object_get(j, "items");
    for (size_t i = 0; i < json_array_size(items); i++) {
        const char *text;
        if (!text_from(json_array_get(items, i), &text)) return false;
        sheet_item(s, "%s", text);
    }
    return json_array_size(items) > 0;
}

static bool why_from(struct sheet *s, const json_t *j)
{
    const char *question, *formula, *source;
    int mark;
    if (!key_text(j, "question", &question) || !key_text(j, "formula", &formula) ||
        !key_text(j, "source", &source) || !key_index(j, "mark", MARK_DEMO + 1, &mark))
        return false;
    struct sheet_why *w = sheet_why(s, question, formula, (enum mark)mark, source);
    const json_t *inputs = json_object_get(j, "inputs");
    for (size_t i = 0; i < json_array_size(inputs); i++) {
        const json_t *pair = json_array_get(inputs, i);
        const char *name, *value;
        if (!text_from(json_array_get(pair, 0), &name) ||
            !text_from(json_array_get(pair, 1), &value))
            return false;
        sheet_why_input(s, w, name, "%s", value);
    }
    return true;
}

static bool node_from(struct sheet *s, const json_t *j)
{
    const char *kind, *text, *more;
    int index;
    if (!key_text(j, "kind", &kind)) return false;
    if (text_is(kind, "facts")) return facts_from(s, j);
    if (text_is(kind, "table")) return table_from(s, j);
    if (text_is(kind, "chart")) return chart_from(s, j);
    if (text_is(kind, "list")) return list_from(s, j);
    if (text_is(kind, "why")) return why_from(s, j);
    if (!key_text(j, "text", &text)) return false;
    if (text_is(kind, "text")) {
        sheet_text(s, "%s", text);
    } else if (text_is(kind, "heading")) {
        if (!key_index(j, "level", 4, &index) || index == 0) return false;
        sheet_heading(s, index, text);
    } else if (text_is(kind, "caution")) {
        if (!key_text(j, "defer", &more)) return false;
        sheet_caution(s, text, more);
    } else if (text_is(kind, "link")) {
        if (!key_text(j, "command", &more)) return false;
        sheet_link(s, text, more);
    } else if (text_is(kind, "note")) {
        if (!key_text(j, "source", &more) || !key_index(j, "mark", MARK_DEMO + 1, &index))
            return false;
        sheet_note(s, (enum mark)index, text, more);
    } else {
        return false;
    }
    return true;
}

bool sheet_from_json(struct arena *a, const json_t *json, struct sheet **out, struct fail *f)
{
    const char *title;
    const json_t *nodes = json_object_get(json, "nodes");
    if (!key_text(json, "title", &title) || !json_is_array(nodes))
        return fail_set(f, FAIL_INPUT,
                        "a kept sheet cannot be read: no title or nodes; reckon it again");
    struct sheet *s = sheet_new(a, title);
    for (size_t i = 0; i < json_array_size(nodes); i++)
        if (!node_from(s, json_array_get(nodes, i)))
            return fail_set(f, FAIL_INPUT, "a kept sheet cannot be read: node %zu; reckon it again",
                            i + 1);
    *out = s;
    return true;
}
