/* decide.h - which choice leads over a table of runs, what it may be regretted by, what beats it,
 * and what would have to change for another to lead.
 *
 * value[choice * runs + run], larger is better, all finite: the same draws under every choice. The
 * runs are equally likely.
 *
 * Published: expected value and maximin over a table of payoffs, F. S. Hillier & G. J. Lieberman,
 * Introduction to Operations Research, chapter on decision analysis. Published: regret, L. J.
 * Savage, J. American Statistical Association 46 (1951) 55-67. Published: first-order dominance, J.
 * Hadar & W. R. Russell, American Economic Review 59 (1969) 25-34. */
#ifndef RECKON_DECIDE_H
#define RECKON_DECIDE_H

#include "base/arena.h"

struct decide_choice {
    double mean, error; /* of its value */
    double best;        /* share of the runs in which it is the best (shared evenly where alike) */
    double regret, regret_90; /* mean and 90 % of what the best choice of each run gives more */
    double least;             /* its value in its worst run */
    double loses;   /* share of the runs in which the leading one is better; 0 for that itself */
    bool dominated; /* the leading one is as good or better at every chance, and at some better */
};

struct decide {
    int leading;  /* the largest mean */
    int safest;   /* the largest of the worst runs: maximin */
    int runner;   /* the next best mean, -1 if there is one choice only */
    double ahead; /* mean of the leading one less that of the runner */
    double ahead_error;
    struct decide_choice *choices;
};

/* choices >= 1, runs >= 2. */
struct decide decide_of(struct arena *a, const double *value, int choices, int runs);

/* Each choice's mean is a line: at[i] + slope[i] * t, and `leading` leads at t = 0. Where t grows
 * from 0, the first t at which another catches it up, and which; false if none ever does. For t
 * that falls from 0 give slopes turned round. */
struct decide_change {
    double t;
    int to;
};
bool decide_change_of(const double *at, const double *slope, int choices, int leading,
                      struct decide_change *out);

/* A question with two answers, of chance p and 1 - p: the mean of each choice given either. The
 * nearest chance, above p or below it, at which another choice leads. */
bool decide_break_even(const double *given_yes, const double *given_no, int choices, double p,
                       struct decide_change *out); /* out->t is the chance, 0..1 */

#endif
