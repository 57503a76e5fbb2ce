/* test_session.c - the working evening from the command line: what is good, and one line for what
 * is not. */
#include "cli/run.h"

static const struct told_line lines[] = {
    {"fettle session", 0, "Linnet: this evening"},
    {"fettle session --hours 3 --hands 2 --degrees 8", 0, "2 pairs of hands, 8 C"},
    {"fettle session --hours 3 --json", 0, "\"blocked\""},
    {"fettle session --hours lots", 2, "hours: 'lots' is no number"},
    {"fettle session --hours 90", 2, "hours: '90' is no number from 0.25 to 24"},
    {"fettle session --hands 0", 2, "hands"},
    {"fettle session --degrees 400", 2, "degrees"},
    {"fettle session dance", 2, "takes no word 'dance'"},
    {"fettle session done", 2, "needs a note"},
    {"fettle session done 'left cylinder in' --where 'blue tray'", 0, "shown first next time"},
    {"fettle session", 0, "left cylinder in"},
    {"fettle session", 0, "blue tray"},
    {"fettle session done x --photo 77777777", 2, "photo"},
    {"fettle session care mice-and-men", 2, "there is no care"},
    {"fettle session care care-mice", 0, "comes again"},
    {"fettle session tool 'axle stand' owned", 2, "there is no tool"},
    {"fettle session tool 'axle stands' owned", 0, "Noted"},
    {"fettle session tool 'axle stands' perhaps", 2, "tool.have"},
    {"fettle add tool-offer tool=puller way=hire a-day='4 GBP' whose='the hire shop'", 0, "added"},
    {"fettle add promise who=Ann what='bring the crane' by-day=2026-01-02", 0, "added"},
    {"fettle add person name=Ann knows=welding lends='engine crane'", 0, "added"},
    {"fettle tools --runs 50 --json", 0, "\"whose\": \"the hire shop\""},
    {"fettle tools --runs 50", 0, "late, ask"},
    {"fettle tools now", 2, "takes no word 'now'"},
    {"fettle yard", 0, "left cylinder in"},
    {"fettle yard --json", 0, "\"stalls\""},
    {"fettle yard now", 2, "takes no word 'now'"},
    {"fettle trade show care-mice", 0, "droppings"},
};

static void good_and_bad_input(void **state)
{
    (void)state;
    struct place *p = place_with_car();
    run_good(p, "fettle add workshop currency=GBP hours-a-week=6");
    run_told(p, lines, sizeof lines / sizeof *lines);
    place_close(p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(good_and_bad_input)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
