/* answer.h - a question put at the command line, and its answer told as a sheet or as JSON. */
#ifndef CLI_ANSWER_H
#define CLI_ANSWER_H

#include "face/cli/context.h"
#include "face/show/answer.h"

/* Garage, trade data, vehicle, and the options --runs, --seed, --threads, --direction where they
 * are given. */
bool answer_ask(struct context *c, struct shop_ask *ask, struct fail *f);
struct answer_trade answer_trade_of(struct context *c);
/* Wipes the line of progress that reckoning left on a terminal. */
void answer_reckoned(const struct shop_ask *ask);
/* Of the vehicle that is meant, but for questions of the whole garage. */
bool answer_tell(struct context *c, enum question q, struct fail *f);

#endif
