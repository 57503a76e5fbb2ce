/* network.h - the critical path method on an activity-on-node network.
 *
 * Jobs are 0 .. jobs-1. A link says that `after` may start when `before` has finished, nothing
 * else: a wait is a job of its own that needs no hands. Durations are >= 0 in any unit of time;
 * times count from 0 in it. There are no resources here: what the passes give is the soonest that
 * precedence alone allows.
 *
 * Published: J. E. Kelley & M. R. Walker, "Critical-path planning and scheduling", Proc. Eastern
 * Joint Computer Conference (1959); topological order after A. B. Kahn, Comm. ACM 5 (1962). The
 * worked cases that tests/reckon/test_network.c checks name their own sources. */
#ifndef RECKON_NETWORK_H
#define RECKON_NETWORK_H

#include "base/arena.h"

struct network_link {
    int before, after;
};

/* Compressed rows: the predecessors of j are before[first_before[j]] .. before[first_before[j + 1]
 * - 1], in the order in which the links came; successors likewise. */
struct network {
    int jobs;
    const int *first_before, *before; /* [jobs + 1], [links] */
    const int *first_after, *after;
    const int *order; /* [jobs] every job behind all its predecessors */
};

/* A cycle, in the order of doing: job[0] before job[1] ... before job[0]. count 0: there is none.
 */
struct network_cycle {
    int count;
    int *job;
};

/* False if the links run in a cycle, which is then given; `out` is then not to be used. A link of a
 * job to itself is a cycle of one; a link told twice does no harm. Asserts that links name jobs
 * that exist. */
bool network_make(struct arena *a, int jobs, const struct network_link *links, int n_links,
                  struct network *out, struct network_cycle *cycle);

/* Early starts and finishes; returns the finish of the whole (0 without jobs). */
double network_forward(const struct network *n, const double *duration, double *start,
                       double *finish);

/* Late starts and finishes such that all is done by `horizon`. */
void network_backward(const struct network *n, const double *duration, double horizon,
                      double *late_start, double *late_finish);

/* All by job. Total float: what a job may slip before the whole slips. Free float: before any
 * successor slips. Sums of doubles round: on the critical path a float is 0 only within about 1e-15
 * of the finish. */
struct network_times {
    double finish;
    double *early_start, *early_finish, *late_start, *late_finish, *total_float, *free_float;
};
struct network_times network_times_of(struct arena *a, const struct network *n,
                                      const double *duration);

/* One critical chain, first job first, into chain[jobs]; returns its length. It ends at the job
 * that finishes last and goes back along the predecessor whose finish is the start, so that it is
 * exact where a float is not. Of equals the lower number is taken: where the floats show more
 * paths, this is one of them. */
int network_chain(const struct network *n, const double *early_start, const double *early_finish,
                  int *chain);

#endif
