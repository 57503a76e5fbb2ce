#include "shop/tools.h"

#include "garage/kinds.h"
#include "model/facts_worth.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double LIKELY = 0.5;

struct look {
    struct arena *a;
    const struct trade *t;
    const struct plan *plan;
    const struct model *m;
    const struct facts *facts;
    const struct facts_session *told;
    struct tool_offer *offers;
    int n_offers;
    struct tools *out;
};

const char *tool_way_name(enum tool_way way)
{
    static const char *const names[TOOL_WAYS] = {"buy", "hire", "borrow"};
    return names[way];
}

static day day_of(const struct record *r, const char *field)
{
    const struct value *v = record_get(r, field);
    return v->set ? v->day : DAY_NONE;
}

/* ---- what was told ---- */

static double minor_of(const struct look *x, const struct record *r, const char *field,
                       bool *counted)
{
    const struct value *v = record_get(r, field);
    if (!v->set) return 0;
    const double rate = facts_minor(x->facts, v->money.currency, x->out->currency);
    if (rate <= 0) *counted = false;
    return (double)v->money.minor * rate;
}

static bool read_offers(struct look *x, struct garage *g, struct fail *f)
{
    struct record *list;
    int n;
    if (!garage_list(g, x->a, &kind_tool_offer, NULL, &list, &n, f)) return false;
    x->offers = ARENA_ARRAY(x->a, struct tool_offer, n);
    for (int i = 0; i < n; i++) {
        const struct record *r = &list[i];
        struct tool_offer *o = &x->offers[x->n_offers];
        *o = (struct tool_offer){.tool = tool_called(x->t, record_text(r, "tool", "")),
                                 .way = (enum tool_way)record_integer(r, "way", 0),
                                 .counted = true,
                                 .until = day_of(r, "until"),
                                 .whose = record_text(r, "whose", NULL)};
        o->minor = minor_of(x, r, "price", &o->counted);
        o->a_day = minor_of(x, r, "a-day", &o->counted);
        /* Nothing told of what it costs: only what is lent costs nothing. */
        if (!record_get(r, "price")->set && !record_get(r, "a-day")->set && o->way != WAY_BORROW)
            o->counted = false;
        if (o->tool >= 0) x->n_offers++;
    }
    return true;
}

static int by_promise(const void *a, const void *b)
{
    const struct tool_promise *x = a, *y = b;
    if ((x->by == DAY_NONE) != (y->by == DAY_NONE)) return x->by == DAY_NONE ? 1 : -1;
    if (x->by != y->by) return x->by < y->by ? -1 : 1;
    return strcmp(x->what, y->what);
}

static bool read_people(struct look *x, struct garage *g, struct fail *f)
{
    struct record *list;
    struct tools *out = x->out;
    int n;
    if (!garage_list(g, x->a, &kind_person, NULL, &out->people, &out->n_people, f) ||
        !garage_list(g, x->a, &kind_promise, NULL, &list, &n, f))
        return false;
    out->promises = ARENA_ARRAY(x->a, struct tool_promise, n);
    for (int i = 0; i < n; i++) {
        const day by = day_of(&list[i], "by-day");
        if (day_of(&list[i], "kept") != DAY_NONE) continue;
        out->promises[out->n_promises++] = (struct tool_promise){
            record_text(&list[i], "who", "?"), record_text(&list[i], "what", ""), by,
            by != DAY_NONE && by < out->as_of};
    }
    qsort(out->promises, (size_t)out->n_promises, sizeof *out->promises, by_promise);
    return true;
}

/* ---- what the plan wants ---- */

static bool wants(const struct look *x, const struct plan_job *j, int tool)
{
    if (j->finished || j->chance < LIKELY || j->start == NEVER) return false;
    for (int i = 0; i < j->job->n_tools; i++)
        if (tool_called(x->t, j->job->tools[i]) == tool) return true;
    return false;
}

static int by_from(const void *a, const void *b)
{
    const struct tool_spell *x = a, *y = b;
    return x->from != y->from ? (x->from < y->from ? -1 : 1) : (x->to > y->to) - (x->to < y->to);
}

/* Spells that meet, or that nobody would carry it back between, are one. */
static int joined(struct tool_spell *s, int n)
{
    int kept = 0;
    qsort(s, (size_t)n, sizeof *s, by_from);
    for (int i = 0; i < n; i++) {
        if (kept > 0 && s[i].from <= s[kept - 1].to + TOOL_KEEP_DAYS) {
            if (s[i].to > s[kept - 1].to) s[kept - 1].to = s[i].to;
        } else {
            s[kept++] = s[i];
        }
    }
    return kept;
}

static void choose(struct look *x, struct tool_need *n)
{
    struct tool_way_cost *ways = ARENA_ARRAY(x->a, struct tool_way_cost, x->n_offers);
    n->offers = ARENA_ARRAY(x->a, const struct tool_offer *, x->n_offers);
    n->steps = ARENA_ARRAY(x->a, struct tool_step, n->n_spells);
    for (int i = 0; i < x->n_offers; i++) {
        const struct tool_offer *o = &x->offers[i];
        if (o->tool != n->tool || !o->counted) continue;
        ways[n->n_offers] = (struct tool_way_cost){o->way, o->minor, o->a_day,
                                                   o->until == DAY_NONE ? INT32_MAX : o->until};
        n->offers[n->n_offers++] = o;
    }
    n->cost = tool_cost(*x->a, ways, n->n_offers, n->spells, n->n_spells, n->steps, &n->n_steps);
}

static void gather(struct look *x, int tool)
{
    struct tool_need n = {.tool = tool, .cost = INFINITY};
    n.spells = ARENA_ARRAY(x->a, struct tool_spell, x->plan->n_jobs);
    for (int i = 0; i < x->plan->n_jobs; i++) {
        const struct plan_job *j = &x->plan->jobs[i];
        if (!wants(x, j, tool)) continue;
        const day from = x->m->first + (day)floor((double)j->start / MINUTES_A_DAY),
                  to = x->m->first + (day)floor((double)j->finish / MINUTES_A_DAY);
        if (n.n_jobs++ == 0 || from < n.by) n.by = from, n.first = j->job;
        n.spells[n.n_spells++] = (struct tool_spell){from, to > from ? to : from};
    }
    if (n.n_jobs == 0) return;
    n.n_spells = joined(n.spells, n.n_spells);
    n.have = tool_on(x->told, tool, n.by);
    if (n.have != TOOL_OWNED) choose(x, &n);
    x->out->needs[x->out->n_needs++] = n;
}

static bool is_wanting(const struct tool_need *n)
{
    return n->have == TOOL_MISSING || n->have == TOOL_NOT_TOLD;
}

static int by_need(const void *a, const void *b)
{
    const struct tool_need *x = a, *y = b;
    if (is_wanting(x) != is_wanting(y)) return is_wanting(x) ? -1 : 1;
    if (x->by != y->by) return x->by < y->by ? -1 : 1;
    return x->tool - y->tool;
}

bool tools_reckon(struct arena *a, const struct shop_ask *ask, struct tools *out, struct fail *f)
{
    struct plan *plan = ARENA_NEW(a, struct plan);
    const struct reckoned *r;
    const struct facts *facts;
    struct facts_session told;
    *out = (struct tools){.trade = ask->trade, .as_of = ask->today};
    if (!plan_reckon_base(a, ask, plan, &r, &facts, f) ||
        !facts_session_read(ask->garage, a, ask->trade, ask->vehicle, &told, f))
        return false;
    struct look x = {.a = a,
                     .t = ask->trade,
                     .plan = plan,
                     .m = &r->model,
                     .facts = facts,
                     .told = &told,
                     .out = out};
    out->vehicle = plan->vehicle;
    out->currency = facts->currency;
    out->needs = ARENA_ARRAY(a, struct tool_need, ask->trade->n_tools);
    if (!read_offers(&x, ask->garage, f) || !read_people(&x, ask->garage, f)) return false;
    for (int i = 0; i < ask->trade->n_tools; i++) gather(&x, i);
    qsort(out->needs, (size_t)out->n_needs, sizeof *out->needs, by_need);
    for (int i = 0; i < out->n_needs; i++) {
        out->n_wanting += is_wanting(&out->needs[i]);
        if (is_wanting(&out->needs[i]) && !isinf(out->needs[i].cost))
            out->cost += out->needs[i].cost;
    }
    return true;
}
