#include "face/show/show_records.h"

#include "base/text.h"

#include <assert.h>
#include <string.h>

enum { FIELDS_IN_A_TABLE = 10 }; /* a table of more is no longer read across */

static const char *short_id(struct arena *a, const struct record *r)
{
    return arena_copy_n(a, r->id, RECORD_ID_SHOWN);
}

static const char *shown(struct arena *a, const struct record *r, int field,
                         const struct record *parents, int n_parents)
{
    const struct value *v = &r->values[field];
    if (!v->set) return "";
    if (r->kind->fields[field].type == FIELD_FILE) return arena_copy_n(a, v->text, RECORD_ID_SHOWN);
    if (r->kind->fields[field].type != FIELD_PARENT) return v->text;
    for (int i = 0; i < n_parents; i++)
        if (text_is(parents[i].id, v->text))
            return record_text(&parents[i], parents[i].kind->label_field, v->text);
    return arena_copy_n(a, v->text, RECORD_ID_SHOWN);
}

static bool is_vehicle(const struct field *d)
{
    return d->type == FIELD_PARENT && text_is(d->parent_kind, "vehicle");
}

static bool is_figure(enum field_type t)
{
    return t == FIELD_INTEGER || t == FIELD_NUMBER || t == FIELD_QUANTITY || t == FIELD_MONEY ||
           t == FIELD_CLOCK;
}

/* Where room is short: what must be given stays, then what was seen; the vehicle goes first. */
static int priority_of(const struct field *d)
{
    if (is_vehicle(d)) return 5;
    if (d->required) return 1;
    if (text_is(d->name, "note")) return 2;
    return d->type == FIELD_DAY ? 3 : 4;
}

static void as_blocks(struct sheet *s, const struct record_kind *k, const struct record *records,
                      int count, const struct record *parents, int n_parents)
{
    for (int i = 0; i < count; i++) {
        const struct record *r = &records[i];
        const char *label = k->label_field ? record_text(r, k->label_field, "") : "";
        sheet_heading(s, 2, *label ? label : short_id(s->arena, r));
        sheet_fact(s, TONE_FAINT, "id", "%s", short_id(s->arena, r));
        for (int c = 0; c < k->n_fields; c++) {
            const char *value = shown(s->arena, r, c, parents, n_parents);
            if (*value && !text_is(k->fields[c].name, k->label_field))
                sheet_fact(s, TONE_PLAIN, k->fields[c].name, "%s", value);
        }
    }
    if (count == 0) sheet_text(s, "None yet.");
}

struct sheet *show_records(struct arena *a, const struct record_kind *k,
                           const struct record *records, int count, const struct record *parents,
                           int n_parents)
{
    struct sheet *s = sheet_new(a, arena_print(a, "%s: %d", k->plural, count));
    if (k->n_fields > FIELDS_IN_A_TABLE) {
        as_blocks(s, k, records, count, parents, n_parents);
        return s;
    }
    /* What tells records apart comes first; the vehicle only where there are several. */
    int order[FIELDS_IN_A_TABLE], n = 0, n_vehicles = 0;
    for (int i = 0; i < n_parents; i++) n_vehicles += text_is(parents[i].kind->name, "vehicle");
    for (int c = 0; c < k->n_fields; c++)
        if (k->fields[c].type != FIELD_PARENT) order[n++] = c;
    for (int c = 0; c < k->n_fields; c++)
        if (k->fields[c].type == FIELD_PARENT && (n_vehicles > 1 || !is_vehicle(&k->fields[c])))
            order[n++] = c;
    struct sheet_table *t = sheet_table(s, "");
    for (int i = 0; i < n; i++) {
        const struct field *d = &k->fields[order[i]];
        sheet_column(s, t, d->name, is_figure(d->type) ? ALIGN_RIGHT : ALIGN_LEFT, priority_of(d));
    }
    sheet_column(s, t, "id", ALIGN_LEFT, 1);
    for (int i = 0; i < count; i++) {
        for (int c = 0; c < n; c++)
            sheet_cell(s, t, TONE_PLAIN, "%s", shown(a, &records[i], order[c], parents, n_parents));
        sheet_cell(s, t, TONE_FAINT, "%s", short_id(a, &records[i]));
    }
    return s;
}

const char *field_type_words(struct arena *a, const struct field *d)
{
    switch (d->type) {
    case FIELD_TEXT:
        return "words";
    case FIELD_INTEGER:
        return "a whole number";
    case FIELD_NUMBER:
        return "a number";
    case FIELD_QUANTITY:
        return arena_print(a, "%s with its unit", quantity_name(d->quantity));
    case FIELD_YES:
        return "yes or no";
    case FIELD_DAY:
        return "a day, 2026-11-25";
    case FIELD_CLOCK:
        return "a time, 19:00";
    case FIELD_MONEY:
        return "a sum, 12.50 GBP";
    case FIELD_POINTS:
        return "low/middle/high";
    case FIELD_MONEY_POINTS:
        return "sums, 800/1200/2000 GBP";
    case FIELD_FILE:
        return "a file, by its path";
    case FIELD_PARENT:
        return arena_print(a, "%s of a %s",
                           record_kind_find(d->parent_kind)->label_field ? "name" : "id",
                           d->parent_kind);
    case FIELD_CHOICE:
        break;
    }
    struct text t = {.arena = a};
    for (int i = 0; d->choices[i]; i++) text_print(&t, "%s%s", i ? ", " : "one of ", d->choices[i]);
    return text_get(&t);
}

struct sheet *show_kind(struct arena *a, const struct record_kind *k)
{
    struct sheet *s = sheet_new(a, k->name);
    sheet_text(s, "%s.", k->help);
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "field", ALIGN_LEFT, 1);
    sheet_column(s, t, "takes", ALIGN_LEFT, 1);
    sheet_column(s, t, "meaning", ALIGN_LEFT, 1);
    for (int i = 0; i < k->n_fields; i++) {
        const struct field *d = &k->fields[i];
        bool asked = d->required && !is_vehicle(d); /* the only vehicle is found by itself */
        sheet_cell(s, t, TONE_PLAIN, "%s%s", d->name, asked ? " *" : "");
        sheet_cell(s, t, TONE_PLAIN, "%s", field_type_words(a, d));
        sheet_cell(s, t, TONE_PLAIN, "%s%s", d->help, d->private_ ? " (private)" : "");
    }
    sheet_text(s, "* must be given. Private: can be left out of a history that is handed on.");
    return s;
}

struct sheet *show_kinds(struct arena *a)
{
    struct sheet *s = sheet_new(a, "kinds of record");
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "kind", ALIGN_LEFT, 1);
    sheet_column(s, t, "what it holds", ALIGN_LEFT, 1);
    for (int i = 0; record_kinds[i]; i++) {
        sheet_cell(s, t, TONE_PLAIN, "%s", record_kinds[i]->name);
        sheet_cell(s, t, TONE_PLAIN, "%s", record_kinds[i]->help);
    }
    sheet_link(s, "The fields of a kind", "kinds KIND");
    return s;
}

static json_t *points_to_json(struct points p)
{
    return json_pack("{s: f, s: f, s: f}", "low", p.low, "middle", p.middle, "high", p.high);
}

static json_t *sum(double minor)
{
    return json_integer((json_int_t)minor); /* whole by contract, below 10^13 */
}

static json_t *value_to_json(const struct field *d, const struct value *v)
{
    switch (d->type) {
    case FIELD_INTEGER:
        return json_integer(v->integer);
    case FIELD_NUMBER:
        return json_real(v->number);
    case FIELD_YES:
        return json_boolean(v->integer != 0);
    case FIELD_QUANTITY:
        return json_pack("{s: s, s: f}", "text", v->text, "si", v->number);
    case FIELD_MONEY:
        return json_pack("{s: I, s: s}", "amount", (json_int_t)v->money.minor, "currency",
                         v->money.currency);
    case FIELD_POINTS:
        return points_to_json(v->points);
    case FIELD_MONEY_POINTS:
        return json_pack("{s: o, s: o, s: o, s: s}", "low", sum(v->points.low), "middle",
                         sum(v->points.middle), "high", sum(v->points.high), "currency",
                         v->money.currency);
    case FIELD_TEXT:
    case FIELD_CHOICE:
    case FIELD_DAY:
    case FIELD_CLOCK:
    case FIELD_FILE:
    case FIELD_PARENT:
        break;
    }
    return json_string(v->text);
}

json_t *record_to_json(const struct record *r)
{
    json_t *out =
        json_pack("{s: s, s: i, s: s}", "id", r->id, "revision", r->revision, "at", r->at);
    for (int i = 0; i < r->kind->n_fields; i++)
        if (r->values[i].set)
            json_object_set_new(out, r->kind->fields[i].name,
                                value_to_json(&r->kind->fields[i], &r->values[i]));
    return out;
}

json_t *kind_to_json(struct arena *a, const struct record_kind *k)
{
    json_t *fields = json_array();
    for (int i = 0; i < k->n_fields; i++) {
        const struct field *d = &k->fields[i];
        json_t *field = json_pack("{s: s, s: s, s: b, s: b, s: s}", "field", d->name, "takes",
                                  field_type_words(a, d), "required", d->required, "private",
                                  d->private_, "help", d->help);
        json_array_append_new(fields, field);
    }
    return json_pack("{s: s, s: s, s: o}", "kind", k->name, "help", k->help, "fields", fields);
}
