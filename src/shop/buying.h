/* buying.h - what is due on what was ordered and sent away, and what to order together: over all
 * vehicles of the garage, from facts and from what their last plans want. Nothing is reckoned anew.
 *
 * Baskets are chosen together, by what chooses sets of parts (reckon/fit.h): the least of goods,
 * carriage and waiting, with price breaks and the least that each sends. From whom a part is to be
 * bought stays as it was chosen; which parts to want at all is another question. */
#ifndef SHOP_BUYING_H
#define SHOP_BUYING_H

#include "model/facts.h"

enum {
    BUYING_SOON = 30,   /* days: what must be ordered within them is in a basket */
    BUYING_ALONG = 120, /* and what is wanted within them may be ordered along */
    BUYING_SPARES = 5,  /* as many are told */
    BUYING_PRESSING = 7 /* days: what is due within them is pressing */
};

enum due_kind {
    DUE_RETURN,   /* found wrong, and not yet sent back */
    DUE_CHECK,    /* arrived, not held against the old part yet */
    DUE_LATE,     /* promised for a day that is past */
    DUE_PIECES,   /* away; to be chased */
    DUE_SHORT,    /* fewer pieces came back than went */
    DUE_MEASURE,  /* back, and not measured against what was agreed */
    DUE_CORE,     /* money that comes back for the old part */
    DUE_WARRANTY, /* runs while the part lies unfitted */
    DUE_KINDS
};
const char *due_name(enum due_kind k); /* "return" .. "warranty" */

enum due_press { PRESS_NOW, PRESS_SOON, PRESS_LATER };

struct due {
    enum due_kind kind;
    enum due_press press;
    day day;                          /* until when; DAY_NONE: no day is known */
    const char *vehicle, *vehicle_id; /* its name */
    const struct fact_order *order;   /* one of the two */
    const struct fact_sent *sent;
    const char *supplier; /* or NULL */
};

struct buying_want {
    int part;
    double count, chance; /* chance: that it is wanted at all */
    day by;               /* by when to order; may be past */
    double lead_days;     /* with which the plan reckoned that day */
    double critical;      /* how often the job that wants it is on the binding chain */
};

/* One that the last plan fears most, at a job. */
struct buying_setback {
    int setback, job;
    double chance, critical; /* that it happens; how often that job is on the binding chain */
};

struct buying_vehicle {
    const struct facts *facts;
    struct buying_setback *setbacks;
    int n_setbacks;
    double day_worth; /* what a day sooner is worth, minor units; 0: not told */
    struct buying_want *wants;
    int n_wants;
    bool planned, current; /* is there a plan that says what is wanted; of today's facts? */
};

struct buying_item {
    const struct trade_part *part;
    const char *vehicle;
    const struct fact_quote *quote;
    double count, each, sum; /* count: whole pieces; minor units of buying.currency */
    day by;
    bool later;  /* wanted later, and ordered along */
    bool chosen; /* its seller was chosen before */
};

/* Why something that is wanted later is ordered along. */
enum along { ALONG_NOTHING, ALONG_CARRIAGE, ALONG_MINIMUM, ALONG_BREAK };

struct basket {
    const struct fact_supplier *supplier;
    struct buying_item *items; /* first what is wanted soon, then what is ordered along */
    int n_items, n_later;
    double sum, carriage;    /* minor */
    double minimum, free_at; /* 0: none told; -1: never free */
    double usual_carriage;   /* that of a small order */
    double wanting;          /* what is missing to the minimum, else to free carriage; 0: nothing */
    bool below_minimum;      /* it is the minimum that is missed */
    enum along along;
};

/* A part that a setback would want: is it worth having before? */
struct spare {
    const struct trade_part *part;
    const struct trade_setback *setback;
    const struct trade_job *job;
    const char *vehicle;
    double odds;       /* that it is wanted */
    double lead, days; /* days that it takes to come; by which having it brings the finish forward,
                          on average */
    double count, price; /* all pieces, minor units */
    bool quoted;         /* else the price is that of the trade data */
    double from_a_day;   /* it pays where a day is worth this much or more, minor units */
    double day_worth;    /* what a day is worth, as told; 0: not told */
    bool pays;
};

struct buying {
    const struct trade *trade;
    day as_of;
    const char *currency; /* of baskets; "" where none is known */
    struct due *due;      /* what is pressing most first */
    int n_due, n_now;
    struct basket *baskets;
    int n_baskets;
    bool proven;     /* no other way to order them costs less */
    double late_day; /* what a day late was taken to cost, minor; of the first vehicle */
    bool late_assumed;
    struct spare *spares; /* what pays soonest first */
    int n_spares;
    size_t spares_capacity;
    int n_wanted;
    const struct trade_part **unquoted; /* wanted soon, and without a quote */
    int n_unquoted;
    int n_suppliers, n_quotes;
    const char **unplanned; /* vehicles without a plan of today's facts */
    int n_unplanned, n_vehicles;
    const char **notes; /* what could not be used, and why */
    int n_notes;
};

void buying_reckon(struct arena *a, const struct trade *t, const struct buying_vehicle *vehicles,
                   int n_vehicles, day today, struct buying *out);

/* The last day on which it may go back: told, or counted from its quote; DAY_NONE: not known. */
day order_return_by(const struct facts_buy *buy, const struct fact_order *o);

#endif
