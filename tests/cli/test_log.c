/* test_log.c - the work log from the command line: one line read, shown, stored; slips and a second
 * phone asked about; the clock of a job. */
#include "cli/run.h"

static const struct told_line lines[] = {
    {"fettle log '4 h, front brakes, left cylinder stuck'", 0, "(pitted-bores)"},
    {"fettle log '4 h, front brakes, left cylinder stuck'", 0, "not stored yet"},
    {"fettle list work --json", 0, "\"records\": []"},
    {"fettle log '4 h, front brakes, left cylinder stuck'", 0, "fettle setback pitted-bores"},
    {"fettle log '4 h, brake-cylinders, left cylinder stuck' --yes --json", 0, "\"hours\": 4"},
    {"fettle list work --json", 0, "\"setback\": \"pitted-bores\""},
    /* Sent twice, or by two phones: asked about, and stored only where that is so. */
    {"fettle log '4 h, brake-cylinders' --yes", 2, "the same hours on the same day"},
    {"fettle log '4 h, brake-cylinders' --sure --json", 0, "\"stored\": true"},
    /* Several jobs it may be: said, and settled by the id. */
    {"fettle log '2 h hoses' --yes", 2, "write the id"},
    {"fettle log '2 h hoses'", 0, "cooling-hoses"},
    {"fettle log '2 h cooling-hoses, done, yesterday' --yes --json", 0, "\"finished\": true"},
    {"fettle log '1 h cooling-hoses' --yes", 2, "was finished before"},
    /* Shared as the estimates are: 4 to 1.5. */
    {"fettle log '5.5 h, brakes-open and brakes-measure, 2026-01-07' --json", 0,
     "\"shared\": true"},
    {"fettle log '2 h brakes-open, 1 h 30 brakes-measure' --json", 0, "\"hours\": 1.5"},
    {"fettle log '2 h brakes-open, half done' --json", 0, "\"finished\": false"},
    {"fettle log '1 h brakes-open, quibbled' ", 0, "not understood"},
    /* American and British words are one. */
    {"fettle log '2 h tank-out, hood catch'", 0, "bonnet catch"},
    {"fettle log '2 h brakes-open, 2999-01-01' --yes", 2, "2999-01-01"},
    {"fettle log '2 h brakes-open, 2099-01-01' --yes", 2, "still to come"},
    {"fettle log '25 h brakes-open' --yes", 2, "in one day"},
    {"fettle log '15 h brakes-open' --yes", 2, "was it so long?"},
    {"fettle log '2026-01-07 19:00-21:30 brakes-open' --yes --json", 0, "\"hours\": 2.5"},
    {"fettle log '2026-01-07 21:00-22:00 brakes-measure' --yes", 2, "from 19:00 to 21:30 already"},
    {"fettle log '2026-01-07 21:30-22:00 brakes-measure' --yes --json", 0, "\"stored\": true"},
    {"fettle log 'nothing of the kind' --yes", 2, "no job is known"},
    {"fettle log", 2, "say what was done"},
    /* The clock. */
    {"fettle log stop", 2, "no clock runs"},
    {"fettle log start brakes-open", 0, "The clock runs for brakes-open"},
    {"fettle log start brakes-measure", 2, "stop it first"},
    {"fettle log stop --hours '2 h'", 0, "brakes-open: 2 h"},
    {"fettle log start brakes-open", 0, "The clock runs"},
    {"fettle log stop --drop", 0, "nothing is counted"},
    {"fettle list timer --json", 0, "\"records\": []"},
    {"fettle undo", 0, "timer"},
    {"fettle garage check", 0, "ound"},
    {"fettle pace", 0, "of the planned sessions happen"},
    {"fettle pace --json", 0, "\"kinds\": ["},
    {"fettle pace now", 2, "takes no word"},
    {"fettle log measure battery '12.4 V'", 0, "Near the limit"},
    {"fettle log measure battery", 2, "say what and how much"},
    {"fettle log measure battery 12.4 wher=x", 2, "it has no 'wher'"},
    {"fettle log measure battery 124 --yes", 2, "did the point slip?"},
    {"fettle list measurement --json", 0, "\"records\": []"},
    {"fettle log measure battery 124 --sure", 0, "Stored:"},
    {"fettle log measure valve-clearance '0.3 mm' where='cylinder 1' --yes --json", 0,
     "\"verdict\": \"look it up\""},
    {"fettle list measurement --json", 0, "\"value\": 124"},
    {"fettle add order part=fan-belt due=2026-12-09", 0, "fan-belt"},
    {"fettle add order part=fan-belt arrived=2026-11-20 return-by=2026-12-04", 0, "fan-belt"},
    {"fettle add order part=fan-belt due=2026-11-01", 0, "fan-belt"},
    {"fettle calendar --date 2026-11-25 2>err2 | grep -c 'SUMMARY:Delivery'", 0, "1"},
    {"fettle calendar --date 2026-11-25 2>err2 | grep -c 'DTEND;VALUE=DATE:20261205'", 0, "1"},
    {"fettle calendar --date 2026-11-25 2>err2 | grep -c 'SUMMARY:Garage' | grep -v '^0'", 0, "\n"},
    {"fettle calendar --json 2>err2", 0, "\"without_plan\": "},
    {"fettle calendar now", 2, "takes no word"},
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
