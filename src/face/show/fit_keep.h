/* fit_keep.h - a set of options made into facts: what was chosen for each need, and from whom each
 * part is to be bought. One act. */
#ifndef SHOW_FIT_KEEP_H
#define SHOW_FIT_KEEP_H

#include "garage/garage.h"
#include "shop/fit.h"

/* count: how many records it became. Refused where nothing fits. */
bool fit_keep(struct arena *a, struct garage *g, const char *vehicle, const struct fit *x,
              day today, int *count, struct fail *f);

/* An end of a join as it was measured: value is a figure, "2 to 4", or the word that the join
 * wants. */
struct fit_measured {
    const char *of, *join, *end; /* ids of a fitting or option and of a join; "gives" or "takes" */
    const char *value;
};
bool fit_measure(struct arena *a, struct garage *g, const struct trade *t, const char *vehicle,
                 const struct fit_measured *m, day today, struct fail *f);

#endif
