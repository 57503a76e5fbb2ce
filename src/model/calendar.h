/* calendar.h - from the week that the builder told, the sessions of the coming years. */
#ifndef MODEL_CALENDAR_H
#define MODEL_CALENDAR_H

#include "model/facts.h"
#include "reckon/project.h"

/* A time of the week for the vehicles. */
struct week_slot {
    int weekday, from, to, hands;
};

/* The times that hours a week become where none were told, in the order in which they fill. */
const struct week_slot *calendar_usual(int *count);

struct calendar_ask {
    day first;               /* day 0 of project time */
    int days;                /* how far ahead */
    double set_up, clear_up; /* minutes taken off each session */
    double temperature[12];  /* of the work place, by month, deg C */
    double heated_least;     /* least temperature of a heated place */
    double hours_if_unknown;
};

struct calendar {
    struct week_slot *week;
    int n_week;
    bool week_assumed;   /* made from hours a week, not told slot by slot */
    bool hours_assumed;  /* hours were not told either */
    bool helper_assumed; /* one pair of hands: after the helper days that were told, a helper once a
                            month */
    struct project_session *sessions;
    int n_sessions;
    double hours_a_week; /* of the week as planned, set-up included */
};

/* Fails if no session is left ("a calendar without a session"). Overlapping slots are joined. */
bool calendar_make(struct arena *a, const struct facts *facts, const struct calendar_ask *ask,
                   struct calendar *out, struct fail *f);

#endif
