/* store.h - the few calls on SQLite that the garage is made of; for src/garage alone.
 *
 * Every call that fails says so in one line of FAIL_GARAGE, with what to do about it. */
#ifndef GARAGE_STORE_H
#define GARAGE_STORE_H

#include "garage/garage.h"

#include <sqlite3.h>

struct store {
    sqlite3 *db;
    const char *name; /* the folder, for messages */
};

struct garage {
    struct store store;
    struct arena arena; /* its own; what an act takes is given back at the act's end */
    enum garage_mode mode;
    struct garage_source source;
    const char *time_zone;
    bool frozen;         /* in a folder that cannot be written: sees no change */
    bool in_act, broken; /* broken: something failed in this act, so it cannot be committed */
    char act_id[33];
    struct {
        sqlite3_stmt *version_query; /* NULL until it is wanted */
        int64_t version;
        char hex[65];      /* "": not known */
    } basis;               /* of a reader, as it was at that version: see garage_basis */
    struct pooled *pooled; /* what the pool knows of it; else NULL */
};

enum {
    STORE_APPLICATION_ID = 0x4674746c, /* "Fttl" in the header of the file */
    STORE_VERSION = 14,                /* of the schema; the last entry of the migrations' list */
};

/* How the database of an older program becomes one of this: run in order, each in a transaction of
 * its own that also sets the version. The list ends with sql NULL. */
struct migration {
    int to; /* schema version that it leads to */
    const char *sql;
};
/* Brings the database to `version`; one from a later version is refused. A reader may be told that
 * it needs it. */
bool store_migrate(struct store *s, const struct migration *list, int version, struct fail *f);

/* Opens path with everything set that the ground rules ask for. `flags` are those of
 * sqlite3_open_v2. */
bool store_open(struct store *s, const char *path, int flags, const char *name, struct fail *f);
void store_close(struct store *s);
/* Says why the last call on s failed; always false. */
bool store_fail(const struct store *s, const char *doing, struct fail *f);

bool store_run(struct store *s, const char *sql, struct fail *f); /* statements without results */
bool store_prepare(struct store *s, const char *sql, sqlite3_stmt **out, struct fail *f);
/* *row: is there a row? A failure or the end leaves the statement to be finalized by the caller. */
bool store_step(struct store *s, sqlite3_stmt *statement, bool *row, struct fail *f);
/* The first column of the first row; `fallback` if there is none. Up to two texts are bound (NULL:
 * none). */
bool store_ask(struct store *s, const char *sql, const char *one, const char *two, int64_t fallback,
               int64_t *out, struct fail *f);
bool store_version(struct store *s, int *version, struct fail *f);

/* Digests of the files that the journal speaks of, each once, in order. */
bool store_files(struct store *s, struct arena *a, const char ***out, int *count, struct fail *f);

#endif
