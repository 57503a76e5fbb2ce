/* safe_act.h - what is told of gates, proofs and checks. Each act judges and stores as one, and is
 * refused with one line: FAIL_NO where the answer is no, FAIL_INPUT for what cannot be. */
#ifndef SHOW_SAFE_ACT_H
#define SHOW_SAFE_ACT_H

#include "shop/safe.h"

/* Index of a gate, a check or a proof by its id; or the nearest is named. */
bool safe_find(const struct trade *t, enum subject s, const char *word, int *out, struct fail *f);
/* Refused with what is missing, until all holds. */
bool safe_open(struct arena *a, const struct shop_ask *ask, int gate, struct fail *f);
bool safe_override(struct arena *a, const struct shop_ask *ask, int gate, const char *reason,
                   struct fail *f);
bool safe_check(struct arena *a, const struct shop_ask *ask, int check, const char *note,
                struct fail *f);

/* A proof as it was found: fields of a measurement, or of something witnessed, as typed; "" and
 * NULL are left out. The unit is the proof's unless another is told. */
struct safe_found {
    const char *value, *unit, *where, *low, *high, *source, *retest; /* measured */
    const char *holds, *by, *worker, *fit;                           /* seen */
    const char *note;
};
bool safe_prove(struct arena *a, const struct shop_ask *ask, int proof,
                const struct safe_found *found, struct fail *f);

#endif
