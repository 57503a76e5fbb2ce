/* trade_clue.h - clues to what a vehicle is, and the clusters of clues that share a cause. */
#ifndef LIBRARY_TRADE_CLUE_H
#define LIBRARY_TRADE_CLUE_H

#include "library/trade_entry.h"

/* What a cluster bears on. */
enum clue_of {
    CLUE_OF_MILES,       /* how far it has run */
    CLUE_OF_CLOCK,       /* whether its clock was out, changed or set back */
    CLUE_OF_IDENTITY,    /* whether it is the vehicle that its plates and papers say */
    CLUE_OF_ORIGINALITY, /* whether it is as it left the works */
    CLUE_OF_COUNT
};
const char *clue_of_name(enum clue_of of);

/* Odds of an outcome: at five true mileages, or where the claim is true and where it is not. */
enum { CLUE_BANDS = 5, CLUE_COLUMNS_MOST = CLUE_BANDS };
extern const double clue_band_miles[CLUE_BANDS];
int clue_columns(enum clue_of of);

/* What may lie behind all clues of a cluster at once. */
struct trade_cause {
    const char *id, *text;
    double chance;
    double looks; /* of miles: it looks like so many times its miles; else 0: like the first column
                     whatever is true, 1: like the second */
};

struct trade_cluster {
    struct entry head;
    enum clue_of of;
    struct trade_cause *causes; /* beside "none" */
    int n_causes;
    bool papers; /* not counted where dated papers were told */
};

struct trade_outcome {
    const char *id, *text;
    double *odds;
    int n_odds; /* clue_columns */
};

struct trade_clue {
    struct entry head;
    int cluster, place;
    const char *how, *tool, *misleads;
    double minutes;
    struct trade_outcome *outcomes;
    int n_outcomes;
    int *cautions;
    int n_cautions;
    int *components; /* kinds without which there is nothing to look at */
    int n_components;
};

#endif
