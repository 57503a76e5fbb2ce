/* jobs.c - the jobs of a direction on this vehicle, their order and their setbacks. */
#include "model/build.h"

#include "model/choice.h"

#include "reckon/belief.h"

#include <assert.h>
#include <math.h>

static void add_need(struct build *b, int component)
{
    struct project *p = &b->out->project;
    p->needs = arena_grow(b->a, p->needs, (size_t)p->n_needs, &b->needs_capacity, sizeof *p->needs);
    p->needs[p->n_needs++] = component;
}

static void add_after(struct build *b, int job)
{
    struct project *p = &b->out->project;
    p->after = arena_grow(b->a, p->after, (size_t)p->n_after, &b->after_capacity, sizeof *p->after);
    p->after[p->n_after++] = job;
}

static struct range needs_of(struct build *b, const int *kinds, int n)
{
    struct range r = {b->out->project.n_needs, 0};
    for (int i = 0; i < n; i++)
        for (int k = 0; k < b->components_of[kinds[i]].count; k++)
            add_need(b, b->components_of[kinds[i]].first + k);
    r.count = b->out->project.n_needs - r.first;
    return r;
}

/* ---- jobs ---- */

static bool is_wanted(const struct build *b, const struct trade_job *job)
{
    if (!(job->directions >> b->ask->direction & 1) || !fitted_holds(&job->fitted, b->out->answers))
        return false;
    if (job->n_when == 0) return true;
    for (int i = 0; i < job->n_when; i++)
        if (b->components_of[job->when_components[i]].count > 0) return true;
    return false; /* this vehicle has none of what it mends */
}

/* What comes before: a job that is not done in this direction passes its own `after` through. */
static void add_befores(struct build *b, int trade_job, uint8_t *seen)
{
    const struct trade_job *job = &b->t->jobs[trade_job];
    for (int i = 0; i < job->n_after; i++) {
        int before = job->after[i];
        if (seen[before]) continue;
        seen[before] = 1;
        if (b->job_of[before] >= 0)
            add_after(b, b->job_of[before]);
        else
            add_befores(b, before, seen);
    }
}

/* The odds alone, before any draw, say how likely the job is: the likeliest of its components. */
static double chance_of(const struct project *p, double (*odds_of)[COND_COUNT],
                        const struct project_job *job)
{
    double best = job->needs.count == 0 ? 1 : 0;
    for (int i = 0; i < job->needs.count; i++) {
        const double *odds = odds_of[p->needs[job->needs.first + i]];
        double sum = 0;
        for (int c = 0; c < COND_COUNT; c++)
            if (job->conditions >> c & 1) sum += odds[c];
        best = fmax(best, fmin(sum, 1));
    }
    return best;
}

struct logged {
    double minutes;
    bool finished;
};

static struct logged logged_on(const struct build *b, const char *job)
{
    struct logged l = {0, false};
    for (int i = 0; i < b->facts->n_works; i++) {
        if (!text_same_word(b->facts->works[i].job, job)) continue;
        l.minutes += b->facts->works[i].minutes;
        if (b->facts->works[i].finished) l.finished = true;
    }
    return l;
}

static void make_job(struct build *b, int trade_job)
{
    struct project *p = &b->out->project;
    const struct trade_job *job = &b->t->jobs[trade_job];
    const struct chosen_work chosen = choice_work(b->a, b->t, &b->facts->buy, b->wanted, trade_job);
    const struct points hours = chosen.any ? chosen.hours : job->hours;
    struct logged logged = logged_on(b, job->head.id);
    struct spread minutes = spread_of(hours, 60);
    /* Of a job in hand, what is left by its middle figure, and never less than a fifth: the last
     * part is seldom less. */
    if (!logged.finished)
        minutes.middle = fmax(minutes.middle - logged.minutes, minutes.middle / 5);
    struct project_job *to = &p->jobs[b->job_of[trade_job]];
    *to = (struct project_job){
        .id = job->head.id,
        .stream = text_hash(arena_print(b->a, "job/%s", job->head.id)),
        .minutes = minutes,
        .needs = needs_of(b, job->when_components, chosen.always ? 0 : job->n_when),
        .conditions = job->when_conditions,
        .by_share = job->by_share && !chosen.always,
        .wait = spread_of(job->wait.days, MINUTES_A_DAY),
        .hands = job->hands,
        .bay = job->bay,
        .unbroken = job->unbroken,
        .warm = job->warm,
        .survey = job->survey,
        .gate = job->gate,
        .finished = logged.finished,
    };
    build_sent(b, trade_job, to);
    to->buys = chosen.any ? build_buys(b, chosen.parts, chosen.n_parts, trade_job)
                          : build_buys(b, job->parts, job->n_parts, trade_job);
}

static void set_order(struct build *b, int gate)
{
    struct project *p = &b->out->project;
    uint8_t *seen = ARENA_ARRAY(b->a, uint8_t, b->t->n_jobs);
    for (int j = 0; j < p->n_jobs; j++) {
        struct project_job *job = &p->jobs[j];
        for (int i = 0; i < b->t->n_jobs; i++) seen[i] = 0;
        job->after.first = p->n_after;
        add_befores(b, b->out->trade_job[j], seen);
        if (gate >= 0 && j != gate && !job->survey && !seen[b->out->trade_job[gate]])
            add_after(b, gate);
        job->after.count = p->n_after - job->after.first;
    }
}

/* ---- setbacks ---- */

static void add_step(struct build *b, const struct trade_step *step, double works)
{
    struct project *p = &b->out->project;
    p->steps = arena_grow(b->a, p->steps, (size_t)p->n_steps, &b->steps_capacity, sizeof *p->steps);
    p->steps[p->n_steps++] =
        (struct project_step){.works = works,
                              .minutes = spread_of(step->hours, 60),
                              .wait = spread_of(step->wait.days, MINUTES_A_DAY),
                              .buys = build_buys(b, step->parts, step->n_parts, -1)};
}

static struct range ladder_of(struct build *b, const struct trade_setback *setback)
{
    struct range r = {b->out->project.n_steps, setback->n_ladder};
    for (int i = 0; i < setback->n_ladder; i++)
        add_step(b, &setback->ladder[i], setback->ladder[i].works);
    return r;
}

/* What was met last in that job, or NULL. */
static const struct fact_setback *met_in(const struct build *b, int setback, int trade_job)
{
    const struct facts_setback *met = &b->facts->met;
    for (int i = met->n - 1; i >= 0; i--)
        if (met->items[i].setback == setback && met->items[i].job == trade_job)
            return &met->items[i];
    return NULL;
}

static double money_of(void *context, const struct trade_buy *parts, int n)
{
    struct build *b = context;
    double sum = 0;
    const struct range r = build_buys(b, parts, n, -1);
    for (int i = r.first; i < r.first + r.count; i++) {
        const struct project_buy *buy = &b->out->project.buys[i];
        sum += buy->count * b->out->project.parts[buy->part].price.middle;
    }
    return sum;
}

/* What is left of the ladder of one that is open: the best way, as long as each step changes
 * nothing, with the odds that failures leave. */
static struct range rest_of(struct build *b, const struct trade_setback *setback,
                            const struct fact_setback *met)
{
    struct ladder ladder = setback_ladder(setback, met);
    const double hour = setback_hour(b->t, b->facts, &b->figures, b->out->currency);
    setback_costs(&ladder, setback, hour, money_of, b);
    struct arena scratch = *b->a;
    const struct ladder_solved solved = ladder_solve(&scratch, &ladder);
    int steps[LADDER_STEPS], n = 0;
    double works[LADDER_STEPS];
    ladder_state state = setback_state(&ladder, met);
    while (n == 0 || steps[n - 1] < ladder.n - 1) {
        double odds[LADDER_OUTCOMES];
        steps[n] = solved.best[state]; /* the last step is always open */
        ladder_odds(&solved, state, steps[n], odds);
        works[n] = odds[LADDER_CURED];
        if (steps[n] < ladder.n - 1) state = ladder_after(&ladder, state, steps[n], false);
        n++;
    }
    const struct range r = {b->out->project.n_steps, n};
    for (int i = 0; i < n; i++) add_step(b, &setback->ladder[steps[i]], works[i]);
    return r;
}

/* One that is open happens for sure, in a job that is surely done; one that is over does not happen
 * again. */
static void set_met(struct build *b, const struct trade_setback *setback,
                    const struct fact_setback *met, struct project_setback *to)
{
    if (to->each && met->state != SETBACK_OPEN) return; /* the others may still meet it */
    to->each = false;
    to->needs.count = 0;
    for (int c = 0; c < COND_COUNT; c++) to->chance[c] = met->state == SETBACK_OPEN;
    if (met->state != SETBACK_OPEN) return;
    to->steps = rest_of(b, setback, met);
    b->out->project.jobs[to->job].needs.count = 0;
}

/* Open ones in jobs in which the trade data does not look for them. */
static void add_unlooked(struct build *b)
{
    struct project *p = &b->out->project;
    for (int i = 0; i < b->facts->met.n; i++) {
        const struct fact_setback *met = &b->facts->met.items[i];
        const int job = met->job < 0 ? -1 : b->job_of[met->job];
        bool had =
            job < 0 || met->state != SETBACK_OPEN || met != met_in(b, met->setback, met->job);
        for (int k = 0; k < p->n_setbacks && !had; k++)
            had = p->setbacks[k].job == job && b->out->trade_setback[k] == met->setback;
        if (had) continue;
        const struct trade_setback *setback = &b->t->setbacks[met->setback];
        struct project_setback *to = &p->setbacks[p->n_setbacks];
        *to = (struct project_setback){
            .id = setback->head.id,
            .stream =
                text_hash(arena_print(b->a, "setback/%s/%s", setback->head.id, p->jobs[job].id)),
            .job = job};
        set_met(b, setback, met, to);
        b->out->trade_setback[p->n_setbacks++] = met->setback;
    }
}

static void add_setbacks(struct build *b)
{
    struct project *p = &b->out->project;
    int most = 0;
    for (int i = 0; i < b->t->n_setbacks; i++) most += b->t->setbacks[i].n_at;
    most += b->facts->met.n;
    b->out->trade_setback = ARENA_ARRAY(b->a, int, most);
    p->setbacks = ARENA_ARRAY(b->a, struct project_setback, most);
    for (int i = 0; i < b->t->n_setbacks; i++) {
        const struct trade_setback *setback = &b->t->setbacks[i];
        struct range steps = {-1, 0};
        for (int k = 0; k < setback->n_at; k++) {
            const struct trade_setback_at *at = &setback->at[k];
            int job = b->job_of[at->job];
            if (job < 0) continue;
            if (at->directions != 0 && !(at->directions >> b->ask->direction & 1)) continue;
            struct range needs = needs_of(b, at->components, at->n_components);
            if (at->n_components > 0 && needs.count == 0) continue;
            if (steps.first < 0) steps = ladder_of(b, setback);
            struct project_setback *to = &p->setbacks[p->n_setbacks];
            *to = (struct project_setback){
                .id = setback->head.id,
                .stream = text_hash(
                    arena_print(b->a, "setback/%s/%s", setback->head.id, p->jobs[job].id)),
                .job = job,
                .needs = needs,
                .each = at->each,
                .steps = steps};
            for (int c = 0; c < COND_COUNT; c++) to->chance[c] = at->chance[c];
            const struct fact_setback *met = met_in(b, i, at->job);
            if (met) set_met(b, setback, met, to);
            b->out->trade_setback[p->n_setbacks++] = i;
        }
    }
    add_unlooked(b);
}

/* What is known of the components does not hang on the direction. */
static void believe(struct build *b)
{
    const struct model *like = b->ask->like;
    const struct project *p = &b->out->project;
    if (like) {
        assert(like->project.n_components == p->n_components);
        b->out->belief = like->belief;
        b->out->odds = like->odds;
        return;
    }
    b->out->belief = belief_of(b->a, p);
    b->out->odds = arena_take(b->a, (size_t)p->n_components, sizeof *b->out->odds);
    for (int i = 0; i < p->n_components; i++) belief_odds(&b->out->belief, p, i, b->out->odds[i]);
}

bool build_jobs(struct build *b, struct fail *f)
{
    const struct trade *t = b->t;
    struct project *p = &b->out->project;
    const struct trade_direction *direction = &t->directions[b->ask->direction];
    int gate = -1;
    b->wanted = ARENA_ARRAY(b->a, bool, t->n_jobs);
    b->job_of = ARENA_ARRAY(b->a, int, t->n_jobs);
    p->jobs = ARENA_ARRAY(b->a, struct project_job, t->n_jobs);
    build_stock(b);
    b->out->trade_job = ARENA_ARRAY(b->a, int, t->n_jobs);
    for (int i = 0; i < t->n_jobs; i++) {
        b->wanted[i] = is_wanted(b, &t->jobs[i]);
        b->job_of[i] = b->wanted[i] ? p->n_jobs : -1;
        if (b->job_of[i] < 0) continue;
        if (t->jobs[i].gate) gate = p->n_jobs;
        b->out->trade_job[p->n_jobs++] = i;
    }
    for (int j = 0; j < p->n_jobs; j++) make_job(b, b->out->trade_job[j]);
    believe(b);
    for (int j = 0; j < p->n_jobs; j++) p->jobs[j].chance = chance_of(p, b->out->odds, &p->jobs[j]);
    build_pace(b);
    set_order(b, gate);
    add_setbacks(b);
    p->done = ARENA_ARRAY(b->a, int, direction->n_done);
    for (int i = 0; i < direction->n_done; i++)
        if (b->job_of[direction->done[i]] >= 0)
            p->done[p->n_done++] = b->job_of[direction->done[i]];
    if (p->n_done == 0)
        return fail_set(
            f, FAIL_INPUT,
            "plan: no job ends the direction '%s' on this vehicle; see fettle trade show %s",
            direction->head.id, direction->head.id);
    return true;
}
