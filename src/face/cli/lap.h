/* lap.h - the survey in one lap round the vehicle, at a terminal: place by place, each stored
 * before the next. */
#ifndef CLI_LAP_H
#define CLI_LAP_H

#include "face/cli/context.h"
#include "shop/lap.h"

bool lap_walk(struct context *c, struct garage *g, const struct trade *t, const char *vehicle,
              const struct lap *lap, struct fail *f);

#endif
