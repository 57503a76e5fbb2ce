/* scene.h - a garage in a temporary folder, for tests that need one. */
#ifndef TESTS_SCENE_H
#define TESTS_SCENE_H

#include "garage/garage.h"
#include "library/trade.h"
#include "shop/reckoning.h"

struct scene {
    struct arena arena;
    struct garage *garage;
    struct trade trade;
    char dir[64];
    int serial; /* ids and stamps are made from it, so that runs repeat */
    char vehicle[33];
};

/* Fails the running test if it cannot be made. Trade data is what the program carries. */
void scene_open(struct scene *s);
void scene_close(struct scene *s);
/* "kind", "key=value", ..., NULL: stores a record; a vehicle's id goes into s->vehicle, and is
 * filled in for others. */
void scene_add(struct scene *s, const char *kind, ...) __attribute__((sentinel));
/* An ordinary small car called First, of rank 1. */
void scene_add_small_car(struct scene *s);
/* Of the vehicle added last, as it stands on 2026-11-25; direction NULL: the decided one. */
struct shop_ask scene_ask(const struct scene *s, const char *direction, int runs);

#endif
