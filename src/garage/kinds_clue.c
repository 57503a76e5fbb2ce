/* kinds_clue.c - what tells of the past of a vehicle: clues, its clock, papers with a mileage. */
#include "garage/kinds.h"

#include "base/text.h"

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))

enum { NOTE_BYTES = 4000, SHORT_BYTES = 200, FIGURES_LEAST = 4, FIGURES_MOST = 7 };
static const double READING_MOST = 9999999; /* seven figures */

static const char *const how_words[] = {"seen", "told", "inferred", NULL};
static const char *const unit_words[] = {"miles", "km", NULL};

/* A clock of five figures shows 99,999 and then 00,000: it never shows more. */
static bool check_clock(const struct record *r, struct fail *f)
{
    int64_t digits = record_integer(r, "digits", 0), most = 1;
    if (digits == 0) return true;
    for (int64_t i = 0; i < digits; i++) most *= 10;
    if (record_integer(r, "reading", 0) < most) return true;
    return fail_set(
        f, FAIL_INPUT,
        "clock.reading: %lld is beyond a clock of %lld figures; leave out the tenths, or "
        "mend digits",
        (long long)record_integer(r, "reading", 0), (long long)digits);
}

/* clang-format off */
#define OF_VEHICLE                                                                                 \
    {                                                                                              \
        .name = "vehicle", .type = FIELD_PARENT, .required = true, .parent_kind = "vehicle",       \
        .help = "Which vehicle"                                                                    \
    }

static const struct field reading_fields[] = {
    OF_VEHICLE,
    {.name = "clue", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "Which clue of the trade data: bore-ridge"},
    {.name = "outcome", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "What it showed, one of that clue's outcomes: deep"},
    {.name = "value", .type = FIELD_TEXT, .high = SHORT_BYTES,
     .help = "What was measured, as you read it: 0.15 mm"},
    {.name = "date", .type = FIELD_DAY, .help = "The day of the look"},
    {.name = "how", .type = FIELD_CHOICE, .choices = how_words, .help = "How you know"},
    {.name = "note", .type = FIELD_TEXT, .high = NOTE_BYTES, .help = "What you saw"},
};
const struct record_kind kind_clue_reading = {
    .name = "clue-reading", .plural = "clue-readings", .version = 1, .fields = reading_fields,
    .n_fields = COUNT(reading_fields),
    .help = "What a clue to miles or origin showed; the latest one of each counts"};

static const struct field clock_fields[] = {
    OF_VEHICLE,
    {.name = "reading", .type = FIELD_INTEGER, .required = true, .low = 0, .high = READING_MOST,
     .help = "What the distance counter shows, without tenths: 34567"},
    {.name = "digits", .type = FIELD_INTEGER, .low = FIGURES_LEAST, .high = FIGURES_MOST,
     .help = "How many figures it has, without tenths: 5"},
    {.name = "unit", .type = FIELD_CHOICE, .choices = unit_words, .help = "What it counts"},
    {.name = "working", .type = FIELD_YES, .help = "Does it run?"},
    {.name = "date", .type = FIELD_DAY, .help = "The day of the reading"},
    {.name = "note", .type = FIELD_TEXT, .high = NOTE_BYTES, .help = "Anything else"},
};
const struct record_kind kind_clock = {
    .name = "clock", .plural = "clocks", .version = 1, .check = check_clock,
    .fields = clock_fields, .n_fields = COUNT(clock_fields),
    .help = "What the distance counter (odometer) shows; the latest one counts"};

static const struct field dated_fields[] = {
    OF_VEHICLE,
    /* not "date": what happened today is the rule for that, and never true of an old paper */
    {.name = "written", .type = FIELD_DAY, .required = true, .help = "The date on the paper"},
    {.name = "reading", .type = FIELD_INTEGER, .required = true, .low = 0, .high = READING_MOST,
     .help = "The mileage on it, as written"},
    {.name = "unit", .type = FIELD_CHOICE, .choices = unit_words, .help = "What it is in"},
    {.name = "paper", .type = FIELD_TEXT, .high = SHORT_BYTES,
     .help = "What it is: a garage bill, a test paper, a sticker"},
    {.name = "note", .type = FIELD_TEXT, .high = NOTE_BYTES, .help = "Anything else"},
};
const struct record_kind kind_dated_mileage = {
    .name = "dated-mileage", .plural = "dated-mileages", .version = 1, .fields = dated_fields,
    .n_fields = COUNT(dated_fields),
    .help = "A paper with a date and a mileage; papers that disagree are all kept"};
/* clang-format on */
