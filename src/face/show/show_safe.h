/* show_safe.h - gates and checks, as a sheet and as JSON. */
#ifndef SHOW_SHOW_SAFE_H
#define SHOW_SHOW_SAFE_H

#include "face/show/sheet.h"
#include "shop/safe.h"

#include <jansson.h>

/* gate: index of the one to be told whole, or -1: all. */
struct sheet *show_safe(struct arena *a, const struct safe *x, int gate);
json_t *show_safe_json(const struct safe *x, int gate);

#endif
