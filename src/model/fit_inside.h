/* fit_inside.h - shared by fit_make.c and fit_buy.c. Not for others. */
#ifndef MODEL_FIT_INSIDE_H
#define MODEL_FIT_INSIDE_H

#include "model/fit_make.h"

/* Parts, offers and suppliers; what each option takes is written into `options`, those of the
 * problem. */
void fit_buying(struct arena *a, const struct fit_ask *ask, struct fit_problem *p,
                struct fit_option *options);

/* The job of trade data in which an option of the model is worked in, or -1. */
int fit_job_of_option(const struct fit_problem *p, int option);

/* What a day late of that job costs, minor units. */
double fit_late_day(const struct fit_ask *ask, int job);

#endif
