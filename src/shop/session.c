#include "shop/session.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double LIKELY = 0.5, NEVER_MIND = 0.005; /* chances: to be done; not needed at all */

const char *session_block_name(enum session_block b)
{
    static const char *const names[BLOCKS] = {"decision", "job",   "look", "wait", "gate", "part",
                                              "tool",     "hands", "bay",  "cold", "time"};
    return names[b];
}

struct session_ask session_as_usual(void)
{
    return (struct session_ask){.hours = -1, .hands = 0, .degrees = NAN};
}

bool session_stalls(const struct session *x)
{
    return x->stall.idle || x->stall.frayed || x->n_late > 0;
}

struct look {
    struct arena *a;
    const struct project *p;
    const struct model *m;
    const struct facts *facts;
    const struct plan *plan;
    struct session *out;
    uint8_t *seen;
};

static const struct trade_job *job_of(const struct look *x, int j)
{
    return &x->out->trade->jobs[x->m->trade_job[j]];
}

static double high_of(const struct project_job *job)
{
    return job->minutes.middle * exp(1.2815515655446004 * job->minutes.above);
}

/* ---- the evening ---- */

static void set_evening(struct look *x, const struct session_ask *ask, const struct figures *g)
{
    struct session *out = x->out;
    const struct project_session *s = &x->p->sessions[0];
    for (int i = 0; i < x->p->n_sessions; i++) {
        s = &x->p->sessions[i];
        if (x->m->first + s->start / MINUTES_A_DAY >= out->as_of) break;
    }
    out->in_week = x->m->first + s->start / MINUTES_A_DAY == out->as_of;
    out->from = out->in_week ? s->start % MINUTES_A_DAY - (int)g->set_up : -1;
    out->set_up = g->set_up;
    out->clear_up = g->clear_up;
    out->minutes =
        ask->hours < 0 ? s->end - s->start : fmax(ask->hours * 60 - g->set_up - g->clear_up, 0);
    out->hands = ask->hands > 0 ? ask->hands : s->hands;
    out->degrees = isnan(ask->degrees) ? s->degrees : ask->degrees;
    out->bay = s->bay;
    out->hours_told = ask->hours >= 0;
    out->hands_told = ask->hands > 0;
    out->degrees_told = !isnan(ask->degrees);
}

/* ---- what holds a job up ---- */

/* A job before that certainly is not needed passes what is before it through. */
static bool is_behind(struct look *x, int j, struct session_blocked *b)
{
    const struct range after = x->p->jobs[j].after;
    int look = -1;
    for (int i = 0; i < after.count; i++) {
        int k = x->p->after[after.first + i];
        const struct project_job *before = &x->p->jobs[k];
        b->before = job_of(x, k);
        if (before->finished) {
            day done = x->out->told.jobs[x->m->trade_job[k]].finished;
            day over =
                done == DAY_NONE ? DAY_NONE : done + (day)ceil(before->wait.middle / MINUTES_A_DAY);
            if (over == DAY_NONE || over <= x->out->as_of) continue;
            b->why = BLOCK_WAIT;
            b->when = over;
            return true;
        }
        if (before->chance > NEVER_MIND) {
            /* What surely comes first says more than what only may. */
            if (before->chance < LIKELY) {
                look = k;
                continue;
            }
            b->why = before->gate ? BLOCK_GATE : BLOCK_BEFORE;
            return true;
        }
        if (x->seen[k]) continue;
        x->seen[k] = 1;
        if (is_behind(x, k, b)) return true;
    }
    if (look < 0) return false;
    b->why = BLOCK_LOOK;
    b->before = job_of(x, look);
    return true;
}

/* A gate that holds a job back stays shut until all of it is proved, or its override is written. */
static bool is_gated(struct look *x, int j, struct session_blocked *b)
{
    for (int i = 0; i < x->out->safe.n_gates; i++) {
        const struct safe_gate *g = &x->out->safe.gates[i];
        bool lies_behind = false;
        for (int k = 0; k < g->gate->n_opens; k++)
            lies_behind = lies_behind || g->gate->opens[k] == x->m->trade_job[j];
        if (!lies_behind || (g->state != GATE_SHUT && g->state != GATE_READY)) continue;
        b->why = BLOCK_SAFE;
        b->gate = g;
        return true;
    }
    return false;
}

static bool lacks_part(struct look *x, int j, struct session_blocked *b)
{
    const struct range buys = x->p->jobs[j].buys;
    if (buys.count == 0) return false; /* what is here is no longer among them */
    int part = x->m->trade_part[x->p->buys[buys.first].part];
    b->why = BLOCK_PART;
    b->part = &x->out->trade->parts[part];
    for (int i = 0; i < x->facts->n_orders; i++)
        if (x->facts->orders[i].part == part && order_is_coming(&x->facts->orders[i])) {
            b->coming = true;
            b->when = x->facts->orders[i].due;
        }
    return true;
}

static bool lacks_tool(struct look *x, const struct trade_job *job, struct session_blocked *b)
{
    for (int i = 0; i < job->n_tools; i++) {
        b->tool = tool_called(x->out->trade, job->tools[i]);
        if (tool_on(&x->out->told, b->tool, x->out->as_of) != TOOL_MISSING) continue;
        b->why = BLOCK_TOOL;
        return true;
    }
    b->tool = -1;
    return false;
}

static day next_with(const struct look *x, int hands)
{
    for (int i = 0; i < x->p->n_sessions; i++) {
        day d = x->m->first + x->p->sessions[i].start / MINUTES_A_DAY;
        if (d >= x->out->as_of && x->p->sessions[i].hands >= hands) return d;
    }
    return DAY_NONE;
}

static bool is_blocked(struct look *x, int j, struct session_blocked *b)
{
    const struct project_job *job = &x->p->jobs[j];
    const struct session *out = x->out;
    *b = (struct session_blocked){.job = job_of(x, j), .index = j, .tool = -1, .when = DAY_NONE};
    memset(x->seen, 0, (size_t)x->p->n_jobs);
    if (is_behind(x, j, b)) return true;
    b->before = NULL;
    if (job->chance < LIKELY) {
        b->why = BLOCK_LOOK;
        return true;
    }
    if (is_gated(x, j, b) || lacks_part(x, j, b) || lacks_tool(x, b->job, b)) return true;
    if (job->hands > out->hands) {
        b->why = BLOCK_HANDS;
        b->when = next_with(x, job->hands);
        return true;
    }
    b->why = BLOCK_BAY;
    if (job->bay && !out->bay) return true;
    b->why = BLOCK_COLD;
    if (job->warm > out->degrees) return true;
    b->why = BLOCK_LONG;
    b->minutes = high_of(job);
    return job->unbroken && b->minutes > out->minutes;
}

/* ---- which of the ready ones ---- */

static const struct plan_job *planned(const struct look *x, const struct trade_job *job)
{
    for (int i = 0; i < x->plan->n_jobs; i++)
        if (x->plan->jobs[i].job == job) return &x->plan->jobs[i];
    return NULL;
}

static bool is_open(const struct session *out, int system)
{
    for (int i = 0; i < out->stall.n_open; i++)
        if (out->stall.open[i] == system) return true;
    return false;
}

static void judge(struct look *x, struct session_job *s)
{
    const struct plan_job *plan = planned(x, s->job);
    const struct trade_job *job = s->job;
    const bool open = is_open(x->out, job->system);
    int left = 0;
    s->critical = plan ? plan->critical : 0;
    s->begun = x->out->told.jobs[x->m->trade_job[s->index]].begun;
    for (int j = 0; j < x->p->n_jobs; j++)
        left += job_of(x, j)->system == job->system && !x->p->jobs[j].finished &&
                x->p->jobs[j].chance >= LIKELY;
    s->closes = s->begun || (open && left == 1);
    s->opens = !open && !s->begun && !job->survey && !job->gate && left > 1;
}

/* A helper is rare: work for two comes first while there are two. Then what is critical, then what
 * closes; where too much is open already, closing comes before all. */
static int tier_of(const struct session *out, const struct session_job *s)
{
    int tier = s->critical >= 0.5 ? 20 : s->critical >= 0.1 ? 10 : 0;
    if (out->hands > 1 && s->job->hands > 1) tier += 100;
    if (s->closes) tier += out->stall.frayed ? 50 : 5;
    if (s->opens) tier -= out->stall.frayed ? 50 : 5;
    return tier;
}

struct ranked {
    struct session_job job;
    int tier;
    double weight;
};

static int by_worth(const void *a, const void *b)
{
    const struct ranked *x = a, *y = b;
    if (x->tier != y->tier) return y->tier - x->tier;
    if (x->weight != y->weight) return x->weight > y->weight ? -1 : 1;
    return strcmp(x->job.job->head.id, y->job.job->head.id);
}

static struct session_job take(struct session_job *list, int *n, int at)
{
    struct session_job s = list[at];
    memmove(list + at, list + at + 1, (size_t)(--*n - at) * sizeof *list);
    return s;
}

static void give_roles(struct session *out, struct session_job *list, int n)
{
    double left = out->minutes;
    for (int i = 0; i < n; i++) {
        if (list[i].high > left) continue;
        out->jobs[out->n_jobs] = take(list, &n, i);
        struct session_job *must = &out->jobs[out->n_jobs++];
        must->role = SESSION_MUST;
        must->finishes = true;
        must->room = must->high;
        left -= must->middle;
        break;
    }
    for (int i = 0; i < n; i++) {
        double room = list[i].job->unbroken ? list[i].high : fmin(list[i].high, SESSION_STRETCH);
        if (room > left) continue;
        out->jobs[out->n_jobs] = take(list, &n, i);
        struct session_job *more = &out->jobs[out->n_jobs++];
        more->role = SESSION_IF_TIME;
        more->finishes = more->high <= left;
        more->room = room;
        break;
    }
    for (int i = 0; i < n; i++) {
        list[i].role = SESSION_READY;
        list[i].finishes = list[i].high <= out->minutes;
        list[i].room = list[i].job->unbroken ? list[i].high : fmin(list[i].high, SESSION_STRETCH);
        out->jobs[out->n_jobs++] = list[i];
    }
}

static int by_plan(const void *a, const void *b)
{
    const struct ranked *x = a, *y = b;
    if (x->weight != y->weight) return x->weight < y->weight ? -1 : 1;
    return strcmp(x->job.job->head.id, y->job.job->head.id);
}

static void sort_out(struct look *x)
{
    const int n = x->p->n_jobs;
    struct session *out = x->out;
    struct ranked *ready = ARENA_ARRAY(x->a, struct ranked, n);
    struct ranked *held = ARENA_ARRAY(x->a, struct ranked, n);
    struct session_blocked *why = ARENA_ARRAY(x->a, struct session_blocked, n);
    int n_ready = 0, n_held = 0;
    for (int j = 0; j < n; j++) {
        const struct project_job *job = &x->p->jobs[j];
        if (job->finished || job->chance <= NEVER_MIND) continue;
        const struct plan_job *plan = planned(x, job_of(x, j));
        struct session_job s = {
            .job = job_of(x, j), .index = j, .middle = job->minutes.middle, .high = high_of(job)};
        if (is_blocked(x, j, &why[j])) {
            if (job->chance >= LIKELY)
                held[n_held++] = (struct ranked){s, 0, plan ? plan->start : NEVER};
            continue;
        }
        judge(x, &s);
        ready[n_ready++] = (struct ranked){s, tier_of(out, &s), plan ? plan->weight : 0};
    }
    qsort(ready, (size_t)n_ready, sizeof *ready, by_worth);
    qsort(held, (size_t)n_held, sizeof *held, by_plan);
    out->jobs = ARENA_ARRAY(x->a, struct session_job, n_ready + 2);
    out->blocked = ARENA_ARRAY(x->a, struct session_blocked, n_held);
    struct session_job *list = ARENA_ARRAY(x->a, struct session_job, n_ready);
    for (int i = 0; i < n_ready; i++) list[i] = ready[i].job;
    for (int i = 0; i < n_held; i++) out->blocked[out->n_blocked++] = why[held[i].job.index];
    give_roles(out, list, n_ready);
}

/* ---- fifteen minutes, and what stalls ---- */

static void find_late(struct look *x)
{
    struct session *out = x->out;
    out->late = ARENA_ARRAY(x->a, struct plan_order, x->plan->n_orders);
    for (int i = 0; i < x->plan->n_orders; i++) {
        const struct plan_order *o = &x->plan->orders[i];
        const struct plan_job *job = planned(x, o->job);
        const int32_t now = (out->as_of - x->m->first) * MINUTES_A_DAY;
        if (o->by < now && o->chance >= LIKELY && !o->waits_for_gate && job && job->critical >= 0.1)
            out->late[out->n_late++] = *o;
    }
}

static void find_short(struct look *x)
{
    struct session *out = x->out;
    double least = INFINITY;
    out->short_look = -1;
    for (int i = 0; i < out->n_jobs; i++) {
        const struct session_job *s = &out->jobs[i];
        if (s->closes && s->high < least) least = s->high, out->closing = s;
        if (s->role == SESSION_READY && s->high <= SESSION_SHORT && !out->short_job)
            out->short_job = s;
    }
    if (out->short_job) return;
    for (int i = 0; i < out->n_care_due; i++)
        if (out->care[i].care->minutes <= SESSION_SHORT) {
            out->short_care = out->care[i].care;
            return;
        }
    if (x->plan->n_orders > 0 && !x->plan->orders[0].waits_for_gate) {
        out->short_order = &x->plan->orders[0];
        return;
    }
    for (int i = 0; i < x->p->n_components; i++) {
        int kind = x->m->component_kind[i];
        if (x->p->components[i].known >= 0 ||
            out->trade->components[kind].look_minutes > SESSION_SHORT)
            continue;
        out->short_look = kind;
        return;
    }
}

static void find_tools(struct look *x)
{
    struct session *out = x->out;
    out->unknown_tools = ARENA_ARRAY(x->a, int, out->trade->n_tools);
    for (int i = 0; i < out->n_jobs && out->jobs[i].role != SESSION_READY; i++)
        for (int k = 0; k < out->jobs[i].job->n_tools; k++) {
            int tool = tool_called(out->trade, out->jobs[i].job->tools[k]);
            bool again = tool < 0 || tool_on(&out->told, tool, out->as_of) != TOOL_NOT_TOLD;
            for (int n = 0; n < out->n_unknown_tools; n++)
                again = again || out->unknown_tools[n] == tool;
            if (!again) out->unknown_tools[out->n_unknown_tools++] = tool;
        }
}

bool session_wants_bag(const struct trade *t, const struct trade_job *job,
                       const struct fact_bag *bag)
{
    if (bag->emptied != DAY_NONE || bag->trade_job < 0) return false;
    if (&t->jobs[bag->trade_job] == job) return true;
    for (int i = 0; i < job->n_after; i++)
        if (job->after[i] == bag->trade_job) return true;
    return false;
}

bool session_asks_check(const struct trade_job *job, const struct trade_check *check)
{
    for (int i = 0; i < job->n_cautions; i++)
        if (check->n_cautions > 0 && job->cautions[i] == check->cautions[0]) return true;
    return false;
}

bool session_reckon(struct arena *a, const struct shop_ask *ask, const struct session_ask *evening,
                    struct session *out, struct fail *f)
{
    struct plan *plan = ARENA_NEW(a, struct plan);
    const struct reckoned *r;
    const struct facts *facts;
    struct figures figures;
    *out = (struct session){.trade = ask->trade, .as_of = ask->today, .short_look = -1};
    if (!plan_reckon_base(a, ask, plan, &r, &facts, f) || !figures_read(ask->trade, &figures, f) ||
        !facts_session_read(ask->garage, a, ask->trade, ask->vehicle, &out->told, f) ||
        !safe_reckon(a, ask, &out->safe, f) ||
        !bags_read(a, ask->garage, ask->trade, ask->vehicle, &out->bags, f))
        return false;
    struct look x = {a,
                     &r->model.project,
                     &r->model,
                     facts,
                     plan,
                     out,
                     ARENA_ARRAY(a, uint8_t, r->model.project.n_jobs)};
    out->vehicle = plan->vehicle;
    out->direction = plan->direction;
    out->decided = plan->decided;
    out->model = &r->model;
    stall_of(a, ask->trade, facts, &out->told, r->model.direction, ask->today, &out->stall);
    set_evening(&x, evening, &figures);
    sort_out(&x);
    out->n_care =
        care_of(a, ask->trade, facts, &out->told, ask->today, &out->care, &out->n_care_due);
    find_late(&x);
    find_short(&x);
    find_tools(&x);
    return true;
}
