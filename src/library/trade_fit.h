/* trade_fit.h - what parts can be met by, and what must agree where they meet.
 *
 * A need is met by one of its options. An option brings further needs ("a bolt-on part brings
 * others"), gives and takes numbers at joins, and puts its parts and hours into the jobs of its
 * need. An option without a need is an adapter: it stands between two ends of a join that do not
 * agree. A fitting says what a component of the vehicle as it stands gives or takes; a figure that
 * nobody knows is not invented. */
#ifndef LIBRARY_TRADE_FIT_H
#define LIBRARY_TRADE_FIT_H

#include "base/points.h"
#include "library/trade_answer.h"
#include "library/trade_entry.h"
#include "library/trade_identity.h"

#include <stdint.h>

struct trade_buy;

/* When two ends of a join agree. */
enum join_rule {
    JOIN_INSIDE, /* what is given lies within what is taken */
    JOIN_SAME,   /* the same word */
    JOIN_NEAR,   /* two figures that differ by no more than `within` */
    JOIN_RULES
};

struct trade_join {
    struct entry head;
    int system;
    enum join_rule rule;
    const char *unit;          /* of its figures; NULL where ends are words */
    double within;             /* of JOIN_NEAR, in the unit */
    const char *gives, *takes; /* what its ends are: "what the charger puts out" */
    const char *measure;       /* how an unknown end is found out */
    const char *misfit;        /* what happens when the ends do not agree */
    int *cautions;
    int n_cautions;
};

/* One end of a join. Figures reach from least to most; unknown where neither is said. */
struct trade_end {
    int join;
    double least, most; /* NAN: not said; of JOIN_NEAR both are the figure */
    const char *is;     /* of JOIN_SAME; NULL: not known */
};

struct trade_fitting {
    struct entry head;
    int component;
    struct fitted fitted;
    struct trade_end *gives, *takes;
    int n_gives, n_takes;
};

struct trade_need {
    struct entry head;
    int system;
    int *jobs; /* that stand or fall with it; none: only brought by an option */
    int n_jobs;
    struct fitted fitted;
};

enum option_way {
    WAY_KEEP, /* what is there serves as it is */
    WAY_REFURBISH,
    WAY_LIKE,
    WAY_EXCHANGE,
    WAY_SECOND_HAND,
    WAY_UPGRADE,
    WAY_ADAPTER,
    WAY_COUNT
};
const char *option_way_name(enum option_way w);

/* Can it be undone? */
enum option_undo { UNDO_YES, UNDO_WITH_CARE, UNDO_NO, UNDO_COUNT };
const char *option_undo_name(enum option_undo u);

/* What an adapter takes in, and what it gives on at the same join. */
struct trade_adapts {
    struct trade_end in, out; /* out.join is not said: it is that of in */
};

struct trade_option {
    struct entry head;
    int need; /* index, or -1: an adapter */
    enum option_way way;
    struct fitted fitted;
    struct trade_buy *parts;
    int n_parts;
    struct points hours;
    int *brings; /* needs */
    int n_brings;
    int *replaces; /* components, whose fittings go with them */
    int n_replaces;
    int *frees; /* fittings that no longer count, their component staying */
    int n_frees;
    int *requires; /* options */
    int n_requires;
    int *conflicts; /* options */
    int n_conflicts;
    struct trade_end *gives, *takes;
    int n_gives, n_takes;
    struct trade_adapts *adapts;
    int n_adapts;
    enum originality original; /* what its parts are then */
    enum option_undo undo;
    const char *keep; /* what is to be kept of the old */
    const char *note;
    int *cautions;
    int n_cautions;
};

#endif
