/* pace.h - what the logged hours say of the builder's pace, and so of the jobs to come.
 *
 * A job's duration is points_draw(its points, z) with z = sqrt(a) P + sqrt(b) S + sqrt(1 - a - b)
 * O: P the pace, shared by all jobs of the builder; S the state, shared by the jobs of one vehicle;
 * O the job's own; all standard normal and independent before anything was logged. Larger is
 * slower. A finished job gives its z back exactly (points_z of the logged minutes), so that the
 * update is that of a normal mean with normal data, in closed form. A job whose points have no
 * spread says nothing: leave it out.
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

#include "base/points.h"

/* a and b above; a, b >= 0, a + b < 1. */
struct pace_shares {
    double pace, state;
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

#endif
