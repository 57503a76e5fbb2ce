/* bag_act.h - what is told of bags. Each act is stored as one, or refused with one line. */
#ifndef SHOW_BAG_ACT_H
#define SHOW_BAG_ACT_H

#include "garage/garage.h"
#include "library/trade.h"

/* A field and what was typed for it; ended by a NULL name. What is NULL or "" is left out. */
struct bag_typed {
    const char *name, *value;
};

/* A code that is in use is refused with what it stands for; none typed: the next free one. */
bool bag_new(struct arena *a, struct garage *g, const char *vehicle, const struct bag_typed *typed,
             day today, struct record **out, struct fail *f);
/* Pieces are counted out, into a bag that is still full. */
bool bag_put(struct arena *a, struct garage *g, const char *code, const struct bag_typed *typed,
             struct fail *f);
bool bag_move(struct arena *a, struct garage *g, const char *code, const char *shelf,
              struct fail *f);
/* How many of a piece, by its id or its name in this bag, are there. */
bool bag_count(struct arena *a, struct garage *g, const char *code, const char *piece,
               const char *count, struct fail *f);
/* All of it went back; what was not counted is taken to be there. Refused where it was emptied
 * before. *said: what is short, or that all was there. */
bool bag_empty(struct arena *a, struct garage *g, const char *code, day today, const char **said,
               struct fail *f);

#endif
