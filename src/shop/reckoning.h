/* reckoning.h - what plan and choose have in common: the vehicles in order of rank, a model, and
 * its forecast. */
#ifndef SHOP_RECKONING_H
#define SHOP_RECKONING_H

#include "model/model.h"
#include "model/override.h"
#include "reckon/forecast.h"

struct shop_ask {
    struct garage *garage;
    const struct trade *trade;
    const char *vehicle; /* id */
    day today;
    int direction; /* index of trade data, -1: the decided one, else to drive */
    uint64_t seed;
    int runs, threads;
    int leave_out; /* so many of the latest findings: how it was before them; only choose heeds it
                    */
    const struct override *override; /* what vehicles of a better rank are reckoned with; or NULL */
    void (*progress)(void *context, double share); /* may be NULL */
    void *progress_context;
};

enum { RUNS_USUAL = 4000, SEED_USUAL = 1959 };

/* The decided direction of a vehicle, or "drive" where none was decided. */
int reckoning_direction(const struct facts *facts, const struct trade *t);

/* What the vehicles of a better rank take of hands, bay and purse: for each in turn the run at its
 * 80 % finish becomes a reservation. *taken is NULL where there is none. `who` lists their names
 * for the top of the plan, or NULL. */
bool reckoning_taken(struct arena *a, const struct shop_ask *ask, const struct facts *facts,
                     struct taken **taken, const char **who, struct fail *f);

/* Ids of the builder's vehicles, the best rank first; `also`: an id that counts though it is not
 * theirs, or NULL. */
bool reckoning_ranked(struct arena *a, struct garage *g, const char *also, const char ***out,
                      int *count, struct fail *f);
/* Adds to *taken (made if NULL) what one vehicle takes, and its name to `names`, commas between. */
bool reckoning_reserve(struct arena *a, const struct shop_ask *ask, const char *vehicle,
                       struct taken **taken, struct text *names, struct fail *f);

struct reckoned {
    struct model model;
    struct belief belief;
    struct dispatch *dispatch;
    struct forecast forecast;
};

/* Model and forecast of one direction. `like`: another direction of the same vehicle on the same
 * runs, with which it shares the belief and the conditions drawn from it, or NULL. `detail`: also
 * by job and part. */
bool reckoning_run(struct arena *a, const struct shop_ask *ask, const struct facts *facts,
                   const struct taken *taken, int direction, const struct reckoned *like,
                   bool detail, struct reckoned *out, struct fail *f);

/* Moments as doubles, with a run that never finishes at +infinity. */
double *reckoning_finishes(struct arena *a, const struct forecast *fc);

#endif
