/* intake.h - the twelve questions about a vehicle that is taken in, as one table, and where the
 * answers go.
 *
 * Answers are kept until all are there: the vehicle, and what was said of workshop and purse, are
 * stored in one act or not at all. */
#ifndef CLI_INTAKE_H
#define CLI_INTAKE_H

#include "face/cli/context.h"

struct intake_key {
    int question; /* 1..12; 0 for the name, which is only a label */
    const char *key;
    const char *kind, *field; /* where the answer goes */
    const char *ask;          /* the question; NULL: not asked, may be given as key=value */
    const char *caution;      /* beside the question, where finding out can hurt; or NULL */
};

enum { INTAKE_QUESTIONS = 12 };
extern const struct intake_key intake_keys[]; /* in the order of asking, ended by a NULL key */

struct intake {
    struct record *vehicle, *workshop, *purse;
    bool workshop_said, purse_said; /* else they are left as they are */
};

/* With the defaults filled in; workshop and purse begin as the garage has them. Opens the garage
 * for writing. */
bool intake_begin(struct context *c, struct intake *in, struct fail *f);
bool intake_set(struct context *c, struct intake *in, const struct intake_key *k, const char *text,
                struct fail *f);
const char *intake_answer(const struct intake *in,
                          const struct intake_key *k); /* NULL: not known */
const struct intake_key *intake_find(const char *key); /* or NULL */
/* Of sums without one: that said with this intake, else the garage's, else the locale's, else NULL.
 */
const char *intake_currency(struct context *c, const struct intake *in);
/* Asks all of them on standard input and output; '<' goes back. False, nothing stored, if broken
 * off. */
bool intake_ask(struct context *c, struct intake *in, struct fail *f);
bool intake_store(struct context *c, struct intake *in, struct fail *f);

#endif
