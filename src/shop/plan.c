#include "shop/plan.h"

#include "shop/plan_chart.h"
#include "shop/plan_shown.h"
#include "shop/plan_what_if.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

struct planning {
    struct arena *a;
    const struct shop_ask *ask;
    const struct reckoned *r;
    struct plan *out;
};

/* ---- jobs ---- */

static int32_t median_moment(const int32_t *column, int runs, struct arena scratch, int *count)
{
    double *sample = ARENA_ARRAY(&scratch, double, runs);
    int n = 0;
    for (int i = 0; i < runs; i++)
        if (column[i] != NEVER) sample[n++] = column[i];
    *count = n;
    return n > 0 ? (int32_t)quantile_of(sample, (size_t)n, 0.5) : NEVER;
}

static int by_start(const void *a, const void *b)
{
    const struct plan_job *x = a, *y = b;
    if (x->start != y->start) return x->start < y->start ? -1 : 1;
    return strcmp(x->job->head.id, y->job->head.id);
}

static void sum_jobs(struct planning *x)
{
    const struct project *p = &x->r->model.project;
    const struct forecast *fc = &x->r->forecast;
    size_t runs = (size_t)fc->runs;
    x->out->jobs = ARENA_ARRAY(x->a, struct plan_job, p->n_jobs);
    for (int j = 0; j < p->n_jobs; j++) {
        if (p->jobs[j].finished) continue;
        struct plan_job *to = &x->out->jobs[x->out->n_jobs];
        int started, ended, critical = 0;
        *to = (struct plan_job){.job = &x->r->model.trade->jobs[x->r->model.trade_job[j]]};
        to->start = median_moment(fc->start + (size_t)j * runs, fc->runs, *x->a, &started);
        to->finish = median_moment(fc->end + (size_t)j * runs, fc->runs, *x->a, &ended);
        if (started == 0) continue; /* not needed in any run */
        int money = 0;
        for (size_t i = 0; i < runs; i++) {
            size_t cell = (size_t)j * runs + i;
            critical += fc->critical[cell];
            money += fc->start[cell] != NEVER && fc->held[cell] == HOLD_MONEY;
        }
        to->chance = (double)started / fc->runs;
        to->critical = (double)critical / started;
        to->money = (double)money / started;
        /* A wait passes day and night, work only in sessions: about a twelfth of the time for a
         * busy amateur. */
        to->weight =
            to->critical * to->chance * (12 * p->jobs[j].minutes.middle + p->jobs[j].wait.middle);
        x->out->n_jobs++;
    }
    qsort(x->out->jobs, (size_t)x->out->n_jobs, sizeof *x->out->jobs, by_start);
}

/* ---- milestones: jobs that the trade data calls so ---- */

static void sum_milestones(struct planning *x)
{
    const struct project *p = &x->r->model.project;
    const struct forecast *fc = &x->r->forecast;
    x->out->milestones = ARENA_ARRAY(x->a, struct plan_milestone, p->n_jobs);
    for (int j = 0; j < p->n_jobs; j++) {
        const struct trade_job *job = &x->r->model.trade->jobs[x->r->model.trade_job[j]];
        if (!job->milestone || p->jobs[j].finished) continue;
        double *sample = ARENA_ARRAY(x->a, double, fc->runs);
        for (int i = 0; i < fc->runs; i++) {
            int32_t end = fc->end[(size_t)j * (size_t)fc->runs + (size_t)i];
            sample[i] = end == NEVER ? (double)INFINITY : end;
        }
        x->out->milestones[x->out->n_milestones++] =
            (struct plan_milestone){job, quantiles_of(sample, (size_t)fc->runs, *x->a)};
    }
    /* In order of their dates; few enough for the simplest sort. */
    struct plan_milestone *m = x->out->milestones;
    for (int i = 1; i < x->out->n_milestones; i++)
        for (int k = i; k > 0 && m[k].finish.p50 < m[k - 1].finish.p50; k--) {
            struct plan_milestone swap = m[k];
            m[k] = m[k - 1];
            m[k - 1] = swap;
        }
}

/* ---- orders ---- */

static int by_date(const void *a, const void *b)
{
    const struct plan_order *x = a, *y = b;
    if (x->by != y->by) return x->by < y->by ? -1 : 1;
    return strcmp(x->part->head.id, y->part->head.id);
}

static const struct plan_job *told_job(const struct plan *p, const struct trade_job *job)
{
    for (int i = 0; i < p->n_jobs; i++)
        if (p->jobs[i].job == job) return &p->jobs[i];
    return NULL;
}

/* Which job wants the part first, and how many: as many as all that are likely want together. */
static void note_wanting(struct planning *x, int part, struct plan_order *to)
{
    const struct project *p = &x->r->model.project;
    int32_t first = NEVER;
    double likely = 0;
    to->waits_for_gate = true;
    for (int j = 0; j < p->n_jobs; j++) {
        for (int i = 0; i < p->jobs[j].buys.count; i++) {
            const struct project_buy *buy = &p->buys[p->jobs[j].buys.first + i];
            if (buy->part != part) continue;
            const struct plan_job *job =
                told_job(x->out, &x->r->model.trade->jobs[x->r->model.trade_job[j]]);
            to->count = fmax(to->count, buy->count);
            if (p->jobs[j].survey) to->waits_for_gate = false;
            if (!job) continue;
            if (job->chance >= 0.5) likely += buy->count;
            if (job->start >= first) continue;
            first = job->start;
            to->job = job->job;
        }
    }
    to->count = fmax(to->count, likely);
}

static void sum_orders(struct planning *x)
{
    const struct project *p = &x->r->model.project;
    const struct forecast *fc = &x->r->forecast;
    x->out->orders = ARENA_ARRAY(x->a, struct plan_order, p->n_parts);
    for (int i = 0; i < p->n_parts; i++) {
        if (x->r->model.part_ordered[i]) continue;
        struct arena scratch = *x->a;
        double *sample = ARENA_ARRAY(&scratch, double, fc->runs);
        int n = 0;
        for (int k = 0; k < fc->runs; k++) {
            int32_t by = fc->order_by[(size_t)i * (size_t)fc->runs + (size_t)k];
            if (by != NEVER) sample[n++] = by;
        }
        if (n == 0) continue;
        struct plan_order *to = &x->out->orders[x->out->n_orders];
        *to = (struct plan_order){.part = &x->r->model.trade->parts[x->r->model.trade_part[i]],
                                  .by = (int32_t)quantile_of(sample, (size_t)n, 0.1),
                                  .chance = (double)n / fc->runs,
                                  .price = p->parts[i].price.middle,
                                  .lead_days = p->parts[i].lead.middle / MINUTES_A_DAY};
        note_wanting(x, i, to);
        if (to->job) x->out->n_orders++;
    }
    qsort(x->out->orders, (size_t)x->out->n_orders, sizeof *x->out->orders, by_date);
}

/* ---- money by month ---- */

static void sum_months(struct planning *x)
{
    const struct project *p = &x->r->model.project;
    const struct forecast *fc = &x->r->forecast;
    int year, month, dom, last = 0;
    day_to_civil(x->out->first, &year, &month, &dom);
    day first = day_from_civil(year, month, 1);
    x->out->months = ARENA_ARRAY(x->a, struct plan_month, PLAN_MONTHS);
    for (int m = 0; m < PLAN_MONTHS && m < FORECAST_MONTHS; m++) {
        double *sample = ARENA_ARRAY(x->a, double, fc->runs);
        for (int i = 0; i < fc->runs; i++)
            sample[i] = (double)fc->month[(size_t)m * (size_t)fc->runs + (size_t)i];
        struct quantiles q = quantiles_of(sample, (size_t)fc->runs, *x->a);
        struct plan_month *to = &x->out->months[m];
        *to = (struct plan_month){.first = day_add_months(first, m), .p50 = q.p50, .p80 = q.p80};
        if (!p->purse.open) to->pay = m == 0 ? p->purse.in_hand : p->purse.pay[m - 1];
        if (q.p80 > 0) last = m + 1;
    }
    x->out->n_months = last;
}

/* ---- totals ---- */

static void sum_totals(struct planning *x)
{
    const struct forecast *fc = &x->r->forecast;
    struct plan *out = x->out;
    size_t runs = (size_t)fc->runs;
    double *hours = ARENA_ARRAY(x->a, double, runs);
    int never = 0, no_money = 0;
    double total = 0;
    for (size_t i = 0; i < runs; i++) {
        hours[i] = fc->work[i] / 60;
        if (fc->finish[i] != NEVER) continue;
        never++;
        no_money += fc->out_of_money[i];
    }
    out->finish = quantiles_of(reckoning_finishes(x->a, fc), runs, *x->a);
    out->hours = quantiles_of(hours, runs, *x->a);
    out->cost = quantiles_of(fc->cost, runs, *x->a);
    out->never = (double)never / fc->runs;
    out->no_money = (double)no_money / fc->runs;
    for (int h = 0; h < HOLD_COUNT; h++) {
        for (size_t i = 0; i < runs; i++) out->hang[h] += (double)fc->hang[h][i];
        total += out->hang[h];
    }
    for (int h = 0; h < HOLD_COUNT && total > 0; h++) out->hang[h] /= total;
}

static bool reckon(struct arena *a, const struct shop_ask *ask, struct plan *out,
                   struct reckoned *r, struct facts *facts, struct taken **known, struct fail *f)
{
    struct taken *taken;
    *out = (struct plan){0};
    if (!facts_read(ask->garage, a, ask->trade, ask->vehicle, facts, f)) return false;
    if (!reckoning_taken(a, ask, facts, &taken, &out->after, f)) return false;
    *known = taken;
    int direction = ask->direction >= 0 ? ask->direction : reckoning_direction(facts, ask->trade);
    if (!reckoning_run(a, ask, facts, taken, direction, NULL, true, r, f)) return false;
    const struct model *m = &r->model;
    out->trade = ask->trade;
    out->vehicle = facts->name;
    out->direction = &ask->trade->directions[direction];
    out->decided = ask->direction >= 0 || facts->direction >= 0;
    out->first = m->first;
    out->as_of = ask->today;
    out->seed = ask->seed;
    out->runs = ask->runs;
    out->currency = m->currency;
    struct facts_worth more;
    if (!facts_worth_read(ask->garage, a, ask->trade, facts, out->currency, &more, f)) return false;
    tripwires_crossed(a, facts, &more, ask->today, &out->crossed, &out->n_crossed);
    out->notes = m->notes;
    out->n_notes = m->n_notes;
    out->calendar = m->calendar;
    memcpy(out->answers, m->answers, sizeof out->answers);
    const struct project_session *last = &m->project.sessions[m->project.n_sessions - 1];
    out->horizon_years = last->end / (365.25 * MINUTES_A_DAY);
    out->purse_open = m->project.purse.open;
    out->a_month = facts->a_month > 0 ? facts->a_month : 0;
    out->in_hand = m->project.purse.in_hand;
    out->ceiling = m->project.purse.ceiling;
    out->reserve = m->project.purse.reserve;
    struct planning x = {a, ask, r, out};
    sum_totals(&x);
    sum_jobs(&x);
    sum_milestones(&x);
    sum_orders(&x);
    sum_months(&x);
    plan_chart(a, &r->forecast, out);
    return plan_show(a, r, facts, out, f);
}

bool plan_reckon(struct arena *a, const struct shop_ask *ask, struct plan *out, struct fail *f)
{
    struct reckoned *r = ARENA_NEW(a, struct reckoned);
    struct taken *taken;
    return reckon(a, ask, out, r, ARENA_NEW(a, struct facts), &taken, f) &&
           plan_what_ifs(a, ask, r, taken, out, f);
}

bool plan_reckon_base(struct arena *a, const struct shop_ask *ask, struct plan *out,
                      const struct reckoned **reckoned, const struct facts **known, struct fail *f)
{
    struct reckoned *r = ARENA_NEW(a, struct reckoned);
    struct facts *facts = ARENA_NEW(a, struct facts);
    struct taken *taken;
    *reckoned = r;
    *known = facts;
    return reckon(a, ask, out, r, facts, &taken, f);
}
