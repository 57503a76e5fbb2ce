/* What a choice is weighed by, through the command line: what cannot be is refused in one line, and
 * what is told comes back at the top of choose and plan. */
#include "cli/run.h"

#include <jansson.h>

static const struct {
    const char *line, *said;
} refused[] = {
    {"comparable price='0 GBP' how=sold date=2026-05-01 grade=3", "comparable.price: is nothing"},
    {"comparable price='-5 GBP' how=sold date=2026-05-01 grade=3", "less than nothing"},
    {"comparable price='900 XQZ' how=sold date=2026-05-01 grade=3", "XQZ"},
    {"comparable price='900 GBP' how=swapped date=2026-05-01 grade=3", "comparable.how"},
    {"comparable price='900 GBP' how=sold date=2026-05-01 grade=6", "comparable.grade: 6"},
    {"comparable price='900 GBP' how=sold date=2026-05-01", "comparable.grade"},
    {"comparable price='900 GBP' how=sold date=2026-05-01 grade=3 distance=12", "unit"},
    {"comparable how=sold date=2026-05-01 grade=3", "comparable.price"},
    {"weights month='-1 GBP'", "weights.month: is less than nothing"},
    {"weights month='1 GBP' driving='5 EUR'", "weights.driving: is in EUR"},
    {"tripwire why=nothing", "tripwire.spent: nothing is watched"},
    {"tripwire component=sill", "tripwire.condition: is missing"},
    {"tripwire condition=failed", "tripwire.component: is missing"},
    {"tripwire spent='0 GBP'", "tripwire.spent: is nothing"},
    {"instead what=other price='1/2/3 GBP' bill='1/2/3 EUR' worth='1/2/3 GBP'",
     "instead.bill: is in EUR"},
    {"instead what=other price='3/2/1 GBP' bill='1/2/3 GBP' worth='1/2/3 GBP'", "instead.price"},
    {"grade of=drive grade=0", "grade.grade: 0"},
    {"grade of=drive grade=3 original='120 %'", "grade.original"},
};

static void what_cannot_be_is_one_line(void **state)
{
    (void)state;
    struct place *p = place_open();
    run_good(p, "fettle new");
    run_good(p, "fettle intake name=Linnet year=1959");
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++) {
        char line[300];
        snprintf(line, sizeof line, "fettle add %s --date 2026-11-25", refused[i].line);
        const struct ran *r = run_line(p, line);
        assert_int_equal(r->status, 2);
        if (!strstr(r->err, refused[i].said) || strchr(r->err, '\n') != r->err + strlen(r->err) - 1)
            fail_msg("%s: %s", line, r->err);
    }
    place_close(p);
}

/* Four sales and one in money without a rate are shown and said; a crossed tripwire stands first,
 * in choose and in plan. */
static void what_is_told_is_said(void **state)
{
    (void)state;
    struct place *p = place_open();
    run_good(p, "fettle new");
    run_good(p, "fettle intake name=Linnet year=1959");
    for (int i = 0; i < 4; i++)
        run_good(p, "fettle add comparable price='9000 GBP' how=sold date=2026-05-01 grade=3");
    run_good(p, "fettle add comparable price='9000 CHF' how=asked date=2026-05-01 grade=3");
    run_good(p, "fettle add tripwire passed=2026-11-01 why='a year is enough'");
    const struct ran *r = run_good(p, "fettle choose --runs 50 --date 2026-11-25");
    assert_non_null(strstr(r->out, "The choice is open again"));
    assert_non_null(strstr(r->out, "a year is enough"));
    assert_non_null(strstr(r->out, "Left out: a comparable in CHF"));
    assert_non_null(strstr(r->out, "sold May 2026, grade 3"));
    assert_null(strstr(r->out, "Worths are taken from"));
    r = run_good(p, "fettle plan --runs 50 --date 2026-11-25");
    assert_non_null(strstr(r->out, "The choice is open again"));
    run_good(p, "fettle add rate currency=CHF per=GBP rate=0.9 date=2026-11-01");
    r = run_good(p, "fettle choose --runs 50 --date 2026-11-25");
    assert_non_null(strstr(r->out, "Worths are taken from the 5 sales"));
    assert_null(strstr(r->out, "Left out"));
    place_close(p);
}

static void take_away(struct place *p, const char *kind)
{
    const char *line = arena_print(&p->arena, "fettle list %s --garage d --json", kind);
    json_t *list = json_loads(run_good(p, line)->out, 0, NULL), *one;
    size_t i;
    assert_true(json_array_size(json_object_get(list, "records")) > 0);
    json_array_foreach(json_object_get(list, "records"), i, one)
    {
        const char *id = json_string_value(json_object_get(one, "id"));
        run_good(p, arena_print(&p->arena, "fettle remove %s %s --garage d", kind, id));
    }
    json_decref(list);
}

/* The demonstration: a stopped clock, dated papers and the bores move the choice from restore to
 * drive, because they say that it ran few miles. */
static void three_clues_move_the_demonstration(void **state)
{
    (void)state;
    static const char choose[] = "fettle choose --garage d --runs 1500 --date 2026-11-25";
    static const char identify[] = "fettle identify --garage d --json --runs 50 --date 2026-11-25";
    struct place *p = place_open();
    double miles[2];
    run_good(p, "fettle demo d");
    for (int before = 0; before < 2; before++) {
        if (before) {
            take_away(p, "clock");
            take_away(p, "dated-mileage");
            take_away(p, "clue-reading");
        }
        const char *said = run_good(p, choose)->out;
        assert_non_null(strstr(said, before ? "Choose 'restore'" : "Choose 'drive'"));
        json_t *o = json_loads(run_good(p, identify)->out, 0, NULL);
        miles[before] = json_number_value(json_object_get(json_object_get(o, "miles"), "p50"));
        assert_true(json_is_true(json_object_get(o, "known")) == !before);
        json_decref(o);
    }
    assert_true(miles[0] < 0.6 * miles[1]);
    place_close(p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_cannot_be_is_one_line),
        cmocka_unit_test(what_is_told_is_said),
        cmocka_unit_test(three_clues_move_the_demonstration),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
