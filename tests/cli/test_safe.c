/* test_safe.c - gates and checks from the command line: the answer no is status 1 with what is
 * missing, and a check is stored only after what it asks was shown. */
#include "cli/run.h"

static const struct told_line lines[] = {
    {"fettle safe", 0, "Before the battery"},
    {"fettle safe before-fuel", 1, "missing:"},
    {"fettle safe before-feul", 2, "did you mean 'before-fuel'?"},
    {"fettle safe open before-fuel", 1, "stays shut; missing:"},
    {"fettle safe override before-fuel", 2, "needs a written reason"},
    {"fettle safe override before-fuel 'to find the leak, outdoors'", 0, "overridden"},
    {"fettle safe before-fuel", 1, "is overridden"},
    {"fettle safe check going-under", 1, "when all of it is true now"},
    {"fettle list session-check --json", 0, "\"records\": []"},
    {"fettle safe check going-udner --yes", 2, "did you mean 'going-under'?"},
    {"fettle safe check going-under --yes", 0, "checked today"},
    {"fettle safe --date 2026-11-24", 0, "not checked today"},
    {"fettle safe --json", 0, "\"state\": \"overridden\""},
};

static void the_answer_no_is_a_status(void **state)
{
    (void)state;
    struct place *p = place_with_car();
    run_told(p, lines, sizeof lines / sizeof *lines);
    const struct ran *r = run_line(p, "fettle safe check going-under");
    assert_non_null(strstr(r->out, "CAUTION"));
    place_close(p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(the_answer_no_is_a_status)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
