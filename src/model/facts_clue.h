/* facts_clue.h - what tells of a vehicle's past, as plain values: clock, dated papers, clues. */
#ifndef MODEL_FACTS_CLUE_H
#define MODEL_FACTS_CLUE_H

#include "garage/garage.h"
#include "library/trade.h"

struct fact_clock {
    bool told;
    double reading; /* in its own unit */
    int digits;     /* 0: not told */
    bool km;
    int working; /* 1 yes, 0 no, -1 not told */
};

struct fact_paper {
    day date;
    double miles;
    bool km;          /* as typed */
    const char *what; /* or NULL */
};

struct fact_clue {
    int clue, outcome; /* indices of trade data; clue -1: not one that it knows */
    const char *name, *outcome_name, *value, *note; /* as typed; value, note: or NULL */
    day date;
    int how;    /* 0 seen, 1 told, 2 inferred, -1 not said */
    int before; /* how often it was told before: the latest counts */
};

struct facts_clue {
    struct fact_clock clock;
    struct fact_paper *papers; /* by date */
    int n_papers;
    struct fact_clue *clues; /* each clue once, as told last; in order of telling */
    int n_clues;
    int told_year; /* in which the vehicle was told of last: years standing count from it */
};

static const double MILES_A_KM = 1 / 1.609344; /* published: NIST SP 811 */

bool facts_clue_read(struct garage *g, struct arena *a, const struct trade *t, const char *vehicle,
                     struct facts_clue *out, struct fail *f);

/* "bore-ridge", "ridge at the top of the bores" -> index; false, and the nearest, if there is none.
 */
bool clue_parse(const struct trade *t, const char *word, int *clue, struct fail *f);
/* "deep", or its words; false, and a list, if the clue has no such outcome. */
bool clue_outcome_parse(const struct trade *t, int clue, const char *word, int *outcome,
                        struct fail *f);

#endif
