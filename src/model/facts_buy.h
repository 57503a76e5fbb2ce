/* facts_buy.h - who sells what at what price, what was chosen and measured for a vehicle, and which
 * pieces of it are away, as plain values.
 *
 * Sums are in minor units of the currency beside them, as they were told; facts_minor (see
 * facts_worth.h) turns them into another. A name that the trade data does not know is kept, with
 * index -1. */
#ifndef MODEL_FACTS_BUY_H
#define MODEL_FACTS_BUY_H

#include "garage/garage.h"
#include "library/trade.h"

struct fact_supplier {
    const char *id, *name;
    double carriage;      /* an order; 0: none told */
    double carriage_free; /* from this sum on it costs nothing; -1: never, as far as is known */
    double minimum;       /* 0: none told */
    char currency[4];     /* of the three; "" where none was told */
    int promised_days;    /* -1: not told */
    const char *note;     /* or NULL */
};

struct fact_quote {
    const char *id, *name; /* the part as typed */
    int supplier, part;
    double minor, core; /* each; core 0: none */
    char currency[4];   /* of both */
    int from_count;     /* 1 or more */
    bool lead_told;
    struct points lead; /* days */
    int return_days;    /* -1: not told */
    day date;           /* DAY_NONE: not told */
    const char *note;   /* or NULL */
    bool stale;         /* a later one of the same supplier, part and count stands in its place */
};

/* The latest one of each need. */
struct fact_choice {
    const char *need_name, *option_name, *why; /* as typed; why: or NULL */
    int need, option;
    day date;
};

/* The latest one of each end. Where the trade data knows it, end.join and one of fitting and option
 * are there. */
struct fact_end {
    const char *of, *join_name, *how, *note; /* as typed; how, note: or NULL */
    int fitting, option;
    bool gives; /* else it takes */
    struct trade_end end;
    day date;
};

/* From whom a part is to be bought; the latest of each part. */
struct fact_seller {
    int part, supplier;
};

struct fact_sent {
    const char *id, *what;
    const char *job_name, *tolerances, *measured, *photo; /* or NULL; photo: an id */
    int supplier, job;
    int count, count_returned; /* count_returned -1: not told */
    day sent, promised, chase, returned;
    double deposit; /* 0: none told */
    char currency[4];
};

struct facts_buy {
    struct fact_supplier *suppliers; /* of the garage, oldest first */
    int n_suppliers;
    struct fact_quote *quotes; /* of the garage, oldest first */
    int n_quotes;
    struct fact_choice *choices;
    int n_choices;
    struct fact_end *ends;
    int n_ends;
    struct fact_seller *sellers;
    int n_sellers;
    struct fact_sent *sent;
    int n_sent;
};

bool facts_buy_read(struct garage *g, struct arena *a, const struct trade *t, const char *vehicle,
                    struct facts_buy *out, struct fail *f);

/* By the name that people call it, or by its id; -1 if there is none. */
int facts_supplier(const struct facts_buy *x, const char *word);
int facts_quote(const struct facts_buy *x, const char *id);

/* By id or name: the index of a part, or -1. */
int part_called(const struct trade *t, const char *word);

/* Quotes, choices, and what was measured must name what the trade data knows: false, and the
 * nearest, if such a record does not. An id takes the place of a name that was typed. */
bool facts_buy_settles(const struct record_kind *k); /* does it look at such records? */
bool facts_buy_settle(struct arena *a, const struct trade *t, struct record *r, struct fail *f);

#endif
