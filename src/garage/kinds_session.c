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

static const char *const way_words[] = {"buy", "hire", "borrow", NULL};
static const struct field tool_offer_fields[] = {
    {.name = "tool", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "Which tool of the trade data: bore gauge"},
    {.name = "way", .type = FIELD_CHOICE, .required = true, .choices = way_words,
     .help = "Could it be bought, hired or borrowed?"},
    {.name = "price", .type = FIELD_MONEY, .private_ = true,
     .help = "Bought: in all; hired or borrowed: each time that it is fetched"},
    {.name = "a-day", .type = FIELD_MONEY, .private_ = true,
     .help = "Hired: each day that it is kept"},
    {.name = "until", .type = FIELD_DAY, .help = "The last day on which it can be had"},
    {.name = "whose", .type = FIELD_TEXT, .private_ = true, .high = SHORT_BYTES,
     .help = "Who sells, hires out or lends it"},
    {.name = "note", .type = FIELD_TEXT, .private_ = true, .high = NOTE_BYTES,
     .help = "Anything else"},
};
const struct record_kind kind_tool_offer = {
    .name = "tool-offer", .plural = "tool-offers", .version = 1, .of_garage = true,
    .fields = tool_offer_fields, .n_fields = COUNT(tool_offer_fields),
    .help = "A way to have a tool that is not here, and what it costs"};

static const struct field person_fields[] = {
    {.name = "name", .type = FIELD_TEXT, .required = true, .private_ = true, .high = SHORT_BYTES,
     .help = "Who it is"},
    {.name = "knows", .type = FIELD_TEXT, .high = NOTE_BYTES,
     .help = "What they can be asked about: carburettors, welding"},
    {.name = "lends", .type = FIELD_TEXT, .high = NOTE_BYTES, .help = "What they would lend"},
    {.name = "reach", .type = FIELD_TEXT, .private_ = true, .high = SHORT_BYTES,
     .help = "How they are reached"},
    {.name = "note", .type = FIELD_TEXT, .private_ = true, .high = NOTE_BYTES,
     .help = "Anything else"},
};
const struct record_kind kind_person = {
    .name = "person", .plural = "people", .version = 1, .of_garage = true, .label_field = "name",
    .fields = person_fields, .n_fields = COUNT(person_fields),
    .help = "Somebody who knows something, or lends something"};

static const struct field promise_fields[] = {
    {.name = "who", .type = FIELD_TEXT, .required = true, .private_ = true, .high = SHORT_BYTES,
     .help = "Who promised it; you, if it was you"},
    {.name = "what", .type = FIELD_TEXT, .required = true, .high = NOTE_BYTES,
     .help = "What was promised: bring the engine crane"},
    {.name = "by-day", .type = FIELD_DAY, .help = "By when"},
    {.name = "kept", .type = FIELD_DAY, .help = "The day on which it was kept"},
    {.name = "note", .type = FIELD_TEXT, .private_ = true, .high = NOTE_BYTES,
     .help = "Anything else"},
};
const struct record_kind kind_promise = {
    .name = "promise", .plural = "promises", .version = 1, .of_garage = true,
    .fields = promise_fields, .n_fields = COUNT(promise_fields),
    .help = "Who promised what, by when"};

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
