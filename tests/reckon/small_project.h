/* small_project.h - projects made by hand in a test, a line an entry; every figure is exact (no
 * spread).
 *
 * Jobs take 1 pair of hands, need neither bay nor warmth, and are always needed, until the test
 * says otherwise through small->p. Lists of a job (after, buys, needs) must be told before the next
 * job's. */
#ifndef TESTS_RECKON_SMALL_PROJECT_H
#define TESTS_RECKON_SMALL_PROJECT_H

#include "reckon/check.h"
#include "reckon/dispatch.h"
#include "reckon/draw.h"

enum { SMALL_MOST = 64, DAY_LONG = 1440 };

struct small {
    struct project p;
    struct project_component components[SMALL_MOST];
    uint64_t kind_stream[SMALL_MOST];
    struct project_part parts[SMALL_MOST];
    struct project_job jobs[SMALL_MOST];
    struct project_setback setbacks[SMALL_MOST];
    struct project_step steps[SMALL_MOST];
    struct project_session sessions[SMALL_MOST];
    int needs[SMALL_MOST], after[SMALL_MOST], done[SMALL_MOST];
    struct project_buy buys[SMALL_MOST];
    int32_t payday[SMALL_MOST];
    double pay[SMALL_MOST];
};

/* What one run of it came to. */
struct small_run {
    struct drawn drawn;
    struct schedule schedule;
    struct outcome outcome;
    uint8_t *critical;
    double money, work;
};

/* Empty, with an open purse and every session kept. It points into itself: do not copy it. */
void small_begin(struct small *s);

int small_job(struct small *s, const char *id,
              int minutes); /* its number; also one of project.done */
void small_after(struct small *s, int job, int before);
int small_part(struct small *s, const char *id, double price, int lead);
void small_buy(struct small *s, int job, int part, double count);
int small_component(struct small *s, const char *id, int known); /* a kind of its own, even odds */
void small_need(struct small *s, int job, int component, unsigned conditions);
void small_session(struct small *s, int start, int end); /* 1 pair of hands, the bay, 20 C */
/* Certain to happen at the job: a ladder of one step. Its part may be -1. */
int small_setback(struct small *s, int job, int minutes, int wait, int part);
void small_payday(struct small *s, int when, double pay);
struct spread exactly(double value);
/* low, middle, high as percentiles. */
struct spread about(double low, double middle, double high);

/* Valid, drawn with `seed` as run 0, scheduled with every record kept. */
struct small_run small_do(struct arena *a, const struct project *p, uint64_t seed);
/* The same for draws that were made already. */
void small_dispatch(struct arena *a, const struct project *p, struct small_run *r);

#endif
