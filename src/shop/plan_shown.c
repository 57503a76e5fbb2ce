#include "shop/plan_shown.h"

#include "reckon/check.h"

#include <stdlib.h>
#include <string.h>

static struct schedule schedule_new(struct arena *a, const struct project *p)
{
    return (struct schedule){.stints = ARENA_ARRAY(a, struct stint, dispatch_most_stints(p)),
                             .orders = ARENA_ARRAY(a, struct order_placed, 2 * p->n_jobs),
                             .start = ARENA_ARRAY(a, int32_t, p->n_jobs),
                             .finish = ARENA_ARRAY(a, int32_t, p->n_jobs)};
}

/* Jobs in the order of an adopted plan; those that it does not name follow in the rule's order. */
static int *former_order(struct arena *a, const struct project *p, const char *adopted)
{
    int *by_rule = rank_by_tail(a, p), *order = ARENA_ARRAY(a, int, p->n_jobs), n = 0;
    uint8_t *placed = ARENA_ARRAY(a, uint8_t, p->n_jobs);
    for (const char *s = adopted; *s;) {
        size_t length = strcspn(s, " ");
        for (int j = 0; j < p->n_jobs; j++)
            if (!placed[j] && strlen(p->jobs[j].id) == length &&
                memcmp(p->jobs[j].id, s, length) == 0) {
                placed[j] = 1;
                order[n++] = j;
            }
        s += length;
        s += strspn(s, " ");
    }
    for (int i = 0; i < p->n_jobs; i++)
        if (!placed[by_rule[i]]) order[n++] = by_rule[i];
    return order;
}

struct started {
    int32_t start;
    int job;
};

static int by_start(const void *a, const void *b)
{
    const struct started *x = a, *y = b;
    return x->start != y->start ? (x->start < y->start ? -1 : 1) : x->job - y->job;
}

static const char *order_of(struct arena *a, const struct project *p, const struct drawn *drawn,
                            const struct schedule *s)
{
    struct started *all = ARENA_ARRAY(a, struct started, p->n_jobs);
    int n = 0;
    for (int j = 0; j < p->n_jobs; j++)
        if (drawn->applies[j] && s->start[j] != NEVER) all[n++] = (struct started){s->start[j], j};
    qsort(all, (size_t)n, sizeof *all, by_start);
    struct text t = {.arena = a};
    for (int i = 0; i < n; i++) text_print(&t, "%s%s", i > 0 ? " " : "", p->jobs[all[i].job].id);
    return text_get(&t);
}

static int by_moment(const void *a, const void *b)
{
    const struct stint *x = a, *y = b;
    return x->from != y->from ? (x->from < y->from ? -1 : 1) : x->job - y->job;
}

static void take_stints(struct arena *a, const struct reckoned *r, const struct schedule *s,
                        struct plan *out)
{
    int32_t until = PLAN_WEEKS * 7 * MINUTES_A_DAY;
    int usual = 0;
    for (int i = 0; i < r->model.calendar.n_week; i++)
        if (r->model.calendar.week[i].hands > usual) usual = r->model.calendar.week[i].hands;
    qsort(s->stints, (size_t)s->n_stints, sizeof *s->stints, by_moment);
    out->stints = ARENA_ARRAY(a, struct plan_stint, s->n_stints);
    for (int i = 0; i < s->n_stints; i++) {
        const struct stint *x = &s->stints[i];
        if (x->from >= until) break;
        day d = out->first + x->from / MINUTES_A_DAY;
        out->stints[out->n_stints++] = (struct plan_stint){
            .session = x->session,
            .day = d,
            .from = x->from % MINUTES_A_DAY,
            .to = x->to - (d - out->first) * MINUTES_A_DAY,
            .hands = x->hands,
            .job = &r->model.trade->jobs[r->model.trade_job[x->job]],
            .begins = x->from == s->start[x->job],
            .ends = x->to == s->finish[x->job],
            .helped = r->model.project.sessions[x->session].hands > usual,
        };
    }
}

/* ---- what lasts ---- */

static void add_span(struct plan *out, enum plan_lane lane, int32_t from, int32_t to,
                     const struct trade_job *job)
{
    if (from >= PLAN_AHEAD * 7 * MINUTES_A_DAY || to < 0 || to < from) return;
    out->spans[out->n_spans++] = (struct plan_span){lane, from < 0 ? 0 : from, to, job};
}

static int by_lane(const void *a, const void *b)
{
    const struct plan_span *x = a, *y = b;
    if (x->lane != y->lane) return (int)x->lane - (int)y->lane;
    if (x->from != y->from) return x->from < y->from ? -1 : 1;
    return x->to != y->to ? (x->to < y->to ? -1 : 1) : strcmp(x->job->head.id, y->job->head.id);
}

/* A vehicle in pieces keeps its bay from its first job there to the last.
 */
static void take_spans(struct arena *a, const struct reckoned *r, const struct drawn *drawn,
                       const struct schedule *s, struct plan *out)
{
    const struct project *p = &r->model.project;
    int32_t bay_from = NEVER, bay_to = 0;
    out->spans = ARENA_ARRAY(a, struct plan_span, s->n_stints + s->n_orders + p->n_jobs + 1);
    for (int i = 0; i < s->n_stints; i++) {
        const struct stint *x = &s->stints[i];
        add_span(out, LANE_HANDS, x->from, x->to,
                 &r->model.trade->jobs[r->model.trade_job[x->job]]);
        if (!p->jobs[x->job].bay) continue;
        if (x->from < bay_from) bay_from = x->from;
        if (x->to > bay_to) bay_to = x->to;
    }
    if (bay_from != NEVER) add_span(out, LANE_BAY, bay_from, bay_to, NULL);
    for (int j = 0; j < p->n_jobs; j++)
        if ((drawn->applies[j] || p->jobs[j].away) && drawn->wait[j] > 0 && s->finish[j] != NEVER)
            add_span(out, LANE_WAIT, p->jobs[j].away ? 0 : s->finish[j],
                     (p->jobs[j].away ? p->jobs[j].away_from : s->finish[j]) + drawn->wait[j],
                     &r->model.trade->jobs[r->model.trade_job[j]]);
    for (int i = 0; i < s->n_orders; i++)
        if (s->orders[i].arrives != NEVER)
            add_span(out, LANE_DELIVERY, s->orders[i].ordered, s->orders[i].arrives,
                     &r->model.trade->jobs[r->model.trade_job[s->orders[i].job]]);
    qsort(out->spans, (size_t)out->n_spans, sizeof *out->spans, by_lane);
}

bool plan_show(struct arena *a, const struct reckoned *r, const struct facts *facts,
               struct plan *out, struct fail *f)
{
    const struct project *p = &r->model.project;
    const struct forecast *fc = &r->forecast;
    uint8_t *applies = ARENA_ARRAY(a, uint8_t, p->n_jobs);
    for (int j = 0; j < p->n_jobs; j++) {
        int needed = 0;
        for (int i = 0; i < fc->runs; i++)
            needed += fc->start[(size_t)j * (size_t)fc->runs + (size_t)i] != NEVER;
        applies[j] = 2 * needed >= fc->runs || p->jobs[j].needs.count == 0;
    }
    struct drawn drawn = drawn_new(a, p);
    draw_typical(p, applies, &drawn);
    struct schedule rule = schedule_new(a, p);
    struct outcome best = dispatch_run(r->dispatch, desk_new(a, r->dispatch), &drawn, &rule, NULL);
    struct schedule *shown = &rule;
    if (facts->adopted_order && facts->adopted_order[0] &&
        facts->adopted_direction == r->model.direction) {
        const struct dispatch *d = dispatch_prepare(a, p, former_order(a, p, facts->adopted_order));
        struct schedule *former = ARENA_NEW(a, struct schedule);
        *former = schedule_new(a, p);
        struct outcome o = dispatch_run(d, desk_new(a, d), &drawn, former, NULL);
        if (o.finish < best.finish) {
            best = o;
            shown = former;
            out->shown_former = true;
        }
    }
    if (!schedule_check(p, &drawn, shown, *a, f)) return false;
    out->shown_finish = best.finish;
    out->order = order_of(a, p, &drawn, shown);
    take_stints(a, r, shown, out);
    take_spans(a, r, &drawn, shown, out);
    return true;
}
