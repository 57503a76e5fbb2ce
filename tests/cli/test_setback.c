/* test_setback.c - a setback from the command line: shown before it is stored, its outcome told,
 * and what cannot be understood refused in one line. */
#include "cli/run.h"

static const struct told_line lines[] = {
    {"fettle setback", 0, "None is open"},
    {"fettle setback snaped-stud", 2, "did you mean 'snapped-stud'?"},
    {"fettle setback snapped-stud is=sideways", 2, "setback.is"},
    {"fettle setback snapped-stud colour=red", 2, "it has no 'colour'"},
    {"fettle setback tell same", 2, "none is open"},
    {"fettle setback tight-fastener thread=M8", 0, "every night of soaking is free"},
    {"fettle list setback --json", 0, "\"records\": []"},
    {"fettle setback snapped-stud is=proud in=iron drill=yes thread=M8x1.25 --yes", 0, "6.8 mm"},
    {"fettle list setback --json", 0, "\"setback\": \"snapped-stud\""},
    {"fettle setback tell maybe", 2, "is no outcome"},
    {"fettle setback tell same extractor", 2, "it comes after another"},
    {"fettle setback tell worse heat", 0, "left it worse"},
    {"fettle setback tell same heat", 2, "it was tried already"},
    {"fettle list setback --json", 0, "\"tried\": \"heat!\""},
    {"fettle setback snapped-stud is=flush --yes", 0, "flush, in iron"},
    {"fettle list setback --json", 0, "\"is\": \"flush\""},
    {"fettle setback tell same mill", 2, "ends the matter"},
    {"fettle setback --json", 0, "\"next\": \"weld\""},
    {"fettle setback tell cured", 0, "go on with the job"},
    {"fettle setback", 0, "None is open"},
    {"fettle undo", 0, "setback"},
    {"fettle setback tell stopped", 0, "given up"},
};

static void told_and_climbed(void **state)
{
    (void)state;
    struct place *p = place_open();
    run_good(p, "fettle new");
    run_good(p, "fettle add vehicle name=Linnet year=1959 build=unitary brakes=drum voltage=12 "
                "cylinders=4 fuel=petrol");
    run_told(p, lines, sizeof lines / sizeof *lines);
    place_close(p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(told_and_climbed)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
