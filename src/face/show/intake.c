#include "face/show/intake.h"

#include <assert.h>
#include <stdlib.h>

const struct intake_key intake_keys[] = {
    {0, "name", "vehicle", "name", "What do you call it?", NULL},
    {0, "owned", "vehicle", "owned", NULL, NULL},
    {1, "kind", "vehicle", "kind", "What is it?", NULL},
    {1, "year", "vehicle", "year", "In which year was it made?", NULL},
    {2, "build", "vehicle", "build", "Body and frame in one, or a body on a frame?", NULL},
    {3, "cylinders", "vehicle", "cylinders", "How many cylinders?", NULL},
    {3, "fuel", "vehicle", "fuel", "What does it burn?", NULL},
    {3, "gearbox", "vehicle", "gearbox", "What gearbox?", NULL},
    {4, "driven", "vehicle", "driven", "Which wheels are driven?", NULL},
    {5, "brakes", "vehicle", "brakes", "What brakes? (mixed: discs in front, drums behind)", NULL},
    {5, "voltage", "vehicle", "voltage", "How many volts?",
     "Read it off lamp bulbs or papers; connect no battery before the wiring has been looked "
     "over."},
    {5, "earth", "vehicle", "earth", "Which pole of the battery goes to the body (earth, ground)?",
     NULL},
    {6, "state", "vehicle", "state", "Is it in one piece?", NULL},
    {7, "turns", "vehicle", "turns", "Does the engine turn?",
     "By hand only, out of gear, ignition off. If it resists, stop, and answer no: force breaks "
     "rings and valves."},
    {8, "rolls", "vehicle", "rolls", "Does it roll?",
     "On level ground, chocks at hand, nobody in its path; its brakes are not to be trusted."},
    {8, "stops", "vehicle", "stops", "Do its own brakes hold it at a walking pace?", NULL},
    {9, "papers", "vehicle", "papers", "How much of its papers is there?", NULL},
    {10, "standing", "vehicle", "standing", "How many years has it stood?", NULL},
    {10, "storage", "vehicle", "storage", "How was it kept?", NULL},
    {11, "hours", "workshop", "hours-a-week", "How many hours a week will you work on it?", NULL},
    {11, "hands", "workshop", "hands", "How many pairs of hands?", NULL},
    {12, "a-month", "purse", "a-month", "How much money a month?", NULL},
    {12, "ceiling", "purse", "ceiling", "How much may all of it cost at most?", NULL},
    {12, "currency", "workshop", "currency", NULL, NULL},
    {0, NULL, NULL, NULL, NULL, NULL},
};

const struct intake_key *intake_find(const char *key)
{
    for (const struct intake_key *k = intake_keys; k->key; k++)
        if (text_same_word(k->key, key)) return k;
    return NULL;
}

/* The latest of a kind of which only the latest counts, else a new one. */
static bool latest(struct arena *a, struct garage *g, const char *kind, struct record **out,
                   struct fail *f)
{
    const struct record_kind *k = record_kind_find(kind);
    struct record *all;
    int count;
    assert(k);
    if (!garage_list(g, a, k, NULL, &all, &count, f)) return false;
    *out = count ? &all[count - 1] : record_new(a, k);
    return true;
}

bool intake_begin(struct arena *a, struct garage *g, struct intake *in, struct fail *f)
{
    const struct record_kind *k = record_kind_find("vehicle");
    struct record *vehicles;
    int count;
    assert(k);
    *in = (struct intake){.arena = a, .garage = g, .vehicle = record_new(a, k)};
    if (!garage_list(g, a, k, NULL, &vehicles, &count, f) ||
        !latest(a, g, "workshop", &in->workshop, f) || !latest(a, g, "purse", &in->purse, f))
        return false;
    const char *name = arena_print(a, "Vehicle %d", count + 1);
    return record_set(a, in->vehicle, "name", name, NULL, f);
}

const struct field *intake_field(const struct intake_key *k)
{
    const struct record_kind *kind = record_kind_find(k->kind);
    assert(kind);
    return &kind->fields[record_field(kind, k->field)];
}

const char *currency_usual(struct arena *a, struct garage *g)
{
    struct fail ignored = {0};
    const struct record_kind *k = record_kind_find("workshop");
    struct record *all;
    int count = 0;
    assert(k);
    if (g && garage_list(g, a, k, NULL, &all, &count, &ignored) && count > 0) {
        const char *code = record_text(&all[count - 1], "currency", NULL);
        if (code) return code;
    }
    static const char *const variables[] = {"LC_ALL", "LC_MONETARY", "LANG"};
    for (size_t i = 0; i < sizeof variables / sizeof *variables; i++) {
        const char *locale = getenv(variables[i]);
        if (locale && *locale) return currency_of_locale(locale);
    }
    return NULL;
}

static struct record *record_of(const struct intake *in, const struct intake_key *k)
{
    return text_is(k->kind, "vehicle") ? in->vehicle
           : text_is(k->kind, "purse") ? in->purse
                                       : in->workshop;
}

const char *intake_currency(const struct intake *in)
{
    const char *said = record_text(in->workshop, "currency", NULL);
    return said ? said : currency_usual(in->arena, in->garage);
}

bool intake_set(struct intake *in, const struct intake_key *k, const char *text, struct fail *f)
{
    struct record *r = record_of(in, k);
    const struct value before = *record_get(r, k->field);
    if (!record_set(in->arena, r, k->field, text, intake_currency(in), f)) return false;
    bool known = record_get(r, k->field)->set;
    if (!known && text_is(k->key, "name")) {
        r->values[record_field(r->kind, k->field)] = before;
        return fail_set(f, FAIL_INPUT, "intake: a name is needed, if only 'the blue one'");
    }
    if (r == in->workshop && (known || before.set)) in->workshop_said = true;
    if (r == in->purse && (known || before.set)) in->purse_said = true;
    return true;
}

const char *intake_answer(const struct intake *in, const struct intake_key *k)
{
    return record_text(record_of(in, k), k->field, NULL);
}

static bool put(struct garage *g, struct record *r, struct fail *f)
{
    return *r->id ? garage_change(g, r, f) : garage_add(g, r, f);
}

bool intake_store(struct intake *in, struct fail *f)
{
    struct garage *g = in->garage;
    const char *name = record_text(in->vehicle, "name", NULL);
    struct record *same;
    struct fail none = {0};
    if (!record_valid(in->vehicle, f) || (in->workshop_said && !record_valid(in->workshop, f)) ||
        (in->purse_said && !record_valid(in->purse, f)))
        return false;
    if (garage_find(g, in->arena, in->vehicle->kind, name, &same, &none))
        return fail_set(f, FAIL_INPUT,
                        "there is a vehicle '%s' already; give another name, or correct it with "
                        "'fettle change vehicle'",
                        name);
    if (!garage_begin(g, f)) return false;
    if (garage_add(g, in->vehicle, f) && (!in->workshop_said || put(g, in->workshop, f)) &&
        (!in->purse_said || put(g, in->purse, f)) && garage_commit(g, f))
        return true;
    garage_rollback(g);
    return false;
}
