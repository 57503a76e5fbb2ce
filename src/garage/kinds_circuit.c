/* kinds_circuit.c - a circuit of the loom, as it is or as it shall be. */
#include "garage/kinds.h"

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))

enum { NOTE_BYTES = 4000, SHORT_BYTES = 200 };

static const char *const use_words[] = {"lamps", "ignition", "motor", "other", "starter", NULL};
static const char *const earth_words[] = {"body", "wire", NULL};
static const char *const space_words[] = {"cool", "engine", NULL};
static const char *const cover_words[] = {"60", "75", "80", "90", "105", "125", "200", NULL};
static const char *const bundle_words[] = {"1", "3", "4-6", "7-24", NULL};

static bool check_circuit(const struct record *r, struct fail *f)
{
    return !(record_get(r, "power")->set && record_get(r, "draws")->set) ||
           fail_set(f, FAIL_INPUT, "circuit.draws: power is told as well; keep one of them");
}

/* clang-format off */
static const struct field circuit_fields[] = {
    {.name = "vehicle", .type = FIELD_PARENT, .required = true, .parent_kind = "vehicle",
     .help = "Which vehicle"},
    {.name = "name", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "What it feeds: headlamps dipped"},
    {.name = "use", .type = FIELD_CHOICE, .choices = use_words,
     .help = "Lamps and ignition may lose 3 %, the starter 0.8 V of 12, others 10 %"},
    {.name = "power", .type = FIELD_QUANTITY, .quantity = QUANTITY_POWER, .bare = "W",
     .low = 0.1, .high = 20000, .help = "All that burns at once: 110 W"},
    {.name = "draws", .type = FIELD_QUANTITY, .quantity = QUANTITY_CURRENT, .bare = "A",
     .low = 0.001, .high = 2000, .help = "Its current, in place of the power"},
    {.name = "length", .type = FIELD_QUANTITY, .required = true, .quantity = QUANTITY_LENGTH, .bare = "m",
     .low = 0.01, .high = 50, .help = "Of the wire, one way"},
    {.name = "wire", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "2.5 mm2, 14 AWG, or strands and size: 44/0.012, 28/0.30"},
    {.name = "cover", .type = FIELD_CHOICE, .choices = cover_words,
     .help = "Degrees C that it bears: 60 rubber and cloth, 75 old plastic (taken if left out), 105 new"},
    {.name = "space", .type = FIELD_CHOICE, .choices = space_words,
     .help = "In the engine's heat, or in the cool"},
    {.name = "bundle", .type = FIELD_CHOICE, .choices = bundle_words,
     .help = "Wires that carry current bound together"},
    {.name = "fuse", .type = FIELD_QUANTITY, .quantity = QUANTITY_CURRENT, .bare = "A",
     .low = 0.1, .high = 500, .help = "Its rating; left out: there is none"},
    {.name = "switch", .type = FIELD_TEXT, .high = SHORT_BYTES, .help = "What switches it: light switch"},
    {.name = "switch-rating", .type = FIELD_QUANTITY, .quantity = QUANTITY_CURRENT, .bare = "A",
     .low = 0.1, .high = 2000, .help = "What that may switch"},
    {.name = "earth", .type = FIELD_CHOICE, .choices = earth_words,
     .help = "Back by the body (taken if left out), or by a wire of its own"},
    {.name = "note", .type = FIELD_TEXT, .high = NOTE_BYTES, .help = "Colours, where it runs"},
};
/* clang-format on */
const struct record_kind kind_circuit = {
    .name = "circuit",
    .plural = "circuits",
    .version = 1,
    .check = check_circuit,
    .fields = circuit_fields,
    .n_fields = COUNT(circuit_fields),
    .help = "A circuit of the loom: its load, wire, fuse and switch; 'fettle loom' checks them"};
