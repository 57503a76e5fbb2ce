/* trade_answer.h - the answers about a vehicle that entries of the trade data depend on. */
#ifndef LIBRARY_TRADE_ANSWER_H
#define LIBRARY_TRADE_ANSWER_H

#include <stdbool.h>
#include <stdint.h>

/* A value is an index into the answer's values. */
enum answer {
    ANSWER_KIND,
    ANSWER_BUILD,
    ANSWER_CYLINDERS,
    ANSWER_FUEL,
    ANSWER_GEARBOX,
    ANSWER_DRIVEN,
    ANSWER_BRAKES,
    ANSWER_VOLTAGE,
    ANSWER_EARTH,
    ANSWER_STATE,
    ANSWER_STORAGE,
    ANSWER_COUNT
};
enum storage { STORAGE_DRY, STORAGE_HEATED, STORAGE_DAMP, STORAGE_OUTDOORS, STORAGE_COUNT };
enum { ANSWER_VALUES = 4 };

const char *answer_name(enum answer a);             /* "brakes" */
const char *answer_value(enum answer a, int value); /* "drum"; NULL past the last */
int answer_parse(enum answer a, const char *s);     /* index, or -1 */
bool answer_find(const char *name, enum answer *out);

/* For each answer, the set of values (bit i: value i) for which an entry applies; 0 means any. */
struct fitted {
    uint8_t values[ANSWER_COUNT];
};
bool fitted_holds(const struct fitted *f, const int answers[ANSWER_COUNT]);

#endif
