/* replay.c - reads the journal's table, and lets rows follow from its entries. */
#include "garage/replay.h"

#include <string.h>

static const char select_all[] =
    "SELECT number, chain, sequence, entry, hash, salt, private FROM journal "
    "ORDER BY number";
static const char select_chain[] =
    "SELECT number, chain, sequence, entry, hash, salt, private FROM journal "
    "WHERE chain = ? ORDER BY sequence";

bool replay_head(struct store *s, const char *chain, struct replay_head *out, struct fail *f)
{
    sqlite3_stmt *q;
    bool row;
    memset(out->hash, '0', 64);
    out->hash[64] = '\0';
    out->sequence = 0;
    if (!store_prepare(
            s, "SELECT sequence, hash FROM journal WHERE chain = ? ORDER BY sequence DESC LIMIT 1",
            &q, f))
        return false;
    sqlite3_bind_text(q, 1, chain, -1, SQLITE_STATIC);
    bool ok = store_step(s, q, &row, f);
    if (ok && row) {
        out->sequence = sqlite3_column_int64(q, 0);
        const void *hash =
            sqlite3_column_blob(q, 1); /* the schema says 32 bytes, or an altered file lies */
        if (sqlite3_column_bytes(q, 1) == JOURNAL_HASH_BYTES)
            journal_hex(out->hash, hash, JOURNAL_HASH_BYTES);
    }
    sqlite3_finalize(q);
    return ok;
}

static const char *column_copy(struct arena *a, sqlite3_stmt *q, int i, size_t *n)
{
    const void *bytes = sqlite3_column_blob(q, i);
    *n = (size_t)sqlite3_column_bytes(q, i);
    return bytes ? arena_copy_n(a, bytes, *n) : "";
}

static void read_row(struct arena *a, sqlite3_stmt *q, struct replay_row *row)
{
    size_t n;
    struct journal_entry *e = &row->entry;
    *row = (struct replay_row){.entry.number = sqlite3_column_int64(q, 0)};
    row->chain = column_copy(a, q, 1, &n);
    row->sequence = sqlite3_column_int64(q, 2);
    e->bytes = column_copy(a, q, 3, &e->length);
    const char *hash = column_copy(a, q, 4, &n);
    if (n == sizeof e->hash) memcpy(e->hash, hash, n);
    if (sqlite3_column_type(q, 6) != SQLITE_NULL) {
        const char *salt = column_copy(a, q, 5, &n);
        if (n == sizeof e->salt) memcpy(e->salt, salt, n);
        e->private_json = column_copy(a, q, 6, &n);
    }
    struct fail why = {0};
    if (!journal_read(a, e, &why)) row->unread = arena_copy(a, why.text);
}

bool replay_walk(struct store *s, struct arena scratch, replay_each *each, void *context,
                 struct fail *f)
{
    sqlite3_stmt *q;
    bool more, ok;
    if (!store_prepare(s, select_all, &q, f)) return false;
    while ((ok = store_step(s, q, &more, f)) && more) {
        struct arena own = scratch;
        struct replay_row row;
        read_row(&own, q, &row);
        if (!(ok = each(context, own, &row, f))) break;
    }
    sqlite3_finalize(q);
    return ok;
}

bool garage_journal(struct garage *g, struct arena *a, const char *vehicle,
                    struct journal_entry **out, int *count, struct fail *f)
{
    sqlite3_stmt *q;
    bool more, ok;
    struct journal_entry *list = NULL;
    size_t n = 0, capacity = 0;
    if (!store_prepare(&g->store, select_chain, &q, f)) return false;
    sqlite3_bind_text(q, 1, vehicle ? vehicle : "garage", -1, SQLITE_STATIC);
    while ((ok = store_step(&g->store, q, &more, f)) && more) {
        struct replay_row row;
        read_row(a, q, &row);
        ok = !row.unread || fail_set(f, FAIL_GARAGE, "%s: %s; run: fettle garage check",
                                     g->store.name, row.unread);
        if (!ok) break;
        list = arena_grow(a, list, n, &capacity, sizeof *list);
        list[n++] = row.entry;
    }
    sqlite3_finalize(q);
    *out = list;
    *count = (int)n;
    return ok;
}

/* A record keeps the place of its first entry for ever, so that the order "oldest first" outlives
 * an undo. */
static bool place_of(struct store *rows, struct store *journal, struct arena scratch,
                     const struct journal_entry *e, int64_t *number, struct fail *f)
{
    *number = e->number;
    if (e->act == JOURNAL_ADD) return true;
    const char *sql =
        arena_print(&scratch, "SELECT number FROM %s WHERE id = ?", row_table(&scratch, e->kind));
    if (!store_ask(rows, sql, e->id, NULL, 0, number, f)) return false;
    if (*number) return true;
    return store_ask(journal,
                     "SELECT min(number) FROM journal WHERE chain = ? AND "
                     "json_extract(CAST(entry AS TEXT), '$.id') = ?",
                     e->chain, e->id, e->number, number, f);
}

bool replay_entry(struct store *rows, struct store *journal, struct arena scratch,
                  const struct journal_entry *e, struct fail *f)
{
    int64_t number;
    if (!e->record) return row_remove(rows, scratch, e->kind, e->id, f);
    return place_of(rows, journal, scratch, e, &number, f) &&
           row_put(rows, scratch, e->record, number, f);
}
