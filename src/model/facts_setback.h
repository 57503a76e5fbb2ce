/* facts_setback.h - setbacks that were met, as plain values; and a ladder of the trade data as it
 * stands in such a case. */
#ifndef MODEL_FACTS_SETBACK_H
#define MODEL_FACTS_SETBACK_H

#include "garage/garage.h"
#include "library/trade.h"
#include "model/figures.h"
#include "reckon/ladder.h"

struct facts;

struct fact_setback {
    const char *id;        /* of its record; "" if it was only asked about */
    int setback, job;      /* of trade data; -1: not known there */
    const char *component; /* as typed, or NULL */
    const char *thread;    /* or NULL */
    int is[BROKEN_COUNT];  /* index of broken_value, -1: not told */
    unsigned tried, worse; /* bit i: step i was in vain; and left it worse */
    enum setback_state { SETBACK_OPEN, SETBACK_CURED, SETBACK_STOPPED } state;
};

struct facts_setback {
    struct fact_setback *items;
    int n;              /* oldest first */
    const char **loose; /* lines: what is kept, but names what the trade data does not know */
    int n_loose;
};

bool facts_setback_read(struct garage *g, struct arena *a, const struct trade *t,
                        const char *vehicle, struct facts_setback *out, struct fail *f);
/* One record, or what was typed in its form. FAIL_INPUT: no such setback, job or step. */
bool fact_setback_of(struct arena *a, const struct trade *t, const struct record *r,
                     struct fact_setback *out, struct fail *f);
/* "heat,2,weld!" -> bits. */
bool setback_tried(const struct trade_setback *s, const char *typed, unsigned *tried,
                   unsigned *worse, struct fail *f);

/* What an hour counts there, minor units of `currency`: the builder's own rate, else a default. */
double setback_hour(const struct trade *t, const struct facts *facts, const struct figures *figures,
                    const char *currency);
/* Costs of its steps: their hours and parts. money: what the caller pays for those parts, on
 * average. */
typedef double setback_money(void *context, const struct trade_buy *parts, int n);
void setback_costs(struct ladder *l, const struct trade_setback *s, double hour,
                   setback_money *money, void *context);
/* Odds alone: costs are 0 until setback_costs. Steps that this case rules out are gone. */
struct ladder setback_ladder(const struct trade_setback *s, const struct fact_setback *x);
ladder_state setback_state(const struct ladder *l, const struct fact_setback *x);

#endif
