/* test_originality.c - numbers, dates and components from the command line: what is good, and one
 * line for what is not. */
#include "cli/run.h"

static const struct told_line lines[] = {
    {"fettle originality read 1m8gdm9a-xkp042788", 0, "check digit fits: X"},
    {"fettle originality read C 14 5 --date 2026-11-25", 0, "14 Mar 2025 or 14 Mar 2015"},
    {"fettle originality read VZZZZZ8K9BA123456", 0, "check digit not used or wrong"},
    {"fettle originality read 1M8GDM9AXKP04278", 2, "has 16 characters, not 17"},
    {"fettle originality read 1M8GDM9AXKP0427881", 2, "has 18 characters, not 17"},
    {"fettle originality read 1M8GDM9AXKPO42788", 2, "position 12 holds 'O'"},
    {"fettle originality read --book cast-month-day-year 'M 40 5'", 2, "not laid out"},
    {"fettle originality read --book cast-month-day-yaer 'C 14 5'", 2,
     "did you mean 'cast-month-day-year'?"},
    {"fettle originality read rubbish", 2, "no code book reads it"},
    {"fettle originality read \"$(printf '1M8GDM9AXKP04278\\001\\033[2J')\"", 2, "no code book"},
    {"fettle originality read \"$(head -c 5000 /dev/zero | tr '\\0' A)\"", 2, "no code book"},
    {"fettle originality read", 2, "needs a number or a date"},
    {"fettle originality add gearbox", 2, "needs a component and a class"},
    {"fettle originality add gearbxo original", 2, "did you mean 'gearbox'?"},
    {"fettle originality add door@boot original", 2, "'door' is not at 'boot'"},
    {"fettle originality add gearbox genuine", 2, "no choice 'genuine'"},
    {"fettle originality dance", 2, "no 'dance' here"},
    {"fettle add mark text=AB12", 2, "mark.what: missing"},
    {"fettle add mark what=vehicle", 2, "mark.text: missing"},
    {"fettle add mark what=wheel text=1", 2, "no choice 'wheel'"},
    {"fettle add mark what=vehicle text=\"$(printf 'A\\001')\"", 2, "control character"},
    {"fettle originality add gearbox period 'tag of another year'", 0, "gearbox: period"},
    {"fettle add mark what=vehicle where=plate text='<b>LNE JR 04817 F</b>'", 0, "added mark"},
    {"fettle add mark what=vehicle where=papers text=LNEJR04817F", 0, "added mark"},
    {"fettle add originality component=teapot class=modern", 0, "added originality"},
    {"fettle originality", 0, "The vehicle number does not agree"},
    {"fettle originality", 0, "spend nothing more"},
    {"fettle originality", 0, "told of 'teapot' is kept"},
    {"fettle originality --json", 0, "\"stop\": true"},
};

static void good_and_bad_input(void **state)
{
    (void)state;
    struct place *p = place_open();
    run_good(p, "fettle new");
    run_good(p, "fettle add vehicle name=Linnet maker=Ostrand year=1959 build=unitary");
    run_told(p, lines, sizeof lines / sizeof *lines);
    place_close(p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(good_and_bad_input)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
