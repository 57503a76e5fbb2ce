/* check.c - is the garage what its journal says? The rows are made again beside, in memory, from
 * the journal, and compared with those that are there; so one piece of code serves for writing,
 * rebuilding and checking. */
#include "garage/file.h"
#include "garage/replay.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <sodium.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

extern const char embed_schema[];

struct checker {
    struct garage *g;
    struct text *report;
    struct store twin; /* what the rows should be */
    int faults, entries;
    struct {
        const char *chain;
        int64_t sequence;
        char hash[65];
    } * heads;
    int n_heads;
    size_t room;
};

__attribute__((format(printf, 2, 3))) static void fault(struct checker *c, const char *format, ...)
{
    va_list args;
    char line[900];
    va_start(args, format);
    vsnprintf(line, sizeof line, format, args);
    va_end(args);
    text_print(c->report, "%s\n", line);
    c->faults++;
}

/* ---- SQLite's own checks ---- */

static void check_pragma(struct checker *c, const char *pragma, const char *good)
{
    sqlite3_stmt *q;
    bool row;
    struct fail f = {0};
    if (!store_prepare(&c->g->store, pragma, &q, &f)) {
        fault(c, "%s", f.text);
        return;
    }
    while (store_step(&c->g->store, q, &row, &f) && row) {
        const char *s = (const char *)sqlite3_column_text(q, 0);
        if (!good || !text_is(s, good)) fault(c, "database: %s: %s", pragma, s ? s : "?");
    }
    if (f.kind) fault(c, "%s", f.text);
    sqlite3_finalize(q);
}

/* ---- the journal ---- */

static int head_of(struct checker *c, const char *chain)
{
    for (int i = 0; i < c->n_heads; i++)
        if (text_is(c->heads[i].chain, chain)) return i;
    c->heads =
        arena_grow(c->report->arena, c->heads, (size_t)c->n_heads, &c->room, sizeof *c->heads);
    c->heads[c->n_heads].chain = arena_copy(c->report->arena, chain);
    c->heads[c->n_heads].sequence = 0;
    memset(c->heads[c->n_heads].hash, '0', 64);
    c->heads[c->n_heads].hash[64] = '\0';
    return c->n_heads++;
}

static bool check_entry(void *context, struct arena scratch, const struct replay_row *row,
                        struct fail *f)
{
    struct checker *c = context;
    const struct journal_entry *e = &row->entry;
    struct fail why = {0};
    long long number = (long long)e->number;
    (void)f;
    if (e->number != ++c->entries)
        fault(c, "journal entry %lld: stands where %d should; one was left out or moved", number,
              c->entries);
    if (row->unread) {
        fault(c, "%s", row->unread);
        return true;
    }
    if (!text_is(row->chain, e->chain) || row->sequence != e->sequence)
        fault(c, "journal entry %lld: its place in the table is not what it says itself", number);
    int i = head_of(c, e->chain);
    if (!journal_follows(e, c->heads[i].hash, c->heads[i].sequence + 1, &why))
        fault(c, "journal entry %lld: %s", number, why.text);
    c->heads[i].sequence = e->sequence;
    journal_hex(c->heads[i].hash, e->hash, sizeof e->hash);
    why = (struct fail){0};
    if (!replay_entry(&c->twin, &c->g->store, scratch, e, &why))
        fault(c, "journal entry %lld: cannot be replayed: %s", number, why.text);
    return true;
}

/* ---- two databases side by side ---- */

static bool same_value(sqlite3_stmt *a, sqlite3_stmt *b, int i)
{
    int type = sqlite3_column_type(a, i);
    if (type != sqlite3_column_type(b, i)) return false;
    if (type == SQLITE_NULL) return true;
    if (type == SQLITE_FLOAT) return sqlite3_column_double(a, i) == sqlite3_column_double(b, i);
    if (type == SQLITE_INTEGER) return sqlite3_column_int64(a, i) == sqlite3_column_int64(b, i);
    int n = sqlite3_column_bytes(a, i);
    return n == sqlite3_column_bytes(b, i) &&
           (!n || memcmp(sqlite3_column_blob(a, i), sqlite3_column_blob(b, i), (size_t)n) == 0);
}

/* Does the question have the same answer in both? The first difference is told. */
static void compare(struct checker *c, const char *what, const char *sql)
{
    sqlite3_stmt *here = NULL, *there = NULL;
    bool more_here = false, more_there = false, same = true;
    struct fail f = {0};
    if (store_prepare(&c->g->store, sql, &here, &f) && store_prepare(&c->twin, sql, &there, &f))
        while (same && store_step(&c->g->store, here, &more_here, &f) &&
               store_step(&c->twin, there, &more_there, &f)) {
            if (!more_here && !more_there) break;
            same = more_here && more_there;
            for (int i = 0; same && i < sqlite3_column_count(here); i++)
                same = same_value(here, there, i);
            if (!same)
                fault(c, "%s %s: is not what the journal says; run: fettle garage rebuild", what,
                      (const char *)sqlite3_column_text(more_here ? here : there, 1));
        }
    if (f.kind) fault(c, "%s", f.text);
    sqlite3_finalize(here);
    sqlite3_finalize(there);
}

static void check_rows(struct checker *c, struct arena scratch)
{
    compare(c, "schema:", "SELECT type, name FROM sqlite_schema ORDER BY type, name");
    for (const struct record_kind *const *k = record_kinds; *k; k++) {
        struct arena own = scratch;
        struct text sql = {.arena = &own};
        int n;
        const struct row_column *column = row_columns(&own, *k, &n);
        for (int i = 0; i < n; i++)
            text_print(&sql, "%s\"%s\"", i ? ", " : "SELECT ", column[i].name);
        text_print(&sql, " FROM %s ORDER BY number", row_table(&own, *k));
        compare(c, (*k)->name, text_get(&sql));
    }
}

/* ---- files, named by their digest ---- */

static bool digest_file(const char *path, char hex[65])
{
    unsigned char block[1 << 16], digest[crypto_hash_sha256_BYTES];
    crypto_hash_sha256_state state;
    ssize_t n;
    int fd = open(path, O_RDONLY | O_CLOEXEC | O_NOFOLLOW);
    if (fd < 0) return false;
    crypto_hash_sha256_init(&state);
    while ((n = read(fd, block, sizeof block)) > 0)
        crypto_hash_sha256_update(&state, block, (unsigned long long)n);
    close(fd);
    crypto_hash_sha256_final(&state, digest);
    journal_hex(hex, digest, sizeof digest);
    return n == 0;
}

static void check_files(struct checker *c, struct arena scratch)
{
    const char *folder = arena_print(&scratch, "%s/files", c->g->store.name);
    DIR *dir = opendir(folder);
    if (!dir) {
        fault(c, "files: %s; make an empty folder files/, or put back a copy", strerror(errno));
        return;
    }
    for (const struct dirent *d; (d = readdir(dir));) {
        char hex[65];
        struct arena own = scratch;
        if (d->d_name[0] == '.') continue;
        if (!digest_file(arena_print(&own, "%s/%s", folder, d->d_name), hex))
            fault(c, "files/%s: cannot be read; put back a copy", d->d_name);
        else if (strncmp(hex, d->d_name, 64) != 0)
            fault(c, "files/%s: its bytes do not have the digest in its name; put back a copy",
                  d->d_name);
    }
    closedir(dir);
    const char **named;
    int n;
    struct fail why = {0};
    if (!store_files(&c->g->store, &scratch, &named, &n, &why)) {
        fault(c, "files: %s", why.text);
        return;
    }
    for (int i = 0; i < n; i++) {
        struct arena own = scratch;
        if (access(file_path(&own, c->g->store.name, named[i]), F_OK) != 0)
            fault(c, "files/%s: is missing; put back a copy", named[i]);
    }
}

/* ---- both acts ---- */

bool garage_check(struct garage *g, struct text *report, int *entries, int *faults, struct fail *f)
{
    struct checker c = {.g = g, .report = report};
    if (!store_open(&c.twin, ":memory:", SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, g->store.name,
                    f))
        return false;
    /* The twin is filled even where entries are missing. */
    bool own = !g->in_act;
    bool ok = store_run(&c.twin, "PRAGMA foreign_keys = OFF", f) &&
              store_run(&c.twin, embed_schema, f) && (!own || store_run(&g->store, "BEGIN", f));
    if (ok) {
        struct arena scratch = arena_open((size_t)1 << 30);
        struct fail damaged = {0};
        check_pragma(&c, "PRAGMA integrity_check(20)", "ok");
        check_pragma(&c, "PRAGMA foreign_key_check", NULL);
        if (!replay_walk(&g->store, scratch, check_entry, &c, &damaged))
            fault(&c, "%s", damaged.text);
        check_rows(&c, scratch);
        check_files(&c, scratch);
        arena_close(&scratch);
        if (own) store_run(&g->store, "COMMIT", &damaged);
    }
    store_close(&c.twin);
    *entries = c.entries;
    *faults = c.faults;
    return ok;
}

static bool rebuild_entry(void *context, struct arena scratch, const struct replay_row *row,
                          struct fail *f)
{
    struct checker *c = context;
    const struct journal_entry *e = &row->entry;
    struct fail why = {0};
    if (row->unread)
        return fail_set(f, FAIL_GARAGE, "%s; put back a copy of the garage", row->unread);
    int i = head_of(c, e->chain);
    if (!journal_follows(e, c->heads[i].hash, c->heads[i].sequence + 1, &why))
        return fail_set(f, FAIL_GARAGE, "journal entry %lld: %s; put back a copy of the garage",
                        (long long)e->number, why.text);
    c->heads[i].sequence = e->sequence;
    journal_hex(c->heads[i].hash, e->hash, sizeof e->hash);
    c->entries++;
    return replay_entry(&c->g->store, &c->g->store, scratch, e, f);
}

bool garage_rebuild(struct garage *g, int *entries, struct fail *f)
{
    struct arena scratch = arena_open((size_t)1 << 30), heads = arena_open(1 << 20);
    struct text none = {.arena = &heads};
    struct checker c = {.g = g, .report = &none};
    int last = 0;
    while (record_kinds[last]) last++;
    bool ok = garage_begin(g, f) && store_run(&g->store, "PRAGMA defer_foreign_keys = ON", f);
    for (int i = last - 1; ok && i >= 0; i--) {
        struct arena own = scratch;
        ok = store_run(&g->store,
                       arena_print(&own, "DELETE FROM %s", row_table(&own, record_kinds[i])), f);
    }
    ok = ok && replay_walk(&g->store, scratch, rebuild_entry, &c, f) && garage_commit(g, f);
    garage_rollback(g);
    *entries = c.entries;
    arena_close(&heads);
    arena_close(&scratch);
    return ok;
}
