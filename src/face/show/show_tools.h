/* show_tools.h - tools and people, as a sheet and as JSON. */
#ifndef SHOW_SHOW_TOOLS_H
#define SHOW_SHOW_TOOLS_H

#include "face/show/sheet.h"
#include "shop/tools.h"

#include <jansson.h>

struct sheet *show_tools(struct arena *a, const struct tools *x);
json_t *show_tools_json(struct arena *a, const struct tools *x);

#endif
