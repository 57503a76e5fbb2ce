/* intake.h - the twelve questions about a vehicle that is taken in, as one table, and where the
 * answers go, for every face.
 *
 * Answers are kept until all are there: the vehicle, and what was said of workshop and purse, are
 * stored in one act or not at all. */
#ifndef SHOW_INTAKE_H
#define SHOW_INTAKE_H

#include "garage/garage.h"

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
    struct arena *arena;
    struct garage *garage; /* open for writing */
    struct record *vehicle, *workshop, *purse;
    bool workshop_said, purse_said; /* else they are left as they are */
};

/* With the defaults filled in; workshop and purse begin as the garage has them. */
bool intake_begin(struct arena *a, struct garage *g, struct intake *in, struct fail *f);
bool intake_set(struct intake *in, const struct intake_key *k, const char *text, struct fail *f);
const char *intake_answer(const struct intake *in,
                          const struct intake_key *k); /* NULL: not known */
const struct intake_key *intake_find(const char *key); /* or NULL */
/* The field of its record where the answer goes. */
const struct field *intake_field(const struct intake_key *k);
/* Of sums without one: that said with this intake, else the garage's, else the locale's, else NULL.
 */
const char *intake_currency(const struct intake *in);
bool intake_store(struct intake *in, struct fail *f);

/* Of sums without one: the garage's latest workshop record (g may be NULL), else the locale's, else
 * NULL. */
const char *currency_usual(struct arena *a, struct garage *g);

#endif
