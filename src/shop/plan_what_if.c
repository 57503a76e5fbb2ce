#include "shop/plan_what_if.h"

#include <math.h>
#include <stdlib.h>

/* How many setbacks are tried, and on how many runs; and the runs with more money. */
enum { TRIED = 6, RUNS = 400, MORE_MAJOR = 50 };

/* Mean of days gained over the runs that finish both ways, and its standard error. */
struct gain {
    double sum, squares;
    int n;
};

static void gain_add(struct gain *g, int32_t with, int32_t without)
{
    if (with == NEVER || without == NEVER) return;
    double days = (double)(with - without) / MINUTES_A_DAY;
    g->sum += days;
    g->squares += days * days;
    g->n++;
}

static double gain_mean(const struct gain *g, double *error)
{
    if (g->n < 2) return *error = 0;
    double mean = g->sum / g->n;
    *error = sqrt(fmax(0, g->squares / g->n - mean * mean) / (g->n - 1));
    return mean;
}

struct suspect {
    int setback;
    double weight; /* what it adds in hours and waits on average, roughly: only to choose whom to
                      try */
};

static int by_weight(const void *a, const void *b)
{
    const struct suspect *x = a, *y = b;
    if (x->weight != y->weight) return x->weight > y->weight ? -1 : 1;
    return x->setback - y->setback;
}

static struct suspect suspect_of(const struct reckoned *r, int setback)
{
    const struct project *p = &r->model.project;
    const struct project_setback *s = &p->setbacks[setback];
    double reached = 1, weight = 0, fired = 0;
    for (int i = 0; i < s->steps.count; i++) {
        const struct project_step *step = &p->steps[s->steps.first + i];
        double lead = 0;
        for (int k = 0; k < step->buys.count; k++)
            lead = fmax(lead, p->parts[p->buys[step->buys.first + k].part].lead.middle);
        /* An hour of work takes about a day of calendar with a few hours a week. */
        weight += reached * (step->minutes.middle * 24 + fmax(step->wait.middle, lead));
        reached *= 1 - step->works;
    }
    for (int i = 0; i < r->forecast.runs; i++)
        fired += r->forecast.fired[(size_t)setback * (size_t)r->forecast.runs + (size_t)i];
    return (struct suspect){setback, weight * fired / r->forecast.runs};
}

/* The first `runs` runs again without the setback. Only those in which it happened come out
 * otherwise: the streams of all else stay as they are. */
static struct plan_setback try_without(struct arena scratch, const struct shop_ask *ask,
                                       const struct reckoned *r, int setback, int runs)
{
    const struct project *p = &r->model.project;
    const struct forecast *with = &r->forecast;
    const uint8_t *fired = with->fired + (size_t)setback * (size_t)with->runs;
    struct plan_setback s = {
        .setback = &r->model.trade->setbacks[r->model.trade_setback[setback]],
        .job = &r->model.trade->jobs[r->model.trade_job[p->setbacks[setback].job]]};
    struct gain gain = {0};
    int *which = ARENA_ARRAY(&scratch, int, runs), n = 0, happened = 0;
    for (int i = 0; i < with->runs; i++) {
        happened += fired[i] > 0;
        if (i >= runs) continue;
        if (fired[i])
            which[n++] = i;
        else
            gain_add(&gain, with->finish[i], with->finish[i]);
    }
    s.chance = (double)happened / with->runs;
    if (n > 0) {
        struct forecast_ask how = {.seed = ask->seed,
                                   .runs = n,
                                   .threads = ask->threads,
                                   .which = which,
                                   .without = setback};
        struct forecast without = forecast_run(&scratch, p, &r->belief, r->dispatch, &how);
        for (int i = 0; i < n; i++) {
            gain_add(&gain, with->finish[which[i]], without.finish[i]);
            s.money += (with->cost[which[i]] - without.cost[i]) / runs;
        }
    }
    s.days = gain_mean(&gain, &s.error);
    return s;
}

static void weigh_setbacks(struct arena *a, const struct shop_ask *ask, const struct reckoned *r,
                           struct plan *out)
{
    const struct project *p = &r->model.project;
    int runs = ask->runs < RUNS ? ask->runs : RUNS;
    struct suspect *suspects = ARENA_ARRAY(a, struct suspect, p->n_setbacks);
    for (int i = 0; i < p->n_setbacks; i++) suspects[i] = suspect_of(r, i);
    qsort(suspects, (size_t)p->n_setbacks, sizeof *suspects, by_weight);
    for (int i = 0; i < TRIED && i < p->n_setbacks && suspects[i].weight > 0; i++) {
        struct plan_setback s = try_without(*a, ask, r, suspects[i].setback, runs);
        /* Kept in order of days, the best few. */
        int at = out->n_setbacks < PLAN_SETBACKS ? out->n_setbacks++ : PLAN_SETBACKS - 1;
        if (at == PLAN_SETBACKS - 1 && out->setbacks[at].setback &&
            out->setbacks[at].days >= s.days)
            continue;
        out->setbacks[at] = s;
        for (; at > 0 && out->setbacks[at].days > out->setbacks[at - 1].days; at--) {
            struct plan_setback swap = out->setbacks[at];
            out->setbacks[at] = out->setbacks[at - 1];
            out->setbacks[at - 1] = swap;
        }
    }
}

static bool weigh_money(struct arena *a, const struct shop_ask *ask, const struct reckoned *r,
                        const struct taken *taken, struct plan *out, struct fail *f)
{
    if (out->purse_open) return true;
    int digits = 2, runs = ask->runs < RUNS ? ask->runs : RUNS;
    currency_digits(out->currency, &digits);
    struct model_ask want = {.today = ask->today,
                             .direction = r->model.direction,
                             .taken = taken,
                             .more_a_month = MORE_MAJOR * pow(10, digits)};
    struct arena scratch = *a;
    struct model more;
    if (!model_with_purse(&scratch, &r->model, &want, &more, f)) return false;
    struct dispatch *d = dispatch_prepare(&scratch, &more.project, NULL);
    struct forecast_ask how = {
        .seed = ask->seed, .runs = runs, .threads = ask->threads, .without = -1};
    struct forecast richer = forecast_run(&scratch, &more.project, &r->belief, d, &how);
    out->more_money = want.more_a_month;
    struct gain gain = {0};
    for (int i = 0; i < runs; i++) gain_add(&gain, r->forecast.finish[i], richer.finish[i]);
    out->more_days = gain_mean(&gain, &out->more_error);
    out->money_binds = out->hang[HOLD_MONEY] > 0.005 || out->no_money > 0;
    return true;
}

bool plan_what_ifs(struct arena *a, const struct shop_ask *ask, const struct reckoned *r,
                   const struct taken *taken, struct plan *out, struct fail *f)
{
    weigh_setbacks(a, ask, r, out);
    return weigh_money(a, ask, r, taken, out, f);
}
