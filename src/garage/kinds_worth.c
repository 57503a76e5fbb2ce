/* kinds_worth.c - what a choice is weighed by: the sales of others, how good the vehicle is and
 * would be, what matters to the builder beside money, when to choose anew, and what could be
 * started from instead. */
#include "garage/kinds.h"

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))

enum { NOTE_BYTES = 4000, SHORT_BYTES = 200, ROUND_THE_WORLD = 40075000 /* metres */ };

static const char *const how_words[] = {"sold", "asked", NULL};

/* All the sums of a record that are set: none below `least`, and all in one currency, for they are
 * compared. */
static bool check_sums(const struct record *r, int64_t least, struct fail *f)
{
    const char *currency = NULL;
    for (int i = 0; i < r->kind->n_fields; i++) {
        const struct field *d = &r->kind->fields[i];
        const struct value *v = &r->values[i];
        if (!v->set || (d->type != FIELD_MONEY && d->type != FIELD_MONEY_POINTS)) continue;
        if (d->type == FIELD_MONEY && v->money.minor < least)
            return fail_set(f, FAIL_INPUT, "%s.%s: is %s; give %s", r->kind->name, d->name,
                            v->money.minor < 0 ? "less than nothing" : "nothing",
                            least > 0 ? "a sum above 0, or leave it out" : "0 or more");
        if (currency && !text_is(currency, v->money.currency))
            return fail_set(f, FAIL_INPUT, "%s.%s: is in %s, another sum in %s; use one currency",
                            r->kind->name, d->name, v->money.currency, currency);
        currency = v->money.currency;
    }
    return true;
}

/* A gift tells nothing of a price. */
static bool check_priced(const struct record *r, struct fail *f)
{
    return check_sums(r, 1, f);
}

static bool check_weights(const struct record *r, struct fail *f)
{
    return check_sums(r, 0, f);
}

static bool check_tripwire(const struct record *r, struct fail *f)
{
    bool component = record_get(r, "component")->set, condition = record_get(r, "condition")->set;
    if (component != condition)
        return fail_set(f, FAIL_INPUT,
                        "tripwire.%s: is missing; a component and its condition go together",
                        component ? "condition" : "component");
    if (!component && !record_get(r, "spent")->set && !record_get(r, "passed")->set)
        return fail_set(f, FAIL_INPUT,
                        "tripwire.spent: nothing is watched; give spent=, passed=, or component= "
                        "and condition=");
    return check_sums(r, 1, f);
}

/* clang-format off */
#define OF_VEHICLE                                                                                 \
    {                                                                                              \
        .name = "vehicle", .type = FIELD_PARENT, .required = true, .parent_kind = "vehicle",       \
        .help = "Which vehicle"                                                                    \
    }

static const struct field comparable_fields[] = {
    OF_VEHICLE,
    {.name = "price", .type = FIELD_MONEY, .required = true, .private_ = true,
     .help = "What it was sold for, or what was asked"},
    {.name = "how", .type = FIELD_CHOICE, .required = true, .choices = how_words,
     .help = "Was that price paid (sold), or only asked?"},
    {.name = "date", .type = FIELD_DAY, .required = true, .help = "The day of the sale or advert"},
    {.name = "grade", .type = FIELD_NUMBER, .required = true, .low = 1, .high = 5,
     .help = "1 flawless, 2 good, 3 used, 4 worn, 5 to be restored; 3.5 is between"},
    {.name = "original", .type = FIELD_NUMBER, .low = 0, .high = 1,
     .help = "Share of it that is as built: 80 %"},
    {.name = "distance", .type = FIELD_QUANTITY, .quantity = QUANTITY_DISTANCE, .low = 0,
     .high = ROUND_THE_WORLD, .help = "How far away it stood, with its unit: 140 miles"},
    {.name = "note", .type = FIELD_TEXT, .high = NOTE_BYTES,
     .help = "Which one it was, and where you saw it"},
};
const struct record_kind kind_comparable = {
    .name = "comparable", .plural = "comparables", .version = 1, .check = check_priced,
    .fields = comparable_fields, .n_fields = COUNT(comparable_fields),
    .help = "A sale or an advert of another like it; from five on they tell what it would fetch"};

static const struct field grade_fields[] = {
    OF_VEHICLE,
    {.name = "of", .type = FIELD_CHOICE, .required = true, .choices = words_of_worth,
     .help = "As it stands now, or finished in a direction"},
    {.name = "grade", .type = FIELD_NUMBER, .required = true, .low = 1, .high = 5,
     .help = "1 flawless, 2 good, 3 used, 4 worn, 5 to be restored; 3.5 is between"},
    {.name = "original", .type = FIELD_NUMBER, .low = 0, .high = 1,
     .help = "Share of it that is, or would still be, as built: 80 %"},
    {.name = "why", .type = FIELD_TEXT, .high = NOTE_BYTES, .help = "What it rests on"},
};
const struct record_kind kind_grade = {
    .name = "grade", .plural = "grades", .version = 1,
    .fields = grade_fields, .n_fields = COUNT(grade_fields),
    .help = "How good it is or would be, by the grades of inspectors; the latest one of each counts"};

static const struct field weights_fields[] = {
    OF_VEHICLE,
    {.name = "month", .type = FIELD_MONEY, .private_ = true,
     .help = "What you would give to have it done a month sooner"},
    {.name = "original", .type = FIELD_MONEY, .private_ = true,
     .help = "What you would give to keep all of it original"},
    {.name = "driving", .type = FIELD_MONEY, .private_ = true,
     .help = "What having it to drive is worth to you, beyond what it sells for"},
    {.name = "why", .type = FIELD_TEXT, .high = NOTE_BYTES, .help = "Why, for yourself"},
};
const struct record_kind kind_weights = {
    .name = "weights", .plural = "weights", .version = 1, .check = check_weights,
    .fields = weights_fields, .n_fields = COUNT(weights_fields),
    .help = "What matters to you beside money, as the money that you would give; the latest counts"};

static const struct field tripwire_fields[] = {
    OF_VEHICLE,
    {.name = "spent", .type = FIELD_MONEY, .private_ = true,
     .help = "Choose anew once orders come to more than this"},
    {.name = "passed", .type = FIELD_DAY,
     .help = "Choose anew if it is not done by this day"},
    {.name = "component", .type = FIELD_TEXT, .high = SHORT_BYTES,
     .help = "Choose anew if this is found bad: sill, or sill@outside-left"},
    {.name = "condition", .type = FIELD_CHOICE, .choices = words_of_condition,
     .help = "How bad it must be found: that, or worse"},
    {.name = "why", .type = FIELD_TEXT, .high = NOTE_BYTES, .help = "Why, in your own words"},
};
const struct record_kind kind_tripwire = {
    .name = "tripwire", .plural = "tripwires", .version = 1, .check = check_tripwire,
    .fields = tripwire_fields, .n_fields = COUNT(tripwire_fields),
    .help = "What opens the choice again: told now, with a cool head"};

static const struct field instead_fields[] = {
    OF_VEHICLE,
    {.name = "what", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "The other one that you could start from"},
    {.name = "price", .type = FIELD_MONEY_POINTS, .required = true, .private_ = true,
     .help = "What it costs, brought home, low/middle/high: 900/1500/2200 GBP"},
    {.name = "bill", .type = FIELD_MONEY_POINTS, .required = true, .private_ = true,
     .help = "What finishing it would still cost, low/middle/high"},
    {.name = "worth", .type = FIELD_MONEY_POINTS, .required = true, .private_ = true,
     .help = "What it would then be worth, low/middle/high"},
    {.name = "hours", .type = FIELD_NUMBER, .low = 0, .high = 20000,
     .help = "Your hours in it"},
    {.name = "months", .type = FIELD_NUMBER, .low = 0, .high = 600,
     .help = "Months until it is done"},
    {.name = "why", .type = FIELD_TEXT, .high = NOTE_BYTES, .help = "What the figures rest on"},
};
const struct record_kind kind_instead = {
    .name = "instead", .plural = "insteads", .version = 1, .check = check_priced,
    .fields = instead_fields, .n_fields = COUNT(instead_fields),
    .help = "Sell this one and start from another: your own figures for it; the latest counts"};
/* clang-format on */
