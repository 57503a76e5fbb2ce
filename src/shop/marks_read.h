/* marks_read.h - the numbers and dates of a vehicle against code books, and against each other.
 * A part of originality.h. */
#ifndef SHOP_MARKS_READ_H
#define SHOP_MARKS_READ_H

#include "shop/originality.h"

/* Fills marks, built and conflicts of *out. */
void marks_read(struct arena *a, const struct facts *facts, const struct facts_identity *identity,
                day today, struct originality_answer *out);
void conflict_add(struct arena *a, struct originality_answer *out, bool stop, const char *text);

#endif
