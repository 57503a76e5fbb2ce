#include "garage/search.h"

#include "garage/store.h"

#include <string.h>

struct search {
    struct store store;
    sqlite3_stmt *add;
};

bool search_open(struct arena *a, struct search **out, struct fail *f)
{
    struct search *s = *out = ARENA_NEW(a, struct search);
    const int flags = SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_MEMORY;
    *s = (struct search){.add = NULL};
    if (store_open(&s->store, ":memory:", flags, "search", f) &&
        store_run(&s->store,
                  "CREATE VIRTUAL TABLE page USING fts5 (name, body, tokenize = 'unicode61 "
                  "remove_diacritics 2'); BEGIN",
                  f) &&
        store_prepare(&s->store, "INSERT INTO page (rowid, name, body) VALUES (?1, ?2, ?3)",
                      &s->add, f))
        return true;
    search_close(s);
    return false;
}

bool search_add(struct search *s, int number, const char *name, const char *text, struct fail *f)
{
    bool row;
    sqlite3_bind_int(s->add, 1, number + 1);
    sqlite3_bind_text(s->add, 2, name, -1, SQLITE_STATIC);
    sqlite3_bind_text(s->add, 3, text, -1, SQLITE_STATIC);
    const bool good = store_step(&s->store, s->add, &row, f);
    sqlite3_reset(s->add);
    return good;
}

/* Each word in quotation marks, so that none is taken for an operator. */
static const char *query_of(struct arena *a, const char *words, bool all)
{
    struct text t = {.arena = a};
    while (*(words += strspn(words, " "))) {
        const size_t n = strcspn(words, " ");
        text_print(&t, "%s\"", t.length ? (all ? " AND " : " OR ") : "");
        for (size_t i = 0; i < n; i++) {
            if (words[i] == '"') text_add(&t, "\"");
            text_add_n(&t, words + i, 1);
        }
        text_add(&t, "\"*");
        words += n;
    }
    return text_get(&t);
}

bool search_find(struct search *s, struct arena *a, const char *words, bool all, int most,
                 int **numbers, int *count, struct fail *f)
{
    sqlite3_stmt *q;
    bool row = false, good = true;
    const char *query = query_of(a, words, all);
    *numbers = ARENA_ARRAY(a, int, most);
    *count = 0;
    if (!*query) return true;
    if (!store_prepare(&s->store,
                       "SELECT rowid FROM page WHERE page MATCH ?1 ORDER BY bm25(page, 4, 1), "
                       "rowid LIMIT ?2",
                       &q, f))
        return false;
    sqlite3_bind_text(q, 1, query, -1, SQLITE_STATIC);
    sqlite3_bind_int(q, 2, most);
    while ((good = store_step(&s->store, q, &row, f)) && row)
        (*numbers)[(*count)++] = sqlite3_column_int(q, 0) - 1;
    sqlite3_finalize(q);
    return good;
}

void search_close(struct search *s)
{
    sqlite3_finalize(s->add);
    s->add = NULL;
    store_close(&s->store);
}
