/* show_records.h - records of any kind as a sheet and as JSON, from the table that declares the
 * kind. */
#ifndef SHOW_SHOW_RECORDS_H
#define SHOW_SHOW_RECORDS_H

#include "face/show/sheet.h"
#include "garage/record.h"

#include <jansson.h>

enum { RECORD_ID_SHOWN = 8 }; /* digits of an id that are shown, and accepted to name a record */

/* A table, or for kinds of many fields a block a record. Ids of the
 * `parents` are shown by name: vehicles, suppliers. */
struct sheet *show_records(struct arena *a, const struct record_kind *k,
                           const struct record *records, int count, const struct record *parents,
                           int n_parents);
/* What to type for a record of this kind. */
struct sheet *show_kind(struct arena *a, const struct record_kind *k);
struct sheet *show_kinds(struct arena *a);

/* {"id","revision","at", fields that are known}; money {"amount","currency"}, three points
 * {"low","middle", "high"}, a quantity {"text","si"}, yes or no true or false. */
json_t *record_to_json(const struct record *r);
json_t *kind_to_json(struct arena *a, const struct record_kind *k);
/* A field's type in the builder's words: "one of drum, mixed, disc". */
const char *field_type_words(struct arena *a, const struct field *d);

#endif
