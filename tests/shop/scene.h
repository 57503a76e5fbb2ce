/* scene.h - a garage in a temporary folder, for tests that need one. */
#ifndef TESTS_SCENE_H
#define TESTS_SCENE_H

#include "garage/garage.h"
#include "library/trade.h"

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

#endif
