/* kinds_session.c - what an evening's work leans on: which tools are there, where it was left off,
 * and when the standing vehicle was last cared for. */
#include "garage/kinds.h"

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))

enum { NOTE_BYTES = 4000, SHORT_BYTES = 200 };

static const char *const have_words[] = {"owned", "borrowed", "missing", NULL};

/* clang-format off */
#define OF_VEHICLE                                                                                 \
    {                                                                                              \
        .name = "vehicle", .type = FIELD_PARENT, .required = true, .parent_kind = "vehicle",       \
        .help = "Which vehicle"                                                                    \
    }

static const struct field tool_fields[] = {
    {.name = "tool", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "Which tool of the trade data: axle stands"},
    {.name = "have", .type = FIELD_CHOICE, .required = true, .choices = have_words,
     .help = "Is it yours, borrowed, or missing?"},
    {.name = "back-by", .type = FIELD_DAY,
     .help = "The last day on which a borrowed one is here"},
    {.name = "where", .type = FIELD_TEXT, .high = SHORT_BYTES, .help = "Where it lies"},
    {.name = "note", .type = FIELD_TEXT, .private_ = true, .high = NOTE_BYTES,
     .help = "Whose it is, what it lacks"},
};
const struct record_kind kind_tool = {
    .name = "tool", .plural = "tools", .version = 1, .of_garage = true, .label_field = "tool",
    .fields = tool_fields, .n_fields = COUNT(tool_fields),
    .help = "A tool that is owned, borrowed or missing; the latest one of each counts"};

static const struct field left_off_fields[] = {
    OF_VEHICLE,
    {.name = "note", .type = FIELD_TEXT, .required = true, .high = NOTE_BYTES,
     .help = "Where to go on next time, and what to mind before touching anything"},
    {.name = "where", .type = FIELD_TEXT, .high = NOTE_BYTES,
     .help = "Where things lie: drum screws in the blue tray"},
    {.name = "photo", .type = FIELD_PARENT, .parent_kind = "photograph",
     .help = "The photograph of how it was left, by its id"},
    {.name = "date", .type = FIELD_DAY, .help = "The day of that session"},
};
const struct record_kind kind_left_off = {
    .name = "left-off", .plural = "left-off-notes", .version = 1, .fields = left_off_fields,
    .n_fields = COUNT(left_off_fields),
    .help = "Where a session was left off; the latest one is shown first next time"};

static const struct field care_done_fields[] = {
    OF_VEHICLE,
    {.name = "care", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "Which care of the trade data: mice"},
    {.name = "date", .type = FIELD_DAY, .required = true, .help = "The day on which it was done"},
    {.name = "note", .type = FIELD_TEXT, .high = NOTE_BYTES, .help = "What was seen"},
};
const struct record_kind kind_care_done = {
    .name = "care-done", .plural = "cares-done", .version = 1, .fields = care_done_fields,
    .n_fields = COUNT(care_done_fields),
    .help = "Standing care that was given; the next is due so many days after"};
/* clang-format on */
