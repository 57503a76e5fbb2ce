/* identify.h - what it really is: how far it ran, what its clock did, what the clues say, and which
 * clue is worth taking next: the list of choose, and behind what that cannot tell apart the bits of
 * information a minute, miles and clock first. */
#ifndef SHOP_IDENTIFY_H
#define SHOP_IDENTIFY_H

#include "model/evidence.h"
#include "reckon/quantile.h"
#include "shop/choose.h"

/* What is claimed of it, with its odds. */
struct identify_claim {
    enum clue_of of;
    enum mileage_story story;
    int turns;
    double miles; /* that it ran less than these; 0: the story is the claim */
    double share; /* probability */
    bool told;    /* a clue, clock or paper bears on it */
};

struct identify_story {
    enum mileage_story story;
    int turns;
    double share;
    double miles; /* what it would have run; the median of the story */
};

struct identify_clue {
    const struct trade_clue *clue;
    const struct trade_outcome *outcome;
    const struct fact_clue *fact;
    enum clue_of of;
    double decibans; /* its push on the claim that it bears on */
};

struct identify_next {
    const struct trade_clue *clue;
    enum clue_of of;
    double bits, per_minute;            /* information that is expected of it */
    const double *chance, *claim_after; /* by outcome */
    const struct choose_look *look;     /* what it could change of the choice; NULL: not reckoned */
    int place;                          /* in the list of choose; beyond it: nothing told there */
};

struct identify_conflict {
    const struct trade_clue *one, *other; /* other NULL: against all else */
    const struct trade_cluster *cluster;  /* alone: its clues fit nothing; else NULL */
    double decibans;                      /* how much rarer together than apart */
};

enum { IDENTIFY_BINS = 13, IDENTIFY_STORIES = 16, IDENTIFY_CONFLICTS = 8 };

struct identify {
    const char *vehicle;
    const struct trade *trade;
    const struct facts *facts;
    struct past past;
    struct quantiles miles;
    double quarter[2];         /* half of the weight lies between */
    double bin[IDENTIFY_BINS]; /* share by 25,000 miles, the last and beyond */
    double bin_width;
    struct identify_story stories[IDENTIFY_STORIES];
    int n_stories;               /* the likeliest first */
    struct identify_claim claim; /* the headline: the likeliest story */
    struct identify_claim less,
        untouched; /* what clues to miles and to the clock are held against */
    struct identify_claim identity, original;
    struct identify_clue *clues;
    int n_clues; /* the strongest push first */
    struct identify_next *next;
    int n_next;                  /* the one worth taking first */
    const struct choose *choose; /* NULL: it cannot be reckoned */
    struct identify_conflict conflicts[IDENTIFY_CONFLICTS];
    int n_conflicts;
    int falls; /* the first paper that reads less than the one before, or -1 */
};

bool identify_reckon(struct arena *a, const struct shop_ask *ask, struct identify *out,
                     struct fail *f);

#endif
