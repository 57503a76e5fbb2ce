/* measured.h - one reading, as it is typed: in which unit, against which limit, what it says with
 * those before it, and whether it looks like a slip. Nothing is stored here. */
#ifndef SHOP_MEASURED_H
#define SHOP_MEASURED_H

#include "bench/measurement.h"
#include "garage/garage.h"
#include "library/trade.h"

struct measured_ask {
    struct garage *garage;
    const struct trade *trade;
    const char *vehicle; /* id */
    day today;
    const char *what;       /* a proof of the trade data, or own words */
    const char *value;      /* with its unit: "148 psi" */
    const char *where;      /* or NULL */
    const char *low, *high; /* the maker's figures in the unit of the proof or the value; or NULL */
};

enum { MEASURED_QUESTIONS = 4 };

struct measured_reading {
    const struct trade_proof *proof; /* NULL: own words */
    const char *what, *where;        /* where: or NULL */
    const char *unit;                /* of value, limits and history: the proof's, if it has one */
    double value;
    const char *typed; /* as typed, where it was another unit; or NULL */
    bool maker;        /* the limit is the maker's */
    struct limit limit;
    bool look_up; /* only the maker's figure says, and it was not told: that is never a pass */
    int before;   /* readings of the same thing, in the same unit */
    struct measured judged; /* its state counts only if there is a limit */
    struct measurement_words words;
    const char *questions[MEASURED_QUESTIONS];
    int n_questions; /* to be answered yes before it is stored */
};

/* FAIL_INPUT for what is no figure, or is in a unit of something else. */
bool measured_read(struct arena *a, const struct measured_ask *ask, struct measured_reading *out,
                   struct fail *f);

#endif
