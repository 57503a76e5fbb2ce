/* safe.h - is it safe to connect, fuel, crank, start, move, drive: gates that open when all of it
 * holds, and checks that are over with their day.
 *
 * Nothing that was judged is kept: a gate's state follows from the facts of today, so a reading
 * that drifts past its limit shuts it again. An override covers what was missing when it was
 * written, and is no proof: gates behind it still name it. */
#ifndef SHOP_SAFE_H
#define SHOP_SAFE_H

#include "model/facts_safe.h"
#include "shop/reckoning.h"

enum gate_state {
    GATE_SHUT,
    GATE_READY,       /* all holds; it has not been opened since */
    GATE_PROVISIONAL, /* open until the day on which something is measured again */
    GATE_OPEN,
    GATE_OVERRIDDEN
};
const char *gate_state_name(enum gate_state s); /* "shut" .. "overridden" */

enum safe_need_kind { NEED_GATE, NEED_JOB, NEED_PROOF };

struct safe_need {
    enum safe_need_kind kind;
    const char *id;   /* of the gate, job or proof */
    const char *name; /* of the same */
    int index;        /* of the same, in the trade data */
    bool holds;
    const char *why; /* what it is like: "not measured yet" */
    day retest;      /* it holds until then, or DAY_NONE */
};

struct safe_gate {
    const struct trade_gate *gate;
    enum gate_state state;
    struct safe_need *needs;
    int n_needs, missing;
    day opened, retest;              /* DAY_NONE: never; for good */
    const char *reason;              /* of the override that counts, or NULL */
    bool shut_again;                 /* it was open once */
    const struct trade_job **behind; /* done while it was shut */
    int n_behind;
};

struct safe {
    const char *vehicle;
    const struct trade *trade;
    int direction;
    day as_of;
    struct safe_gate *gates; /* by gate of the trade data */
    int n_gates;
    bool *checked; /* by check of the trade data: today */
};

bool safe_reckon(struct arena *a, const struct shop_ask *ask, struct safe *out, struct fail *f);

/* Ids of what is missing, or of what holds, blanks between. */
const char *safe_ids(struct arena *a, const struct safe_gate *g, bool holds);

#endif
