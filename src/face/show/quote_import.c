#include "face/show/quote_import.h"

#include "base/csv.h"
#include "garage/kinds.h"
#include "model/facts_buy.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

enum { COLUMN_CURRENCY = -1, COLUMNS_MOST = 32 };

struct importing {
    struct arena *a;
    struct garage *g;
    const struct trade *t;
    const char *supplier;
    day today;
    struct quote_import *out;
    struct record **records;
    const char *word; /* the supplier found last, and by what */
    struct record *found;
    int fields[COLUMNS_MOST]; /* of the columns; COLUMN_CURRENCY */
    int n_columns;
};

static bool fault(struct importing *x, int line, const char *why)
{
    struct quote_import *out = x->out;
    out->faults = arena_grow(x->a, out->faults, (size_t)out->n_faults, &out->faults_capacity,
                             sizeof *out->faults);
    out->faults[out->n_faults++] =
        line ? arena_print(x->a, "line %d: %s", line, why) : arena_copy(x->a, why);
    return false;
}

static bool has_column(const struct importing *x, int field)
{
    for (int i = 0; i < x->n_columns; i++)
        if (x->fields[i] == field) return true;
    return false;
}

static const char *trimmed(struct arena *a, const char *s)
{
    while (*s == ' ') s++;
    size_t n = strlen(s);
    while (n > 0 && s[n - 1] == ' ') n--;
    return arena_copy_n(a, s, n);
}

static bool no_column(struct importing *x, int line, const char *name)
{
    const struct record_kind *k = &kind_quote;
    struct text names = {.arena = x->a};
    const char *near = NULL;
    int best = 3;
    for (int i = 0; i <= k->n_fields; i++) {
        const char *known = i < k->n_fields ? k->fields[i].name : "currency";
        int edits = text_distance(name, known);
        if (edits < best) {
            best = edits;
            near = known;
        }
        text_print(&names, "%s%s", i ? ", " : "", known);
    }
    return fault(
        x, line,
        near ? arena_print(x->a, "no column '%.60s'; did you mean '%s'?", name, near)
             : arena_print(x->a, "no column '%.60s'; columns are %s", name, text_get(&names)));
}

/* Which field is in which column. */
static bool take_header(struct importing *x, const struct csv_row *row)
{
    if (row->n_cells > COLUMNS_MOST)
        return fault(x, row->line, "names more columns than a quote has fields");
    for (int i = 0; i < row->n_cells; i++) {
        const char *name = trimmed(x->a, row->cells[i]);
        int field = record_field(&kind_quote, name);
        if (field < 0 && !text_same_word(name, "currency")) {
            no_column(x, row->line, name);
            field = -2;
        } else if (has_column(x, field)) {
            fault(x, row->line, arena_print(x->a, "column '%s' is there twice", name));
        }
        x->fields[x->n_columns++] = field;
    }
    for (int i = 0; i < kind_quote.n_fields; i++) {
        const struct field *d = &kind_quote.fields[i];
        if (!d->required || has_column(x, i) || (d->type == FIELD_PARENT && x->supplier)) continue;
        fault(x, row->line,
              arena_print(x->a, "no column '%s'%s", d->name,
                          d->type == FIELD_PARENT ? "; add it, or say supplier=NAME" : ""));
    }
    return x->out->n_faults == 0;
}

static const char *currency_of(const struct importing *x, const struct csv_row *row)
{
    for (int i = 0; i < x->n_columns; i++)
        if (x->fields[i] == COLUMN_CURRENCY) return trimmed(x->a, row->cells[i]);
    return "";
}

/* A sum gets the currency of the row, unless it has one; two that differ are refused. */
static bool sum_of(struct importing *x, const struct field *d, const char *currency,
                   const char **cell, struct fail *f)
{
    struct fail ignored = {0};
    struct money own;
    if (d->type != FIELD_MONEY || !**cell || !*currency) return true;
    if (!money_parse(*cell, NULL, &own, &ignored)) {
        *cell = arena_print(x->a, "%s %s", *cell, currency);
        return true;
    }
    return text_same_word(own.currency, currency) ||
           fail_set(f, FAIL_INPUT, "quote.%s: '%s' is in %s, but the column currency says '%s'",
                    d->name, *cell, own.currency, currency);
}

/* Rows of one supplier mostly follow each other. */
static bool settle_supplier(struct importing *x, struct record *r, struct fail *f)
{
    const char *word = record_text(r, "supplier", "");
    if (!text_is(word, x->word)) {
        if (!garage_find(x->g, x->a, &kind_supplier, word, &x->found, f)) return false;
        x->word = word;
    }
    return record_set(x->a, r, "supplier", x->found->id, NULL, f);
}

static bool fill(struct importing *x, const struct csv_row *row, struct record *r, struct fail *f)
{
    const char *currency = currency_of(x, row);
    struct text today = {.arena = x->a};
    day_print(&today, x->today);
    if (!record_set(x->a, r, "date", text_get(&today), NULL, f) ||
        (x->supplier && !record_set(x->a, r, "supplier", x->supplier, NULL, f)))
        return false;
    for (int i = 0; i < x->n_columns; i++) {
        if (x->fields[i] < 0) continue;
        const struct field *d = &kind_quote.fields[x->fields[i]];
        const char *cell = trimmed(x->a, row->cells[i]);
        bool may_stay = text_is(d->name, "date") || d->type == FIELD_PARENT;
        if (!*cell && may_stay) continue;
        if (!sum_of(x, d, currency, &cell, f) || !record_set(x->a, r, d->name, cell, NULL, f))
            return false;
    }
    return record_valid(r, f) && facts_buy_settle(x->a, x->t, r, f) && settle_supplier(x, r, f);
}

static void take_row(struct importing *x, const struct csv_row *row)
{
    struct fail f = {0};
    struct record *r = record_new(x->a, &kind_quote);
    if (row->n_cells != x->n_columns)
        fault(x, row->line,
              arena_print(x->a, "%d cell%s, but the first line names %d columns", row->n_cells,
                          row->n_cells == 1 ? "" : "s", x->n_columns));
    else if (!fill(x, row, r, &f))
        fault(x, row->line, f.text);
    else
        x->records[x->out->added++] = r;
}

static bool refuse(struct importing *x, struct fail *f)
{
    const int n = x->out->n_faults;
    x->out->added = 0;
    return fail_set(f, FAIL_INPUT, "quote: %d fault%s; mend %s and import again, nothing was taken",
                    n, n == 1 ? "" : "s", n == 1 ? "it" : "them");
}

static bool store(struct importing *x, struct fail *f)
{
    if (!garage_begin(x->g, f)) return false;
    bool ok = true;
    for (int i = 0; i < x->out->added && ok; i++) ok = garage_add(x->g, x->records[i], f);
    if (ok && garage_commit(x->g, f)) return true;
    garage_rollback(x->g);
    x->out->added = 0;
    return false;
}

bool quote_import(struct arena *a, struct garage *g, const struct trade *t, const char *supplier,
                  const char *bytes, size_t n, day today, struct quote_import *out, struct fail *f)
{
    struct importing x = {.a = a, .g = g, .t = t, .supplier = supplier, .today = today, .out = out};
    struct csv csv;
    struct record *known;
    struct fail broken = {0};
    *out = (struct quote_import){0};
    if (supplier && !garage_find(g, a, &kind_supplier, supplier, &known, f)) return false;
    if (!csv_read(a, bytes, n, &csv, &broken)) {
        fault(&x, 0, broken.text);
    } else if (csv.n_rows < 2) {
        fault(&x, 1, "a first line that names the columns, then a line a quote, were expected");
    } else if (take_header(&x, &csv.rows[0])) {
        x.records = ARENA_ARRAY(a, struct record *, csv.n_rows);
        for (int i = 1; i < csv.n_rows; i++) take_row(&x, &csv.rows[i]);
    }
    return out->n_faults == 0 ? store(&x, f) : refuse(&x, f);
}

bool quote_import_path(struct arena *a, struct garage *g, const struct trade *t,
                       const char *supplier, const char *path, day today, struct quote_import *out,
                       struct fail *f)
{
    *out = (struct quote_import){0};
    FILE *from = fopen(path, "rbe");
    char *bytes = ARENA_ARRAY(a, char, QUOTE_FILE_MOST + 1);
    if (!from)
        return fail_set(f, FAIL_INPUT, "%s: %s; give the path of a CSV file", path,
                        strerror(errno));
    const size_t n = fread(bytes, 1, QUOTE_FILE_MOST + 1, from);
    const bool bad = ferror(from) != 0;
    fclose(from);
    if (bad) return fail_set(f, FAIL_INPUT, "%s: cannot be read; give a CSV file", path);
    if (n > QUOTE_FILE_MOST)
        return fail_set(f, FAIL_INPUT, "%s: is longer than %d MB; import it in parts", path,
                        QUOTE_FILE_MOST >> 20);
    return quote_import(a, g, t, supplier, bytes, n, today, out, f);
}
