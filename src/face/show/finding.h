/* finding.h - a finding as it is told: component and condition in words, for every face. */
#ifndef SHOW_FINDING_H
#define SHOW_FINDING_H

#include "base/condition.h"
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

/* One of several findings that are told together by somebody who saw an earlier state. */
struct finding_told {
    const char *component; /* id, with its place where it has one */
    enum condition was;    /* as it stood when the teller last looked at it */
    enum condition said;
    enum condition now; /* filled in: as it stands in the garage */
    bool crossed; /* filled in: told otherwise by someone else meanwhile; this one is not stored */
};

/* Stores, in one act, all that is news and crosses nothing. A condition that stands already is no
 * news. How many were stored and how many crossed: *stored, *crossed. */
bool finding_tell_all(struct arena *a, struct garage *g, const struct trade *t, const char *vehicle,
                      day today, struct finding_told *told, int count, int *stored, int *crossed,
                      struct fail *f);

#endif
