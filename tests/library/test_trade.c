/* What good trade data becomes, and how the garage's own stands over what the program carries. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "small_trade.h"

#include "base/text.h"
#include "library/cycle.h"
#include "library/ids.h"

#include <string.h>

#define COUNT(array) (sizeof(array) / sizeof *(array))

static int set_up(void **state)
{
    static struct arena a;
    a = arena_open(256 << 20);
    *state = &a;
    return 0;
}

static int take_down(void **state)
{
    arena_close(*state);
    return 0;
}

static struct trade good_trade(struct arena *a)
{
    struct trade t;
    struct sources s = small_sources(a, NULL, "", "");
    assert_string_equal(small_faults(a, &s, &t), "");
    return t;
}

static void reads_every_kind_of_value(void **state)
{
    const struct trade t = good_trade(*state);
    const struct ageing *ages = &t.ageing[0];
    assert_true(ages->odds[COND_POOR] == 0.3 && ages->odds[COND_MISSING] == 0);
    assert_true(ages->storage[STORAGE_HEATED] == -0.4 && ages->storage[STORAGE_DRY] == 0);
    assert_true(ages->state == 0.05 && ages->missing[2] == 0.3); /* nothing said */

    const struct trade_component *c = &t.components[0];
    assert_string_equal(c->head.name, "wheel cylinder");
    assert_string_equal(c->head.also[0], "slave cylinder");
    assert_string_equal(c->head.file, "components.yaml");
    assert_int_equal(c->head.line, 4);
    assert_int_equal(c->head.mark, MARK_DEMO);
    assert_int_equal(c->n_places, 2); /* the group opened */
    assert_string_equal(t.places[c->places[1]].head.id, "right");
    assert_int_equal(c->fitted.values[ANSWER_BRAKES], 3);
    assert_true(c->look_minutes == 10);

    const struct trade_job *job = &t.jobs[trade_find_job(&t, "bleed")];
    assert_int_equal(job->package, PACKAGE_MECHANICAL);
    assert_int_equal(job->directions, 1U << trade_find_direction(&t, "drive"));
    assert_int_equal(job->when_conditions,
                     1U << COND_POOR | 1U << COND_BODGED | 1U << COND_FAILED | 1U << COND_MISSING);
    assert_true(job->hours.low == 2 && job->hours.middle == 4 && job->hours.high == 17);
    assert_true(job->hands == 2 && job->bay && !job->unbroken && job->warm == 5 && job->by_share);
    assert_true(job->wait.days.high == 2);
    assert_string_equal(job->wait.what_for, "settling");
    assert_int_equal(job->n_parts, 2);
    assert_true(job->parts[0].count == 4 && job->parts[1].count == 1);
    assert_string_equal(t.parts[job->parts[1].part].head.id, "fluid");
    assert_int_equal(job->accept_mark, MARK_PUBLISHED);
    assert_string_equal(job->accept_source, "handbook");
    assert_true(job->n_steps == 3 && job->n_tools == 1 && job->n_cautions == 1);

    const struct trade_job *look = &t.jobs[trade_find_job(&t, "look-round")];
    assert_true(look->survey && !look->gate && !look->bay && look->hands == 1);
    assert_true(look->warm == -100 && look->hours.low == 0.5 && look->hours.high == 0.5);

    assert_string_equal(t.parts[0].currency, "GBP");
    assert_string_equal(t.parts[1].currency, "EUR");
    assert_int_equal(t.parts[1].head.mark, MARK_PUBLISHED);
    assert_int_equal(t.parts[0].price_year, 2024);

    const struct trade_setback *s = &t.setbacks[0];
    assert_true(s->n_at == 1 && s->at[0].each && s->at[0].chance[COND_FAILED] == 0.9);
    assert_true(s->n_ladder == 2 && s->ladder[1].works == 1 && s->ladder[0].wait.days.low == 1);
    assert_true(t.coverage[0].conditional && !t.coverage[1].conditional);
    assert_true(trade_find_default(&t, "months")->value[11] == -12);
    assert_int_equal(trade_find_default(&t, "months")->n_value, 12);
    assert_true(t.places[trade_find_place(&t, "left")].parent == trade_find_place(&t, "outside"));
    assert_int_equal(t.places[trade_find_place(&t, "right")].parent, -1);
}

static void an_accept_without_mark_has_the_entrys(void **state)
{
    struct trade t;
    struct sources s = small_sources(
        *state, "jobs.yaml", "    accept-mark: published\n    accept-source: handbook\n", "");
    assert_string_equal(small_faults(*state, &s, &t), "");
    assert_int_equal(t.jobs[trade_find_job(&t, "bleed")].accept_mark, MARK_DEMO);
}

/* ---- the garage's own
 * -------------------------------------------------------------------------------------- */

static void add_own(struct arena *a, struct sources *s, const char *file, const char *text)
{
    small_add(a, s, file, text, strlen(text), true);
}

static void an_own_entry_takes_the_place_of_the_carried(void **state)
{
    struct trade t;
    struct sources s = small_sources(*state, NULL, "", "");
    add_own(*state, &s, "own/x.yaml",
            "subject: parts\nmark: demo\ncurrency: USD\nprice-year: 2025\nentries:\n"
            "  - {id: hose, name: hose, system: brakes, from: stock, price: 9, lead: 2}\n"
            "  - {id: kit, name: my kit, system: brakes, from: stock, price: 1, lead: 2}\n");
    assert_string_equal(small_faults(*state, &s, &t), "");
    assert_int_equal(t.n_parts, 3);
    assert_string_equal(t.parts[0].head.name, "my kit"); /* where the carried one stood */
    assert_true(t.parts[0].head.own && !t.parts[1].head.own && t.parts[2].head.own);
    assert_string_equal(t.parts[0].currency, "USD");
    assert_string_equal(t.parts[t.jobs[2].parts[0].part].head.name, "my kit");
}

static void twice_among_the_own_is_a_fault(void **state)
{
    struct trade t;
    struct sources s = small_sources(*state, NULL, "", "");
    add_own(*state, &s, "own/a.yaml", "subject: tools\nentries:\n  - {id: spanner, name: one}\n");
    add_own(*state, &s, "own/b.yaml", "subject: tools\nentries:\n  - {id: spanner, name: two}\n");
    assert_string_equal(small_faults(*state, &s, &t),
                        "own/b.yaml:3: 'spanner' is already in own/a.yaml:3; give it another id or "
                        "take one out\n");
}

static void an_unread_file_is_told_alone(void **state)
{
    struct trade t;
    struct sources s = small_sources(*state, "parts.yaml", "subject: parts", "subject: [parts");
    assert_string_equal(
        small_faults(*state, &s, &t),
        "parts.yaml:2: YAML: while parsing a flow sequence, did not find expected ',' "
        "or ']'; mend the indentation, quotes or brackets here\n");
    assert_int_equal(t.n_jobs, 0);
}

/* ---- answers, words, finding
 * ------------------------------------------------------------------------------- */

static void fitted_holds_where_all_answers_do(void **state)
{
    (void)state;
    static const struct {
        unsigned brakes, fuel;
        int brakes_is, fuel_is;
        bool holds;
    } cases[] = {
        {0, 0, 2, 1, true},  {3, 0, 1, 0, true},  {3, 0, 2, 0, false},  {3, 2, 1, 1, true},
        {3, 2, 1, 0, false}, {3, 0, -1, 0, true}, {4, 0, -1, 0, false}, /* don't know: the usual */
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        struct fitted f = {{0}};
        int answers[ANSWER_COUNT] = {0};
        f.values[ANSWER_BRAKES] = (uint8_t)cases[i].brakes;
        f.values[ANSWER_FUEL] = (uint8_t)cases[i].fuel;
        answers[ANSWER_BRAKES] = cases[i].brakes_is;
        answers[ANSWER_FUEL] = cases[i].fuel_is;
        if (fitted_holds(&f, answers) != cases[i].holds) fail_msg("case %zu", i);
    }
}

static void answers_parse_what_they_print(void **state)
{
    (void)state;
    for (int a = 0; a < ANSWER_COUNT; a++) {
        enum answer found;
        assert_true(answer_find(answer_name((enum answer)a), &found) && (int)found == a);
        int values = 0;
        for (; answer_value((enum answer)a, values); values++)
            assert_int_equal(answer_parse((enum answer)a, answer_value((enum answer)a, values)),
                             values);
        assert_true(values >= 2);
    }
    assert_int_equal(answer_parse(ANSWER_STATE, "Part stripped"), 1);
    assert_int_equal(answer_parse(ANSWER_BRAKES, "wooden"), -1);
    assert_string_equal(package_name(PACKAGE_HAND_OVER), "hand-over");
    assert_string_equal(part_from_name(FROM_FEE), "fee");
    assert_string_equal(subject_name(SUBJECT_DEFAULTS), "defaults");
}

static void searches_in_either_english(void **state)
{
    const struct trade t = good_trade(*state);
    static const struct {
        const char *words;
        int count;
        enum subject subject;
    } cases[] = {
        {"wrench", 1, SUBJECT_TOOLS},      {"SLAVE cyl", 1, SUBJECT_COMPONENTS},
        {"  spanner\t", 1, SUBJECT_TOOLS}, {"slave wrench", 0, SUBJECT_COUNT},
        {"left", 1, SUBJECT_PLACES},       {"", 0, SUBJECT_COUNT},
        {"  ", 0, SUBJECT_COUNT},          {"dust", 1, SUBJECT_CAUTIONS},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        struct trade_hit *hits;
        int count = trade_search(*state, &t, cases[i].words, &hits);
        if (count != cases[i].count || (count > 0 && hits[0].subject != cases[i].subject))
            fail_msg("'%s': %d", cases[i].words, count);
    }
    assert_string_equal(trade_nearest_component(&t, "slave cilinder"), "cylinder");
    assert_string_equal(trade_nearest_component(&t, "cylindre"), "cylinder");
    assert_null(trade_nearest_component(&t, "carburettor"));
    assert_int_equal(trade_find_component(&t, "cylindre"), -1);
    assert_int_equal(trade_find_part(&t, "fluid"), 1);
    assert_int_equal(trade_find_setback(&t, "stuck"), 0);
    assert_null(trade_find_default(&t, "none"));
}

static void tells_good_ids(void **state)
{
    (void)state;
    static const struct {
        const char *id;
        bool good;
    } cases[] = {{"a", true},    {"a-b", true}, {"12v-lamp", true}, {"", false},
                 {"-a", false},  {"a-", false}, {"a--b", false},    {"A", false},
                 {"a b", false}, {"a@b", false}};
    for (size_t i = 0; i < COUNT(cases); i++)
        if (id_is_good(cases[i].id) != cases[i].good) fail_msg("'%s'", cases[i].id);
}

/* ---- circles
 * -----------------------------------------------------------------------------------------------
 */

static void write_circle(void *context, const int *circle, int length)
{
    for (int i = 0; i < length; i++)
        text_print(context, "%d%s", circle[i], i < length - 1 ? ">" : " ");
}

static void finds_circles(void **state)
{
    static const int to[] = {0, 1, 2, 3, 4, 5};
    static const struct {
        struct links links[6];
        const char *circles;
    } cases[] = {
        {{{0}}, ""},
        {{{to + 1, 1}, {to + 2, 1}, {to + 3, 1}, {to + 4, 1}, {to + 5, 1}}, ""},
        {{{to + 1, 5}, {to + 2, 4}, {to + 3, 3}, {to + 4, 2}, {to + 5, 1}}, ""}, /* dense, none */
        {{{to + 1, 1}, {to + 2, 1}, {to + 0, 1}}, "0>1>2 "},
        {{{0}, {0}, {to + 2, 1}}, "2 "},
        {{{to + 1, 1}, {to + 0, 1}, {to + 3, 1}, {to + 2, 1}}, "0>1 2>3 "},
        {{{to + 5, 1}, {to + 0, 1}, {0}, {0}, {to + 3, 1}, {to + 4, 2}}, "5 "}, /* a tail into it */
        {{{to + 3, 1}, {0}, {0}, {to + 4, 1}, {to + 5, 1}, {to + 3, 1}}, "3>4>5 "},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        struct text said = {.arena = *state};
        cycles_find(*state, cases[i].links, 6, write_circle, &said);
        if (!text_is(text_get(&said), cases[i].circles))
            fail_msg("case %zu: %s", i, text_get(&said));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(reads_every_kind_of_value, set_up, take_down),
        cmocka_unit_test_setup_teardown(an_accept_without_mark_has_the_entrys, set_up, take_down),
        cmocka_unit_test_setup_teardown(an_own_entry_takes_the_place_of_the_carried, set_up,
                                        take_down),
        cmocka_unit_test_setup_teardown(twice_among_the_own_is_a_fault, set_up, take_down),
        cmocka_unit_test_setup_teardown(an_unread_file_is_told_alone, set_up, take_down),
        cmocka_unit_test(fitted_holds_where_all_answers_do),
        cmocka_unit_test(answers_parse_what_they_print),
        cmocka_unit_test_setup_teardown(searches_in_either_english, set_up, take_down),
        cmocka_unit_test(tells_good_ids),
        cmocka_unit_test_setup_teardown(finds_circles, set_up, take_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
