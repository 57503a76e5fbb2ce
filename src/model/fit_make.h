/* fit_make.h - the vehicle and the trade data as a problem of fit: what must be met, what each
 * option brings, which ends must agree, and where parts are bought (reckon/fit.h solves it).
 *
 * Pure: from facts and a model to plain arrays, with the way back to the trade data. */
#ifndef MODEL_FIT_MAKE_H
#define MODEL_FIT_MAKE_H

#include "model/facts_buy.h"
#include "model/facts_worth.h"
#include "model/join.h"
#include "model/model.h"
#include "reckon/fit.h"

struct fit_ask {
    const struct model *model;
    const struct facts *facts;
    const double
        *need_day; /* by job of trade data: days until its parts are wanted; NAN: no such job */
    const double *critical; /* by job of trade data: share of a late day that delays the finish */
    double late_day;        /* what a day later costs, minor units */
    double keep_original;   /* what it is worth to keep all of it original, minor units */
    int64_t budget;         /* minor units, carriage and core charges included; -1: none */
    bool no_irreversible;
    int wanted; /* an option to be taken, or -1 */
    int prefer; /* an option whose need is to be met, whatever calls for it; or -1 */
};

/* One side of a join as it counts here: of an option, or of a fitting of the vehicle. */
struct fit_side {
    int option, fitting; /* of trade data; one is -1 */
    struct trade_end end;
    const struct fact_end *measured; /* what the end was measured as, or NULL */
};

struct fit_pair {
    int join;
    struct fit_side giver, taker;
    struct join_result result;
    int rule; /* of the model, for a misfit; or -1 */
};

/* A supplier of the model: a typed one, the usual one of its trade, or (from is FROM_COUNT) what
 * was ordered already. */
struct fit_seller {
    int supplier; /* of facts, or -1 */
    enum part_from from;
};

struct fit_problem {
    struct fit_model model;
    int *need, *option, *part; /* of trade data, by index of the model */
    int *option_of;            /* by option of trade data: its index in the model, or -1 */
    int *job_of_need; /* by need of the model: the job of trade data that it is met in, or -1 */
    const struct fact_quote *
        *quote;   /* by offer, the first of its quotes; NULL: the trade data's price */
    double *lead; /* by offer: middle, days */
    struct fit_seller *sellers; /* by supplier of the model */
    struct fit_pair *pairs;
    int n_pairs;
    const char **notes; /* quotes that cannot be used, and why */
    int n_notes;
    char currency[4];
};

bool fit_make(struct arena *a, const struct fit_ask *ask, struct fit_problem *out, struct fail *f);

/* Does this side count in an answer: its option is chosen, or its fitting is there and no chosen
 * option takes its place? */
bool fit_side_counts(const struct fit_problem *p, const struct trade *t, const uint8_t *chosen,
                     const struct fit_side *side);

/* The tags of rules. */
enum { FIT_TAG_REQUIRES = 1 << 20, FIT_TAG_CONFLICT = 1 << 21 }; /* else the number of a pair */

#endif
