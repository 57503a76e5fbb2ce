/* kept.h - texts kept in memory by name, the least recently wanted thrown away first. For what is
 * the same whenever it is made anew, as a sheet written as HTML. Any thread may use it. */
#ifndef WEB_KEPT_H
#define WEB_KEPT_H

#include "base/text.h"

struct kept;

struct kept *kept_open(size_t most_bytes); /* memory of its own */
void kept_close(struct kept *k);

/* A copy of the text of that name, or NULL. */
char *kept_get(struct kept *k, struct arena *a, const char *name);
/* Keeps a copy; one that is larger than a quarter of all is not kept. */
void kept_put(struct kept *k, const char *name, const char *text);

/* Many ask at once for what is not kept yet: one makes it, the others wait for that, two seconds at
 * most. True: make it, then release the name, whether it was put or not. False: it may be kept now.
 */
bool kept_claim(struct kept *k, const char *name);
void kept_release(struct kept *k, const char *name);

#endif
