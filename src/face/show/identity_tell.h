/* identity_tell.h - a mark or an originality as it is told, for every face: named fields, checked
 * against the trade data, stored as an act of its own. */
#ifndef SHOW_IDENTITY_TELL_H
#define SHOW_IDENTITY_TELL_H

#include "garage/garage.h"
#include "library/trade.h"

struct told_field {
    const char *name, *value; /* value NULL or "": not told */
};

/* kind: "mark" or "originality". A component is stored under its full id, and one that the trade
 * data does not know is refused here, where it is most likely a slip of the pen; `fettle add`
 * keeps it. The day is today unless told. */
bool identity_tell(struct arena *a, struct garage *g, const struct trade *t, const char *kind,
                   const char *vehicle, const struct told_field *fields, int count, day today,
                   struct record **out, struct fail *f);

#endif
