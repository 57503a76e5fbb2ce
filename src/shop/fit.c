#include "shop/fit.h"

#include "model/facts_worth.h"

#include <assert.h>
#include <math.h>
#include <string.h>

enum { PREFERENCES_MOST = 24, FLIP_NODES = 4000, AGAIN_MOST = 1 };

struct fitting_up {
    struct arena *a;
    const struct shop_ask *ask;
    const struct fit_wish *wish;
    const struct trade *t;
    const struct facts *facts;
    const struct taken *taken;
    struct fit_ask problem;
    struct fit *out;
};

double usual_late_day(const struct facts *facts, const struct trade *t, const char *currency)
{
    static const double MONTH_USUAL = 60; /* major units of the trade data's currency */
    int digits = 2;
    currency_digits(currency, &digits);
    const double rate = facts_rate(facts, t->n_parts ? t->parts[0].currency : currency, currency);
    return MONTH_USUAL * pow(10, digits) * (rate > 0 ? rate : 1) / DAYS_A_MONTH;
}

struct fit_wish fit_no_wish(void)
{
    return (struct fit_wish){.wanted = -1, .prefer = -1, .budget = -1};
}

/* ---- the plan as it stands: when parts are wanted, and what a late day costs ---- */

static double median_day(const int32_t *column, int runs, struct arena scratch)
{
    double *sample = ARENA_ARRAY(&scratch, double, runs);
    size_t n = 0;
    for (int i = 0; i < runs; i++)
        if (column[i] != NEVER) sample[n++] = column[i];
    return n == 0 ? (double)NAN : quantile_of(sample, n, 0.5) / MINUTES_A_DAY;
}

static void read_days(struct fitting_up *x, const struct reckoned *r)
{
    const struct project *p = &r->model.project;
    const struct forecast *fc = &r->forecast;
    double *wanted = ARENA_ARRAY(x->a, double, x->t->n_jobs + 1);
    double *critical = ARENA_ARRAY(x->a, double, x->t->n_jobs + 1);
    for (int i = 0; i < x->t->n_jobs; i++) wanted[i] = NAN;
    for (int j = 0; j < p->n_jobs; j++) {
        const size_t at = (size_t)j * (size_t)fc->runs;
        double late = 0;
        for (int i = 0; i < fc->runs; i++) late += fc->critical[at + (size_t)i];
        /* Parts are wanted some days before the job, to be checked. */
        wanted[r->model.trade_job[j]] =
            median_day(fc->start + at, fc->runs, *x->a) - p->check_minutes / MINUTES_A_DAY;
        critical[r->model.trade_job[j]] = late / fc->runs;
    }
    x->problem.need_day = wanted;
    x->problem.critical = critical;
}

static struct fit_side_by_side side_of(const struct fitting_up *x, const struct forecast *fc)
{
    const double *finish = reckoning_finishes(x->a, fc);
    return (struct fit_side_by_side){quantiles_of(finish, (size_t)fc->runs, *x->a),
                                     quantiles_of(fc->cost, (size_t)fc->runs, *x->a)};
}

/* ---- a set as facts ---- */

static struct facts with_set(struct fitting_up *x, const struct fit_answer *answer)
{
    const struct fit_problem *p = &x->out->problem;
    struct facts facts = *x->facts;
    struct facts_buy *buy = &facts.buy;
    buy->choices = ARENA_ARRAY(x->a, struct fact_choice, p->model.n_options + 1);
    buy->n_choices = 0;
    for (int i = 0; i < p->model.n_options; i++) {
        if (!answer->chosen[i]) continue;
        const int option = p->option[i];
        buy->choices[buy->n_choices++] = (struct fact_choice){
            .need = x->t->options[option].need, .option = option, .date = DAY_NONE};
    }
    buy->sellers = ARENA_ARRAY(x->a, struct fact_seller, answer->n_buys + 1);
    buy->n_sellers = 0;
    for (int i = 0; i < answer->n_buys; i++) {
        const struct fit_offer *o = &p->model.offers[answer->buys[i].offer];
        const int supplier = p->sellers[o->supplier].supplier;
        if (supplier >= 0)
            buy->sellers[buy->n_sellers++] = (struct fact_seller){p->part[o->part], supplier};
    }
    return facts;
}

/* ---- the chain, to be followed with a finger ---- */

static int waker(const struct fit_problem *p, const struct trade *t, const uint8_t *chosen,
                 int need)
{
    for (int i = 0; i < p->model.n_options; i++) {
        if (!chosen[i]) continue;
        const struct trade_option *o = &t->options[p->option[i]];
        for (int k = 0; k < o->n_brings; k++)
            if (o->brings[k] == p->need[need]) return i;
        for (int k = 0; k < o->n_requires; k++)
            if (t->options[o->requires[k]].need == p->need[need]) return i;
    }
    return -1;
}

static void add_chain(struct fit *out, int need, int brought, int depth, bool *done)
{
    const struct fit_problem *p = &out->problem;
    for (int i = 0; i < p->model.n_options; i++) {
        if (done[i] || !out->answer.chosen[i] || p->model.options[i].need != need) continue;
        done[i] = true;
        out->chain[out->n_chain++] = (struct fit_chain){need, i, brought, depth};
        for (int n = 0; n < p->model.n_needs; n++)
            if (p->model.needs[n].n_woken_by > 0 &&
                waker(p, out->trade, out->answer.chosen, n) == i)
                add_chain(out, n, i, depth + 1, done);
    }
}

static void tell_set(struct fitting_up *x)
{
    struct fit *out = x->out;
    const struct fit_problem *p = &out->problem;
    bool *done = ARENA_ARRAY(x->a, bool, p->model.n_options + 1);
    out->chain = ARENA_ARRAY(x->a, struct fit_chain, p->model.n_options + 1);
    out->adapters = ARENA_ARRAY(x->a, int, p->model.n_options + 1);
    out->live = ARENA_ARRAY(x->a, int, p->n_pairs + 1);
    out->n_chain = out->n_adapters = out->n_live = 0;
    for (int n = 0; n < p->model.n_needs; n++)
        if (p->model.needs[n].n_woken_by == 0) add_chain(out, n, -1, 0, done);
    /* What was asked for, or chosen before, though nothing brings its need. */
    for (int n = 0; n < p->model.n_needs; n++) add_chain(out, n, -1, 0, done);
    for (int i = 0; i < p->model.n_options; i++)
        if (p->model.options[i].need < 0 && out->answer.chosen[i])
            out->adapters[out->n_adapters++] = i;
    for (int i = 0; i < p->n_pairs; i++)
        if (fit_side_counts(p, x->t, out->answer.chosen, &p->pairs[i].giver) &&
            fit_side_counts(p, x->t, out->answer.chosen, &p->pairs[i].taker))
            out->live[out->n_live++] = i;
}

/* ---- what it would take ---- */

static void prefer(struct fitting_up *x, int option)
{
    struct fit *out = x->out;
    if (option < 0 || out->answer.chosen[option]) return;
    out->preferences[out->n_preferences++] = (struct fit_preference){
        option, fit_flip_of(x->a, &out->problem.model, &out->answer, option, FLIP_NODES)};
}

/* Of what the plan asks for and that brings others or could: the other options. */
static void tell_preferences(struct fitting_up *x)
{
    struct fit *out = x->out;
    const struct fit_problem *p = &out->problem;
    out->preferences = ARENA_ARRAY(x->a, struct fit_preference, p->model.n_options + 1);
    out->n_preferences = 0;
    if (x->wish->prefer >= 0) {
        prefer(x, p->option_of[x->wish->prefer]);
        return;
    }
    for (int i = 0; i < p->model.n_options && out->n_preferences < PREFERENCES_MOST; i++) {
        const int need = p->model.options[i].need;
        if (need >= 0 && p->model.needs[need].n_woken_by == 0 &&
            x->t->options[p->option[i]].n_brings > 0)
            prefer(x, i);
    }
}

/* The same needs, but the option may be left. */
static void tell_without(struct fitting_up *x)
{
    struct fit_model m = x->out->problem.model;
    struct fit_option *options = ARENA_ARRAY(x->a, struct fit_option, m.n_options + 1);
    memcpy(options, m.options, (size_t)m.n_options * sizeof *options);
    options[x->out->problem.option_of[x->wish->wanted]].held = FIT_FREE;
    m.options = options;
    const struct fit_answer best = fit_solve(x->a, &m, FIT_NODES);
    if (best.state == FIT_PROVEN) x->out->without = best.cost.total;
}

/* ---- once through ---- */

static bool solve(struct fitting_up *x, struct fail *f)
{
    struct fit *out = x->out;
    if (!fit_make(x->a, &x->problem, &out->problem, f)) return false;
    out->answer = fit_solve(x->a, &out->problem.model, FIT_NODES);
    out->fits = out->answer.state == FIT_PROVEN || out->answer.state == FIT_FOUND;
    return true;
}

static bool forecast_with(struct fitting_up *x, struct reckoned *r, struct fail *f)
{
    struct facts *facts = ARENA_NEW(x->a, struct facts);
    *facts = with_set(x, &x->out->answer);
    return reckoning_run(x->a, x->ask, facts, x->taken, x->out->direction, NULL, true, r, f);
}

/* What the forecast says of a set, in money: never finishing counts as the last day of the
 * calendar. */
static double bill_of(const struct fitting_up *x, const struct forecast *fc,
                      const struct calendar *c)
{
    double sum = 0;
    for (int i = 0; i < fc->runs; i++) {
        const double end = c->n_sessions > 0 ? c->sessions[c->n_sessions - 1].end : 0;
        const double finish = fc->finish[i] == NEVER ? end : fc->finish[i];
        sum += fc->cost[i] + x->out->late_day * finish / MINUTES_A_DAY;
    }
    return sum / fc->runs + (double)x->out->answer.cost.originality;
}

static bool improve(struct fitting_up *x, struct fail *f)
{
    struct reckoned first, second;
    if (!forecast_with(x, &first, f)) return false;
    x->out->with = side_of(x, &first.forecast);
    const double bill = bill_of(x, &first.forecast, &first.model.calendar);
    const struct fit kept = *x->out;
    read_days(x, &first);
    if (!solve(x, f)) return false;
    const bool same =
        x->out->fits && x->out->problem.model.n_options == kept.problem.model.n_options &&
        memcmp(x->out->answer.chosen, kept.answer.chosen, (size_t)kept.problem.model.n_options) ==
            0;
    if (x->out->fits && !same) {
        if (!forecast_with(x, &second, f)) return false;
        if (bill_of(x, &second.forecast, &second.model.calendar) < bill) {
            x->out->with = side_of(x, &second.forecast);
            x->out->again = true;
            return true;
        }
    }
    *x->out = kept;
    return true;
}

static void read_prices(struct fitting_up *x, const struct facts_worth *worth, const char *currency)
{
    x->out->late_assumed = worth->month <= 0;
    x->out->late_day =
        worth->month > 0 ? worth->month / DAYS_A_MONTH : usual_late_day(x->facts, x->t, currency);
    x->out->keep_original = worth->original;
}

bool fit_reckon(struct arena *a, const struct shop_ask *ask, const struct fit_wish *wish,
                struct fit *out, struct fail *f)
{
    struct facts *facts = ARENA_NEW(a, struct facts);
    struct facts_worth worth;
    struct taken *taken;
    const char *who;
    struct reckoned *r = ARENA_NEW(a, struct reckoned);
    if (!facts_read(ask->garage, a, ask->trade, ask->vehicle, facts, f)) return false;
    *out = (struct fit){.trade = ask->trade,
                        .vehicle = facts->name,
                        .direction = ask->direction >= 0 ? ask->direction
                                                         : reckoning_direction(facts, ask->trade),
                        .as_of = ask->today,
                        .seed = ask->seed,
                        .runs = ask->runs,
                        .facts = facts,
                        .wish = *wish,
                        .without = -1};
    if (!reckoning_taken(a, ask, facts, &taken, &who, f) ||
        !reckoning_run(a, ask, facts, taken, out->direction, NULL, true, r, f) ||
        !facts_worth_read(ask->garage, a, ask->trade, facts, r->model.currency, &worth, f))
        return false;
    struct fitting_up x = {a, ask, wish, ask->trade, facts, taken, {.model = &r->model}, out};
    out->first = r->model.first;
    out->as_is = out->with = side_of(&x, &r->forecast);
    read_prices(&x, &worth, r->model.currency);
    read_days(&x, r);
    x.problem.facts = facts;
    x.problem.late_day = out->late_day;
    x.problem.keep_original = out->keep_original;
    x.problem.budget = -1;
    if (wish->budget >= 0) {
        const double rate = facts_minor(facts, wish->currency, r->model.currency);
        if (rate <= 0)
            return fail_set(
                f, FAIL_INPUT,
                "budget: is in %s, and no rate to %s is known; say it in %s, or: fettle "
                "add rate",
                wish->currency, r->model.currency, r->model.currency);
        x.problem.budget = (int64_t)llround(wish->budget * rate);
    }
    x.problem.no_irreversible = wish->reversible;
    x.problem.wanted = wish->wanted;
    x.problem.prefer = wish->prefer;
    if (!solve(&x, f)) return false;
    if (!out->fits) {
        if (out->answer.state == FIT_NOTHING)
            out->clash = fit_clash_of(a, &out->problem.model, FLIP_NODES);
        return true;
    }
    if (!improve(&x, f)) return false;
    tell_set(&x);
    out->n_next = fit_next(a, &out->problem.model, &out->answer, FIT_NODES, out->next, FIT_NEXT);
    tell_preferences(&x);
    if (wish->wanted >= 0) tell_without(&x);
    return true;
}
