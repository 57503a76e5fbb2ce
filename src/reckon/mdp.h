/* mdp.h - a Markov decision process over few states: policy iteration for the average reward
 * (Howard), value iteration for the sum of rewards to an end. Pure. */
#ifndef RECKON_MDP_H
#define RECKON_MDP_H

#include "base/arena.h"

struct mdp_arc {
    int to;
    double chance;
};

struct mdp_action {
    int state;
    double reward; /* expected, at once */
    const struct mdp_arc *arcs;
    int n_arcs; /* their chances sum to 1; an action without arcs ends */
};

/* Actions in order of their states; every state has at least one. */
struct mdp {
    int n_states;
    const struct mdp_action *actions;
    int n_actions;
};

/* Most reward a step in the long run, where every policy leaves one recurrent class. policy: by
 * state an index of actions, where to begin, and the best at the end. value: relative to the last
 * state, which is 0. Returns the gain. `rounds` limits the improvements: 0 only values the policy.
 */
double mdp_average(struct arena scratch, const struct mdp *m, int rounds, int *policy,
                   double *value);

/* Most reward until an end, each later step counting `discount` of the one before (1: all alike;
 * then an end must be reached by every policy that could be best). Stops when no value moves by
 * more than `tolerance`. Returns the sweeps that it took, or -1 if `most` did not do. */
int mdp_total(const struct mdp *m, double discount, double tolerance, int most, int *policy,
              double *value);

#endif
