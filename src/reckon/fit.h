/* fit.h - which options to take and where to buy their parts, together, at the least cost.
 *
 * An option is a 0/1 choice. A need is met by exactly one of its options, always, or only while one
 * of the options that wake it is chosen: so what "bolts on" brings others. An option without a need
 * is an adapter, free to take. A rule says: where all of `when` are chosen, at least one of
 * `one_of` is too; an empty `one_of` is a conflict, an empty `when` is a demand; a join that
 * adapters can close is a rule whose `one_of` are the adapters.
 *
 * Parts that options take are bought from offers. An order pays its supplier's carriage once. The
 * least of
 *
 *     money (own, goods, carriage) + lateness + weight x originality lost
 *
 * is searched by branch and bound (fit_search.h) and told with a bound that no set can beat.
 *
 * All money is in minor units of one currency. Everything is an index into the model; the caller
 * knows the names. Magnitudes: fit_valid. Same model, same answer, on each run: work is counted in
 * nodes of the search, never by a clock. */
#ifndef RECKON_FIT_H
#define RECKON_FIT_H

#include "base/arena.h"
#include "base/fail.h"

#include <stdint.h>

struct fit_take {
    int part, count; /* count >= 1 */
};

struct fit_use {
    int limit;
    int64_t amount; /* below zero: it adds room (a larger charger) */
};

enum fit_held { FIT_FREE, FIT_TAKEN, FIT_BARRED }; /* the builder has decided it already, or not */

struct fit_option {
    int need;      /* -1: an adapter */
    int64_t money; /* its own, without parts; below zero: it brings money in */
    int64_t lost;  /* points of originality; below zero: regained */
    bool irreversible;
    enum fit_held held;
    const struct fit_take *takes; /* a part at most once */
    int n_takes;
    const struct fit_use *uses; /* a limit at most once */
    int n_uses;
};

struct fit_need {
    const int *woken_by; /* options; none: the need is always there */
    int n_woken_by;
};

struct fit_rule {
    const int *when, *one_of; /* options */
    int n_when, n_one_of;
    int tag; /* the caller's, for telling; nothing here reads it */
};

struct fit_part {
    int spare;  /* so many may be bought beyond the need: for a price break, or to earn carriage */
    bool whole; /* all of it from one offer: a matched set, one batch of paint */
};

struct fit_break {
    int from;     /* at this count and above, up to the next, */
    int64_t unit; /* each one costs this: the price of all of them, not of those above only */
};

struct fit_offer {
    int part, supplier;
    const struct fit_break *breaks; /* by rising `from`; the first is the least that is sold */
    int n_breaks;                   /* >= 1 */
    int most;                       /* that can be had; 0: no end */
    int64_t core; /* of each: paid with it, comes back with the old part; counts against a purse
                     only. Where the old part is kept the caller adds it to the price. */
    int64_t late; /* what waiting for this offer costs, once, if it is used */
};

struct fit_supplier {
    int64_t carriage;    /* of an order */
    int64_t least_order; /* goods, without cores; 0: none */
    int64_t free_from;   /* goods from which there is no carriage; 0: never */
};

struct fit_limit {
    int64_t most;
    bool purse; /* counts, beside the uses, all money paid: own, goods, cores, carriage */
};

struct fit_model {
    const struct fit_option *options;
    const struct fit_need *needs;
    const struct fit_rule *rules;
    const struct fit_part *parts;
    const struct fit_offer *offers;
    const struct fit_supplier *suppliers;
    const struct fit_limit *limits;
    int n_options, n_needs, n_rules, n_parts, n_offers, n_suppliers, n_limits;
    int64_t weight;       /* of a point of originality */
    bool no_irreversible; /* bar them all */
};

/* Indices that exist, counts and prices not below zero, breaks that rise, and sums small enough to
 * be exact; the first fault in one line with its index ("rule 3: no option 17"). To be asked once;
 * everything below asserts it. */
bool fit_valid(const struct fit_model *m, struct fail *f);

enum fit_state {
    FIT_PROVEN,  /* nothing costs less */
    FIT_FOUND,   /* the work ended first: `bound` tells how far off it may be */
    FIT_NOTHING, /* proven that nothing fits: ask fit_clash_of */
    FIT_UNKNOWN, /* the work ended before anything was found */
};

struct fit_buy {
    int offer, count;
    int64_t goods, cores; /* of all of them */
};

struct fit_basket { /* one supplier's order; suppliers in the order of the model */
    int supplier;
    int first, n; /* of buys */
    int64_t goods, cores, carriage;
};

struct fit_cost {
    int64_t own, goods, carriage; /* money that is gone */
    int64_t late;
    int64_t originality; /* weight x lost */
    int64_t total;       /* of the five */
    int64_t cores;       /* money that comes back; not in the total */
    int64_t lost;        /* points */
};

struct fit_answer {
    enum fit_state state;
    uint8_t *chosen;      /* by option; the rest is empty unless something was found */
    struct fit_buy *buys; /* by supplier, then offer */
    int n_buys;
    struct fit_basket *baskets;
    int n_baskets;
    int64_t *used; /* by limit */
    struct fit_cost cost;
    int64_t bound; /* of the total: no set costs less */
    int64_t nodes; /* of the search */
};

#define FIT_MOST_MONEY ((int64_t)1 << 40) /* of any one figure */

enum { FIT_NODES = 100000 }; /* work enough for a garage */

struct fit_answer fit_solve(struct arena *a, const struct fit_model *m, int64_t most_nodes);

/* The next best answers, each with other options for the needs than `best` and than those before
 * it; adapters alone make no difference. Returns how many of `most` there are. */
int fit_next(struct arena *a, const struct fit_model *m, const struct fit_answer *best,
             int64_t most_nodes, struct fit_answer *out, int most);

/* The own money of an option at which the choice flips: at `money` or less it belongs to a best
 * answer, at more it does not. */
struct fit_flip {
    bool flips;  /* false: at no price, since it does not fit at all, or nothing fits without it */
    bool proven; /* else the work ended first and the figure is only near */
    int64_t money;
};
struct fit_flip fit_flip_of(struct arena *a, const struct fit_model *m,
                            const struct fit_answer *best, int option, int64_t most_nodes);

/* Why nothing fits: a set that clashes, each of which is needed for the clash, and the one whose
 * loosening alone lets something fit at the least cost. A purse that is short clashes with half of
 * the garage: where more than FIT_CLASH_MOST parts, needs and rules belong to the set they are not
 * listed, and it is `wide`: what is listed clashes with all of them together. */
enum { FIT_CLASH_MOST = 12 };

enum fit_clash_kind {
    FIT_NEED,         /* the need need not be met */
    FIT_RULE,         /* left out */
    FIT_LIMIT,        /* raised */
    FIT_HELD,         /* the option is free again */
    FIT_IRREVERSIBLE, /* allowed; `which` is 0 */
    FIT_PART,         /* got from elsewhere, free */
    FIT_LEAST_ORDER,  /* the supplier asks for none */
};

struct fit_clash_member {
    enum fit_clash_kind kind;
    int which;
    bool frees; /* loosened alone, something fits, at: */
    int64_t total;
    int64_t raise; /* of a limit: the least by which it must be raised; `total` is at any raise */
};

struct fit_clash {
    struct fit_clash_member *members; /* none: something fits after all */
    int n;
    bool wide;
    int helps_most; /* index of the member that frees at the least total; -1: none does alone */
    bool proven;    /* else the work ended first: the set clashes, but may be larger than needed */
};
/* most_nodes: of each search for what helps; a small share for each step towards the set. */
struct fit_clash fit_clash_of(struct arena *a, const struct fit_model *m, int64_t most_nodes);

/* An answer against its model by other means than those that found it: everything that is told
 * must be so, and reckoned anew; that nothing costs less it cannot tell. */
bool fit_check(const struct fit_model *m, const struct fit_answer *answer, struct arena scratch,
               struct fail *f);

#endif
