/* The files of a garage: stored whole or not at all, named by what they hold, spoken of in the
 * journal, and swept where no entry speaks of them. */
#include "world.h"

#include "garage/file.h"
#include "garage/store.h"

#include <dirent.h>
#include <sys/stat.h>

/* SHA-256 of "abc" and of nothing. Published: FIPS 180-2, appendix B.1; NIST's example values. */
#define ABC     "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
#define NOTHING "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"

static int names_in_files(struct world *w)
{
    int n = 0;
    DIR *dir = opendir(arena_print(&w->arena, "%s/files", w->dir));
    assert_non_null(dir);
    for (const struct dirent *d; (d = readdir(dir));)
        n += !text_is(d->d_name, ".") && !text_is(d->d_name, "..");
    closedir(dir);
    return n;
}

static struct file_new *begin(struct world *w, const char *bytes)
{
    struct file_new *n;
    if (!file_begin(&w->arena, w->dir, &n, &w->fail)) fail_msg("%s", w->fail.text);
    for (const char *s = bytes; *s; s++) assert_true(file_write(n, s, 1, &w->fail));
    return n;
}

static void store(struct world *w, const char *bytes)
{
    struct file_new *n = begin(w, bytes);
    assert_true(file_seal(n, &w->fail) && file_keep(n, &w->fail));
    file_close(n);
}

static struct record *photograph_of(struct world *w, const char *digest)
{
    return world_add(w, world_record(w, "photograph", "vehicle=Wren",
                                     arena_print(&w->arena, "file=%s", digest), "type=jpeg",
                                     "width=40", "height=30", NULL));
}

static void bytes_have_their_digest(void **state)
{
    struct world *w = *state;
    static const char *const table[][2] = {{"abc", ABC}, {"", NOTHING}};
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        struct stat st;
        char back[8] = "";
        struct file_new *n = begin(w, table[i][0]);
        assert_int_equal(names_in_files(w), 1); /* the temporary one */
        assert_true(file_seal(n, &w->fail));
        assert_string_equal(file_digest(n), table[i][1]);
        assert_int_equal(file_size(n), strlen(table[i][0]));
        const char *path = file_path(&w->arena, w->dir, table[i][1]);
        assert_int_not_equal(access(path, F_OK), 0);
        assert_true(file_keep(n, &w->fail));
        int fd = file_reader(n);
        assert_int_equal(read(fd, back, sizeof back), strlen(table[i][0]));
        assert_string_equal(back, table[i][0]);
        close(fd);
        file_close(n);
        assert_int_equal(stat(path, &st), 0);
        assert_int_equal(st.st_mode & 0777, 0600);
        assert_int_equal(names_in_files(w), 1);
        unlink(path);
    }
}

static void what_is_not_kept_leaves_nothing(void **state)
{
    struct world *w = *state;
    file_close(begin(w, "abc"));
    struct file_new *n = begin(w, "abc");
    assert_true(file_seal(n, &w->fail));
    file_close(n);
    file_close(n); /* twice does no harm */
    file_close(NULL);
    assert_int_equal(names_in_files(w), 0);
}

static void the_same_bytes_twice_are_one_file(void **state)
{
    struct world *w = *state;
    store(w, "abc");
    store(w, "abc");
    assert_int_equal(names_in_files(w), 1);
    unlink(file_path(&w->arena, w->dir, ABC));
}

static void only_a_digest_names_a_file(void **state)
{
    struct world *w = *state;
    static const char *const bad[] = {
        "", "../garage.db", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015a",
        ABC "0", "BA7816BF8F01CFEA414140DE5DAE2223B00361A396177A9CB410FF61F20015AD"};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        struct fail f = {0};
        struct record *r = record_new(&w->arena, record_kind_find("photograph"));
        assert_false(file_is_digest(bad[i]));
        if (*bad[i]) assert_false(record_set(&w->arena, r, "file", bad[i], NULL, &f));
    }
}

static void without_the_folder_it_is_one_line(void **state)
{
    struct world *w = *state;
    struct file_new *n;
    struct fail f = {0};
    assert_false(file_begin(&w->arena, w->root, &n, &f));
    assert_int_equal(f.kind, FAIL_GARAGE);
    assert_non_null(strstr(f.text, "files/"));
}

static void entries_name_their_files(void **state)
{
    struct world *w = *state;
    struct journal_entry *list;
    const char *report;
    int n;
    store(w, "abc");
    struct record *r = photograph_of(w, ABC);
    assert_true(garage_journal(w->garage, &w->arena, r->values[0].text, &list, &n, &w->fail));
    assert_non_null(strstr(list[n - 1].bytes, "\"files\":[\"" ABC "\"]"));
    assert_non_null(strstr(list[0].bytes, "\"files\":[]"));
    assert_int_equal(world_faults(w, &report), 0);

    const char *path = file_path(&w->arena, w->dir, ABC);
    unlink(path);
    assert_int_equal(world_faults(w, &report), 1);
    assert_non_null(strstr(report, ABC ": is missing"));
    store(w, "abc");
    FILE *altered = fopen(path, "w");
    fputs("abd", altered);
    fclose(altered);
    assert_int_equal(world_faults(w, &report), 1);
    assert_non_null(strstr(report, "do not have the digest"));
    store(w, "abc"); /* the right bytes mend it */
    assert_int_equal(world_faults(w, &report), 0);
}

static void orphans_are_swept_and_nothing_else(void **state)
{
    struct world *w = *state;
    int swept, before = names_in_files(w);
    store(w, "orphan");
    FILE *torn = fopen(arena_print(&w->arena, "%s/files/.new-abcdef", w->dir), "w");
    FILE *foreign = fopen(arena_print(&w->arena, "%s/files/README", w->dir), "w");
    fclose(torn);
    fclose(foreign);
    /* What is being stored is no orphan, and holds the sweeping off. */
    struct file_new *busy = begin(w, "busy");
    assert_true(garage_sweep(w->garage, &swept, &w->fail));
    assert_int_equal(swept, 0);
    file_close(busy);
    assert_true(garage_sweep(w->garage, &swept, &w->fail));
    assert_int_equal(swept, 2);
    assert_int_equal(access(file_path(&w->arena, w->dir, ABC), F_OK), 0);
    assert_int_equal(names_in_files(w), before + 1);
    unlink(arena_print(&w->arena, "%s/files/README", w->dir));
    /* A photograph that was removed is still spoken of, so that undo finds its file. */
    struct record *r;
    int n;
    assert_true(
        garage_list(w->garage, &w->arena, record_kind_find("photograph"), NULL, &r, &n, &w->fail));
    assert_int_equal(n, 1);
    assert_true(garage_begin(w->garage, &w->fail) &&
                garage_remove(w->garage, r->kind, r->id, &w->fail) &&
                garage_commit(w->garage, &w->fail));
    assert_true(garage_sweep(w->garage, &swept, &w->fail));
    assert_int_equal(swept, 0);
}

/* A garage of schema 1 gets the table, also by one who only reads. */
static void an_older_garage_gets_the_table(void **state)
{
    struct world *w = *state;
    char *made[2];
    for (int i = 0; i < 2; i++) {
        sqlite3_stmt *q;
        bool row;
        struct text t = {.arena = &w->arena};
        assert_true(store_prepare(&w->garage->store,
                                  "SELECT sql FROM sqlite_schema WHERE tbl_name = 'photograph' "
                                  "ORDER BY name",
                                  &q, &w->fail));
        while (store_step(&w->garage->store, q, &row, &w->fail) && row)
            for (const char *s = (const char *)sqlite3_column_text(q, 0); s && *s; s++)
                if (!strchr(" \n", *s)) text_add_n(&t, s, 1);
        sqlite3_finalize(q);
        /* And the columns of every other table. */
        assert_true(
            store_prepare(&w->garage->store,
                          "SELECT s.name || '.' || c.name || ' ' || c.type || c.\"notnull\" "
                          "|| ' ' FROM sqlite_schema s, pragma_table_info(s.name) c WHERE "
                          "s.type = 'table' ORDER BY s.name, c.cid",
                          &q, &w->fail));
        while (store_step(&w->garage->store, q, &row, &w->fail) && row)
            text_add(&t, (const char *)sqlite3_column_text(q, 0));
        sqlite3_finalize(q);
        made[i] = arena_copy(&w->arena, text_get(&t));
        assert_true(strlen(made[i]) > 0);
        if (i == 0) {
            assert_true(store_run(
                &w->garage->store,
                "DROP TABLE tool; DROP TABLE left_off; DROP TABLE care_done; "
                "DROP TABLE bag_item; DROP TABLE tool_offer; DROP TABLE person; DROP TABLE "
                "promise; "
                "DROP TABLE photograph; DROP TABLE bag; DROP TABLE advert; DROP TABLE sign; "
                "DROP TABLE comparable; DROP TABLE grade; DROP TABLE weights; "
                "DROP TABLE tripwire; DROP TABLE instead; "
                "DROP TABLE mark; DROP TABLE originality; DROP TABLE circuit; "
                "DROP TABLE clue_reading; DROP TABLE clock; DROP TABLE dated_mileage; "
                "DROP TABLE \"order\"; DROP TABLE quote; DROP TABLE sent; "
                "DROP TABLE seller; DROP TABLE supplier; DROP TABLE choice; DROP TABLE measured; "
                "DROP TABLE timer; DROP TABLE measurement; DROP TABLE gate_opened; "
                "DROP TABLE gate_override; DROP TABLE session_check; DROP TABLE witnessed; "
                "DROP TABLE setback; "
                "ALTER TABLE work DROP COLUMN \"from\"; ALTER TABLE work DROP COLUMN \"to\"; "
                "ALTER TABLE work DROP COLUMN setback; "
                "CREATE TABLE \"order\" (number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, "
                "revision INTEGER NOT NULL, at TEXT NOT NULL, vehicle TEXT NOT NULL "
                "REFERENCES vehicle (id), part TEXT NOT NULL, count REAL, price_minor "
                "INTEGER, price_currency TEXT, ordered TEXT, due TEXT, arrived TEXT, "
                "supplier TEXT) STRICT; "
                "ALTER TABLE vehicle DROP COLUMN owned; "
                "PRAGMA user_version = 1",
                &w->fail));
            garage_close(w->garage);
            if (!garage_open(&w->arena, w->dir, GARAGE_READ, &w->source, &w->garage, &w->fail))
                fail_msg("%s", w->fail.text);
        }
    }
    assert_string_equal(made[0], made[1]);
}

static int set_up(void **state)
{
    struct world *w = world_open();
    *state = w;
    world_garage(w);
    world_add(w, world_record(w, "vehicle", "name=Wren", NULL));
    return 0;
}

static int tear_down(void **state)
{
    world_close(*state);
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bytes_have_their_digest),
        cmocka_unit_test(what_is_not_kept_leaves_nothing),
        cmocka_unit_test(the_same_bytes_twice_are_one_file),
        cmocka_unit_test(only_a_digest_names_a_file),
        cmocka_unit_test(without_the_folder_it_is_one_line),
        cmocka_unit_test(entries_name_their_files),
        cmocka_unit_test(orphans_are_swept_and_nothing_else),
        cmocka_unit_test(an_older_garage_gets_the_table),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
