/* facts.h - what the garage knows of one vehicle and of the place where it is worked on, as plain
 * values.
 *
 * Read from the store, then free of it. What is not known is said to be so; nothing is filled in
 * here. */
#ifndef MODEL_FACTS_H
#define MODEL_FACTS_H

#include "base/condition.h"
#include "garage/garage.h"
#include "library/trade.h"
#include "model/facts_buy.h"
#include "model/facts_clue.h"
#include "model/facts_pace.h"
#include "model/facts_setback.h"

enum tri { TRI_UNKNOWN, TRI_NO, TRI_YES };

struct fact_finding {
    const char *component; /* as typed */
    int kind, place; /* indices of trade data; kind -1: not a component that the trade data knows;
                        place -1: all */
    enum condition condition;
    day date;
};

struct fact_slot {
    int weekday, from, to, hands; /* hands 0: as the workshop */
};

struct fact_helper {
    day date;
    int from, to, hands;
};

struct fact_away {
    day from, to;
};

struct fact_worth {
    bool set;
    struct points minor;
    char currency[4];
};

enum {
    WORTH_NOW,
    WORTH_PRESERVE,
    WORTH_DRIVE,
    WORTH_RESTORE,
    WORTH_MODIFY,
    WORTH_SELL,
    WORTH_COUNT
};

struct fact_work {
    const char *job;
    double minutes; /* logged */
    bool finished;
};

struct fact_order {
    const char *name; /* as typed */
    int part;         /* of trade data, or -1 */
    bool arrived;
    double minor;
    day due;
    const char *id, *supplier_name, *wrong; /* the last two as typed, or NULL */
    int supplier, quote;                    /* of facts_buy, or -1 */
    double count;                           /* 0: not told, so as many as are wanted */
    char currency[4];                       /* of minor and core; "" where neither was told */
    double core;                            /* 0: none */
    enum tri checked;
    day ordered, came, return_by, returned, warranty, fitted; /* DAY_NONE: not told */
};

struct fact_rate {
    char currency[4], per[4];
    double rate;
    day date;
};

struct facts {
    const char *vehicle_id, *name;
    int rank;
    int year;                  /* 0 unknown */
    int answers[ANSWER_COUNT]; /* -1 unknown */
    enum tri turns, rolls, stops;
    int papers;      /* 0 full, 1 some, 2 none, -1 unknown */
    double standing; /* years, -1 unknown */

    double hours_a_week;  /* -1 unknown */
    int hands;            /* 0 unknown */
    double sessions_kept; /* -1 unknown */
    enum tri heated;
    int bays;           /* 0 unknown */
    double own_rate;    /* minor units an hour, -1 unknown */
    double price_level; /* -1 unknown */
    char currency[4];   /* of purse, workshop or worth; "" unknown */
    day start;          /* DAY_NONE unknown */
    struct fact_slot *slots;
    int n_slots;
    struct fact_helper *helpers;
    int n_helpers;
    struct fact_away *aways;
    int n_aways;
    bool purse;                                /* was one told */
    double a_month, ceiling, reserve, in_hand; /* minor; -1 unknown */
    struct fact_rate *rates;
    int n_rates;

    struct fact_finding *findings;
    int n_findings; /* oldest first */
    struct fact_worth worth[WORTH_COUNT];
    int direction;             /* decided, an index of trade data, or -1 */
    const char *adopted_order; /* job ids of the adopted plan for that direction, or NULL */
    int adopted_direction;
    struct fact_work *works;
    int n_works;
    struct fact_order *orders;
    int n_orders;
    struct facts_clue past;
    struct facts_buy buy;
    struct facts_setback met;
    struct facts_pace pace;
};

/* vehicle: an id. Findings, works and orders that name nothing in the trade data are kept, with
 * index -1. */
bool facts_read(struct garage *g, struct arena *a, const struct trade *t, const char *vehicle,
                struct facts *out, struct fail *f);

/* What was sent back neither is here nor comes. */
bool order_is_here(const struct fact_order *o);
bool order_is_coming(const struct fact_order *o);

/* The last finding on a component kind at a place, NULL if there is none: it is the one that
 * counts.
 */
const struct fact_finding *facts_finding(const struct facts *facts, int kind, int place);

/* "wheel-cylinder@front-left", "wheel cylinder" -> kind and place (-1: all places). False if the
 * trade data has no such component, or it has no such place; *f says so with the nearest. */
bool component_parse(const struct trade *t, const char *word, int *kind, int *place,
                     struct fail *f);

#endif
