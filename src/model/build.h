/* build.h - shared by the files that make a model: what is being built, and room for its lists. Not
 * for others. */
#ifndef MODEL_BUILD_H
#define MODEL_BUILD_H

#include "model/model.h"

struct build {
    struct arena *a;
    const struct trade *t;
    const struct facts *facts;
    const struct model_ask *ask;
    struct figures figures;
    struct model *out;
    size_t needs_capacity, after_capacity, buys_capacity, steps_capacity;
    struct range *components_of; /* by kind of trade data: its components in the project, which
                                    stand together */
    int *part_of;                /* by part of trade data: its number in the project, or -1 */
    bool *wanted;                /* by job of trade data: it is in the project */
    int *job_of;                 /* by job of trade data: its number in the project, or -1 */
    double *money_of; /* by part of trade data: minor units for one major unit of its price */
};

void build_note(struct build *b, const char *format, ...) __attribute__((format(printf, 2, 3)));

bool build_money(struct build *b, struct fail *f); /* currency and rates; before jobs */
void build_components(struct build *b);
bool build_jobs(struct build *b, struct fail *f); /* jobs, their parts, setbacks */
bool build_calendar(struct build *b, struct fail *f);
bool build_purse(struct build *b, struct fail *f);

#endif
