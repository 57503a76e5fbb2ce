/* session.h - ties forms to the browser that they were given to; it lets nobody in. */
#ifndef WEB_SESSION_H
#define WEB_SESSION_H

#include "face/web/visit.h"

/* Sets v->session, from the cookie or new; returns whether it is new. */
bool session_begin(struct visit *v);
/* Gives a new one to the browser. */
void session_give(const struct visit *v);
/* Was the form given out to this browser, for this page? */
bool session_vouches(struct visit *v, bool session_new, struct fail *f);

#endif
