/* build.h - shared by the files that make a model: what is being built, and room for its lists. Not
 * for others. */
#ifndef MODEL_BUILD_H
#define MODEL_BUILD_H

#include "model/model.h"

/* What is left of an order for the jobs that still want it. */
struct pool {
    double left; /* INFINITY: how many was not told, so as many as are wanted */
    int part;    /* of the project, where it is still to come; or -1 */
};

struct build {
    struct arena *a;
    const struct trade *t;
    const struct facts *facts;
    const struct model_ask *ask;
    struct figures figures;
    struct model *out;
    size_t needs_capacity, after_capacity, buys_capacity, steps_capacity, parts_capacity,
        trade_parts_capacity, ordered_capacity;
    struct pool *pools;          /* by order of the facts */
    struct range *components_of; /* by kind of trade data: its components in the project, which
                                    stand together */
    int *part_of;                /* by part of trade data: its number in the project, or -1 */
    bool *wanted;                /* by job of trade data: it is in the project */
    int *job_of;                 /* by job of trade data: its number in the project, or -1 */
    double *money_of; /* by part of trade data: minor units for one major unit of its price */
};

void build_note(struct build *b, const char *format, ...) __attribute__((format(printf, 2, 3)));

bool build_money(struct build *b, struct fail *f); /* currency and rates; before jobs */
/* What was ordered, before jobs; then what a list wants beyond it: of a job, or of a step of a
 * setback (-1), which sees what jobs left and takes nothing of it. */
void build_stock(struct build *b);
struct range build_buys(struct build *b, const struct trade_buy *parts, int n, int trade_job);
/* Pieces of that job that are at a specialist, or were: its wait. */
void build_sent(struct build *b, int trade_job, struct project_job *to);
void build_components(struct build *b);
bool build_jobs(struct build *b, struct fail *f); /* jobs, their parts, setbacks */
void build_pace(struct build *b);                 /* pace by kind of work */
bool build_calendar(struct build *b, struct fail *f);
void build_habit(struct build *b); /* sessions that happen, lay-offs; after the calendar */
bool build_purse(struct build *b, struct fail *f);

#endif
