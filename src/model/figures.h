/* figures.h - the defaults of the plan, read from trade data by name, once. */
#ifndef MODEL_FIGURES_H
#define MODEL_FIGURES_H

#include "library/trade.h"

struct figures {
    double sessions_kept;    /* share */
    double set_up, clear_up; /* minutes a session */
    double layoff_a_month;   /* chance */
    struct points layoff_weeks;
    double pace_share, state_share, work_share; /* of the variance of a job's log hours */
    double kind_share; /* of the variance of a component's condition that all of its kind share */
    double check_days; /* to check a part on arrival */
    double temperature[12];     /* deg C by month in an unheated work place */
    double heated_least;        /* deg C */
    double hours_if_unknown;    /* a week */
    double standing_if_unknown; /* years */
    struct points miles_a_year;
    double full_years, later_share; /* years driven in full, and what share a later one is */
    double years_in_use;            /* where it is not known */
    double clock_digits, clock_changed;
    struct points clock_stood; /* chance: works, not known, does not work */
    double mileage_steadiness, paper_wrong;
    double identity_holds, original_holds;          /* before any clue */
    double worth_if_another, worth_if_not_original; /* share of the price that is left then */
    double ladder_hour;                             /* major units of the trade data's currency */
    double horizon_years;                           /* how far the calendar reaches */
};

/* Fails where a default that the plan needs is missing or has another number of values. */
bool figures_read(const struct trade *t, struct figures *out, struct fail *f);

#endif
