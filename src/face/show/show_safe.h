/* show_safe.h - gates and checks, as a sheet and as JSON. */
#ifndef SHOW_SHOW_SAFE_H
#define SHOW_SHOW_SAFE_H

#include "face/show/sheet.h"
#include "shop/safe.h"

#include <jansson.h>

/* gate: index of the one to be told whole, or -1: all. */
struct sheet *show_safe(struct arena *a, const struct safe *x, int gate);
/* Pieces for a page that has forms between them. */
enum tone gate_tone(enum gate_state state);
const char *gate_words(struct arena *a, const struct safe_gate *g); /* "shut, 9 missing" */
void safe_show_state(struct sheet *s, const struct safe_gate *g);
json_t *show_safe_json(const struct safe *x, int gate);

#endif
