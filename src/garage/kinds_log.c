/* kinds_log.c - the working day: hours on jobs, the clock that runs for one, what was measured. */
#include "garage/kinds.h"

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))

enum { NOTE_BYTES = 4000, SHORT_BYTES = 200 };
static const double FIGURE_MOST = 1e12;

static bool check_work(const struct record *r, struct fail *f)
{
    const struct value *from = record_get(r, "from"), *to = record_get(r, "to");
    if (to->set && !from->set)
        return fail_set(f, FAIL_INPUT, "work.to: there is no 'from'; give both or only the hours");
    return true;
}

static bool check_measurement(const struct record *r, struct fail *f)
{
    const struct value *low = record_get(r, "low"), *high = record_get(r, "high");
    if (!low->set || !high->set || low->number < high->number) return true;
    return fail_set(f, FAIL_INPUT, "measurement.low: %g is not below high, %g; mend one of them",
                    low->number, high->number);
}

/* clang-format off */
#define OF_VEHICLE                                                                                 \
    {                                                                                              \
        .name = "vehicle", .type = FIELD_PARENT, .required = true, .parent_kind = "vehicle",       \
        .help = "Which vehicle"                                                                    \
    }

static const struct field work_fields[] = {
    OF_VEHICLE,
    {.name = "job", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "The job worked on: brakes-open"},
    {.name = "hours", .type = FIELD_QUANTITY, .quantity = QUANTITY_TIME, .bare = "h", .low = 0,
     .high = 1000 * 3600.0, .help = "Hands-on time: 2 h 30 min"},
    {.name = "finished", .type = FIELD_YES, .help = "Is the job done?"},
    {.name = "date", .type = FIELD_DAY, .help = "The day of the work"},
    {.name = "note", .type = FIELD_TEXT, .high = NOTE_BYTES,
     .help = "What was done, and where to go on next time"},
    {.name = "from", .type = FIELD_CLOCK, .help = "When it began: 19:00"},
    {.name = "to", .type = FIELD_CLOCK, .help = "When it ended, on the next day if that is earlier"},
    {.name = "setback", .type = FIELD_TEXT, .high = SHORT_BYTES,
     .help = "The setback of the trade data that was met: brake-nipple-broken"},
};
const struct record_kind kind_work = {
    .name = "work", .plural = "works", .version = 2, .check = check_work, .fields = work_fields,
    .n_fields = COUNT(work_fields), .help = "Time spent on a job"};

static const struct field timer_fields[] = {
    OF_VEHICLE,
    {.name = "job", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "The job that is being worked on: brakes-open"},
    {.name = "date", .type = FIELD_DAY, .required = true, .help = "The day on which it began"},
    {.name = "from", .type = FIELD_CLOCK, .required = true, .help = "When it began: 19:00"},
};
const struct record_kind kind_timer = {
    .name = "timer", .plural = "timers", .version = 1, .fields = timer_fields,
    .n_fields = COUNT(timer_fields),
    .help = "The clock that runs for a job; it goes when the job is stopped, and counts for nothing till then"};

static const struct field measurement_fields[] = {
    OF_VEHICLE,
    {.name = "what", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "What was measured, a check of 'fettle bench acceptance' or your own words: compression"},
    {.name = "where", .type = FIELD_TEXT, .high = SHORT_BYTES,
     .help = "Where, a component or place: cylinder 3, front-left"},
    {.name = "value", .type = FIELD_NUMBER, .required = true, .low = -FIGURE_MOST,
     .high = FIGURE_MOST, .help = "What it read"},
    {.name = "unit", .type = FIELD_TEXT, .high = 20, .help = "In which unit: psi"},
    {.name = "tool", .type = FIELD_TEXT, .high = SHORT_BYTES, .help = "With what: feeler gauge"},
    {.name = "low", .type = FIELD_NUMBER, .low = -FIGURE_MOST, .high = FIGURE_MOST,
     .help = "It must be this at least, in the same unit: the maker's figure"},
    {.name = "high", .type = FIELD_NUMBER, .low = -FIGURE_MOST, .high = FIGURE_MOST,
     .help = "It must be this at most, in the same unit: the maker's figure"},
    {.name = "source", .type = FIELD_TEXT, .high = SHORT_BYTES,
     .help = "Where that limit stands: workshop manual, page 41"},
    {.name = "job", .type = FIELD_TEXT, .high = SHORT_BYTES, .help = "The job that it belongs to"},
    {.name = "date", .type = FIELD_DAY, .help = "The day of the measuring"},
    {.name = "retest", .type = FIELD_DAY,
     .help = "Accepted only for now: the day by which it is measured again"},
    {.name = "by", .type = FIELD_TEXT, .private_ = true, .high = SHORT_BYTES,
     .help = "Who measured, if not you"},
    {.name = "note", .type = FIELD_TEXT, .high = NOTE_BYTES, .help = "Anything else"},
};
const struct record_kind kind_measurement = {
    .name = "measurement", .plural = "measurements", .version = 1, .check = check_measurement,
    .fields = measurement_fields, .n_fields = COUNT(measurement_fields),
    .help = "What was measured, where, with what, against which limit"};
/* clang-format on */
