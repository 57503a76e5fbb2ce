/* show_choose.h - the directions side by side, and the looks that could change the choice. */
#ifndef SHOW_SHOW_CHOOSE_H
#define SHOW_SHOW_CHOOSE_H

#include "face/show/sheet.h"
#include "shop/choose.h"

#include <jansson.h>

struct sheet *show_choose(struct arena *a, const struct choose *c);
json_t *show_choose_json(const struct choose *c);

/* A look's or a clue's name, and which choice each outcome would lead to, in words. */
const char *show_choose_look_name(const struct choose_look *l);
const char *show_choose_then(struct arena *a, const struct choose *c, const struct choose_look *l);

#endif
