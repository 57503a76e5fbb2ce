#include "small_trade.h"

#include "base/text.h"

#include <assert.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

const struct small_file small_trade[] = {
    {"ageing.yaml", "subject: ageing\n"
                    "mark: demo\n"
                    "entries:\n"
                    "  - id: bore\n"
                    "    name: bores\n"
                    "    odds: {sound: 0.1, worn: 0.2, poor: 0.3, bodged: 0.1, failed: 0.3}\n"
                    "    standing: 0.35\n"
                    "    storage: {heated: -0.4, damp: 0.4}\n"},
    {"cautions.yaml", "subject: cautions\n"
                      "mark: practice\n"
                      "entries:\n"
                      "  - {id: dust, name: dust, text: wet it first, defer: the local rules}\n"},
    {"clues.yaml", "subject: clues\n"
                   "mark: demo\n"
                   "entries:\n"
                   "  - id: lip\n"
                   "    name: lip of the bore\n"
                   "    cluster: wear\n"
                   "    place: outside\n"
                   "    how: feel it\n"
                   "    tool: nail\n"
                   "    minutes: 2\n"
                   "    misleads: a rebore\n"
                   "    outcomes:\n"
                   "      - {id: none, text: none, odds: [0.9, 0.8, 0.5, 0.2, 0.1]}\n"
                   "      - {id: deep, text: a nail catches, odds: [0.1, 0.2, 0.5, 0.8, 0.9]}\n"},
    {"clusters.yaml", "subject: clusters\n"
                      "mark: demo\n"
                      "entries:\n"
                      "  - id: wear\n"
                      "    name: wear\n"
                      "    of: miles\n"
                      "    causes:\n"
                      "      - {id: renewed, text: renewed, chance: 0.2, looks: 0.3}\n"},
    {"codebooks.yaml",
     "subject: codebooks\n"
     "mark: demo\n"
     "entries:\n"
     "  - id: plate\n"
     "    name: plate\n"
     "    where: here\n"
     "    what: [vehicle]\n"
     "    length: 4\n"
     "    positions:\n"
     "      - {at: 1, to: 2, name: type, meanings: [{is: AB, means: saloon}]}\n"
     "    check: {at: 4, weights: [1, 2, 3, 0], values: [\"0A\", 1B], modulus: 3,\n"
     "            remainders: XYZ}\n"
     "    year: {at: 3, codes: ABC, first: 1950, decided-by: 2, decides: [A, B]}\n"
     "  - {id: cast, name: cast, where: here, what: [casting],\n"
     "     date: {parts: [month, year-last], lead: [1, 2, 3]}}\n"},
    {"components.yaml", "subject: components\n"
                        "mark: demo\n"
                        "entries:\n"
                        "  - id: cylinder\n"
                        "    name: wheel cylinder\n"
                        "    also: [slave cylinder]\n"
                        "    system: brakes\n"
                        "    places: [corners]\n"
                        "    fitted: {brakes: [drum, mixed]}\n"
                        "    ages: bore\n"
                        "    look: 10\n"
                        "    seen-by: opening the drum\n"},
    {"coverage.yaml", "subject: coverage\n"
                      "entries:\n"
                      "  - {id: diesel, fitted: {fuel: [diesel]}, text: not covered}\n"
                      "  - {id: winch, text: not covered}\n"},
    {"defaults.yaml",
     "subject: defaults\n"
     "mark: demo\n"
     "entries:\n"
     "  - {id: set-up, value: 15, unit: min, text: before each session}\n"
     "  - {id: months, value: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, -12], text: warmth}\n"},
    {"directions.yaml",
     "subject: directions\n"
     "entries:\n"
     "  - {id: keep, name: as found, charter: preservation, done: [decide]}\n"
     "  - {id: drive, name: drive, charter: repair, done: [bleed], lost: [dust],\n"
     "     changes: [{systems: [brakes], to: modern, what: pipes, can-be-undone: true}]}\n"},
    {"fittings.yaml", "subject: fittings\n"
                      "mark: demo\n"
                      "entries:\n"
                      "  - {id: own-bore, component: cylinder, takes: [{join: bore, most: 20}]}\n"},
    {"joins.yaml",
     "subject: joins\n"
     "mark: demo\n"
     "entries:\n"
     "  - {id: bore, name: bore, system: brakes, rule: inside, unit: mm, gives: a, takes: b,\n"
     "     measure: callipers, misfit: it leaks, cautions: [dust]}\n"
     "  - {id: seat, name: seat, system: brakes, rule: same, gives: a, takes: b,\n"
     "     measure: look, misfit: it leaks}\n"
     "  - {id: line, name: line, system: brakes, rule: near, unit: mm, within: 1, gives: a,\n"
     "     takes: b, measure: rule, misfit: it rubs}\n"},
    {"needs.yaml", "subject: needs\n"
                   "entries:\n"
                   "  - {id: stop, name: a cylinder that stops, system: brakes, jobs: [bleed]}\n"
                   "  - {id: pipe, name: a pipe, system: brakes}\n"},
    {"options.yaml",
     "subject: options\n"
     "mark: demo\n"
     "entries:\n"
     "  - {id: seals, need: stop, way: refurbish, name: new seals, parts: [{part: kit}],\n"
     "     hours: 1, original: original, undo: \"yes\"}\n"
     "  - {id: bigger, need: stop, way: upgrade, name: bigger, parts: [{part: kit}], hours: 2,\n"
     "     brings: [pipe], replaces: [cylinder], requires: [copper], conflicts: [steel],\n"
     "     gives: [{join: bore, least: 22, most: 22}], takes: [{join: seat, is: flare}],\n"
     "     original: modern, undo: with-care, keep: the old}\n"
     "  - {id: copper, need: pipe, way: upgrade, name: copper, frees: [own-bore],\n"
     "     original: period, undo: \"yes\"}\n"
     "  - {id: steel, need: pipe, way: like-for-like, name: steel, original: original,\n"
     "     undo: \"yes\"}\n"
     "  - {id: bush, way: adapter, name: bush, original: modern, undo: \"yes\",\n"
     "     adapts: [{join: bore, from-least: 21, from-most: 30, to-least: 15, to-most: 20}]}\n"},
    {"jobs.yaml", "subject: jobs\n"
                  "mark: demo\n"
                  "entries:\n"
                  "  - {id: look-round, name: Look round, system: brakes, package: record,\n"
                  "     directions: [keep, drive], survey: true, hours: 0.5, bay: false}\n"
                  "  - {id: decide, name: Decide, system: brakes, package: record,\n"
                  "     directions: [keep, drive], after: [look-round], gate: true, hours: 1}\n"
                  "  - id: bleed\n"
                  "    name: Bleed\n"
                  "    system: brakes\n"
                  "    package: mechanical\n"
                  "    directions: [drive]\n"
                  "    after: [decide]\n"
                  "    when: {components: [cylinder], worse-than: worn}\n"
                  "    by-share: true\n"
                  "    hours: [2, 4, 17]\n"
                  "    excludes: [stuck]\n"
                  "    hands: 2\n"
                  "    warm: 5\n"
                  "    wait: {days: [1, 1, 2], for: settling}\n"
                  "    tools: [spanner]\n"
                  "    parts: [{part: kit, count: 4}, {part: fluid}]\n"
                  "    accept: a firm pedal\n"
                  "    accept-mark: published\n"
                  "    accept-source: handbook\n"
                  "    cautions: [dust]\n"
                  "    steps: [open, bleed, close]\n"},
    {"parts.yaml",
     "subject: parts\n"
     "mark: demo\n"
     "currency: GBP\n"
     "price-year: 2024\n"
     "entries:\n"
     "  - {id: kit, name: kit, system: brakes, from: specialist, price: [6, 12, 25],\n"
     "     lead: [2, 5, 21]}\n"
     "  - {id: fluid, name: fluid, system: brakes, from: stock, price: 5, lead: 1,\n"
     "     currency: EUR, mark: published, source: handbook}\n"},
    {"places.yaml", "subject: places\n"
                    "entries:\n"
                    "  - {id: outside, name: outside}\n"
                    "  - {id: left, name: left, parent: outside}\n"
                    "  - {id: right, name: right}\n"
                    "  - {id: corners, name: corners, members: [left, right]}\n"},
    {"seals.yaml",
     "subject: seals\n"
     "mark: demo\n"
     "entries:\n"
     "  - {id: edge, name: edge, kind: sponge, hold: flange, from: 1, to: 3, height: 8,\n"
     "     breadth: 9, force: 4}\n"},
    {"setbacks.yaml",
     "subject: setbacks\n"
     "mark: demo\n"
     "entries:\n"
     "  - id: stuck\n"
     "    name: Nipple stuck\n"
     "    at:\n"
     "      - {job: bleed, components: [cylinder], each: true,\n"
     "         chance: {worn: 0.2, failed: 0.9}}\n"
     "    ladder:\n"
     "      - {do: Soak it, works: 0.5, hours: 0.2, risk: drips,\n"
     "         wait: {days: 1, for: soak}}\n"
     "      - {do: New cylinder, works: 1, hours: [1, 1, 2], parts: [{part: kit}],\n"
     "         cautions: [dust]}\n"
     "    stop: when the head is round\n"},
    {"rules.yaml", "subject: rules\n"
                   "mark: demo\n"
                   "entries:\n"
                   "  - id: eight\n"
                   "    name: eight points\n"
                   "    place: here\n"
                   "    dated: now\n"
                   "    need: 2\n"
                   "    gives: a number\n"
                   "    defer: the office\n"
                   "    parts:\n"
                   "      - {name: brakes, components: [cylinder], classes: [original, period],\n"
                   "         points: 3}\n"},
    {"sources.yaml", "subject: sources\n"
                     "entries:\n"
                     "  - {id: handbook, name: a handbook, where: table 1}\n"},
    {"systems.yaml", "subject: systems\n"
                     "entries:\n"
                     "  - {id: brakes, name: brakes}\n"},
    {"tools.yaml", "subject: tools\n"
                   "entries:\n"
                   "  - {id: spanner, name: spanner, also: [wrench]}\n"},
};
const int n_small_trade = (int)(sizeof small_trade / sizeof *small_trade);

void small_add(struct arena *a, struct sources *s, const char *file, const char *text, size_t size,
               bool own)
{
    s->at = arena_grow(a, s->at, (size_t)s->count, &s->capacity, sizeof *s->at);
    s->at[s->count++] = (struct source){file, file, text, size, own};
}

struct sources small_sources(struct arena *a, const char *file, const char *from, const char *to)
{
    struct sources s = {0};
    bool changed = file == NULL;
    for (int i = 0; i < n_small_trade; i++) {
        const char *text = small_trade[i].text;
        if (text_is(small_trade[i].file, file)) {
            const char *at = strstr(text, from);
            assert(at && !strstr(at + 1, from));
            text = arena_print(a, "%.*s%s%s", (int)(at - text), text, to, at + strlen(from));
            changed = true;
        }
        small_add(a, &s, small_trade[i].file, text, strlen(text), false);
    }
    assert(changed);
    return s;
}

const char *small_faults(struct arena *a, const struct sources *s, struct trade *t)
{
    struct trade_faults faults;
    struct text all = {.arena = a};
    bool good = trade_read(a, s, t, &faults);
    assert(good == (faults.count == 0));
    for (int i = 0; i < faults.count; i++) text_print(&all, "%s\n", faults.line[i]);
    return text_get(&all);
}

void small_try(const struct small_wrong *wrong, size_t count)
{
    int bad = 0;
    for (size_t i = 0; i < count; i++) {
        struct arena a = arena_open(16 << 20);
        struct trade t;
        struct sources s = small_sources(&a, wrong[i].file, wrong[i].from, wrong[i].to);
        const char *said = small_faults(&a, &s, &t);
        if (!text_is(said, wrong[i].faults)) {
            print_error("'%s' -> '%s'\n  said: %s  not : %s", wrong[i].from, wrong[i].to, said,
                        wrong[i].faults);
            bad++;
        }
        arena_close(&a);
    }
    assert_int_equal(bad, 0);
}
