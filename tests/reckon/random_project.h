/* random_project.h - random projects that are valid, to hold the simulator to its properties.
 *
 * A project is a pure function of `seed`, `with` and `jobs`: throws are told one by one, for the
 * order in which a compiler reckons the members of an initializer is its own. Its figures are
 * invented. */
#ifndef TESTS_RECKON_RANDOM_PROJECT_H
#define TESTS_RECKON_RANDOM_PROJECT_H

#include "reckon/project.h"

/* What it may contain. Without RANDOM_CALENDAR there is one session without end, with hands for
 * all. */
enum {
    RANDOM_CALENDAR = 1 << 0, /* evenings and weekends, some missed, lay-offs */
    RANDOM_HELPERS = 1 << 1,  /* sessions with more hands, and jobs for two */
    RANDOM_PLACE = 1 << 2,    /* jobs that need the bay or warmth, sessions without */
    RANDOM_UNBROKEN = 1 << 3,
    RANDOM_WAITS = 1 << 4,
    RANDOM_PARTS = 1 << 5,
    RANDOM_PURSE = 1 << 6, /* paydays, a reserve, a ceiling that is sometimes too low */
    RANDOM_COMPONENTS =
        1 << 7, /* jobs that are needed only in some conditions; some finished already */
    RANDOM_SETBACKS = 1 << 8,
    RANDOM_GATE = 1 << 9, /* surveys before a gate, the rest after it */
    RANDOM_ALL = (1 << 10) - 1,
};

/* Numbers for tests that need more of them: a stream of its own. */
struct dice {
    uint64_t seed;
    uint32_t next;
};
double dice_unit(struct dice *d);                      /* (0, 1) */
int dice_between(struct dice *d, int least, int most); /* both included */
bool dice_chance(struct dice *d, double p);

/* 5 to 120 jobs where `jobs` is 0. */
struct project random_project(struct arena *a, uint64_t seed, unsigned with, int jobs);

#endif
