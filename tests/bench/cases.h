/* cases.h - published and reckoned cases of the sums, one table a system in cases_SYSTEM.c;
 * test_cases.c runs them all. */
#ifndef TEST_CASES_H
#define TEST_CASES_H

#include "base/mark.h"

struct bench_case {
    const char *id;       /* of the collection of cases, or "" */
    const char *calc;     /* name */
    const char *given;    /* "diameter=8mm; pitch=1.25" - parted by semicolons */
    const char *output;   /* name of an output; "verdict": good, care or bad; "refused": the line's
                             beginning; "note": that of one of its notes */
    const char *expected; /* with its unit, or the text (its beginning) */
    const char *within;   /* "0.1 mm", "0.5 %"; NULL: to the letter */
    enum mark mark; /* of the expected value; MARK_NONE: reckoned from the formula elsewhere */
    const char *source;
};

extern const struct bench_case cases_threads[]; /* each ended by a NULL calc */
extern const struct bench_case cases_fasteners[];
extern const struct bench_case cases_electrical[], cases_charging[];
extern const struct bench_case cases_fuel[], cases_seals[];
extern const struct bench_case cases_engine[];
extern const struct bench_case cases_suspension[], cases_towing[];
extern const struct bench_case cases_suspension[];
extern const struct bench_case cases_engine[], cases_cooling[];
extern const struct bench_case cases_brakes[];
extern const struct bench_case cases_engine[], cases_cooling[], cases_measurement[];
extern const struct bench_case cases_brakes[], cases_driveline[];

#endif
