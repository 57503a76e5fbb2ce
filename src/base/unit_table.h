/* unit_table.h - the units that are known, one a row. For unit.c and its tests.
 *
 * SI value = value * factor + offset. Units of length serve for distances too. */
#ifndef BASE_UNIT_TABLE_H
#define BASE_UNIT_TABLE_H

#include "base/unit.h"

struct unit {
    enum quantity kind;
    const char *
        names; /* "lbf ft|ft lb": the first is printed; blanks, '-', '.' and '·' are not compared */
    double factor, offset;
    bool exact_case; /* "mPa" must not be taken for "MPa" */
};

extern const struct unit unit_table[];
extern const int unit_table_count;

/* The kind under which the units of q are listed. */
enum quantity unit_kind(enum quantity q);
/* The unit that the n bytes at s name, for q if it is one of its units, else for any; NULL if none.
 */
const struct unit *unit_find(const char *s, size_t n, enum quantity q);
/* The first name, as printed. */
int unit_name_length(const struct unit *u);

#endif
