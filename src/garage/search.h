/* search.h - a full-text index of a moment, in memory (SQLite's FTS5): filled, asked, and gone. It
 * holds no facts, so nothing has to be kept in step with them. */
#ifndef GARAGE_SEARCH_H
#define GARAGE_SEARCH_H

#include "base/arena.h"
#include "base/fail.h"

struct search;

bool search_open(struct arena *a, struct search **out, struct fail *f);
/* number: what search_find gives back. name weighs more than text. */
bool search_add(struct search *s, int number, const char *name, const char *text, struct fail *f);
/* Those that have all words, or the beginnings of words, the best first; all = false: any of them.
 * words: apart by blanks. */
bool search_find(struct search *s, struct arena *a, const char *words, bool all, int most,
                 int **numbers, int *count, struct fail *f);
void search_close(struct search *s);

#endif
