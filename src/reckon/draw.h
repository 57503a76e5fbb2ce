/* draw.h - what one run turns out to be: conditions, hours, setbacks, leads, prices, sessions kept.
 *
 * Every figure has a stream of its own, named by its entry, so that an added job disturbs no other
 * draw and two directions share the draws of what they have in common. Nothing here knows of the
 * schedule. */
#ifndef RECKON_DRAW_H
#define RECKON_DRAW_H

#include "reckon/belief.h"
#include "reckon/schedule.h"

/* Room for one run's draws; used again for the next. */
struct drawn drawn_new(struct arena *a, const struct project *p);

/* Fills `out` for run number `run`. `without` is a setback that never happens, or -1. Returns the
 * money of all that the run needs, in minor units, whether the purse could pay it or not; hands-on
 * minutes into *work. */
double draw_run(const struct project *p, const struct belief *b, uint64_t seed, uint32_t run,
                int without, struct drawn *out, double *work);

/* Which of the first out->n_kept sessions are kept: the same for the first of them however many are
 * asked for. draw_run has done it; a caller that drew few asks again for more. */
void draw_sessions(const struct project *p, uint64_t seed, uint32_t run, struct drawn *out);

/* Which of the project's doublings this run has; -1 if it has none. */
int draw_miles(const struct project *p, uint64_t seed, uint32_t run);

/* The typical run: middle figures, every session kept, no setback; `applies` is the caller's (by
 * job). */
void draw_typical(const struct project *p, const uint8_t *applies, struct drawn *out);

/* One figure from a spread. */
double spread_draw(const struct spread *s, double z);

#endif
