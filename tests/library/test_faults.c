/* What is said of trade data that is wrong: one piece of a good set is changed, and every line that
 * follows from it is held, so that a fault that begins to hide another, or to breed more, is seen
 * too. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "small_trade.h"

#include "base/text.h"

#define COUNT(array) (sizeof(array) / sizeof *(array))

static const struct small_wrong wrong[] = {
    {"tools.yaml", "subject: tools\n", "",
     "tools.yaml:1: no subject; the file must begin with subject: jobs or another\n"},
    {"tools.yaml", "subject: tools", "subject: tolls",
     "tools.yaml:1: subject: no 'tolls'; did you mean 'tools'?\n"},
    {"tools.yaml", "subject: tools", "subject: poetry",
     "tools.yaml:1: subject: no 'poetry'; docs/trade-data.md lists them\n"},
    {"tools.yaml", "subject: tools\n", "subject: tools\nentry: 3\n",
     "tools.yaml:2: unknown key 'entry' in the header of tools; move it into the entries or leave "
     "it out\n"},
    {"tools.yaml", "entries:\n  - {id: spanner, name: spanner, also: [wrench]}", "entries: none",
     "tools.yaml:2: no list of entries; write entries: and below it '- id: ...'\n"},
    {"tools.yaml", "subject: tools\nentries:\n  - {id: spanner, name: spanner, also: [wrench]}\n",
     "# nothing\n", "tools.yaml:2: nothing here; write subject: and entries:, or delete it\n"},
    {"tools.yaml", "subject: tools\nentries:\n  - {id: spanner, name: spanner, also: [wrench]}\n",
     "- tools\n", "tools.yaml:1: a list where subject: and entries: belong\n"},
    {"tools.yaml", "also: [wrench]}\n", "also: [wrench]}\n---\nsubject: tools\n",
     "tools.yaml:4: a second document; one file holds one, so leave out the '---'\n"},
    {"tools.yaml", "[wrench]}", "[wrench}",
     "tools.yaml:3: YAML: while parsing a flow sequence, did not find expected ',' or ']'; mend "
     "the indentation, quotes or brackets here\n"},
    {"tools.yaml", "[wrench]}", "[wrench]",
     "tools.yaml:4: YAML: while parsing a flow mapping, did not find expected ',' or '}'; mend the "
     "indentation, quotes or brackets here\n"},
    {"tools.yaml", "[wrench]}", "[\001]}",
     "tools.yaml:3: YAML: control characters are not allowed; mend the indentation, quotes or "
     "brackets here\n"},
    {"tools.yaml", "[wrench]}", "[\377]}", "tools.yaml: not UTF-8 text; save it as UTF-8\n"},
    {"tools.yaml", "also: [wrench]", "also: &a [wrench]",
     "tools.yaml:3: anchors and aliases are not used here; write it out\n"},
    {"tools.yaml", "also: [wrench]", "also: *a",
     "tools.yaml:3: anchors and aliases are not used here; write it out\n"},
    {"tools.yaml", "also: [wrench]", "also: !!seq [wrench]",
     "tools.yaml:3: tags ('!') are not used here; leave it out or quote the text\n"},
    {"tools.yaml", "also: [wrench]", "&k also: [wrench]",
     "tools.yaml:3: anchors and aliases are not used here; write it out\n"},
    {"tools.yaml", "also: [wrench]", "name: other",
     "tools.yaml:3: key 'name' stands twice; keep one of them\n"},
    {"tools.yaml", "[wrench]", "[[[[[[[[[[[[[[[[[wrench]]]]]]]]]]]]]]]]]",
     "tools.yaml:3: nested too deep; mend the brackets\n"},
    {"tools.yaml", "also: [wrench]", "[wrench]: also",
     "tools.yaml:3: a key must be a word; quote it or mend the brackets\n"},
    {"tools.yaml", "[wrench]", "[\"wr\\0ench\"]",
     "tools.yaml:3: a zero byte in a text; leave it out\n"},
    {"tools.yaml", "id: spanner, ", "", "tools.yaml:3: missing key 'id'; add it\n"},
    {"tools.yaml", "id: spanner", "id: Big spanner",
     "tools.yaml:3: id: 'Big spanner'; use lower-case words joined by '-'\n"},
    {"tools.yaml", "name: spanner, ", "", "tools.yaml:3: missing key 'name'; add it\n"},
    {"tools.yaml", "entries:\n", "entries:\n  - {id: spanner, name: again}\n",
     "tools.yaml:4: 'spanner' is already in tools.yaml:3; give it another id or take one out\n"},
    {"tools.yaml", "also: [wrench]", "alos: [wrench]",
     "tools.yaml:3: unknown key 'alos'; did you mean 'also'?\n"},
    {"tools.yaml", "also: [wrench]", "also: wrench",
     "tools.yaml:3: also: text where a list belongs; write [..., ...]\n"},
    {"tools.yaml", "also: [wrench]", "also: []",
     "tools.yaml:3: also: an empty list; leave the key out or fill it\n"},
    {"tools.yaml", "name: spanner,", "name: ' ',",
     "tools.yaml:3: name: empty; write it or leave the key out\n"},
    {"tools.yaml", "name: spanner,", "name: spanner, half inch,",
     "tools.yaml:3: 'half inch' has no value; a text with a comma within {} or [] needs quotes\n"},
    {"cautions.yaml", "mark: practice\n", "",
     "cautions.yaml:3: missing key 'mark'; add it here or in the file's header\n"},
    {"cautions.yaml", "mark: practice", "mark: practise",
     "cautions.yaml:2: mark: no 'practise'; did you mean 'practice'?\n"},
    {"cautions.yaml", "mark: practice", "mark: published",
     "cautions.yaml:4: 'dust': mark is published without source; name it, or mark it memory\n"},
    {"parts.yaml", ", source: handbook", "",
     "parts.yaml:8: 'fluid': mark is published without source; name it, or mark it memory\n"},
    {"parts.yaml", "source: handbook", "source: handbok",
     "parts.yaml:9: source: no 'handbok' in sources; did you mean 'handbook'?\n"},
    {"parts.yaml", "source: handbook", "source: my-uncle",
     "parts.yaml:9: source: no 'my-uncle' in sources; add it there or correct the id\n"},
    {"components.yaml", "look: 10", "look: 3x",
     "components.yaml:11: look: not a number '3x'; write it like 2 or 0.5, without unit or "
     "quotes\n"},
    {"components.yaml", "look: 10", "look: 4,5",
     "components.yaml:11: look: not a number '4,5'; write it like 2 or 0.5, without unit or "
     "quotes\n"},
    {"components.yaml", "look: 10", "look: nan",
     "components.yaml:11: look: not a number 'nan'; write it like 2 or 0.5, without unit or "
     "quotes\n"},
    {"components.yaml", "look: 10", "look: 0x10",
     "components.yaml:11: look: not a number '0x10'; write it like 2 or 0.5, without unit or "
     "quotes\n"},
    {"components.yaml", "look: 10", "look: 1e999",
     "components.yaml:11: look: not a number '1e999'; write it like 2 or 0.5, without unit or "
     "quotes\n"},
    {"components.yaml", "look: 10", "look: '10'",
     "components.yaml:11: look: not a number '10'; write it like 2 or 0.5, without unit or "
     "quotes\n"},
    {"components.yaml", "look: 10", "look: 10 min",
     "components.yaml:11: look: not a number '10 min'; write it like 2 or 0.5, without unit or "
     "quotes\n"},
    {"components.yaml", "look: 10", "look: -1",
     "components.yaml:11: look: -1 is outside 0.1 to 1440; correct it\n"},
    {"components.yaml", "look: 10",
     "look:", "components.yaml:11: look: empty; write it or leave the key out\n"},
    {"components.yaml", "look: 10", "look: {min: 10}",
     "components.yaml:11: look: a mapping where one value belongs; write just one\n"},
    {"jobs.yaml", "hours: [2, 4, 17]", "hours: [4, 2, 17]",
     "jobs.yaml:16: hours: [4, 2, 17] is out of order; it must be 0 < low <= middle <= high\n"},
    {"jobs.yaml", "hours: [2, 4, 17]", "hours: [0, 4, 17]",
     "jobs.yaml:16: hours: [0, 4, 17] is out of order; it must be 0 < low <= middle <= high\n"},
    {"jobs.yaml", "hours: [2, 4, 17]", "hours: [2, 4]",
     "jobs.yaml:16: hours: write one number or [low, middle, high]\n"},
    {"jobs.yaml", "    excludes: [stuck]\n", "",
     "jobs.yaml:8: 'bleed': hours: high 17 is over 4 x middle 4; take setbacks out and name them "
     "in excludes\n"},
    {"jobs.yaml", "hands: 2", "hands: 0", "jobs.yaml:18: hands: 0 is outside 1 to 6; correct it\n"},
    {"jobs.yaml", "hands: 2", "hands: 1.5",
     "jobs.yaml:18: hands: 1.5 is not a whole number; round it\n"},
    {"jobs.yaml", "by-share: true", "by-share: yes",
     "jobs.yaml:15: by-share: 'yes'; write true or false\n"},
    {"parts.yaml", "lead: 1,", "lead: -1,",
     "parts.yaml:8: lead: [-1, -1, -1] is out of order; it must be 0 < low <= middle <= high\n"},
    {"parts.yaml", "lead: [2, 5, 21]", "lead: [-2, 5, 21]",
     "parts.yaml:7: lead: [-2, 5, 21] is out of order; it must be 0 < low <= middle <= high\n"},
    {"parts.yaml", "price: 5, ", "", "parts.yaml:8: missing key 'price'; add it\n"},
    {"parts.yaml", "currency: EUR", "currency: EURO",
     "parts.yaml:9: currency: no currency 'EURO'; write an ISO 4217 code like GBP\n"},
    {"parts.yaml", "currency: GBP\n", "",
     "parts.yaml:5: missing key 'currency'; add it here or in the file's header\n"},
    {"parts.yaml", "price-year: 2024", "price-year: 24",
     "parts.yaml:4: price-year: 24 is outside 1950 to 2200; correct it\n"},
    {"parts.yaml", "from: stock", "from: a-friend",
     "parts.yaml:8: from: no 'a-friend'; use one of stock, specialist, exchange, machine-shop, "
     "plating, trim-shop, autojumble, fee\n"},
    {"ageing.yaml", "failed: 0.3", "failed: 0.2",
     "ageing.yaml:6: odds: they sum to 0.9, not 1; correct one of them\n"},
    {"ageing.yaml", "failed: 0.3", "missing: 0.3",
     "ageing.yaml:6: odds: no 'missing'; use one of sound, worn, poor, bodged, failed\n"},
    {"ageing.yaml", "failed: 0.3", "failed: 1.3",
     "ageing.yaml:6: odds: 1.3 is outside 0 to 1; correct it\n"},
    {"ageing.yaml", "damp: 0.4", "wet: 0.4",
     "ageing.yaml:8: storage: no 'wet'; use one of dry, heated, damp, outdoors\n"},
    {"defaults.yaml", "11, -12]", "11]",
     "defaults.yaml:5: value: write one number, [low, middle, high] or twelve months\n"},
    {"defaults.yaml", "value: 15", "value: [3, 2, 1]",
     "defaults.yaml:4: value: [3, 2, 1] is out of order; it must be 0 < low <= middle <= high\n"},
    {"components.yaml", "system: brakes", "system: breaks",
     "components.yaml:7: system: no 'breaks' in systems; did you mean 'brakes'?\n"},
    {"components.yaml", "places: [corners]", "places: [corner, attic]",
     "components.yaml:8: places: no 'corner' in places; did you mean "
     "'corners'?\ncomponents.yaml:8: places: no 'attic' in places; add it there or correct the "
     "id\n"},
    {"components.yaml", "    places: [corners]\n", "",
     "components.yaml:4: missing key 'places'; add it\n"},
    {"components.yaml", "ages: bore", "ages: [bore]",
     "components.yaml:10: ages: a list where one value belongs; write just one\n"},
    {"components.yaml", "brakes: [drum, mixed]", "brakes: [drums]",
     "components.yaml:9: fitted.brakes: no value 'drums'; use drum, mixed, disc\n"},
    {"components.yaml", "brakes: [drum, mixed]", "cooling: [water]",
     "components.yaml:9: fitted: no answer 'cooling'; use one of kind, build, cylinders, fuel, "
     "gearbox, driven, brakes, voltage, earth, state, storage\n"},
    {"components.yaml", "{brakes: [drum, mixed]}", "{}",
     "components.yaml:9: fitted: nothing where a mapping belongs; write {key: value}\n"},
    {"jobs.yaml", "parts: [{part: kit, count: 4}", "parts: [{part: kitt, count: 4}",
     "jobs.yaml:22: part: no 'kitt' in parts; did you mean 'kit'?\n"},
    {"jobs.yaml", "parts: [{part: kit, count: 4}", "parts: [{part: kit, number: 4}",
     "jobs.yaml:22: unknown key 'number'; the keys here are part, count\n"},
    {"jobs.yaml", "    directions: [drive]\n", "",
     "jobs.yaml:8: missing key 'directions'; add it\n"},
    {"jobs.yaml", "worse-than: worn", "worse-than: missing",
     "jobs.yaml:8: 'bleed': when: no condition; add worse-than: or is:\njobs.yaml:14: worse-than: "
     "nothing is worse than missing; write is: [missing]\n"},
    {"jobs.yaml", "worse-than: worn", "is: [unseen]",
     "jobs.yaml:8: 'bleed': when: no condition; add worse-than: or is:\njobs.yaml:14: is: no "
     "'unseen'; use one of sound, worn, poor, bodged, failed, missing\n"},
    {"jobs.yaml", ", worse-than: worn", "",
     "jobs.yaml:8: 'bleed': when: no condition; add worse-than: or is:\n"},
    {"jobs.yaml", "after: [decide]", "after: [decide, decide]",
     "jobs.yaml:13: after: 'decide' stands twice; keep one of them\n"},
    {"jobs.yaml", "    accept-source: handbook\n", "",
     "jobs.yaml:8: 'bleed': accept-mark is published without accept-source; name it, or mark it "
     "memory\n"},
    {"jobs.yaml", "    accept: a firm pedal\n", "",
     "jobs.yaml:8: 'bleed': accept-mark without accept; say when the job is good\n"},
    {"jobs.yaml", "survey: true,", "survey: true, after: [bleed],",
     "jobs.yaml:4: after: jobs go in a circle: look-round -> bleed -> decide -> look-round; take "
     "one out\n"},
    {"jobs.yaml", "after: [decide]", "after: [bleed]",
     "jobs.yaml:8: after: jobs go in a circle: bleed -> bleed; take one out\n"},
    {"jobs.yaml", "gate: true, ", "",
     "directions.yaml:3: 'keep': no job has gate: true; mark its decision job\ndirections.yaml:4: "
     "'drive': no job has gate: true; mark its decision job\n"},
    {"jobs.yaml", "survey: true", "gate: true",
     "jobs.yaml:6: 'decide': a second gate in direction 'keep' beside 'look-round'; keep "
     "one\njobs.yaml:6: 'decide': a second gate in direction 'drive' beside 'look-round'; keep "
     "one\n"},
    {"directions.yaml", "done: [decide]", "done: [bleed]",
     "directions.yaml:3: 'keep': done names 'bleed', which is no job of it; add the direction "
     "there\n"},
    {"directions.yaml", ", done: [decide]", "", "directions.yaml:3: missing key 'done'; add it\n"},
    {"places.yaml", "members: [left, right]", "members: [left, corners]",
     "places.yaml:6: members: places go in a circle: corners -> corners; take one out\n"},
    {"places.yaml", "{id: outside, name: outside}", "{id: outside, name: outside, parent: left}",
     "places.yaml:3: parent: places go in a circle: outside -> left -> outside; take one out\n"},
    {"setbacks.yaml", "works: 1,", "works: 0.9,",
     "setbacks.yaml:4: 'stuck': the last step works 0.9; it must end the matter, works: 1\n"},
    {"setbacks.yaml", "works: 0.5", "works: 1",
     "setbacks.yaml:4: 'stuck': step 1 always works; what follows is never reached, take it out\n"},
    {"setbacks.yaml", "works: 0.5", "works: 1.5",
     "setbacks.yaml:10: works: 1.5 is outside 0 to 1; correct it\n"},
    {"setbacks.yaml", "components: [cylinder], ", "",
     "setbacks.yaml:4: 'stuck': chance by condition, but of what? add components to at\n"},
    {"setbacks.yaml", "each: true,", "each: true, directions: [keep],",
     "setbacks.yaml:4: 'stuck': at 'bleed' in a direction that has no such job; leave it out\n"},
    {"setbacks.yaml", "failed: 0.9", "failed: 1.2",
     "setbacks.yaml:8: chance: 1.2 is outside 0 to 1; correct it\n"},
    {"setbacks.yaml", "failed: 0.9", "rotten: 0.9",
     "setbacks.yaml:8: chance: no 'rotten'; use one of sound, worn, poor, bodged, failed, "
     "missing\n"},
    {"setbacks.yaml", "do: Soak it, ", "", "setbacks.yaml:10: missing key 'do'; add it\n"},
    {"setbacks.yaml", "    stop: when the head is round\n", "",
     "setbacks.yaml:4: missing key 'stop'; add it\n"},
    {"clues.yaml", "0.5, 0.2, 0.1]", "0.6, 0.2, 0.1]",
     "clues.yaml:4: 'lip': odds in column 3 sum to 1.1, not 1; correct one of them\n"},
    {"clues.yaml", "0.5, 0.2, 0.1]", "0.2, 0.1]",
     "clues.yaml:4: 'lip': outcome 'none' has 4 odds; a clue to miles has 5\n"},
    {"clusters.yaml", "of: miles", "of: clock",
     "clues.yaml:4: 'lip': outcome 'none' has 5 odds; a clue to clock has 2\n"},
    {"clues.yaml", "id: deep", "id: none",
     "clues.yaml:4: 'lip': outcome 'none' stands twice; keep one\n"},
    {"clues.yaml", "cluster: wear", "cluster: tear",
     "clues.yaml:6: cluster: no 'tear' in clusters; did you mean 'wear'?\n"},
    {"clusters.yaml", "looks: 0.3", "looks: 0",
     "clusters.yaml:4: 'wear': cause 'renewed' looks like no miles; give a number above 0\n"},
    {"clusters.yaml", "chance: 0.2,",
     "chance: 0.2, looks: 1}\n      - {id: hard, text: x, chance: 0.8,",
     "clusters.yaml:4: 'wear': the chances of its causes sum to 1; leave 0.05 for none\n"},
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
