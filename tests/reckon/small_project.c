#include "reckon/small_project.h"

#include "base/text.h"
#include "reckon/near.h"

#include <math.h>
#include <string.h>

struct spread exactly(double value)
{
    return (struct spread){value, 0, 0};
}

struct spread about(double low, double middle, double high)
{
    return spread_of((struct points){low, middle, high}, 1);
}

void small_begin(struct small *s)
{
    memset(s, 0, sizeof *s);
    s->p = (struct project){
        .components = s->components,
        .kind_stream = s->kind_stream,
        .parts = s->parts,
        .jobs = s->jobs,
        .setbacks = s->setbacks,
        .steps = s->steps,
        .sessions = s->sessions,
        .needs = s->needs,
        .after = s->after,
        .buys = s->buys,
        .done = s->done,
        .purse = {.open = true, .payday = s->payday, .pay = s->pay},
        .kept = 1,
        .pace_sd = 1,
    };
}

/* Room for one more at the end of a list that is the last told. */
static void extend(struct range *r, int *n)
{
    assert_true(*n < SMALL_MOST);
    if (r->count == 0) r->first = *n;
    assert_int_equal(r->first + r->count, *n);
    r->count++;
    (*n)++;
}

int small_job(struct small *s, const char *id, int minutes)
{
    assert_true(s->p.n_jobs < SMALL_MOST);
    s->done[s->p.n_done++] = s->p.n_jobs;
    s->jobs[s->p.n_jobs] = (struct project_job){.id = id,
                                                .stream = text_hash(id) ^ 1,
                                                .minutes = exactly(minutes),
                                                .hands = 1,
                                                .warm = -100,
                                                .chance = 1};
    return s->p.n_jobs++;
}

void small_after(struct small *s, int job, int before)
{
    extend(&s->jobs[job].after, &s->p.n_after);
    s->after[s->p.n_after - 1] = before;
}

int small_part(struct small *s, const char *id, double price, int lead)
{
    s->parts[s->p.n_parts] =
        (struct project_part){id, text_hash(id) ^ 2, exactly(price), exactly(lead)};
    return s->p.n_parts++;
}

void small_buy(struct small *s, int job, int part, double count)
{
    extend(&s->jobs[job].buys, &s->p.n_buys);
    s->buys[s->p.n_buys - 1] = (struct project_buy){part, count};
}

int small_component(struct small *s, const char *id, int known)
{
    struct project_component *c = &s->components[s->p.n_components];
    *c = (struct project_component){.id = id,
                                    .stream = text_hash(id) ^ 3,
                                    .kind = s->p.n_kinds,
                                    .state = 0.3,
                                    .kind_share = 0.3,
                                    .known = known};
    const double even[COND_COUNT] = {0.2, 0.2, 0.2, 0.2, 0.2, 0};
    belief_cuts(even, 0, 0.1, c->cut);
    s->kind_stream[s->p.n_kinds++] = text_hash(id) ^ 4;
    return s->p.n_components++;
}

void small_need(struct small *s, int job, int component, unsigned conditions)
{
    extend(&s->jobs[job].needs, &s->p.n_needs);
    s->needs[s->p.n_needs - 1] = component;
    s->jobs[job].conditions = conditions;
}

void small_session(struct small *s, int start, int end)
{
    assert_true(s->p.n_sessions < SMALL_MOST);
    s->sessions[s->p.n_sessions++] = (struct project_session){start, end, 1, true, 20};
}

int small_setback(struct small *s, int job, int minutes, int wait, int part)
{
    struct project_setback *b = &s->setbacks[s->p.n_setbacks];
    *b = (struct project_setback){.id = "setback",
                                  .stream = (uint64_t)s->p.n_setbacks + 1000,
                                  .job = job,
                                  .chance = {1},
                                  .steps = {s->p.n_steps, 1}};
    struct project_step *step = &s->steps[s->p.n_steps++];
    *step = (struct project_step){.works = 1, .minutes = exactly(minutes), .wait = exactly(wait)};
    if (part >= 0) {
        extend(&step->buys, &s->p.n_buys);
        s->buys[s->p.n_buys - 1] = (struct project_buy){part, 1};
    }
    return s->p.n_setbacks++;
}

void small_payday(struct small *s, int when, double pay)
{
    s->payday[s->p.purse.n_paydays] = when;
    s->pay[s->p.purse.n_paydays++] = pay;
    s->p.purse.open = false;
}

void small_dispatch(struct arena *a, const struct project *p, struct small_run *r)
{
    struct schedule *s = &r->schedule;
    *s = (struct schedule){
        .stints = ARENA_ARRAY(a, struct stint, dispatch_most_stints(p)),
        .orders = ARENA_ARRAY(a, struct order_placed, 2 * p->n_jobs),
        .start = ARENA_ARRAY(a, int32_t, p->n_jobs),
        .finish = ARENA_ARRAY(a, int32_t, p->n_jobs),
    };
    r->critical = ARENA_ARRAY(a, uint8_t, p->n_jobs);
    const struct dispatch *d = dispatch_prepare(a, p, NULL);
    r->outcome = dispatch_run(d, desk_new(a, d), &r->drawn, s, r->critical);
}

struct small_run small_do(struct arena *a, const struct project *p, uint64_t seed)
{
    struct fail f = {0};
    if (!project_valid(p, *a, &f)) fail_msg("%s", f.text);
    struct small_run r = {.drawn = drawn_new(a, p)};
    struct belief b = belief_of(a, p);
    r.money = draw_run(p, &b, seed, 0, -1, &r.drawn, &r.work);
    small_dispatch(a, p, &r);
    return r;
}
