/* answer.h - a question answered by reckoning, for every face: asked of the cache first, reckoned
 * if need be.
 *
 * A cached answer is named by the digest of all that it rests on: facts, trade data, version, day,
 * seed, runs, and what was asked. It holds the sheet and the JSON, so that no face reckons again;
 * it is safe to delete. */
#ifndef SHOW_ANSWER_H
#define SHOW_ANSWER_H

#include "face/show/sheet.h"
#include "shop/reckoning.h"
#include "shop/what_if.h"

#include <jansson.h>

enum question {
    QUESTION_SURVEY,
    QUESTION_IDENTIFY,
    QUESTION_ORIGINALITY,
    QUESTION_CHOOSE,
    QUESTION_PLAN,
    QUESTION_FIT,
    QUESTION_VIEW,        /* only of one that is not owned */
    QUESTIONS_OF_VEHICLE, /* those below are of the whole garage: ask with vehicle "" */
    QUESTION_HOUSEHOLD = QUESTIONS_OF_VEHICLE,
    QUESTION_COUNT
};
const char *question_name(enum question q); /* "survey", "household": its command and its page */

struct told {
    struct sheet *sheet;
    json_t *json; /* the caller's to json_decref */
};

/* Trade data is loaded only where the cache has no answer; its digest (see trade_digest) is wanted
 * always. */
struct answer_trade {
    bool (*digest)(void *context, char hex[65], struct fail *f);
    bool (*load)(void *context, const struct trade **out, struct fail *f);
    void *context;
};

enum { ANSWER_RUNS_LEAST = 50, ANSWER_RUNS_MOST = 1000000 };

/* ask is complete but for trade and direction. direction: its id, or NULL for the decided one, else
 * to drive. One state of the garage serves for the name of the answer and for all that it is
 * reckoned from; not inside an act. */
bool answer_get(struct arena *a, enum question q, const struct shop_ask *ask, const char *direction,
                struct answer_trade trade, struct told *out, struct fail *f);
/* The name under which answer_get keeps it: the same name, the same answer. */
bool answer_key(struct arena *a, enum question q, const struct shop_ask *ask, const char *direction,
                struct answer_trade trade, char name[65], struct fail *f);
/* What every what-if is held against, kept as answers are; ask is complete. Within one state of the
 * garage, which the caller has begun. */
bool answer_as_is(struct arena *a, const struct shop_ask *ask, struct answer_trade trade,
                  struct what_if_side *out, struct fail *f);
/* The answer of now if it is kept, else the last one that was: never reckons, and loads no trade
 * data. False: there is none. *current: it rests on today and on the facts as they are; may be
 * NULL. */
bool answer_kept(struct arena *a, enum question q, const struct shop_ask *ask,
                 const char *direction, struct answer_trade trade, struct told *out, bool *current);
/* The few figures of the last answer that a page about many vehicles wants, kept apart so that
 * forty are read in a moment. Only a plan has them: its `direction`, `finish`, `hangs_on`, and of
 * `order_by` and `milestones` the first. Never reckons. */
struct answer_brief {
    json_t *json; /* the caller's to json_decref */
    day as_of;    /* the day for which it was reckoned */
    bool current; /* it rests on today and on the facts as they are */
};
bool answer_brief(struct arena *a, enum question q, const struct shop_ask *ask,
                  const char *direction, struct answer_trade trade, struct answer_brief *out);
/* Index of a direction, -1 for NULL; FAIL_INPUT for one that there is not. */
bool answer_direction(const struct trade *t, const char *id, int *out, struct fail *f);

#endif
