/* row.h - a record as a row of its kind's table, both ways. The SQL follows from the declaration in
 * kinds.c. */
#ifndef GARAGE_ROW_H
#define GARAGE_ROW_H

#include "garage/store.h"

struct row_column {
    const char *name, *type; /* type: TEXT, INTEGER or REAL */
    bool required;           /* NOT NULL */
};

/* All columns of the kind's table in order; the first four are number, id, revision, at. */
struct row_column *row_columns(struct arena *a, const struct record_kind *k, int *count);
const char *row_table(struct arena *a, const struct record_kind *k); /* in double quotes */

/* Adds the row, or stores over the one of that number. */
bool row_put(struct store *s, struct arena scratch, const struct record *r, int64_t number,
             struct fail *f);
/* Refused while other records belong to it. */
bool row_remove(struct store *s, struct arena scratch, const struct record_kind *k, const char *id,
                struct fail *f);
/* The rows of a kind in order of their number; `where` is a condition with one parameter for
 * `word`, or NULL. */
bool row_list(struct store *s, struct arena *a, const struct record_kind *k, const char *where,
              const char *word, struct record **out, int *count, struct fail *f);

#endif
