/* show_buying.h - what is due on orders and pieces sent away, and what to order together. */
#ifndef SHOW_SHOW_BUYING_H
#define SHOW_SHOW_BUYING_H

#include "face/show/answer.h"
#include "shop/buying.h"

/* Where the last plan of a vehicle comes from, as show_plan_json wrote it: false if there is none.
 * *current: it rests on today and on the facts as they are. Nothing is reckoned for it. */
struct buying_plans {
    bool (*plan)(void *context, const char *vehicle, struct told *out, bool *current);
    void *context;
};

bool buying_of_garage(struct arena *a, struct garage *g, const struct trade *t,
                      struct buying_plans plans, day today, struct buying *out, struct fail *f);
struct sheet *show_buying(struct arena *a, const struct buying *x);
json_t *show_buying_json(const struct buying *x);

/* Parts of the sheet, for a page that has buttons beside them. */
const char *buying_headline(struct arena *a, const struct buying *x);
const char *buying_thing(const struct buying *x, const struct due *d); /* "fan belt" */
const char *buying_day(struct arena *a, const struct buying *x, const struct due *d);
const char *buying_words(struct arena *a, const struct buying *x, const struct due *d);
enum tone buying_tone(enum due_press p);
void show_buying_baskets(struct sheet *s, const struct buying *x);
void show_buying_spares(struct sheet *s, const struct buying *x);

#endif
