/* session.h - what can be done this evening: one job that must finish, one if there is time, one of
 * fifteen minutes; what is blocked and by what; where it was left off; whether the work stalls.
 *
 * A job is ready when all before it is finished (or certainly not needed), waits are over, no
 * safety gate before it is shut (an overridden one lets it through), its parts are here, no tool of
 * it is missing, hands, bay and warmth are enough. Of the ready ones what is critical in the plan
 * comes first, then what closes something before what opens something. Unbroken work is offered
 * only where its high figure fits. */
#ifndef SHOP_SESSION_H
#define SHOP_SESSION_H

#include "shop/bags.h"
#include "shop/plan.h"
#include "shop/safe.h"
#include "shop/stall.h"

enum {
    SESSION_SHORT = 15,
    SESSION_STRETCH = 30
}; /* minutes: a short job; the least worth
      beginning work for that can be put down */

struct session_ask {
    double hours;   /* in all, set-up and clear-up among them; below 0: as the week says */
    int hands;      /* 0: as the week says */
    double degrees; /* NAN: as the month usually is */
};

enum session_role { SESSION_MUST, SESSION_IF_TIME, SESSION_READY, SESSION_ROLES };

struct session_job {
    const struct trade_job *job;
    int index; /* of the project */
    enum session_role role;
    double middle, high; /* minutes that are left to do */
    double room;         /* so many minutes must be left to begin it */
    bool finishes;       /* its high figure fits the room that it is given */
    bool begun, closes, opens;
    double critical; /* as in the plan */
};

enum session_block {
    BLOCK_GATE,   /* the decision to go on */
    BLOCK_BEFORE, /* a job before it */
    BLOCK_LOOK,   /* it is not known whether a job before it, or it itself, is needed */
    BLOCK_WAIT,   /* soak, cure or shop time */
    BLOCK_SAFE,   /* a safety gate that is not open */
    BLOCK_PART,
    BLOCK_TOOL,
    BLOCK_HANDS,
    BLOCK_BAY,
    BLOCK_COLD,
    BLOCK_LONG, /* unbroken, and longer than this evening */
    BLOCKS
};

struct session_blocked {
    const struct trade_job *job;
    int index;
    enum session_block why;
    const struct trade_job *before; /* GATE, BEFORE, LOOK, WAIT */
    const struct safe_gate *gate;   /* SAFE */
    const struct trade_part *part;  /* PART */
    bool coming;                    /* PART: it was ordered */
    int tool;                       /* TOOL: of the trade data */
    day when;       /* WAIT: over; PART: due; HANDS: the next session with hands enough; DAY_NONE */
    double minutes; /* LONG: the high figure */
};

struct session {
    const struct trade *trade;
    const char *vehicle;
    const struct trade_direction *direction;
    bool decided;
    day as_of;
    int from; /* minute of the day on which the week's session begins, or -1 */
    double minutes, set_up, clear_up;                   /* hands-on; beside it */
    bool hours_told, hands_told, degrees_told, in_week; /* in_week: the week has this session */
    int hands;
    double degrees;
    bool bay;
    struct facts_session told;
    struct session_job *jobs;
    int n_jobs; /* MUST and IF_TIME first, if there are any */
    struct session_blocked *blocked;
    int n_blocked; /* likely jobs, in the plan's order */
    struct care_due *care;
    int n_care, n_care_due;
    const struct trade_care *short_care; /* the job of fifteen minutes is one of these four */
    const struct session_job *short_job;
    const struct plan_order *short_order;
    int short_look; /* component of the trade data, or -1 */
    struct stall stall;
    struct safe safe;
    struct bags bags;
    struct plan_order *late; /* of critical jobs, past their order-by */
    int n_late;
    const struct session_job *closing; /* offered where it stalls; or NULL */
    int *unknown_tools;                /* of the jobs offered: to be asked about */
    int n_unknown_tools;
    const struct model *model;
};

struct session_ask session_as_usual(void);
bool session_reckon(struct arena *a, const struct shop_ask *ask, const struct session_ask *evening,
                    struct session *out, struct fail *f);
const char *session_block_name(enum session_block b);
bool session_stalls(const struct session *x);
/* Is what lies in the bag wanted at the job: does it, or a job right before it, speak of it? */
bool session_wants_bag(const struct trade *t, const struct trade_job *job,
                       const struct fact_bag *bag);
/* Does the job call for this check, so that it is asked before it is begun? Both name what can hurt
 * there: the check's first caution. */
bool session_asks_check(const struct trade_job *job, const struct trade_check *check);

#endif
