/* show_fit.h - which parts work together, as a sheet and as JSON. */
#ifndef SHOW_SHOW_FIT_H
#define SHOW_SHOW_FIT_H

#include "face/show/sheet.h"
#include "shop/fit.h"

#include <jansson.h>

struct sheet *show_fit(struct arena *a, const struct fit *x);
/* show_fit_json.c */
json_t *show_fit_json(struct arena *a, const struct fit *x);

/* Who an end belongs to: "alternator in place of the dynamo", "loom under the bonnet". */
const char *fit_side_words(const struct fit *x, const struct fit_side *side);
/* "the usual specialist", or the supplier's name. */
const char *fit_seller_words(struct arena *a, const struct fit *x, int supplier);
/* A member of a clash: "nothing that cannot be undone". */
const char *fit_clash_words(struct arena *a, const struct fit *x, const struct fit_clash_member *m);

#endif
