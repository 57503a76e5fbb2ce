/* clue.h - what clues say of hypotheses, where clues of a cluster may share a cause.
 *
 * A worn pedal and a sagging seat are not two witnesses: one hard owner made both, one retrim hides
 * both. So each cluster has latent causes ("hard use", "renewed", none), of which one holds, and
 * its likelihood is the exact sum
 *
 *   L(h) = sum over causes P(cause) * product over its clues P(outcome | h, cause)
 *
 * and clusters are independent given h. A clue of which only strengths are known (how many times
 * likelier under one hypothesis than another) has no causes to sum over: of those of a cluster the
 * strongest counts in full, of the others the square root (practice).
 *
 * Clues look at hypotheses along an axis: wear at the miles, tool marks at whether the clock was
 * out. An axis maps each hypothesis to one of a few rows, and tables have rows, not hypotheses.
 * Weight of evidence in decibans, 10 log10 of a ratio of odds: I. J. Good after A. M. Turing (mark:
 * memory, Biometrika 66 (1979) 393). Conflict of two findings as log P(a) P(b) / P(a, b): F. V.
 * Jensen (mark: memory). */
#ifndef RECKON_CLUE_H
#define RECKON_CLUE_H

#include "base/arena.h"

enum { CLUE_CAUSES_MOST = 6, CLUE_UNSEEN = -1 };

struct clue_axis {
    int n_rows;
    const int *row_of; /* [n_hypotheses] */
};

struct clue_cluster {
    int axis;
    const double *chance; /* of each cause, sums to 1 */
    int n_causes;         /* 1 .. CLUE_CAUSES_MOST */
};

struct clue {
    int cluster;
    int n_outcomes;
    const double *table;    /* P(outcome | row, cause): [(row * causes + cause) * outcomes +
                               outcome]; or NULL */
    const double *strength; /* where table is NULL: [row * outcomes + outcome], a ratio, > 0 */
    int seen;               /* an outcome, or CLUE_UNSEEN */
};

struct clue_problem {
    const double *prior; /* [n_hypotheses], sums to 1 */
    int n_hypotheses;
    const struct clue_axis *axes;
    int n_axes;
    const struct clue_cluster *clusters;
    int n_clusters;
    const struct clue *clues;
    int n_clues;
};

struct clue_weighed {
    const struct clue_problem *problem;
    double **cluster;  /* likelihood [cluster][row], to a scale: 1 at its best row */
    double **rest;     /* [cluster][hypothesis]: prior times all other clusters; to a scale */
    double *posterior; /* [n_hypotheses], sums to 1 */
    bool impossible;   /* no hypothesis allows it all: the posterior is the prior */
};

void clue_weigh(struct arena *a, const struct clue_problem *p, struct clue_weighed *out);

/* The probability of the hypotheses of which `claim` is true, and its odds in decibans. */
double clue_share(const struct clue_weighed *w, const bool *claim);
double decibans_of(double probability);

/* How far a clue that was seen moves the odds of the claim: decibans with all clues less those
 * without this one. */
double clue_push(const struct clue_weighed *w, struct arena scratch, int clue, const bool *claim);

/* Two clues that are seen, in decibans: how much rarer they are together than each alone would have
 * it (10 log10 P(a) P(b) / P(a, b), all else unseen). Above 0 they pull apart; CLUE_APART
 * (practice) is worth a word. Only for clues with tables. */
static const double CLUE_APART = 4;
double clue_conflict(const struct clue_problem *p, int one, int other);

/* The same of one clue against all others together: how much rarer they make it. */
double clue_surprise(const struct clue_weighed *w, struct arena scratch, int clue);

/* The largest chance that any hypothesis gives to a cluster's clues, as the mean a clue; 1 where
 * none with a table was seen. Small: nothing explains what was seen. */
double clue_best_chance(const struct clue_weighed *w, int cluster);

/* P(outcome | row, what its cluster has shown) of a clue not yet taken: show[row * outcomes +
 * outcome]. With strengths only: their ratios are taken as chances, each row made to sum to 1. */
void clue_signs(const struct clue_weighed *w, struct arena scratch, int clue, double *show);

/* What a clue not yet taken would tell: bits of information expected of it, and for each outcome
 * its chance and the probability of the claim after it. */
double clue_promise(const struct clue_weighed *w, struct arena scratch, int clue, const bool *claim,
                    double *chance, double *claim_after);

#endif
