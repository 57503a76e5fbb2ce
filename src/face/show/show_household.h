/* show_household.h - what the vehicles together ask, for who shares the purse: in plain words. */
#ifndef SHOW_SHOW_HOUSEHOLD_H
#define SHOW_SHOW_HOUSEHOLD_H

#include "face/show/sheet.h"
#include "shop/household.h"

#include <jansson.h>

struct sheet *show_household(struct arena *a, const struct household *x);
json_t *show_household_json(const struct household *x);

#endif
