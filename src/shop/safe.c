#include "shop/safe.h"

#include <math.h>
#include <string.h>

struct look {
    struct arena *a;
    const struct trade *t;
    struct facts *facts;
    struct facts_safe safe;
    struct model model;
    struct safe *out;
};

const char *gate_state_name(enum gate_state s)
{
    static const char *const names[] = {"shut", "ready", "provisional", "open", "overridden"};
    return names[s];
}

/* ---- jobs ---- */

static const struct fact_job_done *finished(const struct look *x, int job)
{
    const struct fact_job_done *last = NULL;
    for (int i = 0; i < x->safe.n_works; i++)
        if (x->safe.works[i].job == job && x->safe.works[i].finished) last = &x->safe.works[i];
    return last;
}

static const char *day_text(struct arena *a, day d)
{
    struct text t = {.arena = a};
    day_print(&t, d);
    return text_get(&t);
}

enum wanted { WANTED_NO, WANTED_UNSEEN, WANTED_YES };

/* Does this vehicle need the job? What nobody has seen may need it. */
static enum wanted wanted(const struct look *x, const struct trade_job *job)
{
    const struct project *p = &x->model.project;
    enum wanted w = WANTED_NO;
    if (!(job->directions >> x->out->direction & 1) ||
        !fitted_holds(&job->fitted, x->model.answers))
        return WANTED_NO;
    if (job->n_when == 0) return WANTED_YES;
    for (int c = 0; c < p->n_components; c++)
        for (int k = 0; k < job->n_when; k++) {
            if (x->model.component_kind[c] != job->when_components[k]) continue;
            const int known = p->components[c].known;
            if (known >= 0 && job->when_conditions >> known & 1) return WANTED_YES;
            if (known < 0) w = WANTED_UNSEEN;
        }
    return w;
}

/* ---- proofs ---- */

static bool too_old(day date, day since)
{
    return since != DAY_NONE && (date == DAY_NONE || date < since);
}

static void judge_reading(const struct look *x, const struct trade_proof *p,
                          const struct fact_reading *r, struct safe_need *n)
{
    static const double SLACK = 1e-9;
    const bool maker = !isnan(r->low) || !isnan(r->high);
    const char *at = arena_print(x->a, "%g %s%s%s", r->value, p->unit, r->where ? ", " : "",
                                 r->where ? r->where : "");
    const double pass_from = maker ? r->low : p->pass_from, pass_to = maker ? r->high : p->pass_to;
    const double stop_under = maker ? r->low : p->stop_under,
                 stop_over = maker ? r->high : p->stop_over;
    n->holds = false;
    if (!r->unit || !text_same_word(r->unit, p->unit))
        n->why = arena_print(x->a, "%g is in %s; measure it in %s", r->value,
                             r->unit ? r->unit : "no unit", p->unit);
    else if (p->book && !maker)
        n->why =
            arena_print(x->a, "%s, but against what? Look it up: the maker's low and high", at);
    else if (r->value < stop_under - SLACK || r->value > stop_over + SLACK)
        n->why = arena_print(x->a, "%s: past the limit", at);
    else if (r->retest != DAY_NONE && r->retest < x->out->as_of)
        n->why =
            arena_print(x->a, "%s: to be measured again since %s", at, day_text(x->a, r->retest));
    else if ((r->value < pass_from - SLACK || r->value > pass_to + SLACK) && r->retest == DAY_NONE)
        n->why = arena_print(x->a, "%s: good for a while at most; give a day of retest", at);
    else {
        n->holds = true;
        n->why = at;
        if (r->retest != DAY_NONE && (n->retest == DAY_NONE || r->retest < n->retest))
            n->retest = r->retest;
    }
}

/* The latest reading at each place counts, and all of them have to hold. */
static void judge_readings(const struct look *x, const struct trade_proof *p, day since,
                           struct safe_need *n)
{
    const struct facts_safe *s = &x->safe;
    n->why = "not measured yet";
    for (int i = 0; i < s->n_readings; i++) {
        const struct fact_reading *r = &s->readings[i];
        bool later = false;
        if (r->proof != n->index) continue;
        for (int k = i + 1; k < s->n_readings; k++)
            later = later || (s->readings[k].proof == r->proof &&
                              text_same_word(s->readings[k].where ? s->readings[k].where : "",
                                             r->where ? r->where : ""));
        if (later) continue;
        if (too_old(r->date, since)) {
            n->holds = false;
            n->why = arena_print(x->a, "to be measured anew, not before %s", day_text(x->a, since));
            return;
        }
        judge_reading(x, p, r, n);
        if (!n->holds) return;
    }
}

static void judge_seen(const struct look *x, const struct trade_proof *p, day since,
                       struct safe_need *n)
{
    const struct fact_witnessed *w = NULL;
    for (int i = 0; i < x->safe.n_witnessed; i++)
        if (x->safe.witnessed[i].proof == n->index) w = &x->safe.witnessed[i];
    if (!w)
        n->why = p->independent ? "nobody has checked it yet" : "not seen yet";
    else if (!w->holds)
        n->why = "it was seen that it does not hold";
    else if (too_old(w->date, since))
        n->why = arena_print(x->a, "to be seen anew, not before %s", day_text(x->a, since));
    else if (p->independent && (!w->by || !w->worker))
        n->why = "tell the name of who checked it, and of who did the work";
    else if (p->independent && text_same_word(w->by, w->worker))
        n->why = "who did the work cannot be the one who checks it";
    else {
        n->holds = true;
        n->why = w->by ? arena_print(x->a, "checked by %s", w->by) : "seen";
    }
}

/* ---- gates ---- */

static const struct fact_opened *last_of(const struct fact_opened *list, int count, int gate)
{
    const struct fact_opened *last = NULL;
    for (int i = 0; i < count; i++)
        if (list[i].gate == gate) last = &list[i];
    return last;
}

static bool is_open(enum gate_state s)
{
    return s == GATE_OPEN || s == GATE_PROVISIONAL;
}

/* From when its proofs count that are made anew. */
static day since_of(const struct look *x, const struct trade_gate *g)
{
    day since = DAY_NONE;
    for (int i = 0; i < g->n_after; i++) {
        const struct fact_opened *o = last_of(x->safe.opened, x->safe.n_opened, g->after[i]);
        if (o && (since == DAY_NONE || o->date > since)) since = o->date;
    }
    const struct fact_job_done *done = g->since >= 0 ? finished(x, g->since) : NULL;
    if (done && done->date != DAY_NONE && (since == DAY_NONE || done->date > since))
        since = done->date;
    return since;
}

static struct safe_need *add_need(struct look *x, struct safe_gate *g, enum safe_need_kind kind,
                                  enum subject subject, int index)
{
    const struct entry *e = trade_entry(x->t, subject, index);
    struct safe_need *n = &g->needs[g->n_needs++];
    *n = (struct safe_need){
        .kind = kind, .id = e->id, .name = e->name, .index = index, .retest = DAY_NONE};
    return n;
}

static bool made_anew(const struct trade_gate *g, int proof)
{
    for (int i = 0; i < g->n_again; i++)
        if (g->again[i] == proof) return true;
    return false;
}

static void gather(struct look *x, struct safe_gate *g)
{
    const struct trade_gate *gate = g->gate;
    const day since = since_of(x, gate);
    g->needs = ARENA_ARRAY(x->a, struct safe_need, gate->n_after + gate->n_jobs + gate->n_proofs);
    for (int i = 0; i < gate->n_after; i++) {
        struct safe_need *n = add_need(x, g, NEED_GATE, SUBJECT_GATES, gate->after[i]);
        const enum gate_state s = x->out->gates[gate->after[i]].state;
        n->holds = is_open(s);
        n->why = s == GATE_OVERRIDDEN ? "overridden, not proved" : gate_state_name(s);
    }
    for (int i = 0; i < gate->n_jobs; i++) {
        const enum wanted w = wanted(x, &x->t->jobs[gate->jobs[i]]);
        if (w == WANTED_NO) continue;
        struct safe_need *n = add_need(x, g, NEED_JOB, SUBJECT_JOBS, gate->jobs[i]);
        n->holds = finished(x, gate->jobs[i]) != NULL;
        n->why = n->holds          ? "done"
                 : w == WANTED_YES ? "not done yet"
                                   : "not seen whether it is needed: look, or do it";
    }
    for (int i = 0; i < gate->n_proofs; i++) {
        const struct trade_proof *p = &x->t->proofs[gate->proofs[i]];
        if (!fitted_holds(&p->fitted, x->model.answers)) continue;
        struct safe_need *n = add_need(x, g, NEED_PROOF, SUBJECT_PROOFS, gate->proofs[i]);
        const day from = made_anew(gate, gate->proofs[i]) ? since : DAY_NONE;
        if (p->unit)
            judge_readings(x, p, from, n);
        else
            judge_seen(x, p, from, n);
    }
    for (int i = 0; i < g->n_needs; i++) {
        g->missing += !g->needs[i].holds;
        if (g->needs[i].retest != DAY_NONE &&
            (g->retest == DAY_NONE || g->needs[i].retest < g->retest))
            g->retest = g->needs[i].retest;
    }
}

/* Did a figure of this gate go past its limit after it was opened? Then it is opened anew. */
static bool drifted(struct look *x, const struct safe_gate *g, const char *opened_at)
{
    for (int i = 0; i < x->safe.n_readings; i++) {
        const struct fact_reading *r = &x->safe.readings[i];
        struct safe_need n = {.retest = DAY_NONE};
        if (strcmp(r->at, opened_at) <= 0) continue;
        for (int k = 0; k < g->n_needs; k++) {
            if (g->needs[k].kind != NEED_PROOF || g->needs[k].index != r->proof) continue;
            judge_reading(x, &x->t->proofs[r->proof], r, &n);
            if (!n.holds) return true;
        }
    }
    return false;
}

static bool among_words(const char *words, const char *word)
{
    const size_t n = strlen(word);
    for (const char *at = words; at && (at = strstr(at, word)); at += n)
        if ((at == words || at[-1] == ' ') && (at[n] == '\0' || at[n] == ' ')) return true;
    return false;
}

/* An override covers what was missing when it was written, and nothing that went missing since. */
static bool covered(const struct safe_gate *g, const struct fact_opened *o)
{
    for (int i = 0; i < g->n_needs; i++)
        if (!g->needs[i].holds && !among_words(o->missing, g->needs[i].id)) return false;
    return true;
}

static void settle(struct look *x, int index)
{
    struct safe_gate *g = &x->out->gates[index];
    const struct fact_opened *o = last_of(x->safe.opened, x->safe.n_opened, index);
    const struct fact_opened *v = last_of(x->safe.overrides, x->safe.n_overrides, index);
    *g = (struct safe_gate){.gate = &x->t->gates[index], .opened = DAY_NONE, .retest = DAY_NONE};
    gather(x, g);
    if (o) g->opened = o->date;
    if (g->missing == 0)
        g->state = !o || drifted(x, g, o->at) ? GATE_READY
                   : g->retest != DAY_NONE    ? GATE_PROVISIONAL
                                              : GATE_OPEN;
    else if (v && covered(g, v)) {
        g->state = GATE_OVERRIDDEN;
        g->reason = v->reason;
    }
    g->shut_again = o && (g->state == GATE_SHUT || g->state == GATE_READY);
    g->behind = ARENA_ARRAY(x->a, const struct trade_job *, x->safe.n_works);
    for (int i = 0; i < x->safe.n_works; i++) {
        const struct fact_job_done *w = &x->safe.works[i];
        bool lies = false;
        for (int k = 0; k < g->gate->n_opens; k++) lies = lies || g->gate->opens[k] == w->job;
        bool open_then =
            false; /* as far as it was opened: a fact that was told later keeps its day */
        for (int k = 0; k < x->safe.n_opened; k++)
            open_then =
                open_then || (x->safe.opened[k].gate == index &&
                              (w->date == DAY_NONE ? strcmp(x->safe.opened[k].at, w->at) <= 0
                                                   : x->safe.opened[k].date <= w->date));
        for (int k = 0; k < g->n_behind; k++) lies = lies && g->behind[k] != &x->t->jobs[w->job];
        if (lies && !open_then) g->behind[g->n_behind++] = &x->t->jobs[w->job];
    }
}

bool safe_reckon(struct arena *a, const struct shop_ask *ask, struct safe *out, struct fail *f)
{
    const struct trade *t = ask->trade;
    struct look x = {.a = a, .t = t, .facts = ARENA_NEW(a, struct facts), .out = out};
    if (!facts_read(ask->garage, a, t, ask->vehicle, x.facts, f) ||
        !facts_safe_read(ask->garage, a, t, ask->vehicle, &x.safe, f) ||
        !model_survey(a, t, x.facts, &x.model, f))
        return false;
    *out = (struct safe){.vehicle = x.facts->name,
                         .trade = t,
                         .direction =
                             ask->direction >= 0 ? ask->direction : reckoning_direction(x.facts, t),
                         .as_of = ask->today,
                         .gates = ARENA_ARRAY(a, struct safe_gate, t->n_gates),
                         .n_gates = t->n_gates,
                         .checked = ARENA_ARRAY(a, bool, t->n_checks)};
    for (int i = 0; i < t->n_gates; i++) settle(&x, i);
    for (int i = 0; i < x.safe.n_checks; i++)
        if (x.safe.checks[i].date == ask->today) out->checked[x.safe.checks[i].check] = true;
    return true;
}

const char *safe_ids(struct arena *a, const struct safe_gate *g, bool holds)
{
    struct text t = {.arena = a};
    for (int i = 0; i < g->n_needs; i++)
        if (g->needs[i].holds == holds) text_print(&t, "%s%s", t.length ? " " : "", g->needs[i].id);
    return text_get(&t);
}
