/* schema.sql is written by hand, kinds.c too: each column of the one must follow from a field of
 * the other. Also the steps from one schema to the next, with a list of steps that only this test
 * knows. */
#include "world.h"

#include "garage/row.h"

extern const char embed_schema[];

static void tables_follow_from_kinds(void **state)
{
    struct world *w = *state;
    struct store s;
    assert_true(store_open(&s, ":memory:", SQLITE_OPEN_READWRITE, "memory", &w->fail));
    assert_true(store_run(&s, embed_schema, &w->fail));
    int n_kinds = 0;
    for (const struct record_kind *const *k = record_kinds; *k; k++, n_kinds++) {
        int n, at = 0;
        bool row;
        const struct row_column *c = row_columns(&w->arena, *k, &n);
        sqlite3_stmt *q;
        assert_true(store_prepare(
            &s, arena_print(&w->arena, "PRAGMA table_info(%s)", row_table(&w->arena, *k)), &q,
            &w->fail));
        for (; store_step(&s, q, &row, &w->fail) && row; at++) {
            const char *name = (const char *)sqlite3_column_text(q, 1);
            if (at >= n) fail_msg("%s: column %s too many", (*k)->name, name);
            if (!text_is(name, c[at].name) ||
                !text_is((const char *)sqlite3_column_text(q, 2), c[at].type) ||
                sqlite3_column_int(q, 3) != c[at].required)
                fail_msg("%s: column %s should be %s %s%s", (*k)->name, name, c[at].name,
                         c[at].type, c[at].required ? " NOT NULL" : "");
        }
        assert_int_equal(at, n);
        sqlite3_finalize(q);
    }
    int64_t tables, strict, parents = 0, references;
    static const char count[] =
        "SELECT count(*) FROM pragma_table_list WHERE schema = 'main' AND name NOT LIKE "
        "'sqlite_%'";
    assert_true(store_ask(&s, count, NULL, NULL, 0, &tables, &w->fail));
    assert_true(store_ask(&s, arena_print(&w->arena, "%s AND strict = 1", count), NULL, NULL, 0,
                          &strict, &w->fail));
    assert_int_equal(tables, n_kinds + 2); /* and journal, meta */
    assert_int_equal(strict, tables);
    for (const struct record_kind *const *k = record_kinds; *k; k++)
        for (int i = 0; i < (*k)->n_fields; i++) parents += (*k)->fields[i].type == FIELD_PARENT;
    assert_true(
        store_ask(&s,
                  "SELECT count(*) FROM pragma_table_list t, pragma_foreign_key_list(t.name) WHERE "
                  "t.schema = 'main'",
                  NULL, NULL, 0, &references, &w->fail));
    assert_int_equal(references, parents);
    store_close(&s);
}

static void the_journal_refuses_update_and_delete(void **state)
{
    struct world *w = *state;
    struct store s;
    assert_true(store_open(&s, ":memory:", SQLITE_OPEN_READWRITE, "memory", &w->fail));
    assert_true(store_run(&s, embed_schema, &w->fail));
    assert_true(store_run(
        &s, "INSERT INTO journal VALUES (1, 'garage', 1, x'7b7d', zeroblob(32), NULL, NULL)",
        &w->fail));
    static const char *const refused[] = {
        "UPDATE journal SET chain = 'x'",
        "DELETE FROM journal",
        "INSERT INTO journal VALUES (2, 'g', 1, x'', x'00', NULL, NULL)",
        "INSERT INTO journal VALUES (2, 'garage', 1, x'', zeroblob(32), NULL, NULL)",
    };
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++) {
        struct fail f = {0};
        assert_false(store_run(&s, refused[i], &f));
        assert_int_equal(f.kind, FAIL_GARAGE);
    }
    store_close(&s);
}

static const struct migration steps[] = {
    {2, "ALTER TABLE t ADD COLUMN b TEXT; UPDATE t SET b = 'two'"},
    {3, "CREATE TABLE u (a INTEGER) STRICT; INSERT INTO u SELECT a FROM t"},
    {0, NULL},
};
static const struct migration broken_steps[] = {
    {2, "ALTER TABLE t ADD COLUMN b TEXT"},
    {3, "CREATE TABLE u (a INTEGER) STRICT; INSERT INTO nowhere VALUES (1)"},
    {0, NULL},
};

static void an_old_schema_is_brought_up(void **state)
{
    struct world *w = *state;
    struct store s;
    int version;
    int64_t n;
    assert_true(store_open(&s, ":memory:", SQLITE_OPEN_READWRITE, "memory", &w->fail));
    assert_true(store_run(
        &s, "CREATE TABLE t (a INTEGER) STRICT; INSERT INTO t VALUES (7); PRAGMA user_version = 1",
        &w->fail));

    struct fail f = {0};
    assert_false(store_migrate(&s, broken_steps, 3, &f));
    assert_true(store_version(&s, &version, &w->fail));
    assert_int_equal(version, 2); /* each step whole or not at all */
    assert_true(store_ask(&s, "SELECT count(*) FROM sqlite_schema WHERE name = 'u'", NULL, NULL, -1,
                          &n, &w->fail));
    assert_int_equal(n, 0);

    assert_true(store_migrate(&s, steps, 3, &w->fail));
    assert_true(store_version(&s, &version, &w->fail));
    assert_int_equal(version, 3);
    assert_true(store_ask(&s, "SELECT a FROM u", NULL, NULL, -1, &n, &w->fail));
    assert_int_equal(n, 7);

    f = (struct fail){0};
    assert_false(store_migrate(&s, steps, 2, &f));
    assert_non_null(strstr(f.text, "newer version"));
    f = (struct fail){0};
    assert_false(store_migrate(&s, steps, 4, &f));
    assert_non_null(strstr(f.text, "no step leads to 4"));
    store_close(&s);
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

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(tables_follow_from_kinds),
        cmocka_unit_test(the_journal_refuses_update_and_delete),
        cmocka_unit_test(an_old_schema_is_brought_up),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
