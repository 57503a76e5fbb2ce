/* pace.h - what the logged hours say of the builder's pace, and so of the jobs to come.
 *
 * A job's duration is points_draw(its points, z) with z = sqrt(a) P + sqrt(k) K + sqrt(b) S +
 * sqrt(1 - a - k - b) O: P the pace, shared by all jobs of the builder; K that of the kind of work
 * (brakes, body), shared by its jobs; S the state, shared by the jobs of one vehicle; O the job's
 * own; all standard normal and independent before anything was logged. Larger is slower. A finished
 * job gives its z back exactly (points_z of the logged minutes), so that the update is that of a
 * normal mean with normal data, in closed form. A job whose points have no spread says nothing:
 * leave it out.
 *
 * The mapping to a productivity factor: where a job's points are an even lognormal of log sd s,
 * ln(logged / estimated) is s z. Its shared part has prior sd sqrt(a) s, its own part sd sqrt(1 -
 * a) s (b = 0). So a textbook prior ln f ~ N(0, 0.3^2) with a sd of 0.4 for each ln ratio is s =
 * 0.5, a = 0.36; ln f has posterior mean sqrt(a) s E[P], sd sqrt(a) s sd[P]; the next ln ratio is s
 * times pace_predict.
 *
 * Published: the normal mean with known variance, Gelman et al., Bayesian Data Analysis, sec. 2.5.
 */
#ifndef RECKON_PACE_H
#define RECKON_PACE_H

#include "base/arena.h"
#include "base/points.h"

/* a, b and k above; none below 0, their sum below 1. */
struct pace_shares {
    double pace, state, kind;
};

/* The finished jobs of one vehicle. The order in which they came does not matter. */
struct pace_log {
    int jobs;
    double z_sum;
};
void pace_log_add(struct pace_log *log, struct points estimated, double logged);

struct normal {
    double mean, sd;
};

/* The pace P given the logs of all vehicles; N(0, 1) with none. */
struct normal pace_posterior(struct pace_shares shares, const struct pace_log *logs, int vehicles);

/* The state S of one vehicle given its own log and a pace P (a run draws P first, then this). */
struct normal pace_state(struct pace_shares shares, struct pace_log log, double pace);

/* z of the next job of vehicle `which`, all that is unknown included. */
struct normal pace_predict(struct pace_shares shares, const struct pace_log *logs, int vehicles,
                           int which);

/* The duration that a job with these points stays under with chance p, z being normal. */
double pace_quantile(struct points p, struct normal z, double chance);

/* ---- with kinds of work ---- */

/* The finished jobs of one vehicle and one kind of work. */
struct pace_cell {
    int vehicle, kind;
    struct pace_log log;
};

/* Pace and kinds given all that was logged, states of vehicles summed out: jointly normal, with
 * these means and the covariance root root'. Index 0 is P, 1 + i the K of kind i. */
struct pace_learned {
    int n;               /* 1 + kinds */
    double *mean, *root; /* root: by row, lower triangle */
};
struct pace_learned pace_learn(struct arena *a, struct pace_shares shares,
                               const struct pace_cell *cells, int n_cells, int vehicles, int kinds);
/* sqrt(a) P + sqrt(k) K: what the jobs of a kind to come share; kind -1: of the pace alone. */
struct normal pace_of_kind(const struct pace_learned *x, struct pace_shares shares, int kind);

#endif
