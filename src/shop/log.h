/* log.h - one line at the end of the session becomes jobs, hours and a setback: "4 h, front brakes,
 * left cylinder stuck". Nothing is stored here; what was read is shown first.
 *
 * Pieces between commas, semicolons and "and" are read each for itself. Hours beside a job are that
 * job's; hours that stand alone are shared over the jobs that have none, as their estimates are.
 * What was not understood, and what may be one of several, is said and never guessed. */
#ifndef SHOP_LOG_H
#define SHOP_LOG_H

#include "shop/log_match.h"

struct log_ask {
    struct garage *garage;
    const struct trade *trade;
    const char *vehicle; /* id */
    day today;
    int minute;               /* of the day that it is, local; -1: not known */
    const char *now;          /* UTC stamp, as records have it */
    const char *line;         /* as typed */
    const char *const *picks; /* ids of jobs: of the pieces that may be several, in their order */
    int n_picks;
};

struct log_job {
    int job;        /* of trade data */
    double minutes; /* -1: none said */
    bool finished, in_plan, was_finished, shared;
};

struct log_open {
    const char *words; /* the piece that may be any of these */
    struct log_found jobs;
};

struct log_reading {
    const struct trade *trade;
    const char *vehicle, *line;
    day date;
    int from, to; /* minutes of the day, -1: not said */
    struct log_job *jobs;
    int n_jobs;
    struct log_open *open; /* to be settled first: by a pick, or by the id in the line */
    int n_open;
    struct log_found setback; /* count 1: met; more: it may be any of them, and is kept as a note */
    const char *unread;       /* words that say nothing to us, kept in the note; NULL: none */
    const char **questions;   /* to be answered yes before it is stored */
    int n_questions;
};

/* FAIL_INPUT for what cannot be: a day to come, no job at all, more than a day in a day. */
bool log_read(struct arena *a, const struct log_ask *ask, struct log_reading *out, struct fail *f);

/* Minutes of "4 h", "1 h 30", "90 min", "half an hour" at the front of s; *n: how long it is. */
bool log_hours(const char *s, double *minutes, size_t *n);

/* What a clock that ran from one stamp to another says. */
enum timer_state { TIMER_FITS, TIMER_FORGOTTEN, TIMER_JUMPED };
enum timer_state timer_judge(const char *from, const char *to, double *minutes);

#endif
