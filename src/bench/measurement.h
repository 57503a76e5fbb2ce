/* measurement.h - the words for what reckon/measure.h judged: the same on the page of a finding, in
 * the history of a vehicle and in the sum "measurement" (measurement.c, whose row this is).
 *
 * For the work log and the history: keep each reading as it was taken, with its day, unit and
 * gauge; when it is looked at, hand all of one thing to measure_judge, `at` as base/day.h counts,
 * values in the unit of the newest, and say the answer with this. Nothing that was judged is kept:
 * a limit that is learnt later judges old readings too. */
#ifndef BENCH_MEASUREMENT_H
#define BENCH_MEASUREMENT_H

#include "base/text.h"
#include "reckon/measure.h"

struct measurement_words {
    const char *state;   /* "Near the limit: 7 psi left" */
    const char *trend;   /* "falls by 13.9 psi a year, give or take 1.9", or why none can be told */
    const char *crosses; /* "about 2030-03, between 2029-11 and 2030-08", NULL if none is told */
    const char *means;   /* what to do */
};
struct measurement_words measurement_say(struct arena *a, const struct measured *m,
                                         const char *unit);

#endif
