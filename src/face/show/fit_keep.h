/* fit_keep.h - a set of options made into facts: what was chosen for each need, and from whom each
 * part is to be bought. One act. */
#ifndef SHOW_FIT_KEEP_H
#define SHOW_FIT_KEEP_H

#include "garage/garage.h"
#include "shop/fit.h"

/* count: how many records it became. Refused where nothing fits. */
bool fit_keep(struct arena *a, struct garage *g, const char *vehicle, const struct fit *x,
              day today, int *count, struct fail *f);

#endif
