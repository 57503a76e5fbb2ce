/* test_bag.c - strip-down from the command line: counted out, counted in, emptied once. */
#include "cli/run.h"

static const struct told_line lines[] = {
    {"fettle bag", 0, "None yet"},
    {"fettle bag labels none.pdf --address http://localhost", 2, "no bag is full"},
    {"fettle bag new", 2, "needs what came off"},
    {"fettle bag new 'front left drum' --job brakes-open --shelf A2", 0, "Write B1 on it."},
    {"fettle bag new drum --code b1", 2, "b1 is in use: front left drum"},
    {"fettle bag new drum --code 'B 1'", 2, "must be letters"},
    {"fettle bag new 'left shoes' --component brake-shoes@front-left", 0, "Write B2 on it."},
    {"fettle bag put B1 'hub nut' 1 --thread M20x1.5 --torque '120 lbf ft' --source 'page 42'", 0,
     "Noted."},
    {"fettle bag put b1 'split pin' 1", 0, "Noted."},
    {"fettle bag put B1 'drum screws' 2 --thread M8", 0, "Noted."},
    {"fettle bag put B1 'drum screws' none", 2, "bag-item.count"},
    {"fettle bag put B1 'drum screws' 2 --torque '20 bar'", 2, "bag-item.torque"},
    {"fettle bag put B9 'drum screws' 2", 2, "B9"},
    {"fettle bag shelf B2 'A3, tray'", 0, "Noted."},
    {"fettle bag B2", 0, "A3, tray"},
    {"fettle bag back", 0, "1. B2: left shoes"},
    {"fettle bag back", 0, "NEW, never again"},
    {"fettle bag back", 0, "look it up"},
    {"fettle bag count B1 'drum screws' 3", 2, "3 cannot go back"},
    {"fettle bag count B1 'drum nails' 1", 2, "there is no 'drum nails' in it"},
    {"fettle bag count B1 'drum screws' 1", 0, "Noted."},
    {"fettle bag empty B1", 0, "B1 is empty; short: 1 of 2 x drum screws"},
    {"fettle bag empty B1", 2, "bag B1: it was emptied on "},
    {"fettle bag put B1 nut 1", 2, "nothing is changed"},
    {"fettle bag back --json", 0, "\"kit\""},
    {"fettle bag back", 0, "M8x1.25, pitch 1.25 mm"},
    {"fettle bag labels l.pdf --address http://localhost:8060", 0, "1 labels"},
    {"fettle bag labels l.pdf --address http://localhost:8060", 2, "File exists"},
    {"fettle bag B7", 2, "there is no bag 'B7'"},
    {"fettle undo", 0, "bag"}, /* of one act all of it: the counts, and that it is empty */
    {"fettle bag empty B1", 0, "short: 1 of 2"},
    {"fettle find shoes left", 0, "B2"},
    {"fettle find --json cotter", 0, "\"fasteners\""},
    {"fettle find", 2, "say what"},
    {"fettle find zzzz", 1, "nothing has any of 'zzzz'"},
};

static void counted_out_and_in(void **state)
{
    (void)state;
    struct place *p = place_with_car();
    run_told(p, lines, sizeof lines / sizeof *lines);
    place_close(p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(counted_out_and_in)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
