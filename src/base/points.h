/* points.h - a figure given as three points, and how it is drawn.
 *
 * low, middle and high are the 10th percentile, the median and the 90th, 0 < low <= middle <= high.
 * The draw is middle * exp(s z), z standard normal, s = ln(middle/low)/1.28155 below the middle and
 * ln(high/middle)/1.28155 above: the one two-piece lognormal that has these three percentiles.
 * All zero means "none" and always draws 0. */
#ifndef BASE_POINTS_H
#define BASE_POINTS_H

#include "base/fail.h"

struct points {
    double low, middle, high;
};

/* "2/5/12", "2 / 5 / 12" or a single "5"; each part is parsed with text_to_double. Checks the
 * order. */
bool points_parse(const char *s, struct points *out, struct fail *f);
bool points_valid(struct points p); /* all zero, or 0 < low <= middle <= high, finite */
struct points points_scale(struct points p, double by);
double points_draw(struct points p, double z);
/* The z that a drawn value came from: the inverse of points_draw. p must not be "none" and value
 * must be above 0 (asserted); where a side has no spread, 0. */
double points_z(struct points p, double value);
/* Mean of the two-piece lognormal: middle * (e^(a^2/2) Phi(-a) + e^(b^2/2) Phi(b)), a below, b
 * above. */
double points_mean(struct points p);

#endif
