/* garage.c - a garage made, opened and closed; an act begun and ended. */
#include "garage/garage.h"
#include "garage/place.h"
#include "garage/store.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <pwd.h>
#include <sodium.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

extern const char embed_schema[]; /* schema.sql */

enum { WORKING_BYTES = 1 << 28 }; /* only what is touched is taken from the system */

/* From the schemas of older programs to schema.sql. */
static const struct migration migrations[] = {
    {2, "CREATE TABLE photograph (number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, revision "
        "INTEGER NOT NULL, at TEXT NOT NULL, vehicle TEXT NOT NULL REFERENCES vehicle (id), "
        "component TEXT, place TEXT, note TEXT, taken TEXT, file TEXT NOT NULL, type TEXT NOT "
        "NULL, width INTEGER NOT NULL, height INTEGER NOT NULL) STRICT; "
        "CREATE INDEX photograph_vehicle ON photograph (vehicle)"},
    {3, "ALTER TABLE vehicle ADD COLUMN owned TEXT; CREATE TABLE advert ( number INTEGER "
        "PRIMARY KEY, id TEXT NOT NULL UNIQUE, revision INTEGER NOT NULL, at TEXT NOT "
        "NULL, vehicle TEXT NOT NULL REFERENCES vehicle (id), asked_minor INTEGER, "
        "asked_currency TEXT, carriage_minor INTEGER, carriage_currency TEXT, "
        "distance_typed TEXT, distance REAL, place TEXT, seller TEXT, date TEXT, says "
        "TEXT, minutes INTEGER, odds REAL, serves TEXT, remains_low INTEGER, "
        "remains_middle INTEGER, remains_high INTEGER, remains_currency TEXT, "
        "room_a_month_minor INTEGER, room_a_month_currency TEXT, months REAL ) STRICT; "
        "CREATE INDEX advert_vehicle ON advert (vehicle); CREATE TABLE sign ( number "
        "INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, revision INTEGER NOT NULL, at TEXT "
        "NOT NULL, vehicle TEXT NOT NULL REFERENCES vehicle (id), sign TEXT NOT NULL, met "
        "INTEGER NOT NULL, date TEXT, note TEXT ) STRICT; CREATE INDEX sign_vehicle ON "
        "sign (vehicle)"},
    {4, "CREATE TABLE comparable ( number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, "
        "revision INTEGER NOT NULL, at TEXT NOT NULL, vehicle TEXT NOT NULL REFERENCES "
        "vehicle (id), price_minor INTEGER, price_currency TEXT, how TEXT NOT NULL, date "
        "TEXT NOT NULL, grade REAL NOT NULL, original REAL, distance_typed TEXT, distance "
        "REAL, note TEXT ) STRICT; CREATE INDEX comparable_vehicle ON comparable "
        "(vehicle); CREATE TABLE grade ( number INTEGER PRIMARY KEY, id TEXT NOT NULL "
        "UNIQUE, revision INTEGER NOT NULL, at TEXT NOT NULL, vehicle TEXT NOT NULL "
        "REFERENCES vehicle (id), of TEXT NOT NULL, grade REAL NOT NULL, original REAL, "
        "why TEXT ) STRICT; CREATE INDEX grade_vehicle ON grade (vehicle); CREATE TABLE "
        "weights ( number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, revision INTEGER "
        "NOT NULL, at TEXT NOT NULL, vehicle TEXT NOT NULL REFERENCES vehicle (id), "
        "month_minor INTEGER, month_currency TEXT, original_minor INTEGER, "
        "original_currency TEXT, driving_minor INTEGER, driving_currency TEXT, why TEXT ) "
        "STRICT; CREATE INDEX weights_vehicle ON weights (vehicle); CREATE TABLE tripwire "
        "( number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, revision INTEGER NOT "
        "NULL, at TEXT NOT NULL, vehicle TEXT NOT NULL REFERENCES vehicle (id), "
        "spent_minor INTEGER, spent_currency TEXT, passed TEXT, component TEXT, condition "
        "TEXT, why TEXT ) STRICT; CREATE INDEX tripwire_vehicle ON tripwire (vehicle); "
        "CREATE TABLE instead ( number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, "
        "revision INTEGER NOT NULL, at TEXT NOT NULL, vehicle TEXT NOT NULL REFERENCES "
        "vehicle (id), what TEXT NOT NULL, price_low INTEGER, price_middle INTEGER, "
        "price_high INTEGER, price_currency TEXT, bill_low INTEGER, bill_middle INTEGER, "
        "bill_high INTEGER, bill_currency TEXT, worth_low INTEGER, worth_middle INTEGER, "
        "worth_high INTEGER, worth_currency TEXT, hours REAL, months REAL, why TEXT ) "
        "STRICT; CREATE INDEX instead_vehicle ON instead (vehicle)"},
    {5, "CREATE TABLE mark ( number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, "
        "revision INTEGER NOT NULL, at TEXT NOT NULL, vehicle TEXT NOT NULL REFERENCES "
        "vehicle (id), what TEXT NOT NULL, \"where\" TEXT, component TEXT, text TEXT, "
        "again TEXT, by TEXT, book TEXT, how TEXT, date TEXT, photo TEXT, note TEXT ) "
        "STRICT; CREATE INDEX mark_vehicle ON mark (vehicle); CREATE TABLE originality ( "
        "number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, revision INTEGER NOT NULL, "
        "at TEXT NOT NULL, vehicle TEXT NOT NULL REFERENCES vehicle (id), component TEXT "
        "NOT NULL, class TEXT NOT NULL, evidence TEXT, how TEXT, date TEXT, note TEXT ) "
        "STRICT; CREATE INDEX originality_vehicle ON originality (vehicle)"},
    {6, "CREATE TABLE circuit ( number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, "
        "revision INTEGER NOT NULL, at TEXT NOT NULL, vehicle TEXT NOT NULL REFERENCES "
        "vehicle (id), name TEXT NOT NULL, use TEXT, power_typed TEXT, power REAL, "
        "draws_typed TEXT, draws REAL, length_typed TEXT NOT NULL, length REAL NOT NULL, wire "
        "TEXT NOT NULL, cover TEXT, space TEXT, bundle TEXT, fuse_typed TEXT, fuse "
        "REAL, switch TEXT, switch_rating_typed TEXT, switch_rating REAL, earth TEXT, "
        "note TEXT ) STRICT; CREATE INDEX circuit_vehicle ON circuit (vehicle)"},
    {7, "CREATE TABLE clue_reading ( number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, "
        "revision INTEGER NOT NULL, at TEXT NOT NULL, vehicle TEXT NOT NULL REFERENCES "
        "vehicle (id), clue TEXT NOT NULL, outcome TEXT NOT NULL, value TEXT, date TEXT, "
        "how TEXT, note TEXT ) STRICT; CREATE INDEX clue_reading_vehicle ON clue_reading "
        "(vehicle); CREATE TABLE clock ( number INTEGER PRIMARY KEY, id TEXT NOT NULL "
        "UNIQUE, revision INTEGER NOT NULL, at TEXT NOT NULL, vehicle TEXT NOT NULL "
        "REFERENCES vehicle (id), reading INTEGER NOT NULL, digits INTEGER, unit TEXT, "
        "working INTEGER, date TEXT, note TEXT ) STRICT; CREATE INDEX clock_vehicle ON "
        "clock (vehicle); CREATE TABLE dated_mileage ( number INTEGER PRIMARY KEY, id "
        "TEXT NOT NULL UNIQUE, revision INTEGER NOT NULL, at TEXT NOT NULL, vehicle TEXT "
        "NOT NULL REFERENCES vehicle (id), written TEXT NOT NULL, reading INTEGER NOT NULL, "
        "unit TEXT, paper TEXT, note TEXT ) STRICT; CREATE INDEX dated_mileage_vehicle ON "
        "dated_mileage (vehicle)"},
    {8, "CREATE TABLE supplier ( number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, "
        "revision INTEGER NOT NULL, at TEXT NOT NULL, name TEXT, carriage_minor "
        "INTEGER, carriage_currency TEXT, carriage_free_minor INTEGER, "
        "carriage_free_currency TEXT, minimum_minor INTEGER, minimum_currency TEXT, "
        "promised_days INTEGER, note TEXT ) STRICT; CREATE TABLE quote ( number "
        "INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, revision INTEGER NOT NULL, at "
        "TEXT NOT NULL, supplier TEXT NOT NULL REFERENCES supplier (id), part TEXT "
        "NOT NULL, price_minor INTEGER, price_currency TEXT, from_count INTEGER, "
        "lead_low REAL, lead_middle REAL, lead_high REAL, core_minor INTEGER, "
        "core_currency TEXT, return_days INTEGER, date TEXT, note TEXT ) STRICT; "
        "CREATE INDEX quote_supplier ON quote (supplier); CREATE TABLE choice ( "
        "number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, revision INTEGER NOT "
        "NULL, at TEXT NOT NULL, vehicle TEXT NOT NULL REFERENCES vehicle (id), need "
        "TEXT, option TEXT NOT NULL, why TEXT, date TEXT ) STRICT; CREATE "
        "INDEX choice_vehicle ON choice (vehicle); CREATE TABLE measured ( number "
        "INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, revision INTEGER NOT NULL, at "
        "TEXT NOT NULL, vehicle TEXT NOT NULL REFERENCES vehicle (id), of TEXT NOT "
        "NULL, \"join\" TEXT NOT NULL, \"end\" TEXT, least REAL, most REAL, \"is\" "
        "TEXT, how TEXT, date TEXT, note TEXT ) STRICT; CREATE INDEX measured_vehicle "
        "ON measured (vehicle); CREATE TABLE sent ( number INTEGER PRIMARY KEY, id "
        "TEXT NOT NULL UNIQUE, revision INTEGER NOT NULL, at TEXT NOT NULL, vehicle "
        "TEXT NOT NULL REFERENCES vehicle (id), supplier TEXT NOT NULL REFERENCES "
        "supplier (id), what TEXT NOT NULL, count INTEGER, job TEXT, sent TEXT NOT "
        "NULL, promised TEXT, chase TEXT, deposit_minor INTEGER, deposit_currency "
        "TEXT, tolerances TEXT, photo TEXT, returned TEXT, count_returned INTEGER, "
        "measured TEXT ) STRICT; CREATE INDEX sent_vehicle ON sent (vehicle); CREATE "
        "TABLE seller ( number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, revision "
        "INTEGER NOT NULL, at TEXT NOT NULL, vehicle TEXT NOT NULL REFERENCES vehicle "
        "(id), supplier TEXT NOT NULL REFERENCES supplier (id), part TEXT NOT NULL, date "
        "TEXT ) STRICT; CREATE INDEX seller_vehicle ON seller (vehicle); ALTER "
        "TABLE \"order\" ADD COLUMN quote TEXT REFERENCES quote (id); ALTER TABLE "
        "\"order\" ADD COLUMN core_minor INTEGER; ALTER TABLE \"order\" ADD COLUMN "
        "core_currency TEXT; ALTER TABLE \"order\" ADD COLUMN return_by TEXT; ALTER "
        "TABLE \"order\" ADD COLUMN checked INTEGER; ALTER TABLE \"order\" ADD COLUMN "
        "wrong TEXT; ALTER TABLE \"order\" ADD COLUMN returned TEXT; ALTER TABLE "
        "\"order\" ADD COLUMN warranty TEXT; ALTER TABLE \"order\" ADD COLUMN fitted "
        "TEXT"},
    {9, "CREATE TABLE timer ( number INTEGER PRIMARY KEY, id TEXT NOT NULL "
        "UNIQUE, revision INTEGER NOT NULL, at TEXT NOT NULL, vehicle TEXT NOT "
        "NULL REFERENCES vehicle (id), job TEXT NOT NULL, date TEXT NOT NULL, "
        "\"from\" INTEGER NOT NULL ) STRICT; CREATE INDEX timer_vehicle ON timer "
        "(vehicle); CREATE TABLE measurement ( number INTEGER PRIMARY KEY, id "
        "TEXT NOT NULL UNIQUE, revision INTEGER NOT NULL, at TEXT NOT NULL, "
        "vehicle TEXT NOT NULL REFERENCES vehicle (id), what TEXT NOT NULL, "
        "\"where\" TEXT, value REAL NOT NULL, unit TEXT, tool TEXT, low REAL, high "
        "REAL, source TEXT, job TEXT, date TEXT, retest TEXT, by TEXT, note TEXT "
        ") STRICT; CREATE INDEX measurement_vehicle ON measurement (vehicle); "
        "ALTER TABLE work ADD COLUMN \"from\" INTEGER; ALTER TABLE work ADD COLUMN "
        "\"to\" INTEGER; ALTER TABLE work ADD COLUMN setback TEXT"},
    {10, "CREATE TABLE gate_opened ( number INTEGER PRIMARY KEY, id TEXT NOT NULL "
         "UNIQUE, revision INTEGER NOT NULL, at TEXT NOT NULL, vehicle TEXT NOT NULL "
         "REFERENCES vehicle (id), gate TEXT NOT NULL, date TEXT NOT NULL, retest "
         "TEXT, proved TEXT, note TEXT ) STRICT; CREATE INDEX gate_opened_vehicle ON "
         "gate_opened (vehicle); CREATE TABLE gate_override ( number INTEGER PRIMARY "
         "KEY, id TEXT NOT NULL UNIQUE, revision INTEGER NOT NULL, at TEXT NOT NULL, "
         "vehicle TEXT NOT NULL REFERENCES vehicle (id), gate TEXT NOT NULL, reason "
         "TEXT NOT NULL, date TEXT NOT NULL, missing TEXT ) STRICT; CREATE INDEX "
         "gate_override_vehicle ON gate_override (vehicle); CREATE TABLE "
         "session_check ( number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, "
         "revision INTEGER NOT NULL, at TEXT NOT NULL, vehicle TEXT NOT NULL "
         "REFERENCES vehicle (id), \"check\" TEXT NOT NULL, date TEXT NOT NULL, by "
         "TEXT, note TEXT ) STRICT; CREATE INDEX session_check_vehicle ON "
         "session_check (vehicle); CREATE TABLE witnessed ( number INTEGER PRIMARY "
         "KEY, id TEXT NOT NULL UNIQUE, revision INTEGER NOT NULL, at TEXT NOT NULL, "
         "vehicle TEXT NOT NULL REFERENCES vehicle (id), what TEXT NOT NULL, holds "
         "INTEGER NOT NULL, by TEXT, worker TEXT, fit TEXT, date TEXT NOT NULL, note "
         "TEXT ) STRICT; CREATE INDEX witnessed_vehicle ON witnessed (vehicle)"},
    {11, "CREATE TABLE setback ( number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, "
         "revision INTEGER NOT NULL, at TEXT NOT NULL, vehicle TEXT NOT NULL REFERENCES "
         "vehicle (id), setback TEXT NOT NULL, job TEXT, component TEXT, \"is\" TEXT, \"in\" "
         "TEXT, hole TEXT, drill INTEGER, thread TEXT, tried TEXT, state TEXT, date TEXT, "
         "note TEXT ) STRICT; CREATE INDEX setback_vehicle ON setback (vehicle)"},
    {12, "CREATE TABLE tool ( number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, "
         "revision INTEGER NOT NULL, at TEXT NOT NULL, tool TEXT NOT NULL, have TEXT "
         "NOT NULL, back_by TEXT, \"where\" TEXT, note TEXT ) STRICT; CREATE TABLE "
         "left_off ( number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, revision "
         "INTEGER NOT NULL, at TEXT NOT NULL, vehicle TEXT NOT NULL REFERENCES vehicle "
         "(id), note TEXT NOT NULL, \"where\" TEXT, photo TEXT REFERENCES photograph "
         "(id), date TEXT ) STRICT; CREATE INDEX left_off_vehicle ON left_off "
         "(vehicle); CREATE TABLE care_done ( number INTEGER PRIMARY KEY, id TEXT NOT "
         "NULL UNIQUE, revision INTEGER NOT NULL, at TEXT NOT NULL, vehicle TEXT NOT "
         "NULL REFERENCES vehicle (id), care TEXT NOT NULL, date TEXT NOT NULL, note "
         "TEXT ) STRICT; CREATE INDEX care_done_vehicle ON care_done (vehicle); ALTER "
         "TABLE \"order\" ADD COLUMN shelf TEXT"},
    {13, "CREATE TABLE bag ( number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, "
         "revision INTEGER NOT NULL, at TEXT NOT NULL, vehicle TEXT NOT NULL REFERENCES "
         "vehicle (id), code TEXT NOT NULL, what TEXT NOT NULL, component TEXT, job "
         "TEXT, shelf TEXT, date TEXT, emptied TEXT, note TEXT ) STRICT; CREATE INDEX "
         "bag_vehicle ON bag (vehicle); CREATE TABLE bag_item ( number INTEGER PRIMARY "
         "KEY, id TEXT NOT NULL UNIQUE, revision INTEGER NOT NULL, at TEXT NOT NULL, "
         "vehicle TEXT NOT NULL REFERENCES vehicle (id), bag TEXT NOT NULL REFERENCES "
         "bag (id), name TEXT NOT NULL, count INTEGER NOT NULL, thread TEXT, length_typed "
         "TEXT, length REAL, grade TEXT, torque_typed TEXT, torque REAL, source TEXT, "
         "renew INTEGER, back INTEGER, note TEXT ) STRICT; CREATE INDEX bag_item_vehicle "
         "ON bag_item (vehicle); ALTER TABLE photograph ADD COLUMN bag TEXT REFERENCES "
         "bag (id)"},
    {14, "CREATE TABLE tool_offer ( number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, "
         "revision INTEGER NOT NULL, at TEXT NOT NULL, tool TEXT NOT NULL, way TEXT NOT "
         "NULL, price_minor INTEGER, price_currency TEXT, a_day_minor INTEGER, "
         "a_day_currency TEXT, until TEXT, whose TEXT, note TEXT ) STRICT; CREATE TABLE "
         "person ( number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, revision INTEGER "
         "NOT NULL, at TEXT NOT NULL, name TEXT, knows TEXT, lends TEXT, reach TEXT, note "
         "TEXT ) STRICT; CREATE TABLE promise ( number INTEGER PRIMARY KEY, id TEXT NOT "
         "NULL UNIQUE, revision INTEGER NOT NULL, at TEXT NOT NULL, who TEXT, what TEXT "
         "NOT NULL, by_day TEXT, kept TEXT, note TEXT ) STRICT"},
    {0, NULL},
};

static int64_t system_now(void *context)
{
    (void)context;
    return (int64_t)time(NULL);
}

static void system_random(void *context, void *out, size_t n)
{
    (void)context;
    randombytes_buf(out, n);
}

static struct garage_source system_source(struct arena *a)
{
    struct passwd entry, *user = NULL;
    char room[4096]; /* other threads may ask at the same time */
    getpwuid_r(geteuid(), &entry, room, sizeof room, &user);
    const char *who =
        user && text_is_utf8(user->pw_name, strlen(user->pw_name)) ? user->pw_name : "unknown";
    return (struct garage_source){system_now, system_random, NULL, arena_copy(a, who)};
}

/* ---- making ---- */

static bool fill_database(struct store *s, const char *time_zone, struct fail *f)
{
    char numbers[120];
    sqlite3_snprintf(sizeof numbers, numbers,
                     "PRAGMA application_id = %d; PRAGMA user_version = %d", STORE_APPLICATION_ID,
                     STORE_VERSION);
    sqlite3_stmt *q;
    bool row;
    if (!store_run(s, "PRAGMA journal_mode = WAL; BEGIN IMMEDIATE", f) ||
        !store_run(s, embed_schema, f) || !store_run(s, numbers, f) ||
        !store_prepare(s, "INSERT INTO meta (name, value) VALUES ('time-zone', ?)", &q, f))
        return false;
    sqlite3_bind_text(q, 1, time_zone, -1, SQLITE_STATIC);
    bool ok = store_step(s, q, &row, f);
    sqlite3_finalize(q);
    /* Everything into the one file, so that the rename moves all there is. */
    return ok && store_run(s, "COMMIT; PRAGMA wal_checkpoint(TRUNCATE)", f);
}

static bool make_database(const char *path, const char *name, const char *time_zone, struct fail *f)
{
    struct store s;
    /* SQLite gives its side files the mode of the file that it finds. */
    int fd = open(path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
    if (fd < 0 || close(fd) != 0)
        return fail_set(f, FAIL_GARAGE, "%s: cannot be made: %s", name, strerror(errno));
    if (!store_open(&s, path, SQLITE_OPEN_READWRITE, name, f)) return false;
    bool ok = fill_database(&s, time_zone, f);
    store_close(&s);
    return ok;
}

bool garage_create(const char *dir, const char *time_zone, const struct garage_source *source,
                   struct fail *f)
{
    (void)source; /* an empty garage holds no stamp and no chance */
    struct arena a = arena_open(1 << 16);
    char *temporary;
    bool ok = place_begin(&a, dir, &temporary, f);
    if (ok) {
        ok = make_database(arena_print(&a, "%s/garage.db", temporary), dir,
                           time_zone ? time_zone : "UTC", f) &&
             place_finish(&a, temporary, dir, f);
        if (!ok) place_abandon(&a, temporary);
    }
    arena_close(&a);
    return ok;
}

/* ---- opening ---- */

/* As a URI, for a folder that cannot be written: SQLite may not make its side files there. */
static const char *frozen_uri(struct arena *a, const char *path)
{
    struct text t = {.arena = a};
    text_add(&t, "file:");
    for (; *path; path++) {
        if (strchr("?#%", *path))
            text_print(&t, "%%%02x", (unsigned)(unsigned char)*path);
        else
            text_add_n(&t, path, 1);
    }
    text_add(&t, "?immutable=1");
    return text_get(&t);
}

static bool open_database(struct garage *g, const char *path, struct fail *f)
{
    const char *dir = g->store.name;
    struct stat st;
    if (faccessat(AT_FDCWD, dir, W_OK, AT_EACCESS) == 0)
        return store_open(&g->store, path, SQLITE_OPEN_READWRITE, dir, f);
    if (g->mode == GARAGE_WRITE)
        return fail_set(
            f, FAIL_GARAGE,
            "%s: the folder cannot be written to; check who owns it and whether the disk is "
            "write-protected",
            dir);
    if (stat(arena_print(&g->arena, "%s-wal", path), &st) == 0 && st.st_size > 0)
        return fail_set(
            f, FAIL_GARAGE,
            "%s: the folder cannot be written to, and its last acts are still in garage.db-wal; "
            "copy the whole folder to where it can be written",
            dir);
    g->frozen = true;
    return store_open(&g->store, frozen_uri(&g->arena, path),
                      SQLITE_OPEN_READONLY | SQLITE_OPEN_URI, dir, f);
}

static bool read_time_zone(struct garage *g, struct fail *f)
{
    sqlite3_stmt *q;
    bool row;
    if (!store_prepare(&g->store, "SELECT value FROM meta WHERE name = 'time-zone'", &q, f))
        return false;
    bool ok = store_step(&g->store, q, &row, f);
    g->time_zone =
        arena_copy(&g->arena, ok && row ? (const char *)sqlite3_column_text(q, 0) : "UTC");
    sqlite3_finalize(q);
    return ok;
}

static bool check_is_ours(struct garage *g, struct fail *f)
{
    int64_t id;
    if (!store_ask(&g->store, "PRAGMA application_id", NULL, NULL, 0, &id, f)) return false;
    if (id == STORE_APPLICATION_ID) return true;
    return fail_set(
        f, FAIL_GARAGE,
        "%s: garage.db is empty or of another program; give the folder of a garage, or put back "
        "a copy",
        g->store.name);
}

static bool open_whole(struct garage *g, struct fail *f)
{
    const char *dir = g->store.name, *path = arena_print(&g->arena, "%s/garage.db", dir);
    struct stat st;
    if (stat(path, &st) != 0) {
        if (errno == ENOENT || errno == ENOTDIR)
            return fail_set(f, FAIL_GARAGE, "%s: there is no garage; make one with: fettle new %s",
                            dir, dir);
        return fail_set(f, FAIL_GARAGE, "%s: %s; check who owns the folder", dir, strerror(errno));
    }
    return place_is_local(dir, f) && open_database(g, path, f) && check_is_ours(g, f) &&
           store_migrate(&g->store, migrations, STORE_VERSION, f) &&
           (g->mode == GARAGE_WRITE || store_run(&g->store, "PRAGMA query_only = ON", f)) &&
           read_time_zone(g, f);
}

bool garage_open(struct arena *a, const char *dir, enum garage_mode mode,
                 const struct garage_source *source, struct garage **out, struct fail *f)
{
    if (sodium_init() < 0) return fail_set(f, FAIL_GARAGE, "%s: no source of random numbers", dir);
    struct garage *g = ARENA_NEW(a, struct garage);
    g->arena = arena_open(WORKING_BYTES);
    g->mode = mode;
    g->store.name = arena_copy(&g->arena, dir);
    g->source = source ? *source : system_source(&g->arena);
    if (open_whole(g, f)) {
        *out = g;
        return true;
    }
    store_close(&g->store);
    arena_close(&g->arena);
    return false;
}

void garage_close(struct garage *g)
{
    garage_rollback(g);
    sqlite3_finalize(g->basis.version_query);
    store_close(&g->store);
    arena_close(&g->arena);
}

const char *garage_dir(const struct garage *g)
{
    return g->store.name;
}

const char *garage_time_zone(const struct garage *g)
{
    return g->time_zone;
}

/* ---- acts ---- */

bool garage_begin(struct garage *g, struct fail *f)
{
    assert(!g->in_act);
    unsigned char bits[16];
    /* The lock is taken before anything is read, so that an act that reads and then writes never
     * has to give up because another wrote in between. */
    if (!store_run(&g->store, g->mode == GARAGE_WRITE ? "BEGIN IMMEDIATE" : "BEGIN", f))
        return false;
    g->source.random(g->source.context, bits, sizeof bits);
    journal_hex(g->act_id, bits, sizeof bits);
    g->in_act = true;
    g->broken = false;
    return true;
}

bool garage_commit(struct garage *g, struct fail *f)
{
    assert(g->in_act);
    if (g->broken)
        fail_set(f, FAIL_INPUT, "%s: a step of this act failed, so none of it was kept",
                 g->store.name);
    else if (sqlite3_exec(g->store.db, "COMMIT", NULL, NULL, NULL) == SQLITE_OK)
        g->in_act = false;
    else if (sqlite3_extended_errcode(g->store.db) == SQLITE_CONSTRAINT_FOREIGNKEY)
        fail_set(f, FAIL_INPUT,
                 "%s: other records speak of what would go; remove or undo those first",
                 g->store.name);
    else
        store_fail(&g->store, "using the database", f);
    bool ok = !g->in_act;
    garage_rollback(g);
    return ok;
}

void garage_rollback(struct garage *g)
{
    /* SQLite rolls back by itself when the disk is full. */
    if (!sqlite3_get_autocommit(g->store.db))
        sqlite3_exec(g->store.db, "ROLLBACK", NULL, NULL, NULL);
    g->in_act = false;
}
