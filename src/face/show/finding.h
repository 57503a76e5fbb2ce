/* finding.h - a finding as it is told: component and condition in words, for every face. */
#ifndef SHOW_FINDING_H
#define SHOW_FINDING_H

#include "garage/garage.h"
#include "library/trade.h"

/* A checked record, not yet stored; `note` may be NULL. component: an id, perhaps with its place.
 */
bool finding_make(struct arena *a, const char *vehicle, const char *component,
                  const char *condition, const char *note, day today, struct record **out,
                  struct fail *f);
/* Stores what was seen, as an act of its own, under the component's full id. */
bool finding_tell(struct arena *a, struct garage *g, const struct trade *t, const char *vehicle,
                  const char *component, const char *condition, const char *note, day today,
                  struct record **out, struct fail *f);

#endif
