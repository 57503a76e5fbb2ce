/* show_pace.h - how the builder works, as a sheet and as JSON. */
#ifndef SHOW_SHOW_PACE_H
#define SHOW_SHOW_PACE_H

#include "face/show/sheet.h"
#include "shop/pace.h"

#include <jansson.h>

struct sheet *show_pace(struct arena *a, const struct pace *p);
json_t *show_pace_json(const struct pace *p);

#endif
