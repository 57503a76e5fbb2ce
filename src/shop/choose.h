/* choose.h - what shall become of it: the directions side by side on the same draws, what each is
 * worth to this builder, and the look that could change the choice.
 *
 * net = worth when done - money still to spend - hours x own rate, all in the same run. What is
 * spent already is the same whatever is chosen, and so counts nothing. value = net, and what the
 * builder would give for time, originality and driving. The directions that are not done in most
 * of the runs, for want of money or years, are shown but not chosen from.
 *
 * Where worth comes from: from MARKET_FEWEST sales of others on, the band that they give at the
 * grade and originality of the end state; below that the builder's own three points. Never a blend:
 * five prices outweigh a guess, and where the guess lies outside their band that is said. Both are
 * of usual ones; what clock, papers and clues say of miles, numbers and origin moves them, in each
 * run by what is true in it. */
#ifndef SHOP_CHOOSE_H
#define SHOP_CHOOSE_H

#include "model/facts_worth.h"
#include "reckon/decide.h"
#include "reckon/look.h"
#include "reckon/market.h"
#include "reckon/quantile.h"
#include "shop/reckoning.h"
#include "shop/tripwire.h"

enum worth_from { WORTH_UNKNOWN, WORTH_TOLD, WORTH_SALES };

struct choose_worth {
    enum worth_from from;
    struct points band;     /* minor units; as used: moved by `follows` */
    double follows;         /* what is known of its past multiplies the usual by; 1: nothing is */
    struct points told;     /* the builder's own beside that of the sales; all zero: none */
    bool apart;             /* the middle of what was told lies outside the band of the sales */
    double grade, original; /* of the end state, where sales are used */
};

/* What a value is made of: means over the runs, each as it counts (a bill below 0). */
enum choose_part {
    PART_WORTH,
    PART_BILL,
    PART_HOURS,
    PART_TIME,
    PART_ORIGINAL,
    PART_DRIVING,
    PART_COUNT
};

struct choose_direction {
    const struct trade_direction *direction;
    bool decided;
    struct quantiles cost, finish, hours; /* minor units; moments; hours */
    double never; /* share of runs that do not finish within the calendar and the purse */
    struct choose_worth worth;
    bool worth_known; /* a net is known: worth done, and worth today */
    struct quantiles net;
    double part[PART_COUNT];
    double chance_ahead; /* P(net > worth today) */
    double months; /* mean to the finish; of a run that never does: to the end of the calendar */
    int jobs;      /* jobs of the direction on this vehicle */
    int choice;    /* among the choices, or -1: no net, or not done in most of the runs */
    const double *cost_by_run, *net_by_run; /* net: NULL where it is not known */
};

/* What is chosen from: directions, and to sell and start from another one. */
struct choose_choice {
    const char *name;
    int direction; /* or -1: to start from another one */
    struct quantiles value;
    double part[PART_COUNT];
    struct decide_choice odds;
};

/* What a look could show, or a clue. */
struct choose_sign {
    const char *id, *text;
    double chance;
    int choice;  /* that then leads: other than led_by only beyond two errors; -1: none is compared
                  */
    double bill; /* mean of the leading direction's then */
};

/* A component that nobody has seen, or a clue that nobody has told: one list. */
struct choose_look {
    const char *component; /* id with its place; NULL: a clue */
    const struct trade_component *kind;
    const struct trade_clue *clue;
    const char *place, *how;
    double minutes;
    double odds[COND_COUNT];
    struct look_worth worth; /* minor units; gain 0 where no worths are known */
    bool leads; /* a job or setback of the leading direction hangs on it; of a clue: yes */
    struct choose_sign *signs; /* conditions, or the clue's outcomes */
    int n_signs;
    double swing; /* how far apart the bill of `leading` is between what it could show; 0: that is
                     not beyond chance */
    double moves; /* standard deviation of that bill over what it could show, less what chance alone
                     would make; 0 where swing is */
    double explained; /* share of the variance of date plus that of bill that it explains, 0..2 */
    double days,
        money; /* how far the 10-90 % band of date (days) and bill (minor) of `leading` narrows */
    bool narrows;         /* beyond two errors */
    const uint8_t *shows; /* by run: the condition that it would show; NULL of a clue */
};

/* One thing that would change the choice, all else as it is, on the same draws. */
enum change_what {
    CHANGE_WORTH,       /* of the leading choice: falls to `at` */
    CHANGE_BILL,        /* of the leading choice: rises to `at` */
    CHANGE_OTHER_WORTH, /* of the runner: rises to `at` */
    CHANGE_RATE,        /* an hour of the builder's: rises to `at` */
    CHANGE_MONTH,       /* a month sooner: rises to `at` */
    CHANGE_KEEPING,     /* keeping all of it original: rises to `at` */
    CHANGE_DRIVING,     /* having it to drive: rises to `at` */
    CHANGE_COMPONENT,   /* the chance that `component` is bad: goes to `at` */
};
struct choose_change {
    enum change_what what;
    double now, at;
    int to; /* the choice that then leads */
    const char *component;
};

/* Above this share of unfinished runs a direction is not chosen from; components told of. */
#define CHOOSE_NEVER 0.5
enum { CHOOSE_COMPONENTS = 3 };

struct choose {
    const struct trade *trade;
    const char *vehicle, *currency;
    day first, as_of;
    uint64_t seed;
    int runs;
    const char **notes;
    int n_notes;
    const char *after;
    struct crossed *crossed; /* tripwires: the choice is open again */
    int n_crossed;
    struct choose_worth worth_now;
    bool worth_now_known;
    const struct facts_worth *facts; /* comparables, weights, what is spent */
    struct market_pull pull;         /* with sales: on the worth as it stands */
    int n_sales;                     /* that the line was drawn through; 0: too few */
    double own_rate;                 /* minor units an hour; 0 where none was told */
    struct choose_direction *directions;
    int n_directions;
    struct choose_choice *choices;
    int n_choices;
    bool compared; /* there are at least two choices */
    int leading;   /* direction: best mean value; without worths the decided one or "drive" */
    int led_by;    /* choice that leads, and the next; -1 where there is none */
    int runner;
    int safest;
    double ahead, ahead_error; /* of the leading choice over the next, in mean value */
    struct choose_change *changes;
    int n_changes;
    struct choose_look *looks;
    int n_looks;    /* the most expected a minute first */
    int unseen;     /* components that nobody has seen */
    bool any_tells; /* a look could change the choice, beyond three errors */
};

bool choose_reckon(struct arena *a, const struct shop_ask *ask, struct choose *out, struct fail *f);

#endif
