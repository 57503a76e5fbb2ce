/* show_session.h - what can be done this evening, as a sheet for one page and as JSON. */
#ifndef SHOW_SHOW_SESSION_H
#define SHOW_SHOW_SESSION_H

#include "face/show/sheet.h"
#include "shop/session.h"

#include <jansson.h>

struct sheet *show_session(struct arena *a, const struct session *x);
json_t *show_session_json(struct arena *a, const struct session *x);

/* "waits for a part: brake fluid, due Sat 5 Dec": why a job is blocked. */
const char *session_why_words(struct arena *a, const struct session *x,
                              const struct session_blocked *b);
/* The lines that say that the work stalls, ended by NULL; none: the first is NULL. */
const char **session_stall_words(struct arena *a, const struct session *x);
/* Of facts alone, for the yard. */
const char **stall_words(struct arena *a, const struct trade *t, const struct stall *stall,
                         day today);

#endif
