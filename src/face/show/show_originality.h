/* show_originality.h - which vehicle it is and how much of it is its own, as a sheet and as JSON.
 */
#ifndef SHOW_SHOW_ORIGINALITY_H
#define SHOW_SHOW_ORIGINALITY_H

#include "face/show/sheet.h"
#include "shop/originality.h"

#include <jansson.h>

struct sheet *show_originality(struct arena *a, const struct originality_answer *o);
/* The same as sections of another sheet. */
void show_originality_into(struct sheet *s, const struct originality_answer *o);
json_t *show_originality_json(const struct originality_answer *o);

/* One code or date by itself, as typed. */
struct sheet *show_mark_read(struct arena *a, const char *text, const struct mark_read *m);
json_t *show_mark_read_json(const struct mark_read *m);

extern const char originality_caution[], originality_defer[];

#endif
