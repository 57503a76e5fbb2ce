#include "reckon/habit.h"

#include "reckon/pert.h"

#include <assert.h>
#include <math.h>

static const double WEEKS_A_MONTH = 365.25 / 12 / 7;

static void end_gap(struct habit *h, int weeks, int planned, double *logs)
{
    if (weeks < HABIT_LAYOFF_WEEKS) {
        h->planned += planned; /* sessions that were missed */
        return;
    }
    h->layoffs++;
    *logs += log(weeks);
}

struct habit habit_learn(struct habit_prior prior, const struct habit_week *weeks, int n)
{
    struct habit h = {0};
    double logs = 0;
    int gap = 0, missed = 0;
    assert(prior.kept > 0 && prior.kept < 1 && prior.kept_sessions > 0);
    for (int i = 0; i < n; i++) {
        const struct habit_week *w = &weeks[i];
        if (w->planned == 0) continue;
        h.weeks++;
        if (w->done == 0) {
            gap++;
            missed += w->planned;
            continue;
        }
        end_gap(&h, gap, missed, &logs);
        gap = missed = 0;
        h.planned += w->planned;
        h.kept += w->done < w->planned ? w->done : w->planned;
    }
    end_gap(&h, gap, missed, &logs);
    h.alpha = prior.kept * prior.kept_sessions + h.kept;
    h.beta = (1 - prior.kept) * prior.kept_sessions + h.planned - h.kept;
    h.layoffs_a_month = (prior.layoffs_a_month * prior.layoff_months + h.layoffs) /
                        (prior.layoff_months + h.weeks / WEEKS_A_MONTH);
    h.layoff_weeks = exp((log(prior.layoff_weeks) * prior.layoff_count + logs) /
                         (prior.layoff_count + h.layoffs));
    return h;
}

double habit_kept(const struct habit *h)
{
    return h->alpha / (h->alpha + h->beta);
}

double habit_kept_quantile(const struct habit *h, double p)
{
    return beta_quantile(p, h->alpha, h->beta);
}
