/* kinds_safe.c - gates that were opened or overridden, what was checked for a session, and who saw
 * that something holds. */
#include "garage/kinds.h"

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))

enum { NOTE_BYTES = 4000, SHORT_BYTES = 200 };

/* Nobody is their own second pair of eyes. */
static bool check_witnessed(const struct record *r, struct fail *f)
{
    const char *by = record_text(r, "by", NULL), *worker = record_text(r, "worker", NULL);
    if (!by || !worker || !text_same_word(by, worker)) return true;
    return fail_set(f, FAIL_INPUT,
                    "witnessed.by: '%.60s' did the work too; somebody else has to check it", by);
}

/* clang-format off */
#define OF_VEHICLE                                                                                 \
    {                                                                                              \
        .name = "vehicle", .type = FIELD_PARENT, .required = true, .parent_kind = "vehicle",       \
        .help = "Which vehicle"                                                                    \
    }

static const struct field gate_opened_fields[] = {
    OF_VEHICLE,
    {.name = "gate", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "Which gate of the trade data: before-fuel"},
    {.name = "date", .type = FIELD_DAY, .required = true, .help = "The day on which it was opened"},
    {.name = "retest", .type = FIELD_DAY,
     .help = "Opened only for now: the first day on which something is to be measured again"},
    {.name = "proved", .type = FIELD_TEXT, .high = NOTE_BYTES,
     .help = "What held then, by id, blanks between"},
    {.name = "note", .type = FIELD_TEXT, .high = NOTE_BYTES, .help = "Anything else"},
};
const struct record_kind kind_gate_opened = {
    .name = "gate-opened", .plural = "gates-opened", .version = 1, .fields = gate_opened_fields,
    .n_fields = COUNT(gate_opened_fields),
    .help = "A gate that was opened because all of it held"};

static const struct field gate_override_fields[] = {
    OF_VEHICLE,
    {.name = "gate", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "Which gate of the trade data: before-fuel"},
    {.name = "reason", .type = FIELD_TEXT, .required = true, .high = NOTE_BYTES,
     .help = "Why it was passed though it was shut, in your own words"},
    {.name = "date", .type = FIELD_DAY, .required = true, .help = "The day on which that was"},
    {.name = "missing", .type = FIELD_TEXT, .high = NOTE_BYTES,
     .help = "What did not hold then, by id, blanks between; what is missing later shuts it again"},
};
const struct record_kind kind_gate_override = {
    .name = "gate-override", .plural = "gate-overrides", .version = 1,
    .fields = gate_override_fields, .n_fields = COUNT(gate_override_fields),
    .help = "A gate that was passed though something was missing, and why"};

static const struct field session_check_fields[] = {
    OF_VEHICLE,
    {.name = "check", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "Which check of the trade data: going-under"},
    {.name = "date", .type = FIELD_DAY, .required = true,
     .help = "The day for whose session it holds; on the next it is asked again"},
    {.name = "by", .type = FIELD_TEXT, .private_ = true, .high = SHORT_BYTES,
     .help = "Who checked, if not you"},
    {.name = "note", .type = FIELD_TEXT, .high = NOTE_BYTES,
     .help = "Who knows where you are, until when, anything else"},
};
const struct record_kind kind_session_check = {
    .name = "session-check", .plural = "session-checks", .version = 1,
    .fields = session_check_fields, .n_fields = COUNT(session_check_fields),
    .help = "What was checked before something dangerous, for the session of one day"};

static const struct field witnessed_fields[] = {
    OF_VEHICLE,
    {.name = "what", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "Which proof of the trade data was seen: brakes-witnessed"},
    {.name = "holds", .type = FIELD_YES, .required = true, .help = "Does it hold?"},
    {.name = "by", .type = FIELD_TEXT, .private_ = true, .high = SHORT_BYTES,
     .help = "The name of who checked it; needed for brakes, steering and structural welds"},
    {.name = "worker", .type = FIELD_TEXT, .private_ = true, .high = SHORT_BYTES,
     .help = "The name of who did the work; never the same"},
    {.name = "fit", .type = FIELD_TEXT, .private_ = true, .high = SHORT_BYTES,
     .help = "What makes them fit to judge it: brake inspector, welder of 20 years"},
    {.name = "date", .type = FIELD_DAY, .required = true, .help = "The day on which it was seen"},
    {.name = "note", .type = FIELD_TEXT, .high = NOTE_BYTES, .help = "What was seen"},
};
const struct record_kind kind_witnessed = {
    .name = "witnessed", .plural = "things-witnessed", .version = 1, .check = check_witnessed,
    .fields = witnessed_fields, .n_fields = COUNT(witnessed_fields),
    .help = "That something holds, or does not, and who saw it; the latest one counts"};
/* clang-format on */
