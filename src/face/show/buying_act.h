/* buying_act.h - what can be told of a due thing once it was done: a button on a page, a line to
 * type elsewhere, both from one table. */
#ifndef SHOW_BUYING_ACT_H
#define SHOW_BUYING_ACT_H

#include "garage/garage.h"
#include "shop/buying.h"

struct buying_act {
    enum due_kind kind;
    const char *name, *button;
    const char *asks; /* what has to be typed for it, or NULL */
};

extern const struct buying_act buying_acts[]; /* of all kinds; ended by a NULL name */

/* "fettle change order 5b1c0d2e checked=yes" */
const char *buying_act_line(struct arena *a, const struct buying_act *act, const struct due *due);
/* Changes the record of that id by the act of that name, as an act of the garage. text: what was
 * typed, where the act asks for it. */
bool buying_act_do(struct arena *a, struct garage *g, const char *name, const char *id,
                   const char *text, day today, struct fail *f);

#endif
