#include "library/check_gate.h"

#include "library/cycle.h"

#include <math.h>

#define FAULT(f, head, ...) fault_add((f), (head)->file, (head)->line, __VA_ARGS__)

/* Where both are said, the first is not above the second. */
static bool in_order(double a, double b)
{
    return isnan(a) || isnan(b) || a <= b;
}

static void check_proof(struct faults *f, const struct trade_proof *p)
{
    const struct entry *h = &p->head;
    const bool limits =
        !isnan(p->pass_from) || !isnan(p->pass_to) || !isnan(p->stop_under) || !isnan(p->stop_over);
    if (limits && !p->unit)
        FAULT(f, h, "'%s': limits without a unit; add unit:, or leave the limits out", h->id);
    if (p->unit && limits == p->book)
        FAULT(f, h, "'%s': a figure has limits, or book: true where only the maker knows them",
              h->id);
    if (p->independent && p->unit)
        FAULT(f, h, "'%s': independent is for what is seen; leave the unit out", h->id);
    if (p->independent && !p->defer)
        FAULT(f, h, "'%s': independent without defer; say who is fit to judge it", h->id);
    if (!in_order(p->stop_under, p->pass_from) || !in_order(p->pass_from, p->pass_to) ||
        !in_order(p->pass_to, p->stop_over))
        FAULT(f, h, "'%s': limits are out of order; stop-under, pass-from, pass-to, stop-over",
              h->id);
    if (isnan(p->pass_from) != isnan(p->stop_under) || isnan(p->pass_to) != isnan(p->stop_over))
        FAULT(f, h, "'%s': what passes and what stops belong together; add the other", h->id);
}

static bool among(const int *list, int count, int one)
{
    for (int i = 0; i < count; i++)
        if (list[i] == one) return true;
    return false;
}

static void check_gate(struct faults *f, const struct trade_gate *g, const struct trade *t)
{
    for (int i = 0; i < g->n_jobs; i++)
        if (among(g->opens, g->n_opens, g->jobs[i]))
            FAULT(f, &g->head, "'%s': job '%s' cannot stand before it and behind it; keep one",
                  g->head.id, t->jobs[g->jobs[i]].head.id);
    for (int i = 0; i < g->n_again; i++)
        if (!among(g->proofs, g->n_proofs, g->again[i]))
            FAULT(f, &g->head, "'%s': again names a proof that proofs does not; add it there",
                  g->head.id);
    if (g->n_again > 0 && g->n_after == 0 && g->since < 0)
        FAULT(f, &g->head, "'%s': again, since when? add after: or since:", g->head.id);
}

struct told {
    struct faults *faults;
    const struct trade *trade;
};

static void tell_circle(void *context, const int *circle, int length)
{
    const struct told *told = context;
    const struct entry *h = &told->trade->gates[circle[0]].head;
    FAULT(told->faults, h, "'%s': comes after itself, over %d gates; break the circle", h->id,
          length);
}

void check_gates(struct faults *f, const struct trade *t)
{
    struct links *links = ARENA_ARRAY(f->arena, struct links, t->n_gates + 1);
    struct told told = {f, t};
    for (int i = 0; i < t->n_proofs; i++) {
        bool used = false;
        check_proof(f, &t->proofs[i]);
        for (int g = 0; g < t->n_gates; g++)
            used = used || among(t->gates[g].proofs, t->gates[g].n_proofs, i);
        if (!used)
            FAULT(f, &t->proofs[i].head, "'%s': no gate asks for it; name it there, or take it out",
                  t->proofs[i].head.id);
    }
    for (int g = 0; g < t->n_gates; g++) {
        check_gate(f, &t->gates[g], t);
        links[g] = (struct links){t->gates[g].after, t->gates[g].n_after};
    }
    cycles_find(f->arena, links, t->n_gates, tell_circle, &told);
}
