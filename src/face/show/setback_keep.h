/* setback_keep.h - what was said of a setback becomes a record, and what came of a step. */
#ifndef SHOW_SETBACK_KEEP_H
#define SHOW_SETBACK_KEEP_H

#include "shop/setback.h"

struct setback_word {
    const char *field, *value;
};

/* The open one of that setback with what is said now, or a new one. word: its id or name. */
bool setback_say(struct arena *a, const struct shop_ask *ask, const char *word,
                 const struct setback_word *said, int n_said, struct record **out,
                 struct fact_setback *fact, struct fail *f);
/* Stores it, and reckons what it moves. All within one act. */
bool setback_tell(struct arena *a, const struct shop_ask *ask, const char *word,
                  const struct setback_word *said, int n_said, struct setback *out, struct fail *f);
/* What came of a step: outcome is cured, same, worse or stopped; step its word or number, NULL: the
 * best next one; word: of which setback, NULL: the one that was met last of those that are open. */
bool setback_outcome(struct arena *a, const struct shop_ask *ask, const char *outcome,
                     const char *step, const char *word, struct setback *out, struct fail *f);
/* Those that are open, the last that was met first. */
bool setback_open(struct arena *a, const struct shop_ask *ask, struct fact_setback **out, int *n,
                  struct fail *f);

#endif
