/* look.h - worth of a look: what it would be worth to know something before choosing, and how far
 * it would narrow a date or a bill.
 *
 * From one set of draws (single loop), no new runs: the runs are grouped by what is so. A look that
 * tells all about it shows the group: expected value of partial perfect information. One that can
 * mislead shows signs, of known odds in each group: each sign weighs the runs anew, and what it is
 * worth before it is seen is the mean over the signs: expected value of sample information.
 *
 * Taking the best choice of each group and valuing it on the same runs flatters the look: the
 * largest of noisy means is too large. So the runs are dealt into two halves; what is chosen (or
 * fitted) on one half is valued on the other, both ways. That leans a little low instead, so that a
 * useless look may come out below zero: it is reported as it came. A group with fewer than
 * LOOK_FEWEST runs in the half that chooses is treated as if the look had not been taken. Standard
 * errors are of the mean gain per run, the choices taken as given.
 *
 * Published: single-loop estimates of EVPPI from a probabilistic sample, M. Strong, J. E. Oakley &
 * A. Brennan, Medical Decision Making 34 (2014), doi 10.1177/0272989X13505910 (by regression:
 * grouping is regression on a discrete parameter). Memory: M. Sadatsafavi et al., Value in Health
 * 16 (2013). Memory: expected value of sample information from a probabilistic sample by weighing
 * it with the likelihood of the sample: N. A. Menzies, Medical Decision Making 36 (2016).
 * Published: interval score, T. Gneiting & A. E. Raftery, J. American Statistical Association 102
 * (2007), eq. 43. */
#ifndef RECKON_LOOK_H
#define RECKON_LOOK_H

#include "base/arena.h"

enum { LOOK_FEWEST = 10 }; /* practice */

struct look {
    int runs;
    const int *shows; /* [runs] what is so: 0 .. outcomes - 1 (cut a measure into groups) */
    int outcomes;
    const double *signs; /* P(sign | what is so): [outcome * n_signs + sign]; NULL: it is seen as it
                            is, and the signs are the outcomes */
    int n_signs;
};

struct look_worth {
    double gain;  /* expected, in the unit of the nets, before the cost of looking */
    double error; /* its standard error */
    bool tells;   /* gain > 2 errors; if not: "changes nothing that we can tell" */
};

/* net[choice * runs + run], larger is better, all finite: the same draws under every choice.
 * choices >= 1, runs >= 2. */
struct look_worth look_worth_of(const struct look *look, const double *net, int choices,
                                struct arena scratch);

/* What each sign would lead to: `of` is a quantity of the same runs, all finite, or NULL. A choice
 * other than `leading` is told only where it is better beyond two errors. signs[n_signs], or
 * [outcomes] where it is seen as it is. */
struct look_sign {
    double chance;
    int choice;
    double mean, error; /* of the quantity, once it has shown this */
};
void look_signs_of(const struct look *look, const double *net, int choices, int leading,
                   const double *of, struct look_sign *signs, struct arena scratch);

/* How far the 10..90 % band of a quantity narrows once the look is taken. `band` and `band_known`
 * are mean widths of bands fitted on one half of the runs; with few runs in a group its band comes
 * out too narrow, so their difference is biased towards the look. `worth` is not: it is the fall of
 * the interval score (width plus 10 times the overshoot of the runs of the other half that lie
 * outside), with its error and verdict; where the bands are true its mean is what knowing saves in
 * width and misses together. */
struct look_narrowing {
    double band, band_known;
    struct look_worth worth;
};

/* quantity[runs], all finite: a run that never finishes has to be given the plan's horizon. Of a
 * look that shows what is so. */
struct look_narrowing look_narrowing_of(const struct look *look, const double *quantity,
                                        struct arena scratch);

#endif
