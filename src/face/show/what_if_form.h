/* what_if_form.h - what can be said otherwise, as one table: the command line, the form and its
 * sliders, and what is kept all follow from it. */
#ifndef SHOW_WHAT_IF_FORM_H
#define SHOW_WHAT_IF_FORM_H

#include "garage/record.h"
#include "shop/what_if.h"

#include <jansson.h>

enum what_if_key {
    WHAT_IF_HOURS,
    WHAT_IF_START,
    WHAT_IF_HELPERS,
    WHAT_IF_MONEY,
    WHAT_IF_DIRECTION,
    WHAT_IF_KEYS
};

const char *what_if_name(enum what_if_key k);  /* "hours": its word and its field */
const char *what_if_label(enum what_if_key k); /* "Hours a week" */
const struct field *what_if_field(enum what_if_key k);
/* As a plan has it, as it would be typed; "" where it is not known. */
const char *what_if_now_text(struct arena *a, const struct what_if_now *now, const struct trade *t,
                             enum what_if_key k);
/* From "with" of a plan's JSON, so that a plan that is kept needs no reckoning for its sliders; all
 * but the direction. */
bool what_if_now_from_json(const json_t *with, struct what_if_now *out);
/* Where its slider ends, and its step: in its own unit, days from the first for the start, major
 * units for money. False: it has none. */
struct what_if_slide {
    const char *kind; /* "number", "day" or "money" */
    double low, high, step;
};
bool what_if_slide(const struct what_if_now *now, day today, enum what_if_key k,
                   struct what_if_slide *out);

/* What was typed, and what is wrong with each; NULL: not said, not wrong. */
struct what_if_typed {
    const char *text[WHAT_IF_KEYS], *fault[WHAT_IF_KEYS];
};
/* What is typed as it is already says nothing otherwise. False: at least one fault. */
bool what_if_read(struct arena *a, const struct trade *t, const struct what_if_now *now, day today,
                  struct what_if_typed *typed, struct override *out);
/* Puts the failure of a reckoning beside the field that it speaks of; false if it speaks of none.
 */
bool what_if_blame(struct arena *a, const struct fail *f, struct what_if_typed *typed);

#endif
