/* stall.h - does the work stand still, or fray? From facts alone, so that the yard can say it of
 * every vehicle; and which standing care is due. */
#ifndef SHOP_STALL_H
#define SHOP_STALL_H

#include "model/facts.h"
#include "model/facts_session.h"

enum { STALL_DAYS = 42, STALL_SYSTEMS = 3 }; /* practice: six weeks; over three systems open */

struct stall {
    bool idle; /* STALL_DAYS without hours */
    day last;  /* the last day with hours, or that on which work was to begin; DAY_NONE: neither */
    int *open; /* systems with work begun and work left */
    int n_open;
    bool frayed; /* more of them than STALL_SYSTEMS */
};

void stall_of(struct arena *a, const struct trade *t, const struct facts *facts,
              const struct facts_session *told, int direction, day today, struct stall *out);

/* The same of a vehicle of the garage, in its decided direction; nothing is reckoned. */
bool stall_read(struct arena *a, struct garage *g, const struct trade *t, const char *vehicle,
                day today, struct stall *out, struct fact_left_off *left_off, struct fail *f);

struct care_due {
    const struct trade_care *care;
    day due, last; /* last DAY_NONE: never done */
};

/* Those that apply, the longest overdue first; *n_due of them are due by today. */
int care_of(struct arena *a, const struct trade *t, const struct facts *facts,
            const struct facts_session *told, day today, struct care_due **out, int *n_due);

#endif
