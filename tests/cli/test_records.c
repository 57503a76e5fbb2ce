/* Facts through the command line: intake, add, change, remove, undo, list; the demonstration; the
 * manual. */
#include "cli/run.h"

#include <jansson.h>

/* JSON of a command line that must be done; the caller's to json_decref. */
static json_t *answer(struct place *p, const char *line)
{
    json_error_t error;
    json_t *j = json_loads(run_good(p, line)->out, JSON_REJECT_DUPLICATES, &error);
    if (!j) fail_msg("%s: not JSON: %s", line, error.text);
    assert_string_equal(json_string_value(json_object_get(j, "as_of")), "2026-11-25");
    assert_non_null(json_string_value(json_object_get(j, "version")));
    return j;
}

static const char *text_at(const json_t *j, const char *list, size_t index, const char *key)
{
    const json_t *record = json_array_get(json_object_get(j, list), index);
    const char *s = json_string_value(json_object_get(record, key));
    return s ? s : "(none)";
}

static size_t count(const json_t *j, const char *list)
{
    return json_array_size(json_object_get(j, list));
}

static void test_intake_by_words(void **state)
{
    (void)state;
    struct place *p = place_open();
    run_good(p, "fettle new");
    json_t *j = answer(
        p, "fettle intake name=Linnet kind=car year=1959 build=unitary cylinders=4 fuel=petrol "
           "gearbox=manual driven=rear brakes=drum voltage=12 earth=positive state=whole turns=yes "
           "rolls=no stops=? papers=some standing=27 storage=dry hours=14 hands=1 a-month=300 "
           "ceiling=9000 --json --date 2026-11-25");
    json_t *unknown = json_pack("[s]", "stops");
    assert_true(json_equal(json_object_get(j, "unknown"), unknown));
    assert_int_equal(json_integer_value(json_object_get(json_object_get(j, "vehicle"), "year")),
                     1959);
    json_decref(unknown);
    json_decref(j);
    j = answer(p, "fettle list purse --json --date 2026-11-25");
    json_t *wanted =
        json_pack("{s: i, s: s}", "amount", 30000, "currency", "GBP"); /* of the locale en_GB */
    assert_int_equal(count(j, "records"), 1);
    assert_true(json_equal(
        json_object_get(json_array_get(json_object_get(j, "records"), 0), "a-month"), wanted));
    json_decref(wanted);
    json_decref(j);

    /* A second vehicle tells only what is new: the workshop keeps its hands. */
    run_good(p, "fettle intake name=Barge hours=20");
    j = answer(p, "fettle list workshop --json --date 2026-11-25");
    const json_t *workshop = json_array_get(json_object_get(j, "records"), 0);
    assert_int_equal(count(j, "records"), 1);
    assert_true(json_number_value(json_object_get(workshop, "hours-a-week")) == 20);
    assert_int_equal(json_integer_value(json_object_get(workshop, "hands")), 1);
    json_decref(j);
    run_good(p, "fettle garage check");
    place_close(p);
}

static void test_intake_asks(void **state)
{
    (void)state;
    struct place *p = place_open();
    run_good(p, "fettle new");
    /* name, kind (begun only), a wrong year and a right one, back to the kind and the year kept,
     * then: don't know, ..., and the summary accepted. */
    const struct ran *r = run_good(
        p,
        "{ printf 'Barge\\npick\\n1066\\n1959\\n<\\n<\\nvan\\n\\n'; printf "
        "'frame\\n8\\n?\\n\\n\\n\\n\\n\\n"
        "whole\\nno\\n\\n\\nsome\\n18\\ndamp\\n6\\n1\\n250 GBP\\n?\\nyes\\n'; } | fettle intake");
    assert_non_null(strstr(r->out, "Question 12 of 12"));
    assert_non_null(strstr(r->out, "CAUTION: By hand only"));
    assert_non_null(strstr(r->out, "vehicle.year: 1066"));
    json_t *j = answer(p, "fettle list vehicles --json --date 2026-11-25");
    const json_t *v = json_array_get(json_object_get(j, "records"), 0);
    assert_string_equal(text_at(j, "records", 0, "name"), "Barge");
    assert_string_equal(text_at(j, "records", 0, "kind"), "van");
    assert_int_equal(json_integer_value(json_object_get(v, "year")), 1959);
    assert_string_equal(text_at(j, "records", 0, "cylinders"), "8");
    assert_string_equal(text_at(j, "records", 0, "storage"), "damp");
    assert_true(json_is_false(json_object_get(v, "turns")));
    assert_null(json_object_get(v, "fuel"));
    json_decref(j);
    j = answer(p, "fettle list purse --json --date 2026-11-25");
    assert_null(json_object_get(json_array_get(json_object_get(j, "records"), 0), "ceiling"));
    json_decref(j);
    assert_int_equal(
        run_line(p, "{ printf 'Raft\\n'; yes '' | head -21; echo no; } | fettle intake")->status,
        2);
    j = answer(p, "fettle list vehicles --json --date 2026-11-25");
    assert_int_equal(count(j, "records"), 1);
    json_decref(j);
    place_close(p);
}

static void test_add_change_remove_undo(void **state)
{
    (void)state;
    struct place *p = place_open();
    run_good(p, "fettle new && fettle intake name=Old");
    json_t *j = answer(
        p, "fettle add finding component=radiator condition='not fitted' --json --date 2026-11-25");
    const char *id = arena_copy(
        &p->arena, json_string_value(json_object_get(json_object_get(j, "record"), "id")));
    assert_int_equal(strlen(id), 32);
    json_decref(j);
    j = answer(p, "fettle list finding --json --date 2026-11-25");
    assert_string_equal(text_at(j, "records", 0, "date"),
                        "2026-11-25"); /* the day it is, unless another is said */
    assert_string_equal(text_at(j, "records", 0, "condition"), "not fitted");
    json_decref(j);
    const char *line =
        arena_print(&p->arena, "fettle change finding %.6s condition=poor note=weeps", id);
    run_good(p, line);
    j = answer(p, "fettle list finding --json --date 2026-11-25");
    assert_int_equal(count(j, "records"), 1);
    assert_string_equal(text_at(j, "records", 0, "id"), id);
    assert_string_equal(text_at(j, "records", 0, "note"), "weeps");
    json_decref(j);
    run_good(p, "fettle undo");
    j = answer(p, "fettle list finding --json --date 2026-11-25");
    assert_string_equal(text_at(j, "records", 0, "condition"), "not fitted");
    assert_string_equal(text_at(j, "records", 0, "note"), "(none)");
    json_decref(j);
    line = arena_print(&p->arena, "fettle remove finding %.4s", id);
    run_good(p, line);
    j = answer(p, "fettle list finding --json --date 2026-11-25");
    assert_int_equal(count(j, "records"), 0);
    json_decref(j);
    run_good(p, "fettle garage check && fettle garage rebuild && fettle garage check");
    place_close(p);
}

static void test_loom_names_what_is_wrong(void **state)
{
    (void)state;
    struct place *p = place_open();
    run_good(p, "fettle new && fettle intake name=Old voltage=6");
    assert_non_null(strstr(run_good(p, "fettle loom")->out, "No circuit is told yet"));
    run_good(p, "fettle add circuit name=horn use=motor power=60 length=2 wire='1.5 mm2'");
    run_good(p, "fettle add circuit name=lamps use=lamps power=20 length=2 wire='2.5 mm2' fuse=5 "
                "switch=light switch-rating=2");
    assert_int_equal(
        run_line(p, "fettle add circuit name=x draws=1 power=6 length=1 wire=28/0.30")->status, 2);
    const struct ran *r = run_good(p, "fettle loom");
    assert_non_null(strstr(r->out, "unfused: fit 15 A"));
    assert_non_null(strstr(r->out, "overloaded: light for 2 A switches 3.33 A"));
    json_t *j = answer(p, "fettle loom --json --date 2026-11-25");
    assert_int_equal(json_integer_value(json_object_get(j, "bad")), 2);
    assert_string_equal(text_at(j, "circuits", 0, "verdict"), "bad");
    json_decref(j);
    run_good(p, "fettle garage check && fettle garage rebuild && fettle garage check");
    place_close(p);
}

/* What is typed comes back harmless on a terminal, and whole in JSON. */
static void test_notes_are_escaped(void **state)
{
    (void)state;
    struct place *p = place_open();
    run_good(p, "fettle new && fettle intake name=Old");
    run_good(p, "fettle add finding component=radiator condition=poor note=\"$(printf 'a "
                "\\342\\200\\256 b \"c\"')\"");
    const struct ran *r = run_good(p, "COLUMNS=120 fettle list findings");
    assert_null(strstr(r->out, "\xe2\x80\xae"));
    assert_non_null(strstr(r->out, "\\u202e"));
    json_t *j = answer(p, "fettle list finding --json --date 2026-11-25");
    assert_string_equal(text_at(j, "records", 0, "note"), "a \xe2\x80\xae b \"c\"");
    json_decref(j);
    place_close(p);
}

static void test_demo_is_the_same_for_all(void **state)
{
    (void)state;
    struct place *p = place_open();
    run_good(p, "fettle demo a && sleep 1 && fettle demo b");
    run_good(p, "for k in vehicle workshop slot helper-day purse finding worth decision work; do "
                "fettle list $k --garage a --json >x && fettle list $k --garage b --json >y && cmp "
                "x y || exit 1; done");
    run_good(p, "fettle garage check --garage a");
    assert_int_equal(run_line(p, "fettle demo a")->status, 3);
    json_t *j = answer(p, "fettle list findings --garage a --json --date 2026-11-25");
    assert_true(count(j, "records") >= 20);
    /* Every finding names a component of the trade data. */
    for (size_t i = 0; i < count(j, "records"); i++) {
        const char *component = text_at(j, "records", i, "component");
        const char *line = arena_print(
            &p->arena, "fettle trade list components --json | grep -q '\"id\": \"%.*s\"'",
            (int)strcspn(component, "@"), component);
        run_good(p, line);
    }
    json_decref(j);
    place_close(p);
}

/* Every command line of docs/fettle.1 that begins with "$ " is done, one after the other. */
static void test_manual(void **state)
{
    (void)state;
    FILE *in = fopen("docs/fettle.1", "r");
    if (!in) fail_msg("docs/fettle.1 is missing; run from the top of the tree");
    struct place *p = place_open();
    char line[1024];
    int done = 0;
    while (fgets(line, sizeof line, in)) {
        if (strncmp(line, "$ ", 2) != 0) continue;
        line[strcspn(line, "\n")] = '\0';
        run_good(p, line + 2);
        done++;
    }
    fclose(in);
    assert_true(done >= 10);
    /* Every verb has its place in the manual. */
    char *verbs = arena_copy(
        &p->arena,
        run_good(p, "fettle help | sed -n '/^Verbs:/,/^$/s/^  \\([a-z]*\\) .*/\\1/p'")->out);
    for (char *verb = strtok(verbs, "\n"); verb; verb = strtok(NULL, "\n")) {
        bool there = false;
        const char *wanted = arena_print(&p->arena, ".It Cm %s", verb);
        in = fopen("docs/fettle.1", "r");
        assert_non_null(in);
        while (fgets(line, sizeof line, in))
            if (strncmp(line, wanted, strlen(wanted)) == 0) there = true;
        fclose(in);
        if (!there) fail_msg("docs/fettle.1 says nothing of %s", verb);
    }
    place_close(p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_intake_by_words),
        cmocka_unit_test(test_intake_asks),
        cmocka_unit_test(test_add_change_remove_undo),
        cmocka_unit_test(test_loom_names_what_is_wrong),
        cmocka_unit_test(test_notes_are_escaped),
        cmocka_unit_test(test_demo_is_the_same_for_all),
        cmocka_unit_test(test_manual),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
