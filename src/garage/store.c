/* store.c - SQLite: opened as the ground rules ask, asked, and its errors said in plain words. */
#include "garage/store.h"

enum { BUSY_WAIT_MS = 60000 }; /* an act takes milliseconds; a minute means that something hangs */

static const char *remedy(int code)
{
    switch (code & 0xff) {
    case SQLITE_FULL:
        return "the disk is full; nothing was changed: free some space and try again";
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return "another program keeps the garage locked; close it and try again";
    case SQLITE_READONLY:
        return "the garage cannot be written to; check who owns the folder and whether the disk is "
               "write-protected";
    case SQLITE_NOTADB:
        return "garage.db is not a database; put back a copy of the garage";
    case SQLITE_CORRUPT:
        return "garage.db is damaged or cut short; put back a copy of the garage, or run: fettle "
               "garage check";
    case SQLITE_CANTOPEN:
    case SQLITE_PERM:
    case SQLITE_AUTH:
        return "garage.db cannot be opened; check who owns the folder";
    case SQLITE_IOERR:
        return "the disk failed to read or write; nothing was changed: check the disk and try "
               "again";
    default:
        return "an unexpected answer of the database; run: fettle garage check";
    }
}

bool store_fail(const struct store *s, const char *doing, struct fail *f)
{
    int code = s->db ? sqlite3_extended_errcode(s->db) : SQLITE_NOMEM;
    return fail_set(f, FAIL_GARAGE, "%s: %s: %s (SQLite %d: %s)", s->name, doing, remedy(code),
                    code, s->db ? sqlite3_errmsg(s->db) : "out of memory");
}

bool store_open(struct store *s, const char *path, int flags, const char *name, struct fail *f)
{
    *s = (struct store){.name = name};
    int code =
        sqlite3_open_v2(path, &s->db, flags | SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_EXRESCODE, NULL);
    if (code == SQLITE_OK) {
        sqlite3_busy_timeout(s->db, BUSY_WAIT_MS);
        sqlite3_db_config(s->db, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
        sqlite3_db_config(s->db, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, NULL);
        sqlite3_db_config(s->db, SQLITE_DBCONFIG_DQS_DML, 0, NULL);
        sqlite3_db_config(s->db, SQLITE_DBCONFIG_DQS_DDL, 0, NULL);
        sqlite3_db_config(s->db, SQLITE_DBCONFIG_ENABLE_FKEY, 1, NULL);
        if (store_run(s, "PRAGMA synchronous = FULL; PRAGMA cell_size_check = ON", f)) return true;
    } else {
        store_fail(s, "opening", f);
    }
    store_close(s);
    return false;
}

void store_close(struct store *s)
{
    sqlite3_close_v2(s->db);
    s->db = NULL;
}

bool store_run(struct store *s, const char *sql, struct fail *f)
{
    if (sqlite3_exec(s->db, sql, NULL, NULL, NULL) == SQLITE_OK) return true;
    return store_fail(s, "using the database", f);
}

bool store_prepare(struct store *s, const char *sql, sqlite3_stmt **out, struct fail *f)
{
    if (sqlite3_prepare_v2(s->db, sql, -1, out, NULL) == SQLITE_OK) return true;
    return store_fail(s, "using the database", f);
}

bool store_step(struct store *s, sqlite3_stmt *statement, bool *row, struct fail *f)
{
    int code = sqlite3_step(statement);
    *row = code == SQLITE_ROW;
    if (code == SQLITE_ROW || code == SQLITE_DONE) return true;
    return store_fail(s, "using the database", f);
}

bool store_ask(struct store *s, const char *sql, const char *one, const char *two, int64_t fallback,
               int64_t *out, struct fail *f)
{
    sqlite3_stmt *q;
    bool row;
    if (!store_prepare(s, sql, &q, f)) return false;
    if (one) sqlite3_bind_text(q, 1, one, -1, SQLITE_STATIC);
    if (two) sqlite3_bind_text(q, 2, two, -1, SQLITE_STATIC);
    bool ok = store_step(s, q, &row, f);
    if (ok)
        *out =
            row && sqlite3_column_type(q, 0) != SQLITE_NULL ? sqlite3_column_int64(q, 0) : fallback;
    sqlite3_finalize(q);
    return ok;
}

bool store_version(struct store *s, int *version, struct fail *f)
{
    int64_t n;
    if (!store_ask(s, "PRAGMA user_version", NULL, NULL, 0, &n, f)) return false;
    *version = (int)n;
    return true;
}

/* One step, if it is still wanted once we hold the lock: another process may have taken it
 * meanwhile. */
static bool migrate_step(struct store *s, const struct migration *m, struct fail *f)
{
    char set_version[64];
    sqlite3_snprintf(sizeof set_version, set_version, "PRAGMA user_version = %d", m->to);
    int version;
    if (!store_run(s, "BEGIN IMMEDIATE", f)) return false;
    if (store_version(s, &version, f) &&
        (version >= m->to || (store_run(s, m->sql, f) && store_run(s, set_version, f))) &&
        store_run(s, "COMMIT", f))
        return true;
    if (!sqlite3_get_autocommit(s->db)) sqlite3_exec(s->db, "ROLLBACK", NULL, NULL, NULL);
    return false;
}

bool store_migrate(struct store *s, const struct migration *list, int version, struct fail *f)
{
    int now;
    if (!store_version(s, &now, f)) return false;
    if (now > version)
        return fail_set(
            f, FAIL_GARAGE,
            "%s: was made by a newer version of this program (schema %d, this one knows %d); "
            "use that version",
            s->name, now, version);
    for (; list->sql; list++) {
        if (list->to != now + 1 || list->to > version) continue;
        if (!migrate_step(s, list, f)) return false;
        now++;
    }
    if (!store_version(s, &now, f)) return false;
    if (now >= version) return true;
    return fail_set(f, FAIL_GARAGE,
                    "%s: has schema %d, from which no step leads to %d; put back a copy", s->name,
                    now, version);
}
