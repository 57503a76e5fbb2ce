/* kinds.c - every kind of record, declared once. A new kind is a table here, one in schema.sql, and
 * a line in docs/data-format.md; nothing else need change.
 *
 * Limits only keep out slips of the pen: a number that no vehicle and no workshop has. */
#include "garage/kinds.h"

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))

enum {
    NOTE_BYTES = 4000,
    FIGURES_BYTES = 1000000, /* a whole plan as JSON */
    SHORT_BYTES = 200,
    SIDE_MOST = 65535, /* pixels; a JPEG has no more */
};

/* ---- words of the choices; the vehicle's are those of the table of answers in docs/trade-data.md
 * ---- */

static const char *const kind_words[] = {"car", "pickup", "van", "four-wheel-drive", NULL};
static const char *const build_words[] = {"unitary", "frame", NULL};
static const char *const cylinder_words[] = {"4", "6", "8", NULL};
static const char *const fuel_words[] = {"petrol", "diesel", "lpg", NULL};
static const char *const gearbox_words[] = {"manual", "automatic", NULL};
static const char *const driven_words[] = {"rear", "front", "four", NULL};
static const char *const brake_words[] = {"drum", "mixed", "disc", NULL};
static const char *const voltage_words[] = {"12", "6", NULL};
static const char *const earth_words[] = {"negative", "positive", NULL};
static const char *const state_words[] = {"whole", "part-stripped", "boxed", NULL};
static const char *const papers_words[] = {"full", "some", "none", NULL};
static const char *const storage_words[] = {"dry", "heated", "damp", "outdoors", NULL};
static const char *const unit_words[] = {"metric", "imperial", "us", NULL};
static const char *const weekday_words[] = {"mon", "tue", "wed", "thu", "fri", "sat", "sun", NULL};
/* In the order of enum condition. */
const char *const words_of_condition[] = {"sound",   "worn",       "poor",   "bodged", "failed",
                                          "missing", "not fitted", "unseen", NULL};
const char *const words_of_how[] = {"seen", "told", "inferred", NULL};
static const char *const direction_words[] = {"preserve", "drive", "restore",
                                              "modify",   "sell",  NULL};
const char *const words_of_worth[] = {"now",    "preserve", "drive", "restore",
                                      "modify", "sell",     NULL};
static const char *const owned_words[] = {"yes", "no", "no longer", NULL};
static const char *const picture_words[] = {"jpeg", "png", NULL};

/* ---- checks across fields ---- */

static bool check_currency(const struct record *r, const char *field, struct fail *f)
{
    const char *code = record_text(r, field, NULL);
    int digits;
    if (!code || currency_digits(code, &digits)) return true;
    return fail_set(
        f, FAIL_INPUT,
        "%s.%s: no currency '%s' is known; use a code of ISO 4217 such as GBP, EUR, USD",
        r->kind->name, field, code);
}

static bool check_workshop(const struct record *r, struct fail *f)
{
    return check_currency(r, "currency", f);
}

/* A session shorter than a quarter of an hour is a slip: setting up alone takes as long. */
static bool check_hours(const struct record *r, struct fail *f)
{
    int64_t from = record_integer(r, "from", 0), to = record_integer(r, "to", MINUTES_A_DAY);
    if (to - from >= 15) return true;
    return fail_set(
        f, FAIL_INPUT,
        "%s.to: must be at least 15 minutes after 'from' on the same day; for a session "
        "past midnight add a second one from 00:00",
        r->kind->name);
}

static bool check_away(const struct record *r, struct fail *f)
{
    if (record_get(r, "to")->day >= record_get(r, "from")->day) return true;
    return fail_set(f, FAIL_INPUT,
                    "away.to: lies before 'from'; give the first and the last day away");
}

/* The sums of a purse are compared with each other, so they need one currency. */
static bool check_purse(const struct record *r, struct fail *f)
{
    static const char *const sums[] = {"a-month", "ceiling", "reserve", "in-hand"};
    const char *currency = NULL;
    for (int i = 0; i < COUNT(sums); i++) {
        const struct value *v = record_get(r, sums[i]);
        if (!v->set) continue;
        if (v->money.minor < 0)
            return fail_set(f, FAIL_INPUT, "purse.%s: is less than nothing; give 0 or more",
                            sums[i]);
        if (currency && !text_is(currency, v->money.currency))
            return fail_set(f, FAIL_INPUT,
                            "purse.%s: is in %s, another sum in %s; use one currency", sums[i],
                            v->money.currency, currency);
        currency = v->money.currency;
    }
    return true;
}

static bool check_rate(const struct record *r, struct fail *f)
{
    return check_currency(r, "currency", f) && check_currency(r, "per", f);
}

/* A field reads best on one line or two. */
/* clang-format off */

/* ---- the garage ---- */

static const struct field workshop_fields[] = {
    {.name = "hours-a-week", .type = FIELD_NUMBER, .low = 0.5, .high = 100,
     .help = "Hours a week that you mean to work on the vehicles, in a usual week"},
    {.name = "hands", .type = FIELD_INTEGER, .low = 1, .high = 6,
     .help = "How many people usually work, you included"},
    {.name = "sessions-kept", .type = FIELD_NUMBER, .low = 0, .high = 1,
     .help = "Share of the planned sessions that really happen: 0.7 or 70 %"},
    {.name = "heated", .type = FIELD_YES, .help = "Can the work place be warmed in winter?"},
    {.name = "bays", .type = FIELD_INTEGER, .low = 1, .high = 10,
     .help = "How many vehicles can be worked on under cover at a time"},
    {.name = "own-rate", .type = FIELD_MONEY, .private_ = true,
     .help = "What an hour of your own time is worth to you; 0 if it is pure pleasure"},
    {.name = "price-level", .type = FIELD_NUMBER, .low = 0.2, .high = 5,
     .help = "Prices where you live against those of the trade data: 1.1 is a tenth dearer"},
    {.name = "currency", .type = FIELD_TEXT, .high = 3,
     .help = "Your money, as a code of ISO 4217: GBP"},
    {.name = "units", .type = FIELD_CHOICE, .choices = unit_words, .help = "Units to show"},
    {.name = "start", .type = FIELD_DAY, .help = "The day on which work can begin"},
};
static const struct record_kind workshop = {
    .name = "workshop", .plural = "workshops", .version = 1, .of_garage = true,
    .check = check_workshop, .fields = workshop_fields, .n_fields = COUNT(workshop_fields),
    .help = "The work place and its people; the latest one counts"};

static const struct field slot_fields[] = {
    {.name = "weekday", .type = FIELD_CHOICE, .required = true, .choices = weekday_words,
     .help = "Day of the week"},
    {.name = "from", .type = FIELD_CLOCK, .required = true,
     .help = "When the session begins: 19:00"},
    {.name = "to", .type = FIELD_CLOCK, .required = true, .help = "When it ends: 21:30"},
    {.name = "hands", .type = FIELD_INTEGER, .low = 1, .high = 6,
     .help = "How many people work then"},
};
static const struct record_kind slot = {
    .name = "slot", .plural = "slots", .version = 1, .of_garage = true, .check = check_hours,
    .fields = slot_fields, .n_fields = COUNT(slot_fields),
    .help = "A time of the week that is usually for the vehicles"};

static const struct field helper_day_fields[] = {
    {.name = "date", .type = FIELD_DAY, .required = true, .help = "The day on which help comes"},
    {.name = "from", .type = FIELD_CLOCK, .required = true, .help = "From when: 09:00"},
    {.name = "to", .type = FIELD_CLOCK, .required = true, .help = "Until when: 17:00"},
    {.name = "hands", .type = FIELD_INTEGER, .required = true, .low = 1, .high = 6,
     .help = "How many people come, beyond the usual"},
    {.name = "who", .type = FIELD_TEXT, .private_ = true, .high = SHORT_BYTES, .help = "Who comes"},
};
static const struct record_kind helper_day = {
    .name = "helper-day", .plural = "helper-days", .version = 1, .of_garage = true,
    .check = check_hours, .fields = helper_day_fields, .n_fields = COUNT(helper_day_fields),
    .help = "A day with more hands than usual"};

static const struct field away_fields[] = {
    {.name = "from", .type = FIELD_DAY, .required = true, .help = "First day without work"},
    {.name = "to", .type = FIELD_DAY, .required = true, .help = "Last day without work"},
    {.name = "why", .type = FIELD_TEXT, .private_ = true, .high = SHORT_BYTES,
     .help = "Why, for yourself"},
};
static const struct record_kind away = {
    .name = "away", .plural = "aways", .version = 1, .of_garage = true, .check = check_away,
    .fields = away_fields, .n_fields = COUNT(away_fields),
    .help = "Days on which no work is done: holidays, illness, a busy season"};

static const struct field purse_fields[] = {
    {.name = "a-month", .type = FIELD_MONEY, .private_ = true, .help = "Money to spend each month"},
    {.name = "ceiling", .type = FIELD_MONEY, .private_ = true,
     .help = "What all of it may cost at most, from now on"},
    {.name = "reserve", .type = FIELD_MONEY, .private_ = true,
     .help = "A sum to be kept back, never planned away"},
    {.name = "in-hand", .type = FIELD_MONEY, .private_ = true, .help = "Money put by already"},
};
static const struct record_kind purse = {
    .name = "purse", .plural = "purses", .version = 1, .of_garage = true, .check = check_purse,
    .fields = purse_fields, .n_fields = COUNT(purse_fields),
    .help = "The money for the vehicles; the latest one counts"};

static const struct field rate_fields[] = {
    {.name = "currency", .type = FIELD_TEXT, .required = true, .high = 3,
     .help = "The currency that is bought: EUR"},
    {.name = "per", .type = FIELD_TEXT, .required = true, .high = 3,
     .help = "The currency that pays for it: GBP"},
    {.name = "rate", .type = FIELD_NUMBER, .required = true, .low = 1e-9, .high = 1e9,
     .help = "How much of 'per' one of 'currency' costs"},
    {.name = "date", .type = FIELD_DAY, .required = true, .help = "The day of that rate"},
};
static const struct record_kind rate = {
    .name = "rate", .plural = "rates", .version = 1, .of_garage = true, .check = check_rate,
    .fields = rate_fields, .n_fields = COUNT(rate_fields),
    .help = "What one currency costs in another on a day"};

/* ---- a vehicle, and the facts about it ---- */

static const struct field vehicle_fields[] = {
    {.name = "name", .type = FIELD_TEXT, .required = true, .high = 80, .help = "What you call it"},
    {.name = "kind", .type = FIELD_CHOICE, .choices = kind_words, .help = "What it is"},
    {.name = "year", .type = FIELD_INTEGER, .low = 1885, .high = 2030,
     .help = "Year of its making"},
    {.name = "build", .type = FIELD_CHOICE, .choices = build_words,
     .help = "Body and frame in one (unitary), or a body on a frame"},
    {.name = "cylinders", .type = FIELD_CHOICE, .choices = cylinder_words,
     .help = "Cylinders of the engine"},
    {.name = "fuel", .type = FIELD_CHOICE, .choices = fuel_words, .help = "What it burns"},
    {.name = "gearbox", .type = FIELD_CHOICE, .choices = gearbox_words,
     .help = "Manual or automatic"},
    {.name = "driven", .type = FIELD_CHOICE, .choices = driven_words,
     .help = "Which wheels are driven"},
    {.name = "brakes", .type = FIELD_CHOICE, .choices = brake_words,
     .help = "Drums all round, discs in front (mixed), or discs all round"},
    {.name = "voltage", .type = FIELD_CHOICE, .choices = voltage_words,
     .help = "Volts of the battery"},
    {.name = "earth", .type = FIELD_CHOICE, .choices = earth_words,
     .help = "Which pole of the battery goes to the body (earth, ground)"},
    {.name = "state", .type = FIELD_CHOICE, .choices = state_words,
     .help = "In one piece, partly taken apart, or in boxes"},
    {.name = "turns", .type = FIELD_YES,
     .help = "Does the engine turn by hand? Out of gear, ignition off; never force it"},
    {.name = "rolls", .type = FIELD_YES,
     .help = "Does it roll? Only on level ground, with chocks at hand"},
    {.name = "stops", .type = FIELD_YES, .help = "Do its own brakes hold it at a walking pace?"},
    {.name = "papers", .type = FIELD_CHOICE, .choices = papers_words,
     .help = "Papers that show what it is and whose it is"},
    {.name = "standing", .type = FIELD_NUMBER, .low = 0, .high = 120,
     .help = "Years since it was last in use"},
    {.name = "storage", .type = FIELD_CHOICE, .choices = storage_words, .help = "How it was kept"},
    {.name = "clock", .type = FIELD_QUANTITY, .quantity = QUANTITY_DISTANCE, .low = 0, .high = 5e9,
     .help = "What the distance counter reads, with its unit: 48210 miles"},
    {.name = "rank", .type = FIELD_INTEGER, .low = 1, .high = 99,
     .help = "Which vehicle comes first for hands, bay and money: 1 is first"},
    {.name = "maker", .type = FIELD_TEXT, .high = SHORT_BYTES, .help = "Who made it"},
    {.name = "model", .type = FIELD_TEXT, .high = SHORT_BYTES, .help = "What the maker called it"},
    {.name = "note", .type = FIELD_TEXT, .high = NOTE_BYTES, .help = "Anything else"},
    {.name = "owned", .type = FIELD_CHOICE, .choices = owned_words,
     .help = "Is it yours? no: one that you might buy; it takes no hands, bay or money of the others"},
};
static const struct record_kind vehicle = {
    .name = "vehicle", .plural = "vehicles", .version = 1, .label_field = "name",
    .fields = vehicle_fields, .n_fields = COUNT(vehicle_fields),
    .help = "A vehicle; all but its name may be left open"};

#define OF_VEHICLE                                                                                 \
    {                                                                                              \
        .name = "vehicle", .type = FIELD_PARENT, .required = true, .parent_kind = "vehicle",       \
        .help = "Which vehicle"                                                                    \
    }

static const struct field finding_fields[] = {
    OF_VEHICLE,
    {.name = "component", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "What was looked at: wheel-cylinder@front-left"},
    {.name = "condition", .type = FIELD_CHOICE, .required = true, .choices = words_of_condition,
     .help = "What it is like; bodged is wrong or badly repaired"},
    {.name = "how", .type = FIELD_CHOICE, .choices = words_of_how, .help = "How you know"},
    {.name = "date", .type = FIELD_DAY, .help = "The day of the look"},
    {.name = "note", .type = FIELD_TEXT, .high = NOTE_BYTES, .help = "What you saw"},
};
static const struct record_kind finding = {
    .name = "finding", .plural = "findings", .version = 1, .fields = finding_fields,
    .n_fields = COUNT(finding_fields),
    .help = "What a look at a component showed; the latest one counts"};

static const struct field worth_fields[] = {
    OF_VEHICLE,
    {.name = "of", .type = FIELD_CHOICE, .required = true, .choices = words_of_worth,
     .help = "As it stands now, or finished in a direction"},
    {.name = "worth", .type = FIELD_MONEY_POINTS, .required = true, .private_ = true,
     .help = "Low, middle and high: 800/1200/2000 GBP"},
    {.name = "date", .type = FIELD_DAY, .help = "The day of that estimate"},
    {.name = "why", .type = FIELD_TEXT, .high = NOTE_BYTES, .help = "What it rests on"},
};
static const struct record_kind worth = {
    .name = "worth", .plural = "worths", .version = 1, .fields = worth_fields,
    .n_fields = COUNT(worth_fields),
    .help = "What the vehicle would fetch; the latest one of each counts"};

static const struct field decision_fields[] = {
    OF_VEHICLE,
    {.name = "direction", .type = FIELD_CHOICE, .required = true, .choices = direction_words,
     .help = "What shall become of it"},
    {.name = "packages", .type = FIELD_TEXT, .high = NOTE_BYTES,
     .help = "How deep: mechanical, body, paint, trim"},
    {.name = "reason", .type = FIELD_TEXT, .high = NOTE_BYTES, .help = "Why, in your own words"},
    {.name = "date", .type = FIELD_DAY, .help = "The day of the decision"},
    {.name = "figures", .type = FIELD_TEXT, .high = FIGURES_BYTES,
     .help = "The figures shown at the time, as JSON"},
};
static const struct record_kind decision = {
    .name = "decision", .plural = "decisions", .version = 1, .fields = decision_fields,
    .n_fields = COUNT(decision_fields),
    .help = "The direction that was chosen; the latest one counts"};

static const struct field adopted_plan_fields[] = {
    OF_VEHICLE,
    {.name = "direction", .type = FIELD_CHOICE, .required = true, .choices = direction_words,
     .help = "The direction that the plan is for"},
    {.name = "as-of", .type = FIELD_DAY, .required = true,
     .help = "The day from which it was reckoned"},
    {.name = "order", .type = FIELD_TEXT, .high = FIGURES_BYTES,
     .help = "The jobs in order of their start, blanks between"},
    {.name = "figures", .type = FIELD_TEXT, .high = FIGURES_BYTES,
     .help = "The figures shown at the time, as JSON"},
};
static const struct record_kind adopted_plan = {
    .name = "adopted-plan", .plural = "adopted-plans", .version = 1, .fields = adopted_plan_fields,
    .n_fields = COUNT(adopted_plan_fields),
    .help = "A plan that you mean to keep to; the latest one counts"};

static const struct field order_fields[] = {
    OF_VEHICLE,
    {.name = "part", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "What was ordered: wheel-cylinder-kit"},
    {.name = "count", .type = FIELD_NUMBER, .low = 1e-6, .high = 1e6,
     .help = "How many, or how much"},
    {.name = "price", .type = FIELD_MONEY, .private_ = true,
     .help = "What all of it costs, carriage included"},
    {.name = "ordered", .type = FIELD_DAY, .help = "The day of the order"},
    {.name = "due", .type = FIELD_DAY, .help = "The day on which it was promised"},
    {.name = "arrived", .type = FIELD_DAY, .help = "The day on which it was in your hands"},
    {.name = "supplier", .type = FIELD_TEXT, .private_ = true, .high = SHORT_BYTES,
     .help = "From whom"},
    {.name = "quote", .type = FIELD_PARENT, .parent_kind = "quote",
     .help = "The quote that it was ordered on, by its id"},
    {.name = "core", .type = FIELD_MONEY, .private_ = true,
     .help = "What comes back once the old part was sent in"},
    {.name = "return-by", .type = FIELD_DAY, .help = "The last day on which it may go back"},
    {.name = "checked", .type = FIELD_YES,
     .help = "Was it held against the old part and measured since it came?"},
    {.name = "wrong", .type = FIELD_TEXT, .high = NOTE_BYTES, .help = "What was wrong with it"},
    {.name = "returned", .type = FIELD_DAY, .help = "The day on which it was sent back"},
    {.name = "warranty", .type = FIELD_DAY, .help = "The last day of its warranty"},
    {.name = "fitted", .type = FIELD_DAY, .help = "The day on which it was fitted"},
    {.name = "shelf", .type = FIELD_TEXT, .high = SHORT_BYTES,
     .help = "Where it lies until it is fitted: B3"},
};
static const struct record_kind order = {
    .name = "order", .plural = "orders", .version = 1, .check = order_check, .fields = order_fields,
    .n_fields = COUNT(order_fields),
    .help = "A part or a service that was ordered, and when it came"};

static const struct field photograph_fields[] = {
    OF_VEHICLE,
    {.name = "component", .type = FIELD_TEXT, .high = SHORT_BYTES,
     .help = "The component to be seen; may be told later: radiator"},
    {.name = "place", .type = FIELD_TEXT, .high = SHORT_BYTES,
     .help = "The part of the vehicle, if it shows no one component: front-left"},
    {.name = "note", .type = FIELD_TEXT, .high = NOTE_BYTES, .help = "What to look at in it"},
    {.name = "taken", .type = FIELD_DAY, .help = "The day on which it was taken: 2026-11-25"},
    {.name = "file", .type = FIELD_FILE, .required = true, .help = "The picture as it came in"},
    {.name = "type", .type = FIELD_CHOICE, .required = true, .choices = picture_words,
     .help = "What kind of picture its bytes are; read from the file"},
    {.name = "width", .type = FIELD_INTEGER, .required = true, .low = 1, .high = SIDE_MOST,
     .help = "Pixels across, the right way up; read from the file"},
    {.name = "height", .type = FIELD_INTEGER, .required = true, .low = 1, .high = SIDE_MOST,
     .help = "Pixels down; read from the file"},
    {.name = "bag", .type = FIELD_PARENT, .parent_kind = "bag",
     .help = "The bag whose strip-down it shows, by its code"},
};
static const struct record_kind photograph = {
    .name = "photograph", .plural = "photographs", .version = 1, .fields = photograph_fields,
    .n_fields = COUNT(photograph_fields),
    .help = "A photograph; what it shows may be told later"};

/* clang-format on */

const struct record_kind *const record_kinds[] = {&vehicle,
                                                  &workshop,
                                                  &slot,
                                                  &helper_day,
                                                  &away,
                                                  &purse,
                                                  &rate,
                                                  &finding,
                                                  &worth,
                                                  &decision,
                                                  &adopted_plan,
                                                  &order,
                                                  &kind_work,
                                                  &kind_timer,
                                                  &kind_measurement,
                                                  &kind_gate_opened,
                                                  &kind_gate_override,
                                                  &kind_session_check,
                                                  &kind_witnessed,
                                                  &kind_setback,
                                                  &kind_bag,
                                                  &kind_bag_item,
                                                  &photograph,
                                                  &kind_advert,
                                                  &kind_sign,
                                                  &kind_comparable,
                                                  &kind_grade,
                                                  &kind_weights,
                                                  &kind_tripwire,
                                                  &kind_instead,
                                                  &kind_mark,
                                                  &kind_originality,
                                                  &kind_circuit,
                                                  &kind_clue_reading,
                                                  &kind_clock,
                                                  &kind_dated_mileage,
                                                  &kind_supplier,
                                                  &kind_quote,
                                                  &kind_choice,
                                                  &kind_measured,
                                                  &kind_sent,
                                                  &kind_seller,
                                                  &kind_tool,
                                                  &kind_tool_offer,
                                                  &kind_person,
                                                  &kind_promise,
                                                  &kind_left_off,
                                                  &kind_care_done,
                                                  NULL};
