/* log_match.h - which job or setback of the trade data a few words mean.
 *
 * Words are folded first: case, plural, American words to British ones, and words for one trouble
 * to one of them. A word tells the more the fewer entries have it. What the plan still has to do
 * is favoured, and most what comes next. */
#ifndef SHOP_LOG_MATCH_H
#define SHOP_LOG_MATCH_H

#include "model/model.h"

struct log_match; /* the words of all jobs and setbacks, ready to be looked up */
struct log_match *log_match_new(struct arena *a, const struct model *m);

enum { LOG_NEAR = 4 };
struct log_found {
    int best[LOG_NEAR]; /* of trade data, the likeliest first; within a tenth of it */
    int count;          /* 0: nothing; 1: clear; more: it may be any of them */
};

/* words: folded; extra: those that weigh little, and may be NULL. */
struct log_found log_match_job(const struct log_match *x, const char *const *words, int n,
                               const char *const *extra, int n_extra);
/* jobs: of trade data, at which it was met; a setback that is known there is favoured. */
struct log_found log_match_setback(const struct log_match *x, const char *const *words, int n,
                                   const int *jobs, int n_jobs);
/* Does an entry have that word at all? */
bool log_match_knows(const struct log_match *x, const char *word);
bool log_match_in_plan(const struct log_match *x, int job, bool *finished);

#endif
