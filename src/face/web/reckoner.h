/* reckoner.h - reckons answers on threads of their own, each once however many ask for it, so that
 * a page can be sent at once that says how far it is. What comes out lies in the garage's cache,
 * where answer_get finds it. */
#ifndef WEB_RECKONER_H
#define WEB_RECKONER_H

#include "base/day.h"
#include "face/show/answer.h"
#include "library/shelf.h"

struct reckoner;

/* Memory of its own; the shelf must outlive it. */
struct reckoner *reckoner_open(const char *garage_dir, struct shelf *shelf);
void reckoner_close(struct reckoner *r); /* waits for what is being reckoned */

struct reckoner_ask {
    const char *name; /* by answer_key */
    enum question question;
    struct shop_ask ask; /* garage, trade and progress are filled by the reckoner */
};

enum reckoning { RECKONING_DONE, RECKONING_GOES_ON, RECKONING_FAILED };

/* Begins it if nobody has, and waits for it, but no longer than `patience` milliseconds (-1: to the
 * end). *began: this call began it; *share: how far it is, 0..1. */
enum reckoning reckoner_wait(struct reckoner *r, const struct reckoner_ask *what, int patience,
                             bool *began, double *share, struct fail *f);

/* For who reckons by himself: only so many do at a time, since each takes every processor and
 * memory of its own. Waits; nothing that another's turn might want may be held. */
void reckoner_turn_begin(struct reckoner *r);
void reckoner_turn_end(struct reckoner *r);

#endif
