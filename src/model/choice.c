#include "model/choice.h"

#include <assert.h>

struct gather {
    struct arena *a;
    const struct trade *t;
    const struct facts_buy *buy;
    struct chosen_work work;
    struct trade_buy *parts;
    size_t capacity;
    bool *taken; /* by option of trade data */
};

static bool at_join(const struct trade_end *ends, int n, int join)
{
    for (int i = 0; i < n; i++)
        if (ends[i].join == join) return true;
    return false;
}

static bool serves(const struct trade_option *adapter, const struct trade_option *o)
{
    for (int i = 0; i < adapter->n_adapts; i++)
        if (at_join(o->gives, o->n_gives, adapter->adapts[i].in.join) ||
            at_join(o->takes, o->n_takes, adapter->adapts[i].in.join))
            return true;
    return false;
}

static void take_option(struct gather *g, int option);

static void take_need(struct gather *g, int need)
{
    for (int i = 0; i < g->buy->n_choices; i++)
        if (g->buy->choices[i].need == need && g->buy->choices[i].option >= 0)
            take_option(g, g->buy->choices[i].option);
}

/* With what it brings, and the adapters that were chosen at its joins. */
static void take_option(struct gather *g, int option)
{
    if (g->taken[option]) return;
    const struct trade_option *o = &g->t->options[option];
    struct points *h = &g->work.hours;
    g->taken[option] = true;
    g->work.any = true;
    g->work.always = g->work.always || o->way == WAY_UPGRADE;
    /* Percentiles added as they stand: jobs of one evening go well or badly together. */
    *h = (struct points){h->low + o->hours.low, h->middle + o->hours.middle,
                         h->high + o->hours.high};
    for (int i = 0; i < o->n_parts; i++) {
        g->parts =
            arena_grow(g->a, g->parts, (size_t)g->work.n_parts, &g->capacity, sizeof *g->parts);
        g->parts[g->work.n_parts++] = o->parts[i];
    }
    for (int i = 0; i < o->n_brings; i++) take_need(g, o->brings[i]);
    for (int i = 0; i < o->n_requires; i++)
        if (g->t->options[o->requires[i]].need >= 0)
            take_need(g, g->t->options[o->requires[i]].need);
    for (int i = 0; i < g->buy->n_choices; i++) {
        const int adapter = g->buy->choices[i].option;
        if (adapter >= 0 && g->t->options[adapter].need < 0 && serves(&g->t->options[adapter], o))
            take_option(g, adapter);
    }
}

struct chosen_work choice_work(struct arena *a, const struct trade *t, const struct facts_buy *buy,
                               const bool *wanted, int job)
{
    struct gather g = {.a = a, .t = t, .buy = buy};
    if (buy->n_choices == 0) return g.work;
    g.taken = ARENA_ARRAY(a, bool, t->n_options + 1);
    for (int n = 0; n < t->n_needs; n++) {
        const struct trade_need *need = &t->needs[n];
        int first = 0;
        while (first < need->n_jobs && !wanted[need->jobs[first]]) first++;
        if (first < need->n_jobs && need->jobs[first] == job) take_need(&g, n);
    }
    g.work.parts = g.parts;
    return g.work;
}
