/* market.h - what the sales of others say that a vehicle would fetch.
 *
 * The log of a price is a line in the grade, the originality, whether it was asked or paid, how
 * long ago and how far away. Beforehand (mark: practice) a step of grade is thought to be a quarter
 * to a third of the price, all of the originality a quarter, an asked price a tenth above a paid
 * one, a year 0 to a twentieth either way, and distance nothing in either direction; with few sales
 * these thoughts hold the line, with many the sales do. Of the level nothing is thought. Prices
 * scatter by a quarter about the line, which is worth four sales.
 *
 * The band is that of one more sale, so it keeps the scatter however many sales there are. */
#ifndef RECKON_MARKET_H
#define RECKON_MARKET_H

#include "base/points.h"
#include "reckon/regress.h"

enum { MARKET_FEWEST = 5 }; /* sales below which no line is drawn (practice) */

struct market_sale {
    double price;      /* > 0, any unit, the same for all */
    bool asked;        /* else paid */
    double years;      /* since it, >= 0 */
    double grade;      /* 1 flawless .. 5 to be restored */
    double original;   /* 0..1 */
    double kilometres; /* away, >= 0 */
};

struct market {
    struct regress line;
    const struct market_sale *sales;
    int n_sales;
};

/* False below MARKET_FEWEST. */
bool market_fit(struct arena *a, const struct market_sale *sales, int n, struct market *out);

/* What it would be sold for today and near: 10th percentile, median and 90th. */
struct points market_worth(const struct market *m, double grade, double original,
                           struct arena scratch);

/* The sale that pulls that median most: its index, and by what factor the median is higher for its
 * being there (below 1: lower). */
struct market_pull {
    int sale;
    double factor;
};
struct market_pull market_pull_of(const struct market *m, double grade, double original,
                                  struct arena scratch);

#endif
