#include "shop/setback.h"

#include "model/facts_worth.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

struct climb {
    struct arena *a;
    const struct facts *facts;
    const struct model *model;
    struct setback *out;
    struct ladder ladder;
    struct ladder_solved solved;
};

static bool is_had(const struct facts *facts, int part)
{
    for (int i = 0; i < facts->n_orders; i++)
        if (facts->orders[i].part == part &&
            (order_is_here(&facts->orders[i]) || order_is_coming(&facts->orders[i])))
            return true;
    return false;
}

/* Middle, each, minor units, as the plan has it. */
static double price_of(const struct climb *c, int part)
{
    const struct model *m = c->model;
    for (int i = 0; i < m->project.n_parts; i++)
        if (m->trade_part[i] == part && !m->part_ordered[i])
            return m->project.parts[i].price.middle;
    const struct trade_part *p = &m->trade->parts[part];
    int digits = 2;
    currency_digits(p->currency, &digits);
    return p->price.middle * pow(10, digits) *
           fmax(0, facts_minor(c->facts, p->currency, m->currency));
}

static double money_of(void *context, const struct trade_buy *parts, int n)
{
    const struct climb *c = context;
    double sum = 0;
    for (int i = 0; i < n; i++)
        if (!is_had(c->facts, parts[i].part)) sum += parts[i].count * price_of(c, parts[i].part);
    return sum;
}

static double mean_of(struct points p)
{
    return p.middle > 0 ? points_mean(p) : 0;
}

static void cost_steps(struct climb *c)
{
    struct setback *x = c->out;
    for (int i = 0; i < x->n_steps; i++) {
        const struct trade_step *step = &x->setback->ladder[i];
        struct setback_step *to = &x->steps[i];
        *to = (struct setback_step){.step = step,
                                    .hours = mean_of(step->hours),
                                    .money = money_of(c, step->parts, step->n_parts),
                                    .days = step->wait.days.middle,
                                    .expects = (double)NAN};
        for (int b = 0; b < BROKEN_COUNT; b++)
            x->asks[b] |= x->setback->fastener || step->when[b] != 0;
    }
}

static enum setback_step_how how_of(const struct climb *c, ladder_state s, int i)
{
    const struct fact_setback *said = &c->out->said;
    const int after = c->out->setback->ladder[i].after - 1;
    if (said->worse >> i & 1) return STEP_WORSE;
    if (said->tried >> i & 1) return STEP_TRIED;
    if (said->state == SETBACK_CURED) return STEP_PASSED;
    if (ladder_open(&c->ladder, s, i)) return STEP_OPEN;
    if (after >= 0 && !(c->ladder.gone >> i & 1) && !(said->tried >> after & 1) &&
        how_of(c, s, after) != STEP_PASSED && !(said->tried >> i))
        return STEP_LATER;
    return STEP_PASSED;
}

/* The best way, with the chance of each state. */
static void walk(struct climb *c, ladder_state s, double chance)
{
    struct setback *x = c->out;
    const int i = c->solved.best[s];
    double odds[LADDER_OUTCOMES];
    if (i < 0 || chance <= 0) return;
    const struct trade_worse *worse = &x->setback->ladder[i].worse;
    ladder_odds(&c->solved, s, i, odds);
    const double spoilt = chance * odds[LADDER_WORSE];
    x->steps[i].reached += chance;
    x->hours += chance * x->steps[i].hours + spoilt * mean_of(worse->hours);
    x->money += chance * x->steps[i].money + spoilt * money_of(c, worse->parts, worse->n_parts);
    if (odds[LADDER_NO_CHANGE] > 0)
        walk(c, ladder_after(&c->ladder, s, i, false), chance * odds[LADDER_NO_CHANGE]);
    if (spoilt > 0) walk(c, ladder_after(&c->ladder, s, i, true), spoilt);
}

static void climb(struct climb *c)
{
    struct setback *x = c->out;
    c->ladder = setback_ladder(x->setback, &x->said);
    x->n_steps = x->setback->n_ladder;
    x->steps = ARENA_ARRAY(c->a, struct setback_step, x->n_steps);
    cost_steps(c);
    setback_costs(&c->ladder, x->setback, x->hour, money_of, c);
    c->solved = ladder_solve(c->a, &c->ladder);
    const ladder_state s = setback_state(&c->ladder, &x->said);
    x->best = x->said.state == SETBACK_CURED ? -1 : c->solved.best[s];
    for (int i = 0; i < x->n_steps; i++) {
        struct setback_step *step = &x->steps[i];
        step->how = how_of(c, s, i);
        if (step->how != STEP_OPEN) continue;
        ladder_odds(&c->solved, s, i, step->odds);
        step->expects = ladder_cost(&c->solved, s, i);
    }
    if (x->best < 0) return;
    x->expects = c->solved.cost[s];
    walk(c, s, 1);
}

/* ---- what to order ---- */

static void add_orders(struct climb *c, const struct trade_buy *parts, int n, double chance,
                       bool next)
{
    struct setback *x = c->out;
    for (int i = 0; i < n; i++) {
        const struct trade_part *part = &x->trade->parts[parts[i].part];
        if (is_had(c->facts, parts[i].part) || chance <= 0) continue;
        struct setback_order *o = x->orders;
        while (o < x->orders + x->n_orders && o->part != part) o++;
        if (o == x->orders + x->n_orders) {
            x->n_orders++;
            *o = (struct setback_order){
                .part = part, .price = price_of(c, parts[i].part), .lead_days = part->lead.middle};
        }
        /* A count below one is the share of cases that need it. Steps of one way come one after
         * the other, so that the likeliest step that wants it tells the chance. */
        o->chance = fmax(o->chance, chance * fmin(1, parts[i].count));
        o->count = fmax(o->count, fmax(1, parts[i].count));
        o->next |= next;
    }
}

static int by_chance(const void *a, const void *b)
{
    const struct setback_order *x = a, *y = b;
    if (x->next != y->next) return x->next ? -1 : 1;
    if (x->chance != y->chance) return x->chance > y->chance ? -1 : 1;
    return (x->part > y->part) - (x->part < y->part);
}

static void list_orders(struct climb *c)
{
    struct setback *x = c->out;
    int most = 0;
    for (int i = 0; i < x->n_steps; i++)
        most += x->steps[i].step->n_parts + x->steps[i].step->worse.n_parts;
    x->orders = ARENA_ARRAY(c->a, struct setback_order, most);
    for (int i = 0; i < x->n_steps; i++) {
        const struct setback_step *s = &x->steps[i];
        const struct trade_worse *worse = &s->step->worse;
        add_orders(c, s->step->parts, s->step->n_parts, s->reached, i == x->best);
        add_orders(c, worse->parts, worse->n_parts, s->reached * s->odds[LADDER_WORSE], false);
    }
    qsort(x->orders, (size_t)x->n_orders, sizeof *x->orders, by_chance);
}

/* ---- what it moves ---- */

/* The facts with it as it is said in place of its record, or added; NULL: without it. */
static struct facts facts_with(struct arena *a, const struct facts *facts, const char *id,
                               const struct fact_setback *said)
{
    struct facts f = *facts;
    f.met.items = ARENA_ARRAY(a, struct fact_setback, facts->met.n + 1);
    f.met.n = 0;
    bool placed = !said;
    for (int i = 0; i < facts->met.n; i++) {
        const bool same = *id && text_is(facts->met.items[i].id, id);
        if (!same)
            f.met.items[f.met.n++] = facts->met.items[i];
        else if (said)
            f.met.items[f.met.n++] = *said, placed = true;
    }
    if (!placed) f.met.items[f.met.n++] = *said;
    return f;
}

/* Every job that waits for it, itself too. */
static void mark_behind(const struct project *p, int job, bool *behind)
{
    behind[job] = true;
    for (bool more = true; more;) {
        more = false;
        for (int j = 0; j < p->n_jobs; j++)
            for (int k = 0; k < p->jobs[j].after.count && !behind[j]; k++)
                more |= behind[j] = behind[p->after[p->jobs[j].after.first + k]];
    }
}

static int by_start(const void *a, const void *b)
{
    const struct setback_meanwhile *x = a, *y = b;
    if (x->start != y->start) return x->start < y->start ? -1 : 1;
    return (x->job > y->job) - (x->job < y->job);
}

/* What comes next of all that does not wait for it: in at least half of the runs. */
static void list_meanwhile(struct arena scratch, const struct reckoned *r, int job,
                           struct setback *out)
{
    const struct project *p = &r->model.project;
    const int runs = r->forecast.runs;
    bool *behind = ARENA_ARRAY(&scratch, bool, p->n_jobs);
    struct setback_meanwhile *all = ARENA_ARRAY(&scratch, struct setback_meanwhile, p->n_jobs);
    double *starts = ARENA_ARRAY(&scratch, double, runs);
    int n = 0;
    mark_behind(p, job, behind);
    for (int j = 0; j < p->n_jobs; j++) {
        size_t done = 0;
        for (int i = 0; i < runs && !behind[j] && !p->jobs[j].finished; i++) {
            const int32_t start = r->forecast.start[(size_t)j * (size_t)runs + (size_t)i];
            if (start != NEVER) starts[done++] = start;
        }
        if (2 * done < (size_t)runs || done == 0) continue;
        all[n++] = (struct setback_meanwhile){&out->trade->jobs[r->model.trade_job[j]],
                                              (int32_t)quantile_of(starts, done, 0.5)};
    }
    qsort(all, (size_t)n, sizeof *all, by_start);
    out->n_meanwhile = n < SETBACK_MEANWHILE ? n : SETBACK_MEANWHILE;
    if (n > 0) memcpy(out->meanwhile, all, (size_t)out->n_meanwhile * sizeof *all);
}

static bool move(struct arena *a, const struct shop_ask *ask, const struct facts *facts,
                 const struct fact_setback *before, int job, struct setback *out, struct fail *f)
{
    const struct facts was = facts_with(a, facts, out->said.id, before),
                       is = facts_with(a, facts, out->said.id, &out->said);
    struct what_if_side x, y;
    struct reckoned rx, ry;
    struct taken *taken;
    const char *after;
    struct shop_ask how = *ask;
    if (how.runs > WHAT_IF_RUNS) how.runs = WHAT_IF_RUNS;
    if (!reckoning_taken(a, &how, facts, &taken, &after, f) ||
        !what_if_side_of(a, &how, &was, taken, false, &x, &rx, f) ||
        !what_if_side_of(a, &how, &is, taken, true, &y, &ry, f))
        return false;
    out->moved = true;
    out->first = ry.model.first;
    out->days_p50 = what_if_differ(*a, x.finish, y.finish, x.runs, 0.5);
    out->days_p80 = what_if_differ(*a, x.finish, y.finish, x.runs, 0.8);
    out->money_p50 = what_if_differ(*a, x.cost, y.cost, x.runs, 0.5);
    out->money_p80 = what_if_differ(*a, x.cost, y.cost, x.runs, 0.8);
    list_meanwhile(*a, &ry, job, out);
    return true;
}

/* ---- sizes ---- */

static bool reckon_sum(struct arena *a, const char *name, const struct fact_setback *said,
                       const struct calc **sum, struct calc_result *out, struct fail *f)
{
    const bool blind = said->is[BROKEN_HOLE] == 1;
    struct calc_value in[CALC_VALUES] = {{0}};
    *sum = calc_find(name);
    assert(*sum);
    for (int i = 0; (*sum)->inputs[i].name; i++) {
        const char *input = (*sum)->inputs[i].name;
        const char *typed = text_is(input, "thread")         ? said->thread
                            : text_is(input, "tap") && blind ? "bottoming"
                                                             : NULL;
        if (!calc_read(a, &(*sum)->inputs[i], typed, &in[i], f)) return false;
    }
    return calc_run(a, *sum, in, out, f);
}

static void size(struct arena *a, struct setback *out)
{
    struct fail why = {0};
    if (!out->said.thread || !out->setback->fastener) return;
    if (!reckon_sum(a, "broken-stud", &out->said, &out->stud_sum, &out->stud, &why) ||
        !reckon_sum(a, "coil-insert", &out->said, &out->insert_sum, &out->insert, &why)) {
        out->stud_sum = out->insert_sum = NULL;
        out->no_sizes = arena_copy(a, why.text);
    }
}

bool setback_reckon(struct arena *a, const struct shop_ask *ask, const struct fact_setback *said,
                    const struct fact_setback *before, bool plan, struct setback *out,
                    struct fail *f)
{
    const struct trade *t = ask->trade;
    struct facts *facts = ARENA_NEW(a, struct facts);
    struct model *m = ARENA_NEW(a, struct model);
    struct figures figures;
    int job = -1;
    if (!facts_read(ask->garage, a, t, ask->vehicle, facts, f) || !figures_read(t, &figures, f))
        return false;
    if (ask->direction >= 0) facts->direction = ask->direction;
    struct facts with = facts_with(a, facts, said->id, said);
    const struct model_ask want = {.today = ask->today, .direction = reckoning_direction(facts, t)};
    if (!model_make(a, t, &with, &want, m, f)) return false;
    *out = (struct setback){.trade = t,
                            .vehicle = facts->name,
                            .currency = m->currency,
                            .setback = &t->setbacks[said->setback],
                            .job = &t->jobs[said->job],
                            .said = *said,
                            .own_hour = facts->own_rate > 0,
                            .best = -1};
    out->hour = setback_hour(t, facts, &figures, m->currency);
    struct climb c = {.a = a, .facts = facts, .model = m, .out = out};
    climb(&c);
    list_orders(&c);
    size(a, out);
    for (int j = 0; j < m->project.n_jobs; j++)
        if (m->trade_job[j] == said->job && !m->project.jobs[j].finished) job = j;
    out->in_plan = job >= 0;
    return job < 0 || !plan || move(a, ask, facts, before, job, out, f);
}

struct fact_setback setback_after(const struct fact_setback *said, int step,
                                  enum ladder_outcome outcome)
{
    struct fact_setback x = *said;
    if (outcome == LADDER_CURED) x.state = SETBACK_CURED;
    if (outcome != LADDER_CURED) x.tried |= 1u << step;
    if (outcome == LADDER_WORSE) x.worse |= 1u << step;
    return x;
}
