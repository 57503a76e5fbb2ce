/* test_fit.c - parts that work together, from the command line: what is good, and one line for what
 * is not. */
#include "cli/run.h"

static const struct told_line lines[] = {
    {"fettle fit --runs 50", 0, "Fit: Linnet"},
    {"fettle fit --runs 50 --with alternator-for-dynamo", 0, "Measure before you buy"},
    {"fettle fit --runs 50 --with alternator-for-dynamo", 0, "closed by"},
    {"fettle fit --runs 50 --with alternater-for-dynamo", 2,
     "did you mean 'alternator-for-dynamo'?"},
    {"fettle fit --runs 50 --prefer nonsense-of-any-kind", 2, "there is no option"},
    {"fettle fit --runs 50 --budget heaps", 2, "budget: 'heaps' is not a sum; write it as 900 GBP"},
    {"fettle fit --runs 50 --budget '-5 GBP'", 2, "less than nothing"},
    {"fettle fit --runs 50 --budget '900 JPY'", 2, "no rate to GBP is known"},
    {"fettle fit --runs 50 --budget '1 GBP'", 0, "Nothing fits"},
    {"fettle fit dance", 2, "takes no word 'dance'"},
    {"fettle fit adopt --runs 50 --budget '1 GBP'", 2, "nothing to adopt"},
    {"fettle add choice option=alternator-for-dynamo", 0, "added choice"},
    {"fettle add choice need=charging option=charge-voltmeter", 2, "does not meet"},
    {"fettle add measured of=fitting-ammeter join=charge-current end=takes most=30", 0, "added"},
    {"fettle fit --runs 50 --json", 0, "\"option\": \"alternator-for-dynamo\""},
    {"fettle fit --runs 50 --json", 0, "\"option\": \"charge-voltmeter\""},
    {"fettle fit --runs 50 --json", 0, "\"verdict\": \"fits\""},
    {"fettle fit adopt --runs 50", 0, "Adopted"},
    {"fettle plan --runs 50 --json", 0, "\"alternator-45\""},
    {"fettle bench seal-profile gaps=7.5,8.2,9.1 flange=2.5", 0,
     "grip-14: clip-on edge, sponge bulb [demo]"},
    /* A list of the garage's own is tried too. */
    {"printf 'subject: seals\nmark: practice\nentries:\n  - "
     "{id: mine, "
     "name: mine, kind: sponge, hold: flange, from: 2, to: 3, height: 13.7, breadth: 14, force: "
     "6}\n' > .local/share/fettle/trade/mine.yaml && fettle bench seal-profile gaps=7.5,8.2,9.1 "
     "flange=2.5",
     0, "mine: mine [practice]"},
};

/* The demonstration: each line goes on from the one before. */
#define DEMO(words) "export FETTLE_GARAGE=demo; fettle " words
#define ALTERNATOR  DEMO("fit --runs 50 --with alternator-for-dynamo --json")
static const struct told_line demo[] = {
    {"fettle demo demo", 0, "The demonstration garage is in"},
    {ALTERNATOR " | tee told", 0, "\"option\": \"charge-voltmeter\""}, /* the ammeter: to 30 A */
    {"cat told", 0, "\"closed_by\": \"negative-earth\""},
    {DEMO("add measured of=fitting-ammeter join=charge-current end=takes most=60"), 0, "added"},
    {ALTERNATOR, 0, "\"option\": \"charge-ammeter-kept\""},
    {DEMO("change vehicle Linnet earth=negative"), 0, "changed"},
    {ALTERNATOR " | grep -c negative-earth || true", 0, "0"},
    /* What cannot all hold is named, and what would help most. */
    {DEMO("fit --runs 50 --reversible --with drums-turned | tee told"), 0,
     "it was decided: the old drums or discs turned"},
    {"cat told", 0, "nothing that cannot be undone"},
    {DEMO("fit --runs 50 --budget '500 GBP'"), 0, "no more than 500 GBP may be spent"},
    {DEMO("fit --runs 50 --prefer alternator-for-dynamo | tee told"), 0,
     "less, with all that it brings"},
    {"cat told", 0, "The next best sets"},
};

static void the_demonstration_tells_what_changes_it(void **state)
{
    (void)state;
    struct place *p = place_open();
    run_told(p, demo, sizeof demo / sizeof *demo);
    place_close(p);
}

static void good_and_bad_input(void **state)
{
    (void)state;
    struct place *p = place_open();
    run_good(p, "fettle new");
    run_good(p, "fettle add vehicle name=Linnet maker=Ostrand year=1959 build=unitary brakes=drum "
                "voltage=12 earth=positive");
    run_good(p, "fettle add workshop currency=GBP hours-a-week=6");
    run_told(p, lines, sizeof lines / sizeof *lines);
    place_close(p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(good_and_bad_input),
                                       cmocka_unit_test(the_demonstration_tells_what_changes_it)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
