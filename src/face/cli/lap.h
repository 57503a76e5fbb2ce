/* lap.h - the survey in one lap round the vehicle, at a terminal: place by place, each stored
 * before the next. */
#ifndef CLI_LAP_H
#define CLI_LAP_H

#include "face/cli/context.h"
#include "shop/survey.h"

bool lap_walk(struct context *c, struct garage *g, const char *vehicle, const struct survey *v,
              struct fail *f);
/* One finding as a record; `how` may be NULL. */
bool lap_finding(struct context *c, const char *vehicle, const char *component,
                 const char *condition, const char *note, struct record **out, struct fail *f);

#endif
