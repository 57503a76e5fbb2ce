/* answer.h - a question answered by reckoning: asked of the cache first, reckoned if need be, told
 * as sheet or JSON.
 *
 * A cached answer is named by the digest of all that it rests on: facts, trade data, version, day,
 * seed, runs, and what was asked. It holds the sheet and the JSON, so that no face reckons again;
 * it is safe to delete. */
#ifndef CLI_ANSWER_H
#define CLI_ANSWER_H

#include "face/cli/context.h"
#include "shop/reckoning.h"

struct told {
    struct sheet *sheet;
    json_t *json;
};

/* Reckons the answer; ask is complete. */
typedef bool answer_reckon(struct context *c, const struct shop_ask *ask, struct told *out,
                           struct fail *f);

/* Garage, trade data, vehicle, and the options --runs, --seed, --threads, --direction where they
 * are given. */
bool answer_ask(struct context *c, struct shop_ask *ask, struct fail *f);
/* Wipes the line of progress that reckoning left on a terminal. */
void answer_reckoned(const struct shop_ask *ask);
bool answer_tell(struct context *c, answer_reckon *reckon, struct fail *f);

#endif
