/* row.c - records to rows and back, from the declaration alone. */
#include "garage/row.h"

#include "garage/file.h"

#include <assert.h>
#include <string.h>

enum { FIRST_COLUMNS = 4, COLUMNS_A_FIELD = 4 };

/* The columns that a field of each type has: what follows its name, and the type. The rest are
 * NULL. */
static const struct {
    const char *suffix, *type;
} shapes[][COLUMNS_A_FIELD] = {
    [FIELD_TEXT] = {{"", "TEXT"}},
    [FIELD_INTEGER] = {{"", "INTEGER"}},
    [FIELD_NUMBER] = {{"", "REAL"}},
    [FIELD_QUANTITY] = {{"_typed", "TEXT"}, {"", "REAL"}},
    [FIELD_CHOICE] = {{"", "TEXT"}},
    [FIELD_YES] = {{"", "INTEGER"}},
    [FIELD_DAY] = {{"", "TEXT"}},
    [FIELD_CLOCK] = {{"", "INTEGER"}},
    [FIELD_MONEY] = {{"_minor", "INTEGER"}, {"_currency", "TEXT"}},
    [FIELD_POINTS] = {{"_low", "REAL"}, {"_middle", "REAL"}, {"_high", "REAL"}},
    [FIELD_MONEY_POINTS] = {{"_low", "INTEGER"},
                            {"_middle", "INTEGER"},
                            {"_high", "INTEGER"},
                            {"_currency", "TEXT"}},
    [FIELD_FILE] = {{"", "TEXT"}},
    [FIELD_PARENT] = {{"", "TEXT"}},
};

static char *underscored(struct arena *a, const char *name)
{
    char *s = arena_copy(a, name);
    for (char *c = s; *c; c++)
        if (*c == '-') *c = '_';
    return s;
}

const char *row_table(struct arena *a, const struct record_kind *k)
{
    return arena_print(a, "\"%s\"", underscored(a, k->name));
}

struct row_column *row_columns(struct arena *a, const struct record_kind *k, int *count)
{
    static const struct row_column first[FIRST_COLUMNS] = {{"number", "INTEGER", false},
                                                           {"id", "TEXT", true},
                                                           {"revision", "INTEGER", true},
                                                           {"at", "TEXT", true}};
    struct row_column *c =
        ARENA_ARRAY(a, struct row_column, FIRST_COLUMNS + COLUMNS_A_FIELD * k->n_fields);
    int n = FIRST_COLUMNS;
    memcpy(c, first, sizeof first);
    for (int i = 0; i < k->n_fields; i++) {
        const struct field *d = &k->fields[i];
        for (int j = 0; j < COLUMNS_A_FIELD && shapes[d->type][j].type; j++)
            c[n++] = (struct row_column){
                arena_print(a, "%s%s", underscored(a, d->name), shapes[d->type][j].suffix),
                shapes[d->type][j].type, d->required && !d->private_};
    }
    *count = n;
    return c;
}

/* ---- a value to its columns, and back; `at` is moved past them ---- */

static void bind_value(sqlite3_stmt *q, int *at, const struct field *d, const struct value *v)
{
    int i = *at;
    for (int j = 0; j < COLUMNS_A_FIELD && shapes[d->type][j].type; j++) ++*at;
    if (!v->set) return; /* a parameter that is not bound is NULL */
    switch (d->type) {
    case FIELD_TEXT:
    case FIELD_CHOICE:
    case FIELD_DAY:
    case FIELD_FILE:
    case FIELD_PARENT:
        sqlite3_bind_text(q, i, v->text, -1, SQLITE_STATIC);
        break;
    case FIELD_INTEGER:
    case FIELD_YES:
    case FIELD_CLOCK:
        sqlite3_bind_int64(q, i, v->integer);
        break;
    case FIELD_NUMBER:
        sqlite3_bind_double(q, i, v->number);
        break;
    case FIELD_QUANTITY:
        sqlite3_bind_text(q, i, v->text, -1, SQLITE_STATIC);
        sqlite3_bind_double(q, i + 1, v->number);
        break;
    case FIELD_MONEY:
        sqlite3_bind_int64(q, i, v->money.minor);
        sqlite3_bind_text(q, i + 1, v->money.currency, -1, SQLITE_STATIC);
        break;
    case FIELD_POINTS:
        sqlite3_bind_double(q, i, v->points.low);
        sqlite3_bind_double(q, i + 1, v->points.middle);
        sqlite3_bind_double(q, i + 2, v->points.high);
        break;
    case FIELD_MONEY_POINTS: /* whole minor units below 10^13: exact in a double */
        sqlite3_bind_int64(q, i, (int64_t)v->points.low);
        sqlite3_bind_int64(q, i + 1, (int64_t)v->points.middle);
        sqlite3_bind_int64(q, i + 2, (int64_t)v->points.high);
        sqlite3_bind_text(q, i + 3, v->money.currency, -1, SQLITE_STATIC);
        break;
    }
}

static const char *column_text(struct arena *a, sqlite3_stmt *q, int i)
{
    const char *s = (const char *)sqlite3_column_text(q, i);
    return arena_copy(a, s ? s : "");
}

static bool read_currency(sqlite3_stmt *q, int i, struct money *out)
{
    const char *s = (const char *)sqlite3_column_text(q, i);
    int digits;
    if (!s || !currency_digits(s, &digits)) return false;
    memcpy(out->currency, s, sizeof out->currency);
    return true;
}

/* False if the row holds what no record can: it was altered from outside. */
static bool read_value(struct arena *a, sqlite3_stmt *q, int *at, const struct field *d,
                       struct value *v)
{
    int i = *at, n = 0;
    while (n < COLUMNS_A_FIELD && shapes[d->type][n].type) n++;
    *at += n;
    for (int j = 0; j < n; j++)
        if (sqlite3_column_type(q, i + j) == SQLITE_NULL) return true;
    *v = (struct value){.set = true, .day = DAY_NONE};
    struct fail ignored = {0};
    switch (d->type) {
    case FIELD_TEXT:
    case FIELD_PARENT:
        v->text = column_text(a, q, i);
        break;
    case FIELD_FILE:
        v->text = column_text(a, q, i);
        if (!file_is_digest(v->text)) return false;
        break;
    case FIELD_CHOICE:
        v->text = column_text(a, q, i);
        while (d->choices[v->integer] && !text_is(v->text, d->choices[v->integer])) v->integer++;
        if (!d->choices[v->integer]) return false;
        break;
    case FIELD_DAY:
        if (!day_parse(column_text(a, q, i), &v->day, &ignored)) return false;
        break;
    case FIELD_CLOCK:
    case FIELD_YES:
        v->integer = sqlite3_column_int64(q, i);
        if (v->integer < 0 || v->integer > (d->type == FIELD_YES ? 1 : MINUTES_A_DAY)) return false;
        break;
    case FIELD_INTEGER:
        v->integer = sqlite3_column_int64(q, i);
        v->number = (double)v->integer;
        break;
    case FIELD_NUMBER:
        v->number = sqlite3_column_double(q, i);
        break;
    case FIELD_QUANTITY:
        v->text = column_text(a, q, i);
        v->number = sqlite3_column_double(q, i + 1);
        break;
    case FIELD_MONEY:
        v->money.minor = sqlite3_column_int64(q, i);
        if (!read_currency(q, i + 1, &v->money)) return false;
        break;
    case FIELD_MONEY_POINTS:
        if (!read_currency(q, i + 3, &v->money)) return false; /* fall through */
    case FIELD_POINTS:
        v->points = (struct points){sqlite3_column_double(q, i), sqlite3_column_double(q, i + 1),
                                    sqlite3_column_double(q, i + 2)};
        if (!points_valid(v->points)) return false;
        break;
    }
    value_normalise(a, d, v);
    return true;
}

/* ---- statements ---- */

bool row_put(struct store *s, struct arena scratch, const struct record *r, int64_t number,
             struct fail *f)
{
    int n;
    const struct row_column *c = row_columns(&scratch, r->kind, &n);
    struct text names = {.arena = &scratch}, marks = names, sets = names;
    for (int i = 0; i < n; i++) {
        text_print(&names, "%s\"%s\"", i ? ", " : "", c[i].name);
        text_add(&marks, i ? ", ?" : "?");
        if (i)
            text_print(&sets, "%s\"%s\" = excluded.\"%s\"", i > 1 ? ", " : "", c[i].name,
                       c[i].name);
    }
    const char *sql = arena_print(
        &scratch, "INSERT INTO %s (%s) VALUES (%s) ON CONFLICT (number) DO UPDATE SET %s",
        row_table(&scratch, r->kind), text_get(&names), text_get(&marks), text_get(&sets));
    sqlite3_stmt *q;
    bool row;
    if (!store_prepare(s, sql, &q, f)) return false;
    sqlite3_bind_int64(q, 1, number);
    sqlite3_bind_text(q, 2, r->id, -1, SQLITE_STATIC);
    sqlite3_bind_int(q, 3, r->revision);
    sqlite3_bind_text(q, 4, r->at, -1, SQLITE_STATIC);
    int at = FIRST_COLUMNS + 1;
    for (int i = 0; i < r->kind->n_fields; i++)
        bind_value(q, &at, &r->kind->fields[i], &r->values[i]);
    bool ok = store_step(s, q, &row, f);
    sqlite3_finalize(q);
    return ok;
}

bool row_remove(struct store *s, struct arena scratch, const struct record_kind *k, const char *id,
                struct fail *f)
{
    sqlite3_stmt *q;
    const char *sql = arena_print(&scratch, "DELETE FROM %s WHERE id = ?", row_table(&scratch, k));
    if (!store_prepare(s, sql, &q, f)) return false;
    sqlite3_bind_text(q, 1, id, -1, SQLITE_STATIC);
    int code = sqlite3_step(q);
    bool ok = code == SQLITE_DONE;
    if (code == SQLITE_CONSTRAINT_FOREIGNKEY)
        fail_set(f, FAIL_INPUT, "%s %s: other records belong to it; remove those first", k->name,
                 id);
    else if (!ok)
        store_fail(s, "removing", f);
    sqlite3_finalize(q);
    return ok;
}

bool row_list(struct store *s, struct arena *a, const struct record_kind *k, const char *where,
              const char *word, struct record **out, int *count, struct fail *f)
{
    /* The statement's text and the rows share the arena: a few hundred bytes a list are not worth a
     * second one. */
    int n_columns;
    const struct row_column *c = row_columns(a, k, &n_columns);
    struct text sql = {.arena = a};
    for (int i = 0; i < n_columns; i++)
        text_print(&sql, "%s\"%s\"", i ? ", " : "SELECT ", c[i].name);
    text_print(&sql, " FROM %s%s%s ORDER BY number", row_table(a, k), where ? " WHERE " : "",
               where ? where : "");
    sqlite3_stmt *q;
    if (!store_prepare(s, text_get(&sql), &q, f)) return false;
    if (where) sqlite3_bind_text(q, 1, word, -1, SQLITE_STATIC);
    struct record *list = NULL;
    size_t n = 0, capacity = 0;
    bool row, ok;
    while ((ok = store_step(s, q, &row, f)) && row) {
        list = arena_grow(a, list, n, &capacity, sizeof *list);
        struct record *r = &list[n++];
        *r = (struct record){.kind = k, .values = ARENA_ARRAY(a, struct value, k->n_fields)};
        const char *id = column_text(a, q, 1), *at = column_text(a, q, 3);
        strncpy(r->id, id, sizeof r->id - 1);
        strncpy(r->at, at, sizeof r->at - 1);
        r->revision = sqlite3_column_int(q, 2);
        int column = FIRST_COLUMNS;
        for (int i = 0; ok && i < k->n_fields; i++)
            ok = read_value(a, q, &column, &k->fields[i], &r->values[i]) ||
                 fail_set(f, FAIL_GARAGE,
                          "%s: %s %s: its row was altered in '%s'; run: fettle garage rebuild",
                          s->name, k->name, r->id, k->fields[i].name);
        if (!ok) break;
    }
    sqlite3_finalize(q);
    *out = list;
    *count = (int)n;
    return ok;
}
