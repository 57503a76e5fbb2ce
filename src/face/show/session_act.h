/* session_act.h - what is told at the end of a session, and beside its sheet. */
#ifndef SHOW_SESSION_ACT_H
#define SHOW_SESSION_ACT_H

#include "garage/garage.h"
#include "library/trade.h"
#include "shop/session.h"

/* An evening as typed; what is NULL or "" stays as it is in *out. */
bool session_evening(const char *hours, const char *hands, const char *degrees,
                     struct session_ask *out, struct fail *f);

/* Each stores one record, or fails with one line. where, photo: may be NULL or "". */
bool session_done(struct arena *a, struct garage *g, const char *vehicle, const char *note,
                  const char *where, const char *photo, day today, struct fail *f);
bool session_cared(struct arena *a, struct garage *g, const struct trade *t, const char *vehicle,
                   const char *care, day today, struct fail *f);
bool session_tool(struct arena *a, struct garage *g, const struct trade *t, const char *tool,
                  const char *have, struct fail *f);

#endif
