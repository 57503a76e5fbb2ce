/* show_session.h - what can be done this evening, as a sheet for one page and as JSON. */
#ifndef SHOW_SHOW_SESSION_H
#define SHOW_SHOW_SESSION_H

#include "face/show/sheet.h"
#include "shop/session.h"

#include <jansson.h>

struct sheet *show_session(struct arena *a, const struct session *x);
json_t *show_session_json(struct arena *a, const struct session *x);

/* Its pieces, for a page that has forms between them; each writes nothing where there is nothing to
 * be said. */
void session_show_left_off(struct sheet *s, const struct session *x);
void session_show_stall(struct sheet *s, const struct session *x);
void session_show_evening(struct sheet *s, const struct session *x);
void session_show_job(struct sheet *s, const struct session *x, const struct session_job *j);
void session_show_none(struct sheet *s, const struct session *x); /* where no job is offered */
void session_show_short(struct sheet *s, const struct session *x);
void session_show_ready(struct sheet *s, const struct session *x);
void session_show_held(struct sheet *s, const struct session *x);

/* "waits for a part: brake fluid, due Sat 5 Dec": why a job is blocked. */
const char *session_why_words(struct arena *a, const struct session *x,
                              const struct session_blocked *b);
/* The lines that say that the work stalls, ended by NULL; none: the first is NULL. */
const char **session_stall_words(struct arena *a, const struct session *x);
/* Of facts alone, for the yard. */
const char **stall_words(struct arena *a, const struct trade *t, const struct stall *stall,
                         day today);

#endif
