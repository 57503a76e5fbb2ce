/* What is said of joins, needs and options that are wrong; as test_faults.c. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "small_trade.h"

#include "base/text.h"

#define COUNT(array) (sizeof(array) / sizeof *(array))

static const struct small_wrong wrong[] = {
    {"options.yaml", "requires: [copper]", "requires: [bigger]",
     "options.yaml:6: 'bigger': requires itself; take it out\n"},
    {"options.yaml", "conflicts: [steel]", "conflicts: [bigger]",
     "options.yaml:6: 'bigger': conflicts with itself; take it out\n"},
    {"options.yaml", "conflicts: [steel]", "conflicts: [copper]",
     "options.yaml:6: 'bigger': requires 'copper' and conflicts with it; keep one\n"},
    {"options.yaml", "{join: bore, least: 22", "{join: bor, least: 22",
     "options.yaml:8: join: no 'bor' in joins; did you mean 'bore'?\n"},
    {"options.yaml", "least: 22, most: 22", "least: 23, most: 22",
     "options.yaml:6: 'bigger': at 'bore' least 23 is above most 22; exchange them\n"},
    {"options.yaml", "{join: seat, is: flare}", "{join: seat, most: 3}",
     "options.yaml:6: 'bigger': an end of 'seat' is a word; write is: and no figures\n"},
    {"options.yaml", "{join: seat, is: flare}", "{join: bore, is: flare}",
     "options.yaml:6: 'bigger': an end of 'bore' is in mm; write least: and most:\n"},
    {"options.yaml", "{join: seat, is: flare}", "{join: line, most: 3}",
     "options.yaml:6: 'bigger': an end of 'line' has one figure; write it as least: and as "
     "most:\n"},
    {"options.yaml", "need: stop, way: refurbish", "need: stop, way: adapter",
     "options.yaml:4: 'seals': way adapter is for options without a need, and for them alone\n"
     "options.yaml:4: 'seals': adapts: belongs to adapters, and each has it\n"},
    {"options.yaml", "way: adapter, name: bush", "way: upgrade, name: bush",
     "options.yaml:14: 'bush': way adapter is for options without a need, and for them alone\n"
     "options.yaml:14: 'bush': adapts: belongs to adapters, and each has it\n"},
    {"options.yaml", "original: period", "brings: [stop], original: period",
     "needs.yaml:3: 'stop': an option of it brings, over 2 needs, 'stop' again; break the "
     "circle\n"},
    {"options.yaml", "     brings: [pipe], replaces", "     replaces",
     "needs.yaml:4: 'pipe': no job asks for it and no option brings it; add jobs:\n"},
    {"needs.yaml", "  - {id: pipe,",
     "  - {id: hose, name: hose, system: brakes, jobs: [bleed]}\n  - {id: pipe,",
     "needs.yaml:4: 'hose': no option meets it; add one, or take it out\n"},
    {"joins.yaml", "rule: inside, unit: mm", "rule: insid, unit: mm",
     "joins.yaml:4: rule: no 'insid'; did you mean 'inside'?\n"},
    {"joins.yaml", "rule: inside, unit: mm", "rule: inside",
     "joins.yaml:4: 'bore': unit: is missing; figures need their unit\n"},
    {"joins.yaml", "rule: same,", "rule: same, unit: mm,",
     "joins.yaml:6: 'seat': unit: ends of rule same are words; leave the unit out\n"},
    {"seals.yaml", "from: 1, to: 3", "from: 3, to: 1",
     "seals.yaml:4: 'edge': from 3 is above to 1; exchange them\n"},
    {"seals.yaml", "from: 1, to: 3", "to: 3",
     "seals.yaml:4: 'edge': from and to belong to what holds on a flange or in a groove, both, and "
     "to that alone\n"},
    {"seals.yaml", "kind: sponge", "kind: spong",
     "seals.yaml:4: kind: no 'spong'; did you mean 'sponge'?\n"},
    {"joins.yaml", "rule: inside,", "rule: inside, within: 2,",
     "joins.yaml:4: 'bore': within: belongs to rule near alone; leave it out\n"},
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
