/* What is said of code books and rules that are wrong; as test_faults.c, for a subject each. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "small_trade.h"

#include "base/text.h"

#define COUNT(array) (sizeof(array) / sizeof *(array))

static const struct small_wrong wrong[] = {
    {"codebooks.yaml", "length: 4", "length: 3",
     "codebooks.yaml:4: 'plate': check: 4 weights for 3 positions; give one a position\n"},
    {"codebooks.yaml", "    length: 4\n", "    length: 41\n",
     "codebooks.yaml:4: 'plate': neither length nor date; say which it is\n"
     "codebooks.yaml:8: length: 41 is outside 1 to 40; correct it\n"},
    {"codebooks.yaml", "what: [vehicle]", "what: [vehicles]",
     "codebooks.yaml:7: what: no 'vehicles'; did you mean 'vehicle'?\n"},
    {"codebooks.yaml", "at: 1, to: 2", "at: 2, to: 1",
     "codebooks.yaml:4: 'plate': positions: 'type' runs from 2 to 1 of 4; correct them\n"},
    {"codebooks.yaml", "at: 1, to: 2", "at: 1, to: 5",
     "codebooks.yaml:4: 'plate': positions: 'type' runs from 1 to 5 of 4; correct them\n"},
    {"codebooks.yaml", "[1, 2, 3, 0]", "[1, 2, 3, 4]",
     "codebooks.yaml:4: 'plate': check: the check digit weighs 4 in its own sum; make that weight "
     "0\n"},
    {"codebooks.yaml", "[1, 2, 3, 0]", "[1, x, 3, 0]",
     "codebooks.yaml:11: weights: not a number 'x'; write it like 2 or 0.5, without unit or "
     "quotes\n"},
    {"codebooks.yaml", "[1, 2, 3, 0]", "[1, 2.5, 3, 0]",
     "codebooks.yaml:11: weights: 2.5 is not a whole number; round it\n"},
    {"codebooks.yaml", "remainders: XYZ", "remainders: XY",
     "codebooks.yaml:4: 'plate': check: 2 remainders for modulus 3; write one letter for each\n"},
    {"codebooks.yaml", "modulus: 3", "modulus: 1",
     "codebooks.yaml:11: modulus: 1 is outside 2 to 1000; correct it\n"},
    {"codebooks.yaml", "codes: ABC", "codes: ABA",
     "codebooks.yaml:4: 'plate': year: code 'A' stands twice; keep one\n"},
    {"codebooks.yaml", "year: {at: 3,", "year: {at: 5,",
     "codebooks.yaml:4: 'plate': year: a position beyond the length 4; correct it\n"},
    {"codebooks.yaml", ", decides: [A, B]", "",
     "codebooks.yaml:4: 'plate': year: decided-by and decides belong together; add the other\n"},
    {"codebooks.yaml", "[month, year-last]", "[month, decade]",
     "codebooks.yaml:15: parts: no 'decade'; use one of month-letter, month, day, week, year-last, "
     "year-two, year, quarter-dots\n"},
    {"codebooks.yaml", "[month, year-last]", "[day, day, day, month, year]",
     "codebooks.yaml:14: 'cast': date: 5 parts; at most 4\n"},
    {"codebooks.yaml", "what: [casting],", "what: [casting], length: 3,",
     "codebooks.yaml:14: 'cast': a date has parts, a code has a length; leave one out\n"},
    {"codebooks.yaml", "what: [casting],", "what: [casting], from: 1970, until: 1960,",
     "codebooks.yaml:14: 'cast': until lies before from; exchange them\n"},
    {"codebooks.yaml", "what: [casting],", "what: [casting], informed-by: plat,",
     "codebooks.yaml:14: informed-by: no 'plat' in codebooks; did you mean 'plate'?\n"},
    {"rules.yaml", "need: 2", "need: 4",
     "rules.yaml:4: 'eight': needs 4 points, its parts have 3; correct one\n"},
    {"rules.yaml", "    need: 2\n", "",
     "rules.yaml:4: 'eight': nothing is needed; add need, or needed: true to a part\n"},
    {"rules.yaml", "[original, period]", "[genuine]",
     "rules.yaml:12: classes: no 'genuine'; use one of original, period, reproduction, modern, "
     "unknown\n"},
    {"rules.yaml", "[cylinder]", "[cylindre]",
     "rules.yaml:12: components: no 'cylindre' in components; did you mean 'cylinder'?\n"},
    {"rules.yaml", "    dated: now\n", "", "rules.yaml:4: missing key 'dated'; add it\n"},
    {"directions.yaml", "systems: [brakes], to", "to",
     "directions.yaml:4: 'drive': changes: 'pipes' names neither systems nor components; add "
     "them\n"},
};

static void tells_each_fault_with_its_line(void **state)
{
    (void)state;
    small_try(wrong, COUNT(wrong));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(tells_each_fault_with_its_line),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
