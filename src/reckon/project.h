/* project.h - the problem to reckon: one vehicle, one direction, as plain arrays.
 *
 * Time is whole minutes from the start of day 0, the plan's first day. Work is minutes of one
 * competent pair of hands; waits and leads are minutes of calendar. Money is in minor units of one
 * currency. Lists of a job live in shared arrays and are given as `first` and `count`. Everything
 * is checked by project_valid. */
#ifndef RECKON_PROJECT_H
#define RECKON_PROJECT_H

#include "base/arena.h"
#include "base/condition.h"
#include "base/fail.h"
#include "base/points.h"

#include <stdint.h>

enum { PROJECT_DOUBLINGS = 16 };
enum { NEVER = INT32_MAX }; /* a moment that does not come */

/* A three-point figure ready to be drawn: middle * exp(z * (z < 0 ? below : above)); middle 0 is
 * none. */
struct spread {
    double middle, below, above;
};
struct spread spread_of(struct points p, double scale);

/* A component at its place. Its condition follows z = sqrt(state) S + sqrt(kind) K + sqrt(1 - state
 * - kind) own, S the vehicle's general state, K shared by all of its kind (the four wheel
 * cylinders), larger is worse: condition c where cut[c-1] < z <= cut[c]. */
struct project_component {
    const char *id;
    uint64_t stream;
    int kind; /* components of a kind share a number */
    double cut[COND_COUNT - 1];
    double state, kind_share;
    double wear; /* z is worse by so much for each doubling of the miles */
    int known;   /* a condition, or -1: unseen */
};

struct range {
    int first, count;
};

struct project_buy {
    int part;
    double count;
};

struct project_part {
    const char *id;
    uint64_t stream;
    struct spread price; /* each */
    struct spread lead;  /* minutes from order to hand */
};

struct project_job {
    const char *id;
    uint64_t stream;
    struct spread minutes;
    struct range needs;  /* into needs[]: components; none: always done */
    unsigned conditions; /* bit c: a component in condition c makes the job needed */
    bool by_share;       /* minutes and counts shrink with the share of its components affected */
    struct range after;  /* into after[]: jobs; never a cycle */
    struct range buys;   /* into buys[]: wanted at its start */
    struct spread wait;  /* calendar minutes after its end before what follows; */
    bool away;           /* or, pieces of it being away already, */
    int32_t away_from;   /* from this moment; may be before 0, and what is finished waits too */
    int hands;           /* hands needed at once, 1.. */
    bool bay;
    bool unbroken; /* must be finished in the session in which it is begun */
    double warm;   /* least degrees C, or -100 */
    bool survey;   /* its parts are ordered on day 0; those of other jobs when the gate is done */
    bool gate;
    bool parts_here; /* what it wants is on the shelf */
    bool finished;   /* done before day 0 */
    double chance;   /* that it is needed, from the odds alone: for priorities */
    int work;        /* kind of work, where the project has such */
};

struct project_setback {
    const char *id;
    uint64_t stream;
    int job;
    struct range needs;        /* components that decide the chance; none: chance[0] for all */
    double chance[COND_COUNT]; /* by condition of the worst of them, or of each */
    bool each;                 /* once per component, otherwise once */
    struct range steps;        /* into steps[]: the ladder */
};

struct project_step {
    double works; /* chance that it cures, after those before it did not; the last is 1 */
    struct spread minutes, wait;
    struct range buys;
};

struct project_session {
    int32_t start, end; /* hands-on time: set-up and clear-up are outside */
    int hands;
    bool bay;
    double degrees;
};

/* Money comes on paydays; an order is placed when cash - price >= reserve and all orders stay
 * within the ceiling. */
struct project_purse {
    bool open; /* no limit was told: orders never wait */
    double in_hand, ceiling, reserve;
    const int32_t *payday; /* moments, rising */
    const double *pay;     /* what each brings */
    int n_paydays;
};

struct project {
    struct project_component *components;
    int n_components;
    double doublings[PROJECT_DOUBLINGS]; /* of the usual miles, each as likely; a run has one */
    int n_doublings;                     /* 0: wear counts not */
    uint64_t *kind_stream;
    int n_kinds;
    struct project_part *parts;
    int n_parts;
    struct project_job *jobs;
    int n_jobs;
    struct project_setback *setbacks;
    int n_setbacks;
    struct project_step *steps;
    int n_steps;
    struct project_session *sessions;
    int n_sessions; /* in order of time, not overlapping */
    int *needs;
    int n_needs;
    int *after;
    int n_after;
    struct project_buy *buys;
    int n_buys;
    int *done;
    int n_done; /* the finish is when all these are done */
    struct project_purse purse;
    const int32_t
        *month;   /* moments at which calendar months begin, the first at or before 0; rising */
    int n_months; /* 0: money is not told by month */
    double kept;  /* share of sessions that happen */
    double layoff_a_month; /* chance that a lay-off begins in a month */
    struct spread layoff;  /* its length, calendar minutes */
    double pace_share,
        state_share;           /* a and b of z = sqrt(a) pace + sqrt(b) state + sqrt(1-a-b) own */
    double pace_mean, pace_sd; /* the pace factor: 0 and 1 before anything was logged */
    double work_share;         /* k, of the kind of work: z has sqrt(k) work in it too */
    int n_works;
    uint64_t *work_stream; /* by kind of work */
    double *work_mean;
    double *work_root; /* by kind a row of 1 + n_works: its factor is its mean, and these times the
                          pace's own normal and those of the kinds */
    double check_minutes; /* time to check a part on arrival, for order-by dates */
};

/* Names what is wrong: a range outside its array, a cycle, a session that overlaps, odds outside
 * 0..1, a gate that could never open. */
bool project_valid(const struct project *p, struct arena scratch, struct fail *f);

#endif
