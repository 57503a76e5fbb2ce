/* facts_safe.h - what was proved, checked, opened and overridden on one vehicle. */
#ifndef MODEL_FACTS_SAFE_H
#define MODEL_FACTS_SAFE_H

#include "model/facts.h"

struct fact_reading {
    const char *where, *unit, *source; /* or NULL */
    int proof;
    double value, low, high; /* low, high: the maker's, NAN where not told */
    day date, retest;
    const char *at; /* when it was told, UTC; texts of one form, so they compare */
};

struct fact_witnessed {
    int proof;
    bool holds;
    const char *by, *worker; /* or NULL */
    day date;
    const char *at;
};

struct fact_opened {
    int gate;
    day date, retest;
    const char *at, *reason, *missing; /* reason: of an override, else NULL */
};

struct fact_checked {
    int check;
    day date;
};

struct fact_job_done {
    int job;
    bool finished;
    day date;
    const char *at;
};

/* Oldest first. What names nothing that the trade data knows is left out. */
struct facts_safe {
    struct fact_reading *readings;
    int n_readings;
    struct fact_witnessed *witnessed;
    int n_witnessed;
    struct fact_opened *opened, *overrides;
    int n_opened, n_overrides;
    struct fact_checked *checks;
    int n_checks;
    struct fact_job_done *works;
    int n_works;
};

bool facts_safe_read(struct garage *g, struct arena *a, const struct trade *t, const char *vehicle,
                     struct facts_safe *out, struct fail *f);

#endif
