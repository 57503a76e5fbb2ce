/* bags.h - back together: the way back is the way apart, last off first on, with what must be new
 * and what is short. */
#ifndef SHOP_BAGS_H
#define SHOP_BAGS_H

#include "model/facts_bag.h"

/* Why a piece is not simply put back. */
enum piece_state {
    PIECE_AGAIN,
    PIECE_LOOK, /* only if it passes a look */
    PIECE_NEW,  /* must not be used again */
};

enum piece_state piece_state_of(const struct trade *t, const struct fact_piece *p);
/* How many are short: counted in fewer than out; 0 where it was not counted. */
int piece_short(const struct fact_piece *p);
/* Has it a thread, and no torque was told? Then the book is asked, never guessed. */
bool piece_lacks_torque(const struct fact_piece *p);

/* One line of what is bought as a kit: like pieces of all bags together. */
struct hardware {
    const struct fact_piece *piece; /* one of those alike */
    int count, n_bags;
    const char *bags; /* their codes */
};

struct bags {
    const struct trade *trade;
    struct fact_bag *all; /* in the order of the strip-down */
    int count;
    const struct fact_bag **back; /* those that are still full, last off first */
    int n_back;
    struct hardware *kit; /* what must be new of those, and what is short of any; by thread, name */
    int n_kit;
    int n_look; /* pieces that may go back after a look */
};

bool bags_read(struct arena *a, struct garage *g, const struct trade *t, const char *vehicle,
               struct bags *out, struct fail *f);
/* The next code of this garage's that nobody has: "B8". */
bool bags_next_code(struct arena *a, struct garage *g, const char **out, struct fail *f);

#endif
