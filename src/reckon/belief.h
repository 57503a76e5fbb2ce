/* belief.h - odds of condition, and what the seen says of the unseen.
 *
 * An ordered probit: the condition of a component is where z = sqrt(b) S + sqrt(c) K + sqrt(1-b-c)
 * own falls among its cuts, S the vehicle's state, K its kind's. Findings fix the cell of some
 * components; the posterior of S, and of K given S, is then summed out on a grid (no sampling, no
 * chain). Source of the form: ordered probit with a shared normal factor, e.g. Gelman et al.,
 * Bayesian Data Analysis, 3rd ed., ch. 16 (mark: memory). */
#ifndef RECKON_BELIEF_H
#define RECKON_BELIEF_H

#include "reckon/project.h"

/* Cuts for odds (sound .. failed, summing to 1, missing ignored) that are shifted by `shift`
 * standard deviations (positive is worse), with `missing` (0 .. <1) taken off the top. Cuts may be
 * infinite. */
void belief_cuts(const double odds[COND_COUNT], double shift, double missing,
                 double cut[COND_COUNT - 1]);
/* The odds that cuts stand for, for a standard normal z. */
void belief_odds_of_cuts(const double cut[COND_COUNT - 1], double odds[COND_COUNT]);

enum { BELIEF_STATES = 97, BELIEF_KINDS = 61 };

struct belief {
    bool informed;                      /* is anything known that bears on the state */
    double state_weight[BELIEF_STATES]; /* posterior of S on a grid -6 .. 6, sums to 1 */
    double state_sum[BELIEF_STATES];
    struct belief_unseen {
        int component;
        bool alone;              /* the only one of its kind: what the kind has is its own */
        double state, kind, own; /* weights of the factors: roots of the shares of variance */
    } * unseen;
    int n_unseen;
    uint64_t *unseen_stream; /* of unseen[i]'s component */
    float **kind_sum;        /* by kind: NULL, or cumulative weights of K [state][kind value] */
};

struct belief belief_of(struct arena *a, const struct project *p);

/* Draws from uniforms. Without information these are the plain normal quantiles. */
double belief_state(const struct belief *b, double u);
double belief_kind(const struct belief *b, int kind, double state, double u);

/* Odds of one component after all findings; a known one has all its weight on one. */
void belief_odds(const struct belief *b, const struct project *p, int component,
                 double odds[COND_COUNT]);

#endif
