#include "shop/pace.h"

#include <math.h>
#include <stdlib.h>

static const double Z90 = 1.2815515655446004; /* the 90 % point of the standard normal */

/* What z does to the middle figure of a job of that kind, on average over those of the trade data:
 * each has a spread of its own. */
static double factor_of(const struct trade *t, int system, double z)
{
    double sum = 0;
    int n = 0;
    for (int i = 0; i < t->n_jobs; i++) {
        const struct points p = t->jobs[i].hours;
        if ((system >= 0 && t->jobs[i].system != system) || p.middle <= 0) continue;
        sum += log(points_draw(p, z) / p.middle);
        n++;
    }
    return n > 0 ? exp(sum / n) : 1;
}

static struct pace_kind kind_of(const struct trade *t, const struct model_pace *m, int system)
{
    const struct normal z = pace_of_kind(&m->learned, m->shares, system);
    struct pace_kind k = {.system = system < 0 ? NULL : &t->systems[system],
                          .factor = factor_of(t, system, z.mean),
                          .low = factor_of(t, system, z.mean - Z90 * z.sd),
                          .high = factor_of(t, system, z.mean + Z90 * z.sd)};
    for (int i = 0; i < t->n_systems; i++)
        if (system < 0 || i == system) {
            k.jobs += m->kinds[i].jobs;
            k.logged += m->kinds[i].logged;
            k.estimated += m->kinds[i].estimated;
        }
    return k;
}

static int by_jobs(const void *a, const void *b)
{
    const struct pace_kind *x = a, *y = b;
    if (x->jobs != y->jobs) return y->jobs - x->jobs;
    return (x->system > y->system) - (x->system < y->system);
}

bool pace_reckon(struct arena *a, const struct shop_ask *ask, struct pace *out, struct fail *f)
{
    const struct trade *t = ask->trade;
    struct facts *facts = ARENA_NEW(a, struct facts);
    struct model *m = ARENA_NEW(a, struct model);
    struct figures figures;
    if (!facts_read(ask->garage, a, t, ask->vehicle, facts, f) || !figures_read(t, &figures, f))
        return false;
    const struct model_ask want = {
        .today = ask->today,
        .direction = ask->direction >= 0 ? ask->direction : reckoning_direction(facts, t)};
    if (!model_make(a, t, facts, &want, m, f)) return false;
    const struct habit *h = &m->pace.habit;
    *out = (struct pace){.trade = t,
                         .vehicle = facts->name,
                         .all = kind_of(t, &m->pace, -1),
                         .kinds = ARENA_ARRAY(a, struct pace_kind, t->n_systems),
                         .left_out = m->pace.left_out,
                         .habit = *h,
                         .kept = m->project.kept,
                         .kept_low = habit_kept_quantile(h, 0.1),
                         .kept_high = habit_kept_quantile(h, 0.9),
                         .kept_usual = facts->sessions_kept > 0 ? facts->sessions_kept
                                                                : figures.sessions_kept,
                         .layoffs_usual = figures.layoff_a_month,
                         .layoffs_a_month = m->project.layoff_a_month,
                         .layoff_weeks = m->project.layoff.middle / (7.0 * MINUTES_A_DAY)};
    for (int i = 0; i < t->n_systems; i++)
        if (m->pace.kinds[i].jobs > 0) out->kinds[out->n_kinds++] = kind_of(t, &m->pace, i);
    qsort(out->kinds, (size_t)out->n_kinds, sizeof *out->kinds, by_jobs);
    return true;
}
