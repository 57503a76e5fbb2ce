/* lap.h - the survey in one lap round the vehicle, at a terminal: place by place, each stored
 * before the next. */
#ifndef CLI_LAP_H
#define CLI_LAP_H

#include "face/cli/context.h"
#include "shop/survey.h"

bool lap_walk(struct context *c, struct garage *g, const char *vehicle, const struct survey *v,
              struct fail *f);

#endif
