/* kinds_identity.c - what was read on the vehicle that says which one it is, and what of it is
 * original. The readings are evidence: none is refused for what it says. */
#include "garage/kinds.h"

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))

enum { NOTE_BYTES = 4000, SHORT_BYTES = 200, CODE_BYTES = 80 };

/* In the order of enum mark_of of the trade data, as are the classes in that of enum originality.
 */
static const char *const mark_words[] = {"vehicle", "body",  "engine", "gearbox", "axle",
                                         "casting", "glass", "built",  "other",   NULL};
static const char *const where_words[] = {"stamping", "plate", "tag", "label", "papers", NULL};
static const char *const class_words[] = {"original", "period",  "reproduction",
                                          "modern",   "unknown", NULL};

/* clang-format off */
#define OF_VEHICLE                                                                                 \
    {                                                                                              \
        .name = "vehicle", .type = FIELD_PARENT, .required = true, .parent_kind = "vehicle",       \
        .help = "Which vehicle"                                                                    \
    }

static const struct field mark_fields[] = {
    OF_VEHICLE,
    {.name = "what", .type = FIELD_CHOICE, .required = true, .choices = mark_words,
     .help = "Number or date of what: the vehicle (frame, VIN), the body, a casting, glass, or the day it was built"},
    {.name = "where", .type = FIELD_CHOICE, .choices = where_words,
     .help = "Where it stands: stamped into the metal, on a plate, in the papers"},
    {.name = "component", .type = FIELD_TEXT, .high = SHORT_BYTES,
     .help = "On which component, if on one: cylinder-block, door-glass@left"},
    {.name = "text", .type = FIELD_TEXT, .required = true, .private_ = true, .high = CODE_BYTES,
     .help = "As it stands there, character by character; touch nothing to read it"},
    {.name = "again", .type = FIELD_TEXT, .private_ = true, .high = CODE_BYTES,
     .help = "As a second person read it, who had not seen the first"},
    {.name = "by", .type = FIELD_TEXT, .private_ = true, .high = SHORT_BYTES, .help = "Who read it"},
    {.name = "book", .type = FIELD_TEXT, .high = SHORT_BYTES,
     .help = "Which code book reads it: cast-month-day-year; left out, the one that suits"},
    {.name = "how", .type = FIELD_CHOICE, .choices = words_of_how, .help = "How you know"},
    {.name = "date", .type = FIELD_DAY, .help = "The day of the reading"},
    {.name = "photo", .type = FIELD_TEXT, .high = SHORT_BYTES,
     .help = "Which photograph shows it, square on and in slanting light"},
    {.name = "note", .type = FIELD_TEXT, .high = NOTE_BYTES,
     .help = "Font, depth, rivets, paint over it; what is odd"},
};
const struct record_kind kind_mark = {
    .name = "mark", .plural = "marks", .version = 1, .fields = mark_fields,
    .n_fields = COUNT(mark_fields),
    .help = "A number or a date that stands on the vehicle or in its papers"};

static const struct field originality_fields[] = {
    OF_VEHICLE,
    {.name = "component", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "Which one: steering-box, door@left"},
    {.name = "class", .type = FIELD_CHOICE, .required = true, .choices = class_words,
     .help = "Original to this vehicle; of its period, but another's; a reproduction; modern"},
    {.name = "evidence", .type = FIELD_TEXT, .high = NOTE_BYTES,
     .help = "What says so: its date, its number, paint over its bolts, a bill"},
    {.name = "how", .type = FIELD_CHOICE, .choices = words_of_how, .help = "How you know"},
    {.name = "date", .type = FIELD_DAY, .help = "The day of the look"},
    {.name = "note", .type = FIELD_TEXT, .high = NOTE_BYTES, .help = "Anything else"},
};
const struct record_kind kind_originality = {
    .name = "originality", .plural = "originalities", .version = 1, .fields = originality_fields,
    .n_fields = COUNT(originality_fields),
    .help = "Whether a component is the vehicle's own; the latest one of each counts"};
/* clang-format on */
