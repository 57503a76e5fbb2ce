/* show_what_if.h - the plan as it is beside the plan as it would be, as a sheet and as JSON. */
#ifndef SHOW_SHOW_WHAT_IF_H
#define SHOW_SHOW_WHAT_IF_H

#include "face/show/sheet.h"
#include "face/show/what_if_keep.h"
#include "shop/what_if.h"

#include <jansson.h>

/* The answer in a line: "3 weeks later, give or take 4 days; money: no difference". */
const char *what_if_headline(struct arena *a, const struct what_if *w);
/* A difference in words, and what it means; currency: of a sum of money. */
const char *what_if_days(struct arena *a, const struct what_if_difference *d);
const char *what_if_money(struct arena *a, const struct what_if_difference *d,
                          const char *currency);
enum tone what_if_tone(const struct what_if_difference *d);
json_t *what_if_days_json(const struct what_if_difference *d);
json_t *what_if_money_json(const struct what_if_difference *d, const char *currency);
/* keep: what keeping it would write; or NULL. */
struct sheet *show_what_if(struct arena *a, const struct what_if *w, const struct keep *keep);
json_t *show_what_if_json(const struct what_if *w, const struct keep *keep);

#endif
