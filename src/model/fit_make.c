/* fit_make.c - needs, options, joins and rules of a problem of fit. */
#include "model/fit_inside.h"

#include "base/text.h"

#include <assert.h>
#include <math.h>

/* A need that the plan asks for in fewer runs than this is left until it is known. */
static const double LIKELY = 0.5;

/* Points of originality that a class costs: the common practice of judging, by rank alone. */
static const int64_t POINTS[ORIGINALITY_COUNT] = {[ORIGINAL] = 0,
                                                  [ORIGINAL_PERIOD] = 1,
                                                  [ORIGINAL_REPRODUCTION] = 2,
                                                  [ORIGINAL_MODERN] = 3,
                                                  [ORIGINAL_UNKNOWN] = 3};

struct make {
    struct arena *a;
    const struct fit_ask *ask;
    const struct trade *t;
    struct fit_problem *p;
    bool *top;       /* by need of trade data: always there */
    int *need_of;    /* by need of trade data: its index in the model, or -1 */
    bool *component; /* by component of trade data: the vehicle has it */
    struct fit_rule *rules;
    size_t rules_capacity, pairs_capacity;
    struct fit_side *givers, *takers;
    int n_givers, n_takers;
    size_t givers_capacity, takers_capacity;
};

/* ---- which needs and options are in it ---- */

static const struct fact_choice *choice_of(const struct fit_ask *ask, int need)
{
    for (int i = 0; i < ask->facts->buy.n_choices; i++)
        if (ask->facts->buy.choices[i].need == need) return &ask->facts->buy.choices[i];
    return NULL;
}

static bool asked_for(const struct make *m, int need)
{
    const struct trade_need *n = &m->t->needs[need];
    const struct project *p = &m->ask->model->project;
    for (int i = 0; i < n->n_jobs; i++)
        for (int j = 0; j < p->n_jobs; j++)
            if (m->ask->model->trade_job[j] == n->jobs[i] && !p->jobs[j].finished &&
                (p->jobs[j].chance >= LIKELY || choice_of(m->ask, need)))
                return true;
    return false;
}

static bool usable(const struct make *m, int option)
{
    return fitted_holds(&m->t->options[option].fitted, m->ask->model->answers);
}

/* Takes in a need and, over what its options bring or require, all that may follow. */
static void take_need(struct make *m, int need)
{
    if (m->need_of[need] >= 0 || !fitted_holds(&m->t->needs[need].fitted, m->ask->model->answers))
        return;
    m->p->need[m->p->model.n_needs] = need;
    m->need_of[need] = m->p->model.n_needs++;
    for (int i = 0; i < m->t->n_options; i++) {
        const struct trade_option *o = &m->t->options[i];
        if (o->need != need || !usable(m, i)) continue;
        for (int k = 0; k < o->n_brings; k++) take_need(m, o->brings[k]);
        for (int k = 0; k < o->n_requires; k++)
            if (m->t->options[o->requires[k]].need >= 0)
                take_need(m, m->t->options[o->requires[k]].need);
    }
}

static void take_options(struct make *m)
{
    struct fit_problem *p = m->p;
    for (int i = 0; i < m->t->n_options; i++) {
        const int need = m->t->options[i].need;
        p->option_of[i] = -1;
        if (!usable(m, i) || (need >= 0 && m->need_of[need] < 0)) continue;
        p->option[p->model.n_options] = i;
        p->option_of[i] = p->model.n_options++;
    }
}

/* ---- rules ---- */

static int *listed(struct arena *a, const int *list, int n)
{
    int *out = ARENA_ARRAY(a, int, n + 1);
    for (int i = 0; i < n; i++) out[i] = list[i];
    return out;
}

static int add_rule(struct make *m, const int *when, int n_when, const int *one_of, int n_one_of,
                    int tag)
{
    m->rules = arena_grow(m->a, m->rules, (size_t)m->p->model.n_rules, &m->rules_capacity,
                          sizeof *m->rules);
    m->rules[m->p->model.n_rules] = (struct fit_rule){.when = listed(m->a, when, n_when),
                                                      .n_when = n_when,
                                                      .one_of = listed(m->a, one_of, n_one_of),
                                                      .n_one_of = n_one_of,
                                                      .tag = tag};
    return m->p->model.n_rules++;
}

static void add_option_rules(struct make *m)
{
    for (int i = 0; i < m->p->model.n_options; i++) {
        const struct trade_option *o = &m->t->options[m->p->option[i]];
        for (int k = 0; k < o->n_requires; k++) {
            const int other = m->p->option_of[o->requires[k]];
            add_rule(m, &i, 1, &other, other >= 0, FIT_TAG_REQUIRES + m->p->option[i]);
        }
        for (int k = 0; k < o->n_conflicts; k++) {
            const int other = m->p->option_of[o->conflicts[k]];
            if (other >= 0)
                add_rule(m, (int[]){i, other}, 2, NULL, 0, FIT_TAG_CONFLICT + m->p->option[i]);
        }
    }
}

/* ---- joins ---- */

static const struct fact_end *measured(const struct make *m, int fitting, int option, int join,
                                       bool gives)
{
    for (int i = m->ask->facts->buy.n_ends; i-- > 0;) {
        const struct fact_end *e = &m->ask->facts->buy.ends[i];
        if (e->end.join == join && e->gives == gives && e->fitting == fitting &&
            e->option == option)
            return e;
    }
    return NULL;
}

static void add_sides(struct make *m, int fitting, int option, const struct trade_end *ends, int n,
                      bool gives)
{
    struct fit_side **list = gives ? &m->givers : &m->takers;
    int *count = gives ? &m->n_givers : &m->n_takers;
    for (int i = 0; i < n; i++) {
        *list = arena_grow(m->a, *list, (size_t)*count,
                           gives ? &m->givers_capacity : &m->takers_capacity, sizeof **list);
        struct fit_side side = {option, fitting, ends[i],
                                measured(m, fitting, option, ends[i].join, gives)};
        if (side.measured) side.end = side.measured->end;
        (*list)[(*count)++] = side;
    }
}

static void add_ends(struct make *m)
{
    for (int i = 0; i < m->t->n_fittings; i++) {
        const struct trade_fitting *v = &m->t->fittings[i];
        if (!m->component[v->component] || !fitted_holds(&v->fitted, m->ask->model->answers))
            continue;
        add_sides(m, i, -1, v->gives, v->n_gives, true);
        add_sides(m, i, -1, v->takes, v->n_takes, false);
    }
    for (int i = 0; i < m->p->model.n_options; i++) {
        const struct trade_option *o = &m->t->options[m->p->option[i]];
        add_sides(m, -1, m->p->option[i], o->gives, o->n_gives, true);
        add_sides(m, -1, m->p->option[i], o->takes, o->n_takes, false);
    }
}

static bool takes_place(const struct trade *t, int option, int fitting)
{
    const struct trade_option *o = &t->options[option];
    for (int i = 0; i < o->n_replaces; i++)
        if (o->replaces[i] == t->fittings[fitting].component) return true;
    for (int i = 0; i < o->n_frees; i++)
        if (o->frees[i] == fitting) return true;
    return false;
}

/* Options that close the gap: they stand between the ends, or one of the ends goes. */
static int closers(struct make *m, const struct fit_pair *pair, int *out)
{
    int n = 0;
    for (int i = 0; i < m->p->model.n_options; i++) {
        const int option = m->p->option[i];
        const struct trade_option *o = &m->t->options[option];
        bool closes = false;
        for (int k = 0; k < o->n_adapts && !closes; k++)
            closes = o->adapts[k].in.join == pair->join &&
                     join_bridges(&m->t->joins[pair->join], &o->adapts[k], &pair->giver.end,
                                  &pair->taker.end);
        const struct fit_side *sides[] = {&pair->giver, &pair->taker};
        for (int k = 0; k < 2 && !closes; k++)
            closes = sides[k]->fitting >= 0 && takes_place(m->t, option, sides[k]->fitting);
        if (closes) out[n++] = i;
    }
    return n;
}

static bool together(const struct make *m, const struct fit_side *x, const struct fit_side *y)
{
    if (x->option < 0 && y->option < 0) return false; /* as it stands: it has run like that */
    if (x->option == y->option) return false;
    if (x->option < 0 || y->option < 0) {
        const int option = x->option < 0 ? y->option : x->option;
        const int fitting = x->option < 0 ? x->fitting : y->fitting;
        return !takes_place(m->t, option, fitting);
    }
    const int need = m->t->options[x->option].need;
    return need < 0 || need != m->t->options[y->option].need;
}

static void add_pairs(struct make *m)
{
    struct fit_problem *p = m->p;
    int *close = ARENA_ARRAY(m->a, int, p->model.n_options + 1);
    for (int g = 0; g < m->n_givers; g++)
        for (int k = 0; k < m->n_takers; k++) {
            const struct fit_side *giver = &m->givers[g], *taker = &m->takers[k];
            if (giver->end.join != taker->end.join || !together(m, giver, taker)) continue;
            struct fit_pair pair = {
                giver->end.join, *giver, *taker,
                join_judge(&m->t->joins[giver->end.join], &giver->end, &taker->end), -1};
            if (pair.result.verdict == JOIN_MISFIT) {
                int when[2], n = 0;
                if (giver->option >= 0) when[n++] = p->option_of[giver->option];
                if (taker->option >= 0) when[n++] = p->option_of[taker->option];
                pair.rule = add_rule(m, when, n, close, closers(m, &pair, close), p->n_pairs);
            }
            p->pairs = arena_grow(m->a, p->pairs, (size_t)p->n_pairs, &m->pairs_capacity,
                                  sizeof *p->pairs);
            p->pairs[p->n_pairs++] = pair;
        }
}

bool fit_side_counts(const struct fit_problem *p, const struct trade *t, const uint8_t *chosen,
                     const struct fit_side *side)
{
    if (side->option >= 0)
        return p->option_of[side->option] >= 0 && chosen[p->option_of[side->option]];
    for (int i = 0; i < p->model.n_options; i++)
        if (chosen[i] && takes_place(t, p->option[i], side->fitting)) return false;
    return true;
}

/* ---- the arrays of the solver ---- */

/* The jobs of a need that is only brought are those of what brings it. */
static void set_jobs(struct make *m)
{
    struct fit_problem *p = m->p;
    const struct project *project = &m->ask->model->project;
    for (int n = 0; n < p->model.n_needs; n++) p->job_of_need[n] = -1;
    for (int n = 0; n < p->model.n_needs; n++) {
        const struct trade_need *need = &m->t->needs[p->need[n]];
        for (int i = 0; i < need->n_jobs && p->job_of_need[n] < 0; i++)
            for (int j = 0; j < project->n_jobs; j++)
                if (m->ask->model->trade_job[j] == need->jobs[i]) p->job_of_need[n] = need->jobs[i];
    }
    for (bool more = true; more;) {
        more = false;
        for (int i = 0; i < p->model.n_options; i++) {
            const struct trade_option *o = &m->t->options[p->option[i]];
            const int job = o->need < 0 ? -1 : p->job_of_need[m->need_of[o->need]];
            for (int k = 0; k < o->n_brings && job >= 0; k++) {
                const int need = m->need_of[o->brings[k]];
                if (need < 0 || p->job_of_need[need] >= 0) continue;
                p->job_of_need[need] = job;
                more = true;
            }
        }
    }
}

int fit_job_of_option(const struct fit_problem *p, int option)
{
    const int need = p->model.options[option].need;
    return need < 0 ? -1 : p->job_of_need[need];
}

double fit_late_day(const struct fit_ask *ask, int job)
{
    return job < 0 ? 0 : ask->late_day * ask->critical[job];
}

/* An hour costs what it is worth to the builder, and a share of a week's delay. */
static int64_t own_money(const struct make *m, const struct trade_option *o, int job)
{
    const struct facts *facts = m->ask->facts;
    const double week = facts->hours_a_week > 0 ? facts->hours_a_week : 6;
    const double hour = fmax(facts->own_rate, 0) + fit_late_day(m->ask, job) * 7 / week;
    const int64_t money = (int64_t)llround(points_mean(o->hours) * hour);
    return o->need < 0 && money == 0 ? 1 : money; /* an adapter is never taken for nothing */
}

static struct fit_option *make_options(struct make *m)
{
    struct fit_problem *p = m->p;
    struct fit_option *out = ARENA_ARRAY(m->a, struct fit_option, p->model.n_options + 1);
    p->model.options = out;
    for (int i = 0; i < p->model.n_options; i++) {
        const struct trade_option *o = &m->t->options[p->option[i]];
        const struct fact_choice *choice = o->need < 0 ? NULL : choice_of(m->ask, o->need);
        out[i].need = o->need < 0 ? -1 : m->need_of[o->need];
        out[i].money = own_money(m, o, fit_job_of_option(p, i));
        out[i].lost = POINTS[o->original];
        out[i].irreversible = o->undo == UNDO_NO;
        /* Hours are no money out of the purse. */
        if (m->ask->budget >= 0 && out[i].money != 0) {
            struct fit_use *use = ARENA_NEW(m->a, struct fit_use);
            *use = (struct fit_use){0, -out[i].money};
            out[i].uses = use;
            out[i].n_uses = 1;
        }
        if (m->ask->wanted == p->option[i] || (choice && choice->option == p->option[i]))
            out[i].held = FIT_TAKEN;
    }
    return out;
}

static void make_needs(struct make *m)
{
    struct fit_problem *p = m->p;
    struct fit_need *out = ARENA_ARRAY(m->a, struct fit_need, p->model.n_needs + 1);
    p->model.needs = out;
    for (int n = 0; n < p->model.n_needs; n++) {
        if (m->top[p->need[n]]) continue;
        int *woken = ARENA_ARRAY(m->a, int, p->model.n_options + 1), count = 0;
        for (int i = 0; i < p->model.n_options; i++) {
            const struct trade_option *o = &m->t->options[p->option[i]];
            bool wakes = false;
            for (int k = 0; k < o->n_brings; k++) wakes = wakes || o->brings[k] == p->need[n];
            for (int k = 0; k < o->n_requires; k++)
                wakes = wakes || m->t->options[o->requires[k]].need == p->need[n];
            if (wakes) woken[count++] = i;
        }
        out[n] = (struct fit_need){woken, count};
    }
}

/* Keeping all of it original is worth so much: a point is its share over all that must be met. */
static int64_t point_worth(const struct make *m)
{
    int tops = 0;
    for (int n = 0; n < m->t->n_needs; n++) tops += m->top[n];
    return tops == 0
               ? 0
               : (int64_t)llround(m->ask->keep_original / ((double)POINTS[ORIGINAL_MODERN] * tops));
}

bool fit_make(struct arena *a, const struct fit_ask *ask, struct fit_problem *out, struct fail *f)
{
    const struct trade *t = ask->model->trade;
    struct make m = {.a = a, .ask = ask, .t = t, .p = out};
    *out = (struct fit_problem){0};
    out->need = ARENA_ARRAY(a, int, t->n_needs + 1);
    out->option = ARENA_ARRAY(a, int, t->n_options + 1);
    out->option_of = ARENA_ARRAY(a, int, t->n_options + 1);
    m.top = ARENA_ARRAY(a, bool, t->n_needs + 1);
    m.need_of = ARENA_ARRAY(a, int, t->n_needs + 1);
    m.component = ARENA_ARRAY(a, bool, t->n_components + 1);
    for (int i = 0; i < ask->model->project.n_components; i++)
        m.component[ask->model->component_kind[i]] = true;
    for (int n = 0; n < t->n_needs; n++) m.need_of[n] = -1;
    for (int n = 0; n < t->n_needs; n++) m.top[n] = asked_for(&m, n);
    const int wishes[] = {ask->wanted, ask->prefer};
    for (int i = 0; i < 2; i++)
        if (wishes[i] >= 0 && t->options[wishes[i]].need >= 0)
            m.top[t->options[wishes[i]].need] = true;
    for (int n = 0; n < t->n_needs; n++)
        if (m.top[n]) take_need(&m, n);
    for (int i = 0; i < t->n_options; i++)
        for (int k = 0; t->options[i].need < 0 && usable(&m, i) && k < t->options[i].n_brings; k++)
            take_need(&m, t->options[i].brings[k]);
    take_options(&m);
    out->job_of_need = ARENA_ARRAY(a, int, out->model.n_needs + 1);
    set_jobs(&m);
    add_ends(&m);
    add_pairs(&m);
    add_option_rules(&m);
    out->model.rules = m.rules;
    struct fit_option *options = make_options(&m);
    make_needs(&m);
    for (int i = 0; i < 4; i++) out->currency[i] = ask->model->currency[i];
    fit_buying(a, ask, out, options);
    out->model.weight = point_worth(&m);
    out->model.no_irreversible = ask->no_irreversible;
    if (ask->budget >= 0) {
        struct fit_limit *purse = ARENA_NEW(a, struct fit_limit);
        *purse = (struct fit_limit){ask->budget, true};
        out->model.limits = purse;
        out->model.n_limits = 1;
    }
    return fit_valid(&out->model, f);
}
