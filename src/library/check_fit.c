#include "library/check_fit.h"

#include "library/cycle.h"

#include <math.h>

#define FAULT(f, head, ...) fault_add((f), (head)->file, (head)->line, __VA_ARGS__)

static void check_join(struct faults *f, const struct trade_join *j)
{
    if (j->rule == JOIN_SAME && j->unit)
        FAULT(f, &j->head, "'%s': unit: ends of rule same are words; leave the unit out",
              j->head.id);
    if (j->rule != JOIN_SAME && !j->unit)
        FAULT(f, &j->head, "'%s': unit: is missing; figures need their unit", j->head.id);
    if (j->rule != JOIN_NEAR && j->within != 0)
        FAULT(f, &j->head, "'%s': within: belongs to rule near alone; leave it out", j->head.id);
}

static void check_end(struct faults *f, const struct trade *t, const struct entry *head,
                      const struct trade_end *e)
{
    if (e->join < 0) return;
    const struct trade_join *j = &t->joins[e->join];
    const bool figures = !isnan(e->least) || !isnan(e->most);
    if (j->rule == JOIN_SAME && figures)
        FAULT(f, head, "'%s': an end of '%s' is a word; write is: and no figures", head->id,
              j->head.id);
    if (j->rule != JOIN_SAME && e->is)
        FAULT(f, head, "'%s': an end of '%s' is in %s; write least: and most:", head->id,
              j->head.id, j->unit ? j->unit : "figures");
    if (e->least > e->most)
        FAULT(f, head, "'%s': at '%s' least %g is above most %g; exchange them", head->id,
              j->head.id, e->least, e->most);
    if (j->rule == JOIN_NEAR && isnan(e->least) != isnan(e->most))
        FAULT(f, head,
              "'%s': an end of '%s' has one figure; write it as least: and as most:", head->id,
              j->head.id);
}

static void check_ends(struct faults *f, const struct trade *t, const struct entry *head,
                       const struct trade_end *ends, int count)
{
    for (int i = 0; i < count; i++) check_end(f, t, head, &ends[i]);
}

static bool among(const int *list, int count, int one)
{
    for (int i = 0; i < count; i++)
        if (list[i] == one) return true;
    return false;
}

static void check_option(struct faults *f, const struct trade *t, int index)
{
    const struct trade_option *o = &t->options[index];
    const struct entry *h = &o->head;
    if ((o->way == WAY_ADAPTER) != (o->need < 0))
        FAULT(f, h, "'%s': way adapter is for options without a need, and for them alone", h->id);
    if ((o->way == WAY_ADAPTER) != (o->n_adapts > 0))
        FAULT(f, h, "'%s': adapts: belongs to adapters, and each has it", h->id);
    if (among(o->requires, o->n_requires, index))
        FAULT(f, h, "'%s': requires itself; take it out", h->id);
    for (int i = 0; i < o->n_conflicts; i++) {
        if (o->conflicts[i] == index)
            FAULT(f, h, "'%s': conflicts with itself; take it out", h->id);
        else if (among(o->requires, o->n_requires, o->conflicts[i]))
            FAULT(f, h, "'%s': requires '%s' and conflicts with it; keep one", h->id,
                  t->options[o->conflicts[i]].head.id);
    }
    check_ends(f, t, h, o->gives, o->n_gives);
    check_ends(f, t, h, o->takes, o->n_takes);
    for (int i = 0; i < o->n_adapts; i++) {
        struct trade_end out = o->adapts[i].out;
        out.join = o->adapts[i].in.join;
        check_end(f, t, h, &o->adapts[i].in);
        check_end(f, t, h, &out);
    }
}

static void check_need(struct faults *f, const struct trade *t, int index)
{
    const struct trade_need *n = &t->needs[index];
    int options = 0;
    bool brought = n->n_jobs > 0;
    for (int i = 0; i < t->n_options; i++) {
        options += t->options[i].need == index;
        brought = brought || among(t->options[i].brings, t->options[i].n_brings, index);
    }
    if (options == 0)
        FAULT(f, &n->head, "'%s': no option meets it; add one, or take it out", n->head.id);
    if (!brought)
        FAULT(f, &n->head,
              "'%s': no job asks for it and no option brings it; add jobs:", n->head.id);
}

struct told {
    struct faults *faults;
    const struct trade *trade;
};

static void tell_circle(void *context, const int *circle, int length)
{
    const struct told *told = context;
    const struct entry *h = &told->trade->needs[circle[0]].head;
    FAULT(told->faults, h,
          "'%s': an option of it brings, over %d needs, '%s' again; break the circle", h->id,
          length, h->id);
}

/* A need that brings itself would never be met. */
static void check_brings(struct faults *f, const struct trade *t)
{
    struct arena *a = f->arena;
    struct links *links = ARENA_ARRAY(a, struct links, t->n_needs + 1);
    for (int n = 0; n < t->n_needs; n++) {
        int count = 0;
        for (int i = 0; i < t->n_options; i++)
            if (t->options[i].need == n) count += t->options[i].n_brings;
        int *to = ARENA_ARRAY(a, int, count + 1);
        links[n] = (struct links){.to = to};
        for (int i = 0; i < t->n_options; i++)
            for (int k = 0; t->options[i].need == n && k < t->options[i].n_brings; k++)
                if (t->options[i].brings[k] >= 0) to[links[n].count++] = t->options[i].brings[k];
    }
    struct told told = {f, t};
    cycles_find(a, links, t->n_needs, tell_circle, &told);
}

void check_fit(struct faults *f, const struct trade *t)
{
    for (int i = 0; i < t->n_joins; i++) check_join(f, &t->joins[i]);
    for (int i = 0; i < t->n_fittings; i++) {
        const struct trade_fitting *v = &t->fittings[i];
        check_ends(f, t, &v->head, v->gives, v->n_gives);
        check_ends(f, t, &v->head, v->takes, v->n_takes);
    }
    for (int i = 0; i < t->n_options; i++) check_option(f, t, i);
    for (int i = 0; i < t->n_needs; i++) check_need(f, t, i);
    check_brings(f, t);
}
