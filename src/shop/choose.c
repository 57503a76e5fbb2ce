#include "shop/choose_inside.h"

#include <string.h>

static bool reckon_direction(struct choosing *x, int d, struct fail *f)
{
    struct choose_direction *to = &x->out->directions[d];
    struct reckoned *r = &x->r[d];
    if (!reckoning_run(x->a, x->ask, x->facts, x->taken, d, d > 0 ? &x->r[0] : NULL, false, r, f))
        return false;
    const struct forecast *fc = &r->forecast;
    size_t runs = (size_t)fc->runs;
    double *hours = ARENA_ARRAY(x->a, double, runs);
    for (size_t i = 0; i < runs; i++) hours[i] = fc->work[i] / 60;
    to->direction = &x->ask->trade->directions[d];
    to->decided = x->facts->direction == d;
    to->choice = -1;
    to->cost_by_run = fc->cost;
    to->cost = quantiles_of(fc->cost, runs, *x->a);
    to->finish = quantiles_of(reckoning_finishes(x->a, fc), runs, *x->a);
    to->never = 1 - to->finish.finite;
    to->hours = quantiles_of(hours, runs, *x->a);
    for (int j = 0; j < r->model.project.n_jobs; j++)
        to->jobs += !r->model.project.jobs[j].finished;
    return true;
}

/* Notes of the model, and what was left out of the figures for a choice. */
static void join_notes(struct choosing *x, const struct model *m)
{
    struct choose *out = x->out;
    out->n_notes = m->n_notes + x->more->n_lines;
    out->notes = ARENA_ARRAY(x->a, const char *, out->n_notes);
    for (int i = 0; i < m->n_notes; i++) out->notes[i] = m->notes[i];
    for (int i = 0; i < x->more->n_lines; i++) out->notes[m->n_notes + i] = x->more->lines[i];
}

bool choose_reckon(struct arena *a, const struct shop_ask *ask, struct choose *out, struct fail *f)
{
    const struct trade *t = ask->trade;
    struct facts *facts = ARENA_NEW(a, struct facts);
    struct facts_worth *more = ARENA_NEW(a, struct facts_worth);
    struct taken *taken;
    *out = (struct choose){.trade = t, .as_of = ask->today, .seed = ask->seed, .runs = ask->runs};
    if (!facts_read(ask->garage, a, t, ask->vehicle, facts, f)) return false;
    facts->n_findings -= ask->leave_out < facts->n_findings ? ask->leave_out : facts->n_findings;
    if (!reckoning_taken(a, ask, facts, &taken, &out->after, f)) return false;
    struct choosing x = {
        .a = a, .ask = ask, .facts = facts, .more = more, .taken = taken, .out = out};
    x.r = ARENA_ARRAY(a, struct reckoned, t->n_directions);
    out->vehicle = facts->name;
    out->facts = more;
    out->own_rate = facts->own_rate > 0 ? facts->own_rate : 0;
    out->directions = ARENA_ARRAY(a, struct choose_direction, t->n_directions);
    out->n_directions = t->n_directions;
    for (int d = 0; d < t->n_directions; d++)
        if (!reckon_direction(&x, d, f)) return false;
    const struct model *m = &x.r[reckoning_direction(facts, t)].model;
    out->currency = m->currency;
    out->first = m->first;
    if (!facts_worth_read(ask->garage, a, t, facts, out->currency, more, f)) return false;
    tripwires_crossed(a, facts, more, ask->today, &out->crossed, &out->n_crossed);
    if (!choose_past(&x, f)) return false;
    choose_worths(&x);
    choose_weigh(&x);
    choose_changes(&x);
    choose_looks(&x);
    join_notes(&x, m);
    return true;
}
