/* What a choice is weighed by, through the command line: what cannot be is refused in one line, and
 * what is told comes back at the top of choose and plan. */
#include "cli/run.h"

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

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_cannot_be_is_one_line),
        cmocka_unit_test(what_is_told_is_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
