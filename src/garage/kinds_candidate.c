/* kinds_candidate.c - what is known of a vehicle that is not the builder's yet: its advert, and the
 * signs that say walk away. All else about it (findings, worths) is told as of any vehicle. */
#include "garage/kinds.h"

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))

enum { NOTE_BYTES = 4000, SHORT_BYTES = 200, ROUND_THE_WORLD = 40075000 /* metres */ };

static const char *const seller_words[] = {"owner", "heir", "trader", "auction", "finder", NULL};

enum owned vehicle_owned(const struct record *vehicle)
{
    return (enum owned)record_integer(vehicle, "owned", OWNED_YES);
}

/* A price of nothing is a gift, and a gift has no asked price. */
static bool check_advert(const struct record *r, struct fail *f)
{
    static const char *const sums[] = {"asked", "carriage", "room-a-month"};
    for (int i = 0; i < COUNT(sums); i++) {
        const struct value *v = record_get(r, sums[i]);
        if (!v->set || v->money.minor > 0 || (i > 0 && v->money.minor == 0)) continue;
        return fail_set(f, FAIL_INPUT, "advert.%s: is %s; %s", sums[i],
                        v->money.minor < 0 ? "less than nothing" : "nothing",
                        i == 0 ? "give what is asked, or leave it open where no price was named"
                               : "give 0 or more");
    }
    return true;
}

/* clang-format off */
static const struct field advert_fields[] = {
    {.name = "vehicle", .type = FIELD_PARENT, .required = true, .parent_kind = "vehicle",
     .help = "Which vehicle"},
    {.name = "asked", .type = FIELD_MONEY, .private_ = true, .help = "The price that is asked"},
    {.name = "carriage", .type = FIELD_MONEY, .private_ = true,
     .help = "What bringing it home costs: trailer, fuel, tolls, a day's hire"},
    {.name = "distance", .type = FIELD_QUANTITY, .quantity = QUANTITY_DISTANCE, .low = 0,
     .high = ROUND_THE_WORLD, .help = "How far away it stands, with its unit: 140 miles"},
    {.name = "place", .type = FIELD_TEXT, .private_ = true, .high = SHORT_BYTES,
     .help = "Where it stands"},
    {.name = "seller", .type = FIELD_CHOICE, .choices = seller_words, .help = "Who sells it"},
    {.name = "date", .type = FIELD_DAY, .help = "The day on which the advert was seen"},
    {.name = "says", .type = FIELD_TEXT, .high = NOTE_BYTES, .help = "What the advert says"},
    {.name = "minutes", .type = FIELD_INTEGER, .low = 5, .high = 480,
     .help = "How many minutes the seller gives you to look: 40"},
    {.name = "odds", .type = FIELD_NUMBER, .low = 0.5, .high = 0.99,
     .help = "How sure you want to be that it pays at the highest price: 70 %"},
    {.name = "serves", .type = FIELD_TEXT, .high = SHORT_BYTES,
     .help = "A parts car: the name of the vehicle that its parts are for"},
    {.name = "remains", .type = FIELD_MONEY_POINTS, .private_ = true,
     .help = "A parts car: what is left of it fetches, low/middle/high: 100/250/400 GBP"},
    {.name = "room-a-month", .type = FIELD_MONEY, .private_ = true,
     .help = "A parts car: what its room costs a month"},
    {.name = "months", .type = FIELD_NUMBER, .low = 0, .high = 240,
     .help = "A parts car: months until its remains are gone"},
};
const struct record_kind kind_advert = {
    .name = "advert", .plural = "adverts", .version = 1, .check = check_advert,
    .fields = advert_fields, .n_fields = COUNT(advert_fields),
    .help = "What is asked for a vehicle that you might buy; the latest one counts"};

static const struct field sign_fields[] = {
    {.name = "vehicle", .type = FIELD_PARENT, .required = true, .parent_kind = "vehicle",
     .help = "Which vehicle"},
    {.name = "sign", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "Which walk-away sign of the trade data: flood-line"},
    {.name = "met", .type = FIELD_YES, .required = true, .help = "Is it there?"},
    {.name = "date", .type = FIELD_DAY, .help = "The day of the look"},
    {.name = "note", .type = FIELD_TEXT, .high = NOTE_BYTES, .help = "What you saw"},
};
const struct record_kind kind_sign = {
    .name = "sign", .plural = "signs", .version = 1, .fields = sign_fields,
    .n_fields = COUNT(sign_fields),
    .help = "Whether a sign that says walk away is there; the latest one of each counts"};
/* clang-format on */
