/* facts_worth.h - what a choice is weighed by, as plain values in the currency of the vehicle's
 * other figures. What cannot be used is left out with a line that says so. */
#ifndef MODEL_FACTS_WORTH_H
#define MODEL_FACTS_WORTH_H

#include "model/facts.h"

/* How many of `per` one of `currency` costs by the latest rate typed, either way round; 0: none is
 * known. */
double facts_rate(const struct facts *facts, const char *currency, const char *per);

/* What minor units of `currency` are multiplied by to be minor units of `per`; 0: no rate. */
double facts_minor(const struct facts *facts, const char *currency, const char *per);

struct fact_comparable {
    double minor;
    bool asked;
    day date;
    double grade, original, kilometres; /* original -1, kilometres -1: not told */
    const char *note;                   /* or NULL */
};

struct fact_grade {
    bool set;
    double grade, original; /* original -1: not told */
};

struct fact_tripwire {
    double spent; /* minor; 0: not watched */
    day passed;   /* DAY_NONE: not watched */
    const char *component;
    int kind,
        place; /* as of a finding; kind -1: not watched, or nothing that the trade data knows */
    enum condition condition; /* that, or worse */
    const char *why;          /* or NULL */
};

struct fact_instead {
    const char *what; /* NULL: none */
    struct points price, bill, worth;
    double hours, months; /* 0 where not told */
};

struct facts_worth {
    struct fact_comparable *comparables; /* oldest record first */
    int n_comparables;
    struct fact_grade grades[WORTH_COUNT];
    double month, original, driving; /* minor; 0: not told */
    bool weighed;                    /* weights were told */
    struct fact_tripwire *tripwires;
    int n_tripwires;
    struct fact_instead instead;
    double spent, hours; /* orders and deposits, and work logged, so far */
    const char **lines;  /* what was left out, and why */
    int n_lines;
    size_t lines_capacity;
};

/* facts: of the same vehicle. currency: of all sums of the result. */
bool facts_worth_read(struct garage *g, struct arena *a, const struct trade *t,
                      const struct facts *facts, const char *currency, struct facts_worth *out,
                      struct fail *f);

#endif
