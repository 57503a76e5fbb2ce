/* Sheets: what builders put in comes out, through JSON too; damaged JSON is refused, never
 * followed. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/text.h"
#include "face/show/sheet_json.h"
#include "face/show/show_records.h"
#include "show/sample.h"

#include <stdlib.h>
#include <string.h>

static void test_facts_and_lists_go_on(void **state)
{
    (void)state;
    struct arena a = arena_open(1 << 20);
    struct sheet *s = sheet_new(&a, "t");
    sheet_fact(s, TONE_PLAIN, "a", "1");
    sheet_fact(s, TONE_GOOD, "b", "%d", 2);
    sheet_text(s, "between");
    sheet_fact(s, TONE_PLAIN, "c", "3");
    assert_int_equal(s->first->kind, SHEET_FACTS);
    assert_int_equal(s->first->as.facts.count, 2);
    assert_string_equal(s->first->as.facts.items[1].value, "2");
    assert_int_equal(s->last->kind, SHEET_FACTS);
    assert_int_equal(s->last->as.facts.count, 1);
    arena_close(&a);
}

static void test_builders_copy(void **state)
{
    (void)state;
    struct arena a = arena_open(1 << 20);
    char passing[] = "first";
    struct sheet *s = sheet_new(&a, passing);
    sheet_heading(s, 1, passing);
    sheet_caution(s, passing, NULL);
    memset(passing, 'x', 5);
    assert_string_equal(s->title, "first");
    assert_string_equal(s->first->as.heading.text, "first");
    assert_string_equal(s->last->as.caution.defer, "");
    arena_close(&a);
}

/* The sample without what is not UTF-8, which JSON cannot carry and no face lets in. */
static struct sheet *clean_sample(struct arena *a)
{
    struct sheet *s = sample_sheet(a);
    for (struct sheet_node *n = s->first; n; n = n->next)
        if (n->kind == SHEET_TABLE)
            for (int i = 0; i < n->as.table.n_cells; i++)
                if (!text_is_utf8(n->as.table.cells[i].text, strlen(n->as.table.cells[i].text)))
                    n->as.table.cells[i].text = "?";
    return s;
}

static void test_json_round_trip(void **state)
{
    (void)state;
    struct arena a = arena_open(1 << 22);
    struct fail f = {0};
    json_t *once = sheet_to_json(clean_sample(&a));
    struct sheet *back;
    assert_true(sheet_from_json(&a, once, &back, &f));
    json_t *twice = sheet_to_json(back);
    assert_true(json_equal(once, twice));
    json_decref(once);
    json_decref(twice);
    arena_close(&a);
}

static void test_json_bad(void **state)
{
    (void)state;
    static const char *const bad[] = {
        "[]",
        "{}",
        "{\"title\": \"t\"}",
        "{\"title\": 1, \"nodes\": []}",
        "{\"title\": \"t\", \"nodes\": [1]}",
        "{\"title\": \"t\", \"nodes\": [{\"kind\": \"song\", \"text\": \"x\"}]}",
        "{\"title\": \"t\", \"nodes\": [{\"kind\": \"heading\", \"text\": \"x\", \"level\": 0}]}",
        "{\"title\": \"t\", \"nodes\": [{\"kind\": \"heading\", \"text\": \"x\", \"level\": 4}]}",
        "{\"title\": \"t\", \"nodes\": [{\"kind\": \"facts\", \"pairs\": [[\"a\", \"b\", 9]]}]}",
        "{\"title\": \"t\", \"nodes\": [{\"kind\": \"facts\", \"pairs\": []}]}",
        "{\"title\": \"t\", \"nodes\": [{\"kind\": \"table\", \"caption\": \"\", \"columns\": [], "
        "\"cells\": []}]}",
        "{\"title\": \"t\", \"nodes\": [{\"kind\": \"table\", \"caption\": \"\", \"columns\": "
        "[[\"a\",0,1],[\"b\",0,1]], "
        "\"cells\": [[\"x\",0]]}]}",
        "{\"title\": \"t\", \"nodes\": [{\"kind\": \"chart\", \"chart\": 0, \"title\": \"\", "
        "\"unit\": \"\", "
        "\"low\": 2, \"high\": 1, \"low_text\": \"\", \"high_text\": \"\"}]}",
        "{\"title\": \"t\", \"nodes\": [{\"kind\": \"note\", \"mark\": 5, \"text\": \"\", "
        "\"source\": \"\"}]}",
    };
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        struct arena a = arena_open(1 << 20);
        struct fail f = {0};
        struct sheet *s;
        json_t *j = json_loads(bad[i], 0, NULL);
        assert_non_null(j);
        if (sheet_from_json(&a, j, &s, &f)) fail_msg("accepted: %s", bad[i]);
        assert_int_equal(f.kind, FAIL_INPUT);
        json_decref(j);
        arena_close(&a);
    }
}

/* Any single value of a good sheet replaced by a wrong one is refused or still makes a sheet; under
 * the sanitizers this shows that nothing is followed blindly. */
static int damage(json_t *j, int *countdown)
{
    size_t i;
    json_t *value;
    const char *key;
    if (json_is_array(j)) {
        json_array_foreach(j, i, value)
        {
            if ((*countdown)-- == 0) return json_array_set_new(j, i, json_integer(-7)) + 1;
            if (damage(value, countdown)) return 1;
        }
    } else if (json_is_object(j)) {
        json_object_foreach(j, key, value)
        {
            if ((*countdown)-- == 0) return json_object_set_new(j, key, json_integer(-7)) + 1;
            if (damage(value, countdown)) return 1;
        }
    }
    return 0;
}

static void test_json_damaged(void **state)
{
    (void)state;
    int tried = 0, refused = 0;
    for (int at = 0;; at++, tried++) {
        struct arena a = arena_open(1 << 22);
        struct fail f = {0};
        struct sheet *s;
        json_t *j = sheet_to_json(clean_sample(&a));
        int countdown = at;
        bool damaged = damage(j, &countdown) != 0;
        if (damaged && !sheet_from_json(&a, j, &s, &f)) refused++;
        json_decref(j);
        arena_close(&a);
        if (!damaged) break;
    }
    assert_true(tried > 150);
    assert_true(refused * 2 >
                tried); /* numbers and extra arrays may stand in for each other; texts may not */
}

static void test_every_kind_can_be_shown(void **state)
{
    (void)state;
    struct arena a = arena_open(1 << 22);
    for (int i = 0; record_kinds[i]; i++) {
        const struct record_kind *k = record_kinds[i];
        struct sheet *s = show_kind(&a, k);
        assert_string_equal(s->title, k->name);
        struct record *empty = record_new(&a, k);
        assert_non_null(show_records(&a, k, empty, 1, NULL, 0)->first);
        assert_non_null(show_records(&a, k, NULL, 0, NULL, 0)->first);
        json_t *j = record_to_json(empty);
        assert_int_equal(json_object_size(j), 3); /* id, revision, at: nothing else is known */
        json_decref(j);
        j = kind_to_json(&a, k);
        assert_int_equal(json_array_size(json_object_get(j, "fields")), k->n_fields);
        json_decref(j);
    }
    arena_close(&a);
}

static void test_values_as_json(void **state)
{
    (void)state;
    static const struct {
        const char *kind, *field, *typed, *json;
    } cases[] = {
        {"vehicle", "year", "1959", "1959"},
        {"vehicle", "brakes", "Drum", "\"drum\""},
        {"vehicle", "turns", "yes", "true"},
        {"vehicle", "turns", "no", "false"},
        {"vehicle", "standing", "27.5", "27.5"},
        {"purse", "a-month", "300", "{\"amount\": 30000, \"currency\": \"GBP\"}"},
        {"purse", "ceiling", "9000 JPY", "{\"amount\": 9000, \"currency\": \"JPY\"}"},
        {"worth", "worth", "800/1200/2000",
         "{\"low\": 80000, \"middle\": 120000, \"high\": 200000, "
         "\"currency\": \"GBP\"}"},
        {"slot", "from", "19:00", "\"19:00\""},
        {"finding", "date", "2026-02-28", "\"2026-02-28\""},
        {"work", "hours", "2 h 30 min", "{\"text\": \"2 h 30 min\", \"si\": 9000.0}"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct arena a = arena_open(1 << 20);
        struct fail f = {0};
        struct record *r = record_new(&a, record_kind_find(cases[i].kind));
        if (!record_set(&a, r, cases[i].field, cases[i].typed, "GBP", &f)) fail_msg("%s", f.text);
        json_t *j = record_to_json(r), *wanted = json_loads(cases[i].json, JSON_DECODE_ANY, NULL);
        assert_non_null(wanted);
        if (!json_equal(json_object_get(j, cases[i].field), wanted)) {
            char *got = json_dumps(j, JSON_ENCODE_ANY);
            fail_msg("%s: %s", cases[i].json, got);
        }
        json_decref(j);
        json_decref(wanted);
        arena_close(&a);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_facts_and_lists_go_on),
        cmocka_unit_test(test_builders_copy),
        cmocka_unit_test(test_json_round_trip),
        cmocka_unit_test(test_json_bad),
        cmocka_unit_test(test_json_damaged),
        cmocka_unit_test(test_every_kind_can_be_shown),
        cmocka_unit_test(test_values_as_json),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
