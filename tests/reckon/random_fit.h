/* random_fit.h - random fit models that are valid, and the best answer of a small one by trying
 * all.
 *
 * A model is a pure function of its seed. Its figures are invented. */
#ifndef TESTS_RECKON_RANDOM_FIT_H
#define TESTS_RECKON_RANDOM_FIT_H

#include "reckon/fit.h"

/* Small enough for brute_fit; about a third of them cannot be met. */
struct fit_model random_fit(struct arena *a, uint64_t seed);

/* The least total over every choice and every way to buy; INT64_MAX: nothing fits. `but` (by
 * option, or NULL): with other options for needs than these, and than `but_too`. */
int64_t brute_fit(struct arena a, const struct fit_model *m, const uint8_t *but,
                  const uint8_t *but_too);

#endif
