#include "library/ids.h"

#include "library/fault.h"

#include <stdlib.h>
#include <string.h>

void ids_add(struct arena *a, struct ids *t, const char *id, int index)
{
    t->row = arena_grow(a, t->row, (size_t)t->count, &t->capacity, sizeof *t->row);
    t->row[t->count++] = (struct id_row){id, index};
}

static int by_id(const void *a, const void *b)
{
    const struct id_row *x = a, *y = b;
    int ids = strcmp(x->id, y->id);
    return ids != 0 ? ids : x->index < y->index ? -1 : x->index > y->index;
}

void ids_sort(struct ids *t)
{
    if (t->count > 0) qsort(t->row, (size_t)t->count, sizeof *t->row, by_id);
}

static int row_is(const void *id, const void *row)
{
    return strcmp(id, ((const struct id_row *)row)->id);
}

int ids_find(const struct ids *t, const char *id)
{
    if (t->count == 0) return -1;
    const struct id_row *row = bsearch(id, t->row, (size_t)t->count, sizeof *t->row, row_is);
    return row ? row->index : -1;
}

const char *ids_nearest(const struct ids *t, const char *word)
{
    struct nearest n = nearest_to(word);
    for (int i = 0; i < t->count; i++) nearest_try(&n, t->row[i].id);
    return n.best;
}

bool id_is_good(const char *id)
{
    char before = '-';
    for (const char *c = id; *c; before = *c++) {
        bool letter = (*c >= 'a' && *c <= 'z') || (*c >= '0' && *c <= '9');
        if (!letter && (*c != '-' || before == '-')) return false;
    }
    return before != '-';
}
