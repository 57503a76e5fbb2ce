/* choose_inside.h - what the files of choose share. */
#ifndef SHOP_CHOOSE_INSIDE_H
#define SHOP_CHOOSE_INSIDE_H

#include "model/evidence.h"
#include "shop/choose.h"

struct choosing {
    struct arena *a;
    const struct shop_ask *ask;
    const struct facts *facts;
    const struct facts_worth *more;
    const struct taken *taken;
    struct choose *out;
    struct reckoned *r; /* by direction */
    struct market market;
    struct figures figures;
    struct past past;
    int *part[CLUE_OF_COUNT]; /* by run: which of past_parts is true */
    double *worth_now;        /* by run */
    double *worth;            /* [direction * runs + run], where it is known */
    double *value;            /* [choice * runs + run] */
    int n_values;
};

/* choose_past.c: what is true of its past in each run; and a worth of a direction's end state made
 * to follow that, its draws (or NULL) and its band. */
bool choose_past(struct choosing *x, struct fail *f);
void choose_follow(const struct choosing *x, const struct trade_direction *d,
                   struct choose_worth *w, double *worth);

/* choose_worth.c: bands of worth, today and of each direction, and their draws. Needs the
 * currency. */
void choose_worths(struct choosing *x);
/* A figure of the builder's in every run, by a stream of its own; a worth moves with the market. */
void choose_draw(const struct choosing *x, struct points p, const char *stream, bool market,
                 double *out);

/* choose_weigh.c: nets, the values of the choices, which leads and what would change that. */
void choose_weigh(struct choosing *x);

/* choose_change.c */
void choose_changes(struct choosing *x);

/* choose_look.c */
void choose_looks(struct choosing *x);

#endif
