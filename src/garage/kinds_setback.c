/* kinds_setback.c - a setback met in the middle of a job, and how each step that was tried ended.
 */
#include "garage/kinds.h"

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))

enum { NOTE_BYTES = 4000, SHORT_BYTES = 200 };

static const char *const state_words[] = {"open", "cured", "stopped", NULL};
static const char *const is_words[] = {"proud", "flush", "below", NULL};
static const char *const metal_words[] = {"iron", "alloy", NULL};
static const char *const hole_words[] = {"through", "blind", NULL};

/* clang-format off */
static const struct field setback_fields[] = {
    {.name = "vehicle", .type = FIELD_PARENT, .required = true, .parent_kind = "vehicle",
     .help = "Which vehicle"},
    {.name = "setback", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "Which setback of the trade data: snapped-stud"},
    {.name = "job", .type = FIELD_TEXT, .high = SHORT_BYTES,
     .help = "In which job: manifold-joint; the first that can meet it if left out"},
    {.name = "component", .type = FIELD_TEXT, .high = SHORT_BYTES,
     .help = "On what: manifold-stud"},
    {.name = "is", .type = FIELD_CHOICE, .choices = is_words,
     .help = "How it stands: proud of the face, flush with it, or below"},
    {.name = "in", .type = FIELD_CHOICE, .choices = metal_words,
     .help = "What it sits in: iron or alloy"},
    {.name = "hole", .type = FIELD_CHOICE, .choices = hole_words,
     .help = "A hole right through, or a blind one"},
    {.name = "drill", .type = FIELD_YES, .help = "Does a drill reach it?"},
    {.name = "thread", .type = FIELD_TEXT, .high = SHORT_BYTES,
     .help = "Its thread: M8x1.25, 3/8-16 UNC"},
    {.name = "tried", .type = FIELD_TEXT, .high = SHORT_BYTES,
     .help = "Steps in vain, one that left it worse with '!': heat,weld!"},
    {.name = "state", .type = FIELD_CHOICE, .choices = state_words,
     .help = "Open, cured, or stopped; open if left out"},
    {.name = "date", .type = FIELD_DAY, .help = "The day on which it was met"},
    {.name = "note", .type = FIELD_TEXT, .high = NOTE_BYTES, .help = "What happened"},
};
/* clang-format on */
const struct record_kind kind_setback = {
    .name = "setback",
    .plural = "setbacks",
    .version = 1,
    .fields = setback_fields,
    .n_fields = COUNT(setback_fields),
    .help = "A setback met in a job, or feared; while it is open the plan reckons with it"};
