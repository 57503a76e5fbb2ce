/* condition.h - the condition of a component, from best to worst. The order matters: odds are cuts
 * along it. */
#ifndef BASE_CONDITION_H
#define BASE_CONDITION_H

#include <stdbool.h>

enum condition {
    COND_SOUND,
    COND_WORN,   /* serviceable, with less left */
    COND_POOR,   /* works or nearly, must be seen to */
    COND_BODGED, /* wrong, or badly repaired */
    COND_FAILED,
    COND_MISSING,
    COND_COUNT, /* the six above have odds; the two below are answers only */
    COND_NOT_FITTED = COND_COUNT,
    COND_UNSEEN,
    COND_ANSWERS
};

const char *condition_name(enum condition c); /* "sound" .. "not fitted", "unseen" */
/* Any case; '-', '_' or blank between words. */
bool condition_parse(const char *s, enum condition *out);

#endif
