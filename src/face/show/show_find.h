/* show_find.h - what full-text search found, as a sheet and as JSON. */
#ifndef SHOW_SHOW_FIND_H
#define SHOW_SHOW_FIND_H

#include "face/show/sheet.h"
#include "shop/find.h"

#include <jansson.h>

struct sheet *show_find(struct arena *a, const struct find *x, const char *words);
json_t *show_find_json(const struct find *x);
/* "2 found", and what that means. */
const char *find_headline(struct arena *a, const struct find *x);

#endif
