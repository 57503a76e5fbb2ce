/* measure.h - what a measurement says: against its limit now, and, with those before it, where it
 * is going and when it would be past the limit.
 *
 * Values are in any one unit; `at` is whatever wears - days, or miles. The history of a vehicle and
 * the work log keep readings as they were taken; what judges them is measure_judge, and what says
 * it is bench/measurement.h, the same for the pages and for the sum "measurement".
 *
 * A trend is told only where it is more than chance: three readings or more, not all at once, and a
 * slope that differs from none with 95 % confidence (Student's t; the scatter is never taken below
 * what the gauge may be off). When it would cross the limit is told with Fieller's interval, which
 * is exact for a line through readings that scatter alike. A line is no law: what wears may wear
 * faster later, and `far` says when it is drawn out beyond what was watched.
 *
 * From memory: E. C. Fieller, Journal of the Royal Statistical Society B 16 (1954) 175-185. */
#ifndef RECKON_MEASURE_H
#define RECKON_MEASURE_H

#include <stdbool.h>

struct limit {
    bool has_low, has_high; /* at least low; at most high; both: between */
    double low, high;       /* low < high if both */
    double margin;          /* so near inside counts as near; >= 0 */
};

struct reading {
    double at, value;
};

enum measure_state {
    MEASURE_GOOD,
    MEASURE_NEAR,
    MEASURE_PAST,
    MEASURE_CANNOT_TELL, /* no limit, or the gauge is no finer than what is left */
};

enum measure_trend {
    TREND_FEW,     /* under three readings */
    TREND_AT_ONCE, /* all at one time */
    TREND_CHANCE,  /* they scatter as much as they move */
    TREND_NONE_TO, /* it moves, and to no limit: away from it, or there is none there */
    TREND_TO,      /* it moves to the limit that it is on the good side of */
};

struct measured {
    enum measure_state state;
    double left; /* to the nearest limit, below 0 past it; 0 without a limit */
    enum measure_trend trend;
    /* From TREND_CHANCE on: by unit of `at`, least squares; its standard error; and what to give or
     * take of it at 95 %. */
    double slope, error, give;
    double crosses, soonest, latest; /* TREND_TO: `at` of the crossing, its 95 % interval; none
                                        before the last reading */
    bool far; /* TREND_TO: more than twice the time that was watched after the last reading */
};

/* n >= 1, in any order; judged now is the one with the greatest `at` (the last listed of equals).
 * gauge: by how much a reading may be off, 95 of 100 times; >= 0. All finite. */
struct measured measure_judge(const struct limit *limit, const struct reading *readings, int n,
                              double gauge);

/* "good", "near the limit", "past it", "cannot tell" */
const char *measure_state_word(enum measure_state s);

#endif
