/* kinds_bag.c - what was taken apart: bags, boxes and tags with a code, and what was counted into
 * them, in the order in which they were made. */
#include "garage/kinds.h"

#include <string.h>

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))

enum { NOTE_BYTES = 4000, SHORT_BYTES = 200, CODE_BYTES = 12, PIECES_MOST = 9999 };

/* It stands in an address and on a label. */
static bool check_bag(const struct record *r, struct fail *f)
{
    static const char good[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-";
    const char *code = record_text(r, "code", "");
    if (strspn(code, good) == strlen(code)) return true;
    return fail_set(f, FAIL_INPUT, "bag.code: '%.40s' must be letters, digits and '-' alone: B7",
                    code);
}

/* clang-format off */
#define OF_VEHICLE                                                                                 \
    {                                                                                              \
        .name = "vehicle", .type = FIELD_PARENT, .required = true, .parent_kind = "vehicle",       \
        .help = "Which vehicle"                                                                    \
    }

static const struct field bag_fields[] = {
    OF_VEHICLE,
    {.name = "code", .type = FIELD_TEXT, .required = true, .high = CODE_BYTES,
     .help = "What stands on its label: B7"},
    {.name = "what", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "What came off, and from where: front left drum and its screws"},
    {.name = "component", .type = FIELD_TEXT, .high = SHORT_BYTES,
     .help = "The component that it belongs to: brake-drum@front-left"},
    {.name = "job", .type = FIELD_TEXT, .high = SHORT_BYTES,
     .help = "The job that took it off: brakes-open"},
    {.name = "shelf", .type = FIELD_TEXT, .high = SHORT_BYTES, .help = "Where it lies: A2"},
    {.name = "date", .type = FIELD_DAY, .help = "The day on which it came off"},
    {.name = "emptied", .type = FIELD_DAY,
     .help = "The day on which all of it went back on the vehicle"},
    {.name = "note", .type = FIELD_TEXT, .high = NOTE_BYTES,
     .help = "How it came off, and what to mind on the way back"},
};
const struct record_kind kind_bag = {
    .name = "bag", .plural = "bags", .version = 1, .label_field = "code", .check = check_bag,
    .fields = bag_fields, .n_fields = COUNT(bag_fields),
    .help = "A bag, a box or a tag on a part that came off, in the order of the strip-down"};

static const struct field bag_item_fields[] = {
    OF_VEHICLE,
    {.name = "bag", .type = FIELD_PARENT, .required = true, .parent_kind = "bag",
     .help = "The bag that it lies in, by its code"},
    {.name = "name", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "What it is: hub nut"},
    {.name = "count", .type = FIELD_INTEGER, .required = true, .low = 1, .high = PIECES_MOST,
     .help = "How many came off"},
    {.name = "thread", .type = FIELD_TEXT, .high = SHORT_BYTES,
     .help = "Its thread with the pitch: M10x1.5, 3/8 UNF"},
    {.name = "length", .type = FIELD_QUANTITY, .quantity = QUANTITY_LENGTH, .bare = "mm",
     .low = 0, .high = 3, .help = "Its length under the head: 30 mm, 1 1/4 in"},
    {.name = "grade", .type = FIELD_TEXT, .high = SHORT_BYTES, .help = "What its head says: 8.8"},
    {.name = "torque", .type = FIELD_QUANTITY, .quantity = QUANTITY_TORQUE, .bare = "Nm",
     .low = 0, .high = 5000, .help = "The book's torque: 55 Nm, 40 lbf ft"},
    {.name = "source", .type = FIELD_TEXT, .high = SHORT_BYTES,
     .help = "Where the torque stands: workshop manual, page 42"},
    {.name = "renew", .type = FIELD_YES, .help = "Must it not be used again?"},
    {.name = "back", .type = FIELD_INTEGER, .low = 0, .high = PIECES_MOST,
     .help = "How many were there when it was emptied"},
    {.name = "note", .type = FIELD_TEXT, .high = NOTE_BYTES, .help = "Which way round, shims, wear"},
};
const struct record_kind kind_bag_item = {
    .name = "bag-item", .plural = "bag-items", .version = 1, .label_field = "name",
    .fields = bag_item_fields, .n_fields = COUNT(bag_item_fields),
    .help = "Pieces in a bag, counted out, and counted in again when it is emptied"};
/* clang-format on */
