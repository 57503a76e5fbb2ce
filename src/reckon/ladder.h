/* ladder.h - the best next step of a ladder: a Markov decision process, solved exactly.
 *
 * A step costs, and ends in one of three ways: cured, no change, or worse; a worse one costs more
 * and takes steps away. How stuck the thing is, is not known: each failure makes it likelier to be
 * very stuck, and so every other step less likely to work (Bayes, exactly, over a few levels of
 * stuckness). No step is tried twice. It ends when it is cured, which the last step always brings,
 * or by stopping at a price. Least expected cost; the states are what was tried and what is gone,
 * and none comes twice, so that one pass backwards is exact. Pure. */
#ifndef RECKON_LADDER_H
#define RECKON_LADDER_H

#include "base/arena.h"

enum { LADDER_STEPS = 8, LADDER_LEVELS = 9, LADDER_STOP = -1 };

enum ladder_outcome { LADDER_CURED, LADDER_NO_CHANGE, LADDER_WORSE, LADDER_OUTCOMES };

struct ladder_step {
    double works; /* in the order of the ladder, after all before it did not help; the last: 1 */
    double cost;  /* of trying it */
    double worse; /* share of the tries without a cure that leave it worse */
    double worse_cost;   /* what that costs beside */
    unsigned worse_ends; /* bit i: step i cannot be done once this left it worse */
    unsigned ends;       /* bit i: step i cannot be done once this was tried */
    unsigned needs;      /* bit i: step i must have been tried before */
};

struct ladder {
    struct ladder_step steps[LADDER_STEPS];
    int n;
    unsigned gone; /* bit i: step i cannot be done here at all */
    double stuck;  /* how much stuckness matters to every step, on the scale of log odds; 0: what
                      failed says nothing of the rest */
    double stop;   /* cost of leaving it as it is; INFINITY: that is no choice */
};

/* By step in base 3: 0 open, 1 tried in vain, 2 gone. */
typedef int ladder_state;

struct ladder_solved {
    const struct ladder *ladder;
    double cures[LADDER_STEPS][LADDER_LEVELS]; /* chance by level of stuckness */
    double *cost;      /* by state: expected, from here on; INFINITY: no way */
    signed char *best; /* by state: the step, or LADDER_STOP */
};

struct ladder_solved ladder_solve(struct arena *a, const struct ladder *l);
ladder_state ladder_start(const struct ladder *l);
/* After a step that did not cure. */
ladder_state ladder_after(const struct ladder *l, ladder_state s, int step, bool worse);
bool ladder_open(const struct ladder *l, ladder_state s, int step); /* it could be done now */
/* By outcome, of a step in this state. */
void ladder_odds(const struct ladder_solved *x, ladder_state s, int step,
                 double odds[LADDER_OUTCOMES]);
/* Expected cost of this step now and the best after it. */
double ladder_cost(const struct ladder_solved *x, ladder_state s, int step);

#endif
