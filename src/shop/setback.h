/* setback.h - a setback in the middle of a job: the best next step of its ladder, what it moves in
 * the plan, what else can be done meanwhile, what to order now.
 *
 * A step costs its hours, its parts, and what is spoilt where it leaves things worse; the next one
 * is that of the way that costs least on average (reckon/ladder.h). What it moves is told on the
 * same draws with and without it. Nothing is stored here. */
#ifndef SHOP_SETBACK_H
#define SHOP_SETBACK_H

#include "bench/calc.h"
#include "shop/what_if.h"

enum setback_step_how {
    STEP_OPEN,
    STEP_TRIED,
    STEP_WORSE,  /* tried, and it left it worse */
    STEP_PASSED, /* a later one was tried, or what broke leaves it out */
    STEP_LATER   /* after another that was not tried yet */
};

struct setback_step {
    const struct trade_step *step;
    enum setback_step_how how;
    double odds[LADDER_OUTCOMES];
    double hours, money; /* of trying it, on average; minor units */
    double days;         /* of waiting */
    double expects;      /* with the best after it, minor units; NAN where it is not open */
    double reached;      /* chance that the best way comes to it */
};

struct setback_order {
    const struct trade_part *part;
    double count, price, lead_days; /* price: minor units each */
    double chance;                  /* that the best way comes to a step that wants it */
    bool next;                      /* the next step wants it */
};

struct setback_meanwhile {
    const struct trade_job *job;
    int32_t start; /* median over the runs that do it, minutes from the first day */
};

enum { SETBACK_MEANWHILE = 3 };

struct setback {
    const struct trade *trade;
    const char *vehicle, *currency;
    const struct trade_setback *setback;
    const struct trade_job *job;
    struct fact_setback said;
    bool asks[BROKEN_COUNT]; /* a step hangs on it, or the sizes do */
    double hour;             /* what an hour counts, minor units */
    bool own_hour;           /* it is the builder's own rate */
    struct setback_step *steps;
    int n_steps;
    int best; /* index, -1: it is over */
    double expects, hours,
        money; /* of the best way from here, on average; the sum, and its kinds */
    struct setback_order *orders;
    int n_orders; /* those of the next step first, then the surest; what is here or on its way left
                     out */
    /* Of one in the plan, if that was asked: */
    bool in_plan, moved; /* moved: what it moves was reckoned */
    struct what_if_difference days_p50, days_p80, money_p50, money_p80;
    struct setback_meanwhile meanwhile[SETBACK_MEANWHILE];
    int n_meanwhile;
    day first;
    /* Of a fastener whose thread was told: */
    const struct calc *stud_sum, *insert_sum;
    struct calc_result stud, insert;
    const char *no_sizes; /* why none are told; NULL: they are, or no thread was told */
};

/* said: as it is; its id is that of a record, or "". before: how it stood, or NULL: the plan moves
 * from one without it. plan: also what it moves, which takes two forecasts. */
bool setback_reckon(struct arena *a, const struct shop_ask *ask, const struct fact_setback *said,
                    const struct fact_setback *before, bool plan, struct setback *out,
                    struct fail *f);

/* As it stands after an outcome of a step. */
struct fact_setback setback_after(const struct fact_setback *said, int step,
                                  enum ladder_outcome outcome);

#endif
