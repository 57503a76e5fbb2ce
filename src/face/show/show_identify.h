/* show_identify.h - what it really is, as a sheet and as JSON. */
#ifndef SHOW_SHOW_IDENTIFY_H
#define SHOW_SHOW_IDENTIFY_H

#include "face/show/sheet.h"
#include "shop/identify.h"

#include <jansson.h>

struct sheet *show_identify(struct arena *a, const struct identify *x);
json_t *show_identify_json(struct arena *a, const struct identify *x);

/* Headings, by which a page may cut the sheet. */
extern const char identify_miles_heading[], identify_next_heading[], identify_more_heading[];
extern const char identify_caution[], identify_defer[];

#endif
