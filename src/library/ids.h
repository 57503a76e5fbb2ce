/* ids.h - from an id to its index, one table a subject. */
#ifndef LIBRARY_IDS_H
#define LIBRARY_IDS_H

#include "base/arena.h"

struct id_row {
    const char *id;
    int index;
};
struct ids {
    struct id_row *row; /* sorted by id once ids_sort was called */
    int count;
    size_t capacity;
};

void ids_add(struct arena *a, struct ids *t, const char *id, int index);
void ids_sort(struct ids *t);                      /* equal ids stay in order of index */
int ids_find(const struct ids *t, const char *id); /* index, or -1 */
const char *ids_nearest(const struct ids *t, const char *word); /* or NULL */
/* Lower-case letters and digits, words joined by single '-'. */
bool id_is_good(const char *id);

#endif
