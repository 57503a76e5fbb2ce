/* show_bags.h - bags, the way back, and what to buy for it, as sheets and as JSON. */
#ifndef SHOW_SHOW_BAGS_H
#define SHOW_SHOW_BAGS_H

#include "face/show/sheet.h"
#include "shop/bags.h"

#include <jansson.h>

struct sheet *show_bags(struct arena *a, const struct bags *x, const char *vehicle);
struct sheet *show_bag(struct arena *a, const struct trade *t, const struct fact_bag *b);
/* Last off first on, with torque, what must be new, and the list to buy. */
struct sheet *show_back(struct arena *a, const struct bags *x, const char *vehicle);
json_t *show_bags_json(struct arena *a, const struct bags *x);

/* Pieces for pages. */
void bag_show_facts(struct sheet *s, const struct trade *t, const struct fact_bag *b);
const char *bag_where(struct arena *a, const struct fact_bag *b); /* "on A2", "emptied Sat 5 Dec" */
const char *piece_words(struct arena *a, const struct fact_piece *p); /* "4 x hub nut, M20x1.5" */
/* What to mind on the way back, "" if nothing. *tone: how much. */
const char *piece_care(struct arena *a, const struct trade *t, const struct fact_piece *p,
                       enum tone *tone);
void bags_show_kit(struct sheet *s, const struct bags *x);
void bags_show_way(struct sheet *s, const struct bags *x);

#endif
