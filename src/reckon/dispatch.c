#include "reckon/dispatch_inside.h"

#include <string.h>

struct desk {
    int32_t *ready; /* by rank: when all that it waits for is there, as far as known */
    int *before_left;
    uint8_t *parts_due; /* 1: parts not ordered yet; again: 2 */
    int32_t *todo;      /* minutes left of the present phase */
    uint8_t *again;     /* in its second phase: after a setback */
    int *cause;         /* rank that made it ready last */
    uint8_t *why;
    uint64_t *is_ready; /* bit set */
    uint8_t *is_begun;
    int *begun, n_begun; /* interrupted by the end of a session, by rank */
    int64_t *heap;
    int n_heap;    /* time << 16 | rank */
    int32_t stirs; /* nothing happens by itself before: pass_time is asked far more often */
    int *urgent, first_urgent, n_urgent; /* ranks whose setback parts are to be ordered */
    int next_survey, next_later, next_payday;
    double cash, spent;
    bool gate_open, out_of_money;
    int *stack;
    int *running, n_running;
    int32_t *begun_at, *until; /* of the running: when its stint began, and ends if let alone */
    int last_done;
    int32_t last_time;
    int left_to_do; /* of project.done */
    uint8_t *is_done_mark;
};

struct desk *desk_new(struct arena *a, const struct dispatch *d)
{
    struct desk *k = ARENA_NEW(a, struct desk);
    int n = d->n;
    k->ready = ARENA_ARRAY(a, int32_t, n);
    k->before_left = ARENA_ARRAY(a, int, n);
    k->parts_due = ARENA_ARRAY(a, uint8_t, n);
    k->todo = ARENA_ARRAY(a, int32_t, n);
    k->again = ARENA_ARRAY(a, uint8_t, n);
    k->cause = ARENA_ARRAY(a, int, n);
    k->why = ARENA_ARRAY(a, uint8_t, n);
    k->is_ready = ARENA_ARRAY(a, uint64_t, d->words);
    k->is_begun = ARENA_ARRAY(a, uint8_t, n);
    k->begun = ARENA_ARRAY(a, int, n);
    k->heap = ARENA_ARRAY(a, int64_t, 2 * n + 1);
    k->urgent = ARENA_ARRAY(a, int, n);
    k->stack = ARENA_ARRAY(a, int, n + 1);
    k->running = ARENA_ARRAY(a, int, n);
    k->begun_at = ARENA_ARRAY(a, int32_t, n);
    k->until = ARENA_ARRAY(a, int32_t, n);
    k->is_done_mark = ARENA_ARRAY(a, uint8_t, n);
    return k;
}

/* ---- heap of jobs that become ready at a known moment ---- */

static void heap_push(struct desk *k, int32_t time, int rank)
{
    int64_t key = ((int64_t)time << 16) | rank;
    int i = k->n_heap++;
    while (i > 0 && k->heap[(i - 1) / 2] > key) {
        k->heap[i] = k->heap[(i - 1) / 2];
        i = (i - 1) / 2;
    }
    k->heap[i] = key;
    if (time < k->stirs) k->stirs = time;
}

static int heap_pop(struct desk *k)
{
    int rank = (int)(k->heap[0] & 0xffff);
    int64_t key = k->heap[--k->n_heap];
    int i = 0;
    for (;;) {
        int child = 2 * i + 1;
        if (child >= k->n_heap) break;
        if (child + 1 < k->n_heap && k->heap[child + 1] < k->heap[child]) child++;
        if (k->heap[child] >= key) break;
        k->heap[i] = k->heap[child];
        i = child;
    }
    k->heap[i] = key;
    return rank;
}

static int32_t heap_time(const struct desk *k)
{
    return k->n_heap > 0 ? (int32_t)(k->heap[0] >> 16) : NEVER;
}

/* ---- a run in hand ---- */

struct act {
    const struct dispatch *d;
    struct desk *k;
    const struct drawn *drawn;
    struct schedule *out;
};

static void made_ready(struct desk *k, int r, int32_t time, int cause, enum hold why)
{
    if (time < k->ready[r] || (time == k->ready[r] && k->cause[r] >= 0)) return;
    k->ready[r] = time;
    k->cause[r] = cause;
    k->why[r] = (uint8_t)why;
}

/* Everything that job r waits for is known: queue it for its moment. */
static void release_if_known(struct act *x, int r)
{
    struct desk *k = x->k;
    if (k->before_left[r] == 0 && !k->parts_due[r]) heap_push(k, k->ready[r], r);
}

/* When what follows may begin: after the wait, which began before where pieces are away. */
static int32_t free_after(const struct project *p, const struct drawn *drawn, int job,
                          int32_t finish)
{
    const struct project_job *j = &p->jobs[job];
    return j->away ? later_of(finish, j->away_from + drawn->wait[job]) : finish + drawn->wait[job];
}

/* Job r is done at `time`: what comes after may become ready; a job that is not needed passes
 * straight through. */
static void done(struct act *x, int r, int32_t time)
{
    const struct dispatch *d = x->d;
    struct desk *k = x->k;
    int depth = 0;
    x->out->finish[d->job[r]] = time;
    k->stack[depth++] = r;
    while (depth > 0) {
        int at = k->stack[--depth];
        int job = d->job[at];
        if (k->is_done_mark[at]) k->left_to_do--;
        int32_t free = free_after(d->p, x->drawn, job, x->out->finish[job]);
        const bool waits = free > x->out->finish[job];
        enum hold why = waits ? HOLD_WAIT : HOLD_BEFORE;
        /* A job that passed through hands its own cause on, so that the chain leads to real work.
         */
        bool passed = !x->drawn->applies[job] && !(waits && d->p->jobs[job].away);
        for (int i = 0; i < d->next[at].count; i++) {
            int r2 = d->nexts[d->next[at].first + i];
            if (passed)
                made_ready(k, r2, free, k->cause[at], (enum hold)k->why[at]);
            else
                made_ready(k, r2, free, at, why);
            if (--k->before_left[r2] > 0) continue;
            int job2 = d->job[r2];
            if (x->drawn->applies[job2]) {
                release_if_known(x, r2);
            } else {
                x->out->start[job2] = x->out->finish[job2] = k->ready[r2];
                k->stack[depth++] = r2;
            }
        }
    }
}

static bool order(struct act *x, int r, bool again, int32_t time)
{
    const struct project_purse *purse = &x->d->p->purse;
    struct desk *k = x->k;
    int job = x->d->job[r];
    double price = again ? x->drawn->again_price[job] : x->drawn->price[job];
    if (!purse->open) {
        if (k->spent + price > purse->ceiling) k->out_of_money = true;
        if (k->spent + price > purse->ceiling || k->cash - price < purse->reserve) return false;
        k->cash -= price;
    }
    k->spent += price;
    int32_t arrives = time + (again ? x->drawn->again_lead[job] : x->drawn->lead[job]);
    if (x->out->orders)
        x->out->orders[x->out->n_orders++] =
            (struct order_placed){job, again, time, arrives, price};
    bool late =
        time > (k->gate_open && x->d->gate >= 0 ? x->out->finish[x->d->job[x->d->gate]] : 0);
    k->parts_due[r] = 0;
    if (again)
        k->ready[r] = later_of(k->ready[r], arrives); /* what held its start stays as it was */
    else
        made_ready(k, r, arrives, k->gate_open && x->d->gate >= 0 ? x->d->gate : -1,
                   late ? HOLD_MONEY : HOLD_PARTS);
    release_if_known(x, r);
    return true;
}

/* Places orders at `time`, in order, until the purse says no. */
static void place_orders(struct act *x, int32_t time)
{
    const struct dispatch *d = x->d;
    struct desk *k = x->k;
    for (; k->first_urgent < k->n_urgent; k->first_urgent++)
        if (!order(x, k->urgent[k->first_urgent], true, time)) return;
    for (; k->next_survey < d->n_survey; k->next_survey++) {
        int r = d->survey[k->next_survey];
        if (k->parts_due[r] == 1 && !order(x, r, false, time)) return;
    }
    if (!k->gate_open) return;
    for (; k->next_later < d->n_later; k->next_later++) {
        int r = d->later[k->next_later];
        if (k->parts_due[r] == 1 && !order(x, r, false, time)) return;
    }
}

static bool orders_pending(const struct act *x)
{
    const struct desk *k = x->k;
    return k->first_urgent < k->n_urgent || k->next_survey < x->d->n_survey ||
           (k->gate_open && k->next_later < x->d->n_later);
}

static int32_t next_payday(const struct act *x)
{
    const struct project_purse *purse = &x->d->p->purse;
    const struct desk *k = x->k;
    if (k->out_of_money || k->next_payday >= purse->n_paydays || !orders_pending(x)) return NEVER;
    return purse->payday[k->next_payday];
}

static void let_happen(struct act *x, int32_t time)
{
    const struct project_purse *purse = &x->d->p->purse;
    struct desk *k = x->k;
    while (k->next_payday < purse->n_paydays && purse->payday[k->next_payday] <= time) {
        k->cash += purse->pay[k->next_payday];
        place_orders(x, purse->payday[k->next_payday++]);
    }
    while (heap_time(k) <= time) {
        int r = heap_pop(k);
        put_in(k->is_ready, r);
    }
    k->stirs = heap_time(k);
    if (k->next_payday < purse->n_paydays && purse->payday[k->next_payday] < k->stirs)
        k->stirs = purse->payday[k->next_payday];
}

/* Lets everything happen that happens by itself up to `time`. */
static inline void pass_time(struct act *x, int32_t time)
{
    if (x->k->stirs <= time) let_happen(x, time);
}

/* The present phase of job r ended at `time`. */
static void phase_done(struct act *x, int r, int32_t time)
{
    struct desk *k = x->k;
    int job = x->d->job[r];
    k->last_done = r;
    k->last_time = time;
    if (k->again[r] || (x->drawn->again_minutes[job] == 0 && x->drawn->again_wait[job] == 0 &&
                        x->drawn->again_lead[job] < 0)) {
        done(x, r, time);
        if (r == x->d->gate) k->gate_open = true;
    } else { /* a setback: its parts are ordered now, its wait passes, then its work goes on */
        k->again[r] = 1;
        k->todo[r] = later_of(1, x->drawn->again_minutes[job]);
        k->ready[r] = time + x->drawn->again_wait[job];
        if (x->drawn->again_lead[job] >= 0) {
            k->parts_due[r] = 2;
            k->urgent[k->n_urgent++] = r;
        } else {
            heap_push(k, k->ready[r], r);
        }
    }
    place_orders(x, time);
}

static void start_run(struct act *x)
{
    const struct dispatch *d = x->d;
    const struct project *p = d->p;
    struct desk *k = x->k;
    memset(k->is_ready, 0, (size_t)d->words * sizeof *k->is_ready);
    memset(k->again, 0, (size_t)d->n);
    memset(k->is_begun, 0, (size_t)d->n);
    memset(k->is_done_mark, 0, (size_t)d->n);
    memcpy(k->before_left, d->n_before, (size_t)d->n * sizeof *k->before_left);
    memset(k->ready, 0, (size_t)d->n * sizeof *k->ready);
    memset(k->why, HOLD_NOTHING, (size_t)d->n);
    k->n_begun = k->n_heap = k->first_urgent = k->n_urgent = k->n_running = 0;
    k->next_survey = k->next_later = k->next_payday = 0;
    k->cash = p->purse.in_hand;
    k->spent = 0;
    k->gate_open = d->gate < 0;
    k->out_of_money = false;
    k->last_done = -1;
    k->last_time = 0;
    k->left_to_do = 0;
    k->stirs = 0;
    for (int i = 0; i < p->n_done; i++) {
        int r = d->rank[p->done[i]];
        if (!k->is_done_mark[r]) k->left_to_do++;
        k->is_done_mark[r] = 1;
    }
    x->out->n_stints = x->out->n_orders = 0;
    for (int r = 0; r < d->n; r++) {
        int job = d->job[r];
        k->cause[r] = -1;
        k->todo[r] = x->drawn->minutes[job];
        k->parts_due[r] = x->drawn->applies[job] && x->drawn->lead[job] >= 0;
        x->out->start[job] = x->out->finish[job] = NEVER;
    }
    place_orders(x, 0);
    /* Jobs with nothing before them; done() below may release others, which then have before_left 0
     * themselves. */
    for (int r = 0; r < d->n; r++) {
        if (d->n_before[r] > 0) continue;
        int job = d->job[r];
        if (!x->drawn->applies[job]) {
            x->out->start[job] = 0;
            done(x, r, 0);
        } else if (!k->parts_due[r] && x->drawn->lead[job] < 0) {
            heap_push(k, 0, r);
        }
    }
}

static bool fits(const struct act *x, int r, const struct project_session *s, int free, int32_t t)
{
    const struct dispatch *d = x->d;
    if (d->hands[r] > free || (d->bay[r] && !s->bay) || s->degrees < d->warm[r]) return false;
    if (!d->unbroken[r] || x->k->again[r] || x->k->is_begun[r]) return true;
    return d->room[r][s - d->p->sessions] <= s->end - t;
}

static void begin(struct act *x, int r, int32_t t, int *free)
{
    struct desk *k = x->k;
    int job = x->d->job[r];
    if (x->out->start[job] == NEVER) {
        x->out->start[job] = t;
        /* Hands were busy since it was ready: then the job that ended last is what it hung on. */
        if (k->last_done >= 0 && k->last_done != k->cause[r] && k->last_time > k->ready[r]) {
            k->cause[r] = k->last_done;
            k->why[r] = HOLD_HANDS;
        }
        if (x->out->held) x->out->held[job] = k->why[r];
    }
    k->is_begun[r] = 1;
    k->running[k->n_running] = r;
    k->until[k->n_running] = t + k->todo[r];
    k->begun_at[k->n_running++] = t;
    *free -= x->d->hands[r];
}

/* Starts what fits of the begun jobs and then of the ready ones; `rare_only`: those that fit few
 * moments. */
static void begin_some(struct act *x, const struct project_session *s, int32_t t, int *free,
                       bool rare_only)
{
    struct desk *k = x->k;
    int kept = 0;
    for (int i = 0; i < k->n_begun; i++) {
        int r = k->begun[i];
        if ((!rare_only || is_in(x->d->rare, r)) && fits(x, r, s, *free, t))
            begin(x, r, t, free);
        else
            k->begun[kept++] = r;
    }
    k->n_begun = kept;
    for (int w = 0; w<x->d->words && * free> 0; w++) {
        uint64_t bits = k->is_ready[w] & (rare_only ? x->d->rare[w] : ~(uint64_t)0);
        while (bits && *free > 0) {
            int r = w * 64 + __builtin_ctzll(bits);
            bits &= bits - 1;
            if (!fits(x, r, s, *free, t)) continue;
            take_out(k->is_ready, r);
            begin(x, r, t, free);
        }
    }
}

static void note_stint(struct act *x, int session, int i, int32_t to)
{
    int r = x->k->running[i];
    x->k->todo[r] -= to - x->k->begun_at[i];
    if (x->out->stints && to > x->k->begun_at[i])
        x->out->stints[x->out->n_stints++] = (struct stint){
            x->d->job[r], session, x->d->hands[r], x->k->again[r], x->k->begun_at[i], to};
}

static void drop_running(struct desk *k, int i)
{
    k->n_running--;
    k->running[i] = k->running[k->n_running];
    k->begun_at[i] = k->begun_at[k->n_running];
    k->until[i] = k->until[k->n_running];
}

/* Ends the phase of every running job that is finished at t. */
static void end_finished(struct act *x, int session, int32_t t, int *free)
{
    struct desk *k = x->k;
    for (int i = k->n_running - 1; i >= 0; i--) {
        int r = k->running[i];
        if (k->until[i] > t) continue;
        note_stint(x, session, i, t);
        *free += x->d->hands[r];
        drop_running(k, i);
        phase_done(x, r, t);
    }
}

/* Unbroken work that overran is finished tonight, if the next session leaves room for it; the rest
 * is put down. */
static void close_session(struct act *x, int session, int32_t next_start)
{
    struct desk *k = x->k;
    for (;;) {
        int first = -1;
        for (int i = 0; i < k->n_running; i++) {
            int r = k->running[i];
            if (!x->d->unbroken[r] || k->again[r] || k->until[i] > next_start) continue;
            if (first < 0 || k->until[i] < k->until[first]) first = i;
        }
        if (first < 0) break;
        int r = k->running[first];
        int32_t end = k->until[first];
        pass_time(x, end);
        note_stint(x, session, first, end);
        drop_running(k, first);
        phase_done(x, r, end);
    }
    while (k->n_running > 0) {
        note_stint(x, session, 0, x->d->p->sessions[session].end);
        int r = k->running[0];
        drop_running(k, 0);
        int at = k->n_begun++;
        while (at > 0 && k->begun[at - 1] > r) {
            k->begun[at] = k->begun[at - 1];
            at--;
        }
        k->begun[at] = r;
    }
}

static void work_session(struct act *x, int session)
{
    const struct project *p = x->d->p;
    const struct project_session *s = &p->sessions[session];
    struct desk *k = x->k;
    int32_t t = s->start;
    int free = s->hands;
    for (;;) {
        pass_time(x, t);
        /* A helper or a long session is rare: jobs that need one come first, even before a begun
         * one. Otherwise begun work takes up every session's start, and they wait until nothing
         * else is left to do. */
        if (free >= 1) begin_some(x, s, t, &free, true);
        if (free >= 1) begin_some(x, s, t, &free, false);
        int32_t next = s->end;
        for (int i = 0; i < k->n_running; i++) {
            if (k->until[i] < next) next = k->until[i];
        }
        if (free > 0) { /* with no hand free, nothing that becomes ready matters yet */
            int32_t event = heap_time(k) < next_payday(x) ? heap_time(k) : next_payday(x);
            if (event < next) next = event;
        }
        t = next;
        pass_time(x, t); /* a payday before t comes before what ends at t is known */
        end_finished(x, session, t, &free);
        if (t >= s->end || (k->n_running == 0 && k->left_to_do == 0)) break;
    }
    int32_t next_start = session + 1 < p->n_sessions ? p->sessions[session + 1].start : NEVER;
    close_session(x, session, next_start);
}

static bool nothing_ready(const struct act *x)
{
    for (int w = 0; w < x->d->words; w++)
        if (x->k->is_ready[w]) return false;
    return x->k->n_begun == 0;
}

static void trace_chain(const struct act *x, int r, struct outcome *o, uint8_t *critical)
{
    const struct schedule *out = x->out;
    while (r >= 0) {
        int job = x->d->job[r], cause = x->k->cause[r];
        if (critical) {
            if (critical[job]) break;
            critical[job] = 1;
        }
        o->hang[HOLD_HANDS] += out->finish[job] - out->start[job];
        int32_t from = cause >= 0 ? out->finish[x->d->job[cause]] : 0;
        if (from != NEVER && out->start[job] > from)
            o->hang[x->k->why[r]] += out->start[job] - from;
        r = cause;
    }
}

struct outcome dispatch_run(const struct dispatch *d, struct desk *desk, const struct drawn *drawn,
                            struct schedule *out, uint8_t *critical)
{
    const struct project *p = d->p;
    struct act x = {d, desk, drawn, out};
    struct outcome o = {.finish = NEVER};
    start_run(&x);
    bool stuck = false;
    for (int s = 0; s < drawn->n_kept && desk->left_to_do > 0 && !stuck; s++) {
        o.sessions = s + 1;
        if (!drawn->kept[s]) continue;
        pass_time(&x, p->sessions[s].start);
        if (nothing_ready(&x)) {
            stuck = heap_time(desk) == NEVER && next_payday(&x) == NEVER;
            if (stuck) continue;
            if (heap_time(desk) >= p->sessions[s].end && next_payday(&x) >= p->sessions[s].end)
                continue;
        }
        work_session(&x, s);
    }
    o.out_of_money = desk->out_of_money;
    o.more = desk->left_to_do > 0 && !stuck && drawn->n_kept < p->n_sessions;
    if (critical) memset(critical, 0, (size_t)d->n);
    if (desk->left_to_do > 0) return o;
    o.finish = 0;
    int last = -1;
    for (int i = 0; i < p->n_done; i++) {
        int job = p->done[i];
        if (out->finish[job] < o.finish || (last >= 0 && out->finish[job] == o.finish)) continue;
        o.finish = out->finish[job];
        last = d->rank[job];
    }
    /* A done job that was not needed stands for the one that let it pass. */
    if (last >= 0 && !drawn->applies[d->job[last]]) {
        int cause = desk->cause[last];
        o.hang[desk->why[last]] += o.finish - (cause >= 0 ? out->finish[d->job[cause]] : 0);
        last = cause;
    }
    trace_chain(&x, last, &o, critical);
    return o;
}
