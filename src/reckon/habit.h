/* habit.h - what the weeks so far say of the share of planned sessions that happen, and of
 * lay-offs.
 *
 * The share is beta, its prior worth so many sessions; lay-offs come as a Poisson process, its rate
 * gamma, its prior worth so many months; the middle of their lengths is lognormal, its prior worth
 * so many lay-offs. All conjugate: with little data the prior stands, with much the data. Pure.
 *
 * Published: conjugate updates, Gelman et al., Bayesian Data Analysis, sec. 2.4 and 2.6. */
#ifndef RECKON_HABIT_H
#define RECKON_HABIT_H

enum {
    HABIT_LAYOFF_WEEKS = 3
}; /* so many weeks with nothing are a lay-off, and no missed sessions */

struct habit_prior {
    double kept, kept_sessions;
    double layoffs_a_month, layoff_months;
    double layoff_weeks, layoff_count;
};

struct habit_week {
    int planned, done; /* days; what was done on another day of the week counts as much */
};

struct habit {
    int planned, kept; /* sessions, lay-offs left out */
    double alpha, beta;
    int layoffs, weeks; /* weeks in which something was planned */
    double layoffs_a_month, layoff_weeks;
};

/* Weeks in order of time; one in which nothing was planned says nothing. */
struct habit habit_learn(struct habit_prior prior, const struct habit_week *weeks, int n);
double habit_kept(const struct habit *h);                    /* mean of the share */
double habit_kept_quantile(const struct habit *h, double p); /* 0 < p < 1 */

#endif
