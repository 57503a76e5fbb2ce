/* The garage as evidence: one altered byte in any column of the journal or of a row is found; what
 * was left out on purpose is not a fault; rows are made again from the journal. */
#include "world.h"

#include "garage/row.h"

#include <fcntl.h>

static void fill(struct world *w)
{
    world_garage(w);
    world_add(w, world_record(w, "vehicle", "name=Old pickup", "kind=pickup", "year=1952",
                              "clock=48210 miles", "turns=yes", "standing=25.5", "rank=1", NULL));
    world_add(w, world_record(w, "workshop", "hours-a-week=8", "heated=no", "own-rate=5",
                              "start=2026-11-25", NULL));
    world_add(w, world_record(w, "slot", "weekday=tue", "from=19:00", "to=21:30", NULL));
    world_add(w, world_record(w, "purse", "a-month=250", "in-hand=800", NULL));
    world_add(w, world_record(w, "finding", "vehicle=Old pickup", "component=drum",
                              "condition=worn", NULL));
    world_add(
        w, world_record(w, "worth", "vehicle=Old pickup", "of=now", "worth=800/1200/2000", NULL));
    world_add(
        w, world_record(w, "order", "vehicle=Old pickup", "part=kit", "count=4", "price=48", NULL));
    world_add(w, world_record(w, "work", "vehicle=Old pickup", "job=brakes", "hours=2.5", NULL));
}

/* A hand that does not mind the rules of the house. */
static sqlite3 *meddle(struct world *w)
{
    char path[200];
    sqlite3 *db;
    snprintf(path, sizeof path, "%s/garage.db", w->dir);
    assert_int_equal(sqlite3_open(path, &db), SQLITE_OK);
    return db;
}

static void run(sqlite3 *db, const char *sql)
{
    char *why = NULL;
    if (sqlite3_exec(db, sql, NULL, NULL, &why) != SQLITE_OK) fail_msg("%s: %s", sql, why);
}

/* SQL for a value that differs from the column's in one byte, as near as its type allows. */
static const char *altered(struct arena *a, const char *column, int type)
{
    switch (type) {
    case SQLITE_INTEGER:
        return arena_print(a, "\"%s\" + 1000", column);
    case SQLITE_FLOAT:
        return arena_print(a, "\"%s\" * (1 + 1e-15)", column);
    case SQLITE_TEXT:
        return arena_print(
            a, "substr(\"%s\", 1, length(\"%s\") - 1) || char(unicode(substr(\"%s\", -1)) + 1)",
            column, column, column);
    default:
        return arena_print(a,
                           "CAST(substr(\"%s\", 1, length(\"%s\") - 1) || CASE substr(\"%s\", -1) "
                           "WHEN x'41' THEN x'42' ELSE x'41' END AS BLOB)",
                           column, column, column);
    }
}

/* Alters each column of each row in turn and puts it back. */
static int alter_each(struct world *w, sqlite3 *db, const char *table)
{
    sqlite3_stmt *q;
    int tried = 0;
    const char *sql = arena_print(&w->arena, "SELECT rowid, * FROM %s", table);
    struct {
        int64_t row;
        int type;
        const char *column;
    } cells[400];
    assert_int_equal(sqlite3_prepare_v2(db, sql, -1, &q, NULL), SQLITE_OK);
    while (sqlite3_step(q) == SQLITE_ROW)
        for (int i = 1; i < sqlite3_column_count(q); i++) {
            if (sqlite3_column_type(q, i) == SQLITE_NULL) continue;
            cells[tried].row = sqlite3_column_int64(q, 0);
            cells[tried].type = sqlite3_column_type(q, i);
            cells[tried++].column = arena_copy(&w->arena, sqlite3_column_name(q, i));
            assert_true(tried < 400);
        }
    sqlite3_finalize(q);
    for (int i = 0; i < tried; i++) {
        struct arena scratch = w->arena;
        const char *c = cells[i].column;
        const char *to = altered(&scratch, c, cells[i].type);
        run(db, "DROP TABLE IF EXISTS temp.kept");
        run(db,
            arena_print(&scratch,
                        "CREATE TEMP TABLE kept AS SELECT \"%s\" AS was FROM %s WHERE rowid = %lld",
                        c, table, (long long)cells[i].row));
        run(db, arena_print(&scratch, "UPDATE %s SET \"%s\" = %s WHERE rowid = %lld", table, c, to,
                            (long long)cells[i].row));
        assert_int_equal(sqlite3_changes(db), 1);
        int faults = world_faults(w, NULL);
        if (!faults)
            fail_msg("%s.%s of row %lld was altered and not found", table, c,
                     (long long)cells[i].row);
        int64_t now = text_is(c, "number") ? cells[i].row + 1000 : cells[i].row;
        run(db, arena_print(&scratch,
                            "UPDATE %s SET \"%s\" = (SELECT was FROM temp.kept) WHERE rowid = %lld",
                            table, c, (long long)now));
    }
    assert_int_equal(world_faults(w, NULL), 0);
    return tried;
}

static void an_altered_byte_in_any_column_is_found(void **state)
{
    struct world *w = *state;
    int tried = 0;
    fill(w);
    sqlite3 *db = meddle(w);
    run(db, "DROP TRIGGER journal_keep_update");
    assert_int_equal(world_faults(w, NULL), 1); /* the missing trigger itself */
    run(db,
        "CREATE TRIGGER journal_keep_update BEFORE UPDATE ON journal WHEN 0 BEGIN SELECT 1; END");
    tried += alter_each(w, db, "journal");
    assert_true(tried >= 8 * 5);
    for (const struct record_kind *const *k = record_kinds; *k; k++)
        tried += alter_each(w, db, row_table(&w->arena, *k));
    print_message("%d columns altered, each found\n", tried);
    sqlite3_close(db);
}

static void a_row_too_many_or_too_few_is_found_and_mended(void **state)
{
    struct world *w = *state;
    static const char *const harms[] = {
        "DELETE FROM finding", "UPDATE finding SET condition = 'sound'",
        "UPDATE purse SET a_month_minor = NULL",
        "INSERT INTO slot VALUES (99, 'x', 1, '2026-11-25T19:00:00Z', 'mon', 0, 60, NULL)",
        "UPDATE finding SET vehicle = 'x'"};
    fill(w);
    sqlite3 *db = meddle(w);
    for (size_t i = 0; i < sizeof harms / sizeof *harms; i++) {
        int entries;
        run(db, harms[i]);
        assert_true(world_faults(w, NULL) > 0);
        assert_true(garage_rebuild(w->garage, &entries, &w->fail));
        assert_int_equal(entries, 8);
        assert_int_equal(world_faults(w, NULL), 0);
    }
    sqlite3_close(db);
}

static void an_altered_row_is_not_read_as_a_fact(void **state)
{
    struct world *w = *state;
    static const char *const harms[] = {"UPDATE workshop SET start = '2026-02-31'",
                                        "UPDATE workshop SET heated = 7",
                                        "UPDATE workshop SET own_rate_currency = 'QQQ'"};
    fill(w);
    sqlite3 *db = meddle(w);
    for (size_t i = 0; i < sizeof harms / sizeof *harms; i++) {
        struct record *list;
        struct fail f = {0};
        int n;
        run(db, harms[i]);
        assert_false(
            garage_list(w->garage, &w->arena, record_kind_find("workshop"), NULL, &list, &n, &f));
        assert_int_equal(f.kind, FAIL_GARAGE);
        assert_non_null(strstr(f.text, "altered in '"));
        assert_true(garage_rebuild(w->garage, &n, &w->fail));
    }
    sqlite3_close(db);
}

static void a_private_field_may_be_left_out(void **state)
{
    struct world *w = *state;
    const char *report;
    struct record *list;
    int entries, n;
    fill(w);
    sqlite3 *db = meddle(w);
    run(db, "DROP TRIGGER journal_keep_update; UPDATE journal SET private = NULL, salt = NULL; "
            "CREATE TRIGGER "
            "journal_keep_update BEFORE UPDATE ON journal BEGIN SELECT raise(ABORT, 'no'); END");
    sqlite3_close(db);
    world_faults(w, &report); /* the rows still have them, so they differ; the chain itself holds */
    assert_null(strstr(report, "journal entry"));
    assert_true(garage_rebuild(w->garage, &entries, &w->fail));
    if (world_faults(w, &report)) fail_msg("%s", report);
    assert_true(
        garage_list(w->garage, &w->arena, record_kind_find("worth"), NULL, &list, &n, &w->fail));
    assert_int_equal(n, 1);
    assert_false(record_get(list, "worth")->set);
    assert_string_equal(record_text(list, "of", ""), "now");
}

static void an_altered_journal_is_not_rebuilt_from(void **state)
{
    struct world *w = *state;
    struct fail f = {0};
    int entries;
    fill(w);
    sqlite3 *db = meddle(w);
    run(db, "DROP TRIGGER journal_keep_update; UPDATE journal SET entry = CAST(replace(CAST(entry "
            "AS TEXT), 'worn', "
            "'poor') AS BLOB)");
    assert_false(garage_rebuild(w->garage, &entries, &f));
    assert_int_equal(f.kind, FAIL_GARAGE);
    assert_non_null(strstr(f.text, "altered"));
    assert_int_equal(world_count(w, "finding", NULL), 1); /* rolled back */
    sqlite3_close(db);
}

static void a_file_must_have_the_digest_in_its_name(void **state)
{
    struct world *w = *state;
    char path[250];
    const char *report;
    fill(w);
    /* SHA-256 of "abc": FIPS 180-4, example; the name may go on with a suffix. */
    snprintf(path, sizeof path,
             "%s/files/ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad.jpg",
             w->dir);
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    assert_int_equal(fputs("abc", file) >= 0 && fclose(file) == 0, 1);
    assert_int_equal(world_faults(w, NULL), 0);
    file = fopen(path, "a");
    assert_non_null(file);
    assert_int_equal(fputs("d", file) >= 0 && fclose(file) == 0, 1);
    assert_int_equal(world_faults(w, &report), 1);
    assert_non_null(strstr(report, "digest in its name"));
}

static int damage_step = 4001; /* the argument; 1: every byte */

/* Bytes of the file itself, from first to last: either SQLite sees it, or the chains, or it was a
 * byte that holds nothing. Never a crash, and never facts that differ without a fault. */
static void a_damaged_file_never_lies(void **state)
{
    struct world *w = *state;
    char path[200], before[65], after[65];
    int found = 0, silent = 0;
    fill(w);
    assert_true(garage_basis(w->garage, before, &w->fail));
    garage_close(w->garage);
    w->garage = NULL;
    snprintf(path, sizeof path, "%s/garage.db", w->dir);
    int fd = open(path, O_RDWR);
    assert_true(fd >= 0);
    off_t size = lseek(fd, 0, SEEK_END);
    for (off_t at = 0; at < size; at += damage_step) {
        unsigned char was, now;
        struct arena scratch = w->arena;
        struct fail f = {0};
        struct garage *g;
        assert_int_equal(pread(fd, &was, 1, at), 1);
        now = (unsigned char)(was ^ 0x5a);
        assert_int_equal(pwrite(fd, &now, 1, at), 1);
        if (garage_open(&scratch, w->dir, GARAGE_READ, &w->source, &g, &f)) {
            struct text report = {.arena = &scratch};
            int entries = 0, faults = 0;
            bool whole = garage_check(g, &report, &entries, &faults, &f) && !faults;
            if (whole) {
                assert_int_equal(entries, 8);
                assert_true(garage_basis(g, after, &f));
                assert_string_equal(before, after);
            }
            silent += whole;
            found += !whole;
            garage_close(g);
        } else {
            assert_int_equal(f.kind, FAIL_GARAGE);
            found++;
        }
        assert_int_equal(pwrite(fd, &was, 1, at), 1);
    }
    close(fd);
    print_message("%d damages found, %d in bytes that hold nothing\n", found, silent);
    assert_true(found > 0);
}

static int set_up(void **state)
{
    *state = world_open();
    return 0;
}

static int tear_down(void **state)
{
    world_close(*state);
    return 0;
}

#define IN_A_WORLD(test) cmocka_unit_test_setup_teardown(test, set_up, tear_down)

int main(int argc, char **argv)
{
    if (argc > 1) damage_step = atoi(argv[1]);
    assert_true(damage_step > 0);
    const struct CMUnitTest tests[] = {
        IN_A_WORLD(an_altered_byte_in_any_column_is_found),
        IN_A_WORLD(a_row_too_many_or_too_few_is_found_and_mended),
        IN_A_WORLD(an_altered_row_is_not_read_as_a_fact),
        IN_A_WORLD(a_private_field_may_be_left_out),
        IN_A_WORLD(an_altered_journal_is_not_rebuilt_from),
        IN_A_WORLD(a_file_must_have_the_digest_in_its_name),
        IN_A_WORLD(a_damaged_file_never_lies),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
