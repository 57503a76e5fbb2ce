/* show_crossed.h - tripwires that are crossed, said at the top of whatever rests on the choice. */
#ifndef SHOW_CROSSED_H
#define SHOW_CROSSED_H

#include "face/show/sheet.h"
#include "shop/tripwire.h"

#include <jansson.h>

void show_crossed(struct sheet *s, const struct crossed *crossed, int n, const char *currency);
json_t *show_crossed_json(const struct crossed *crossed, int n, const char *currency);

#endif
