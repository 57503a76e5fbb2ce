/* show_setback.h - the next step of a setback, what it moves, and the ladder behind it, as a sheet
 * and as JSON. */
#ifndef SHOW_SHOW_SETBACK_H
#define SHOW_SHOW_SETBACK_H

#include "face/show/sheet.h"
#include "shop/setback.h"

#include <jansson.h>

/* stored: it is a fact already. */
struct sheet *show_setback(struct arena *a, const struct setback *x, bool stored);
json_t *show_setback_json(const struct setback *x, bool stored);
/* "heat", or its number from 1. */
const char *setback_step_word(struct arena *a, const struct trade_setback *s, int step);

#endif
