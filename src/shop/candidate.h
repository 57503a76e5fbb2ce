/* candidate.h - a vehicle that might be bought: what to look at in the minutes that there are, the
 * highest price at which it pays, and what says walk away.
 *
 * All from the draws of choose: net = worth when done - money still to spend - hours x own rate.
 * The highest price of a direction is the P with P(net - P - carriage >= 0) = the builder's odds:
 * a quantile of the nets, less the carriage. After a look it is the same quantile of those runs in
 * which the look would have shown this. */
#ifndef SHOP_CANDIDATE_H
#define SHOP_CANDIDATE_H

#include "model/facts_candidate.h"
#include "shop/choose.h"

struct candidate_price {
    const struct choose_direction *direction;
    bool known;   /* worths were told */
    double price; /* minor units; below 0: at no price */
    double pays;  /* share of runs in which it pays at the asked price; -1: none was asked */
};

/* One stop of the walk: a sign, or a look. */
struct candidate_stop {
    const struct trade_place *lap, *place;
    double minutes;
    const char *seen_by;
    const struct trade_sign *sign; /* NULL: a look */
    const struct choose_look *look;
    struct look_worth worth; /* of the look, walking away being a choice where a price is asked */
    const struct trade_sign *meets; /* a sign that an answer to the look can meet, or NULL */
    double moves; /* standard deviation of the mean net (of `best`; else bill) by what it shows */
    double bad;   /* share of runs in which it is poor or worse */
    /* Highest price of `best` (or, without worths, the middle bill of the leading direction) if the
     * look is good, and if it is bad; NAN where the runs cannot tell the two apart. */
    double if_good, if_bad;
};

struct candidate_met {
    const struct trade_sign *sign;
    const char *by; /* the component whose finding meets it; NULL: it was told */
};

/* What one part of the served vehicle's order list could be worth here. */
struct candidate_part {
    const struct trade_part *part;
    double wanted, good, price, worth; /* odds, odds, minor units */
};

struct candidate_parts {
    const char *vehicle, *direction;
    struct candidate_part *parts;
    int n_parts;        /* worth most first */
    double used;        /* what a good used part is worth of its price */
    double parts_worth; /* sum */
    struct points net;  /* parts + remains - asked - carriage - room */
    double room;        /* minor units */
};

struct candidate {
    struct choose choose;
    struct facts_candidate facts;
    double odds;
    struct candidate_price *prices; /* by direction, as in choose */
    int best;                       /* index with the highest price; -1: no worths, so no price */
    int met_count;                  /* signs that are met */
    struct candidate_met *met;
    struct candidate_stop *stops;
    int n_stops, looks; /* in the order of the walk; how many are looks */
    int left_out;       /* looks that could be taken but for the minutes */
    double minutes, minutes_given;
    double minutes_spent; /* on what was told today */
    int looks_spent;
    /* What the latest finding did to the highest price of all directions; both on the same few
     * runs. */
    bool moved;
    const char *moved_by;
    double moved_before, moved_after;
    const struct trade_direction *best_before;
    bool seized, brakeless, in_pieces;
    struct candidate_parts *parts; /* NULL: it is no parts car */
};

bool candidate_reckon(struct arena *a, const struct shop_ask *ask, struct candidate *out,
                      struct fail *f);

#endif
