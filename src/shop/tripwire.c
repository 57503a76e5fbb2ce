#include "shop/tripwire.h"

/* The worst of the latest findings on the component, if it is as bad as the tripwire says. */
static const struct fact_finding *found(const struct facts *facts, const struct fact_tripwire *w)
{
    const struct fact_finding *worst = NULL;
    for (int i = 0; w->kind >= 0 && i < facts->n_findings; i++) {
        const struct fact_finding *x = &facts->findings[i];
        if (x->kind != w->kind || (w->place >= 0 && x->place >= 0 && x->place != w->place))
            continue;
        if (x->condition >= COND_COUNT || x->condition < w->condition) continue;
        /* Only the last word on a place counts. */
        if (facts_finding(facts, x->kind, w->place >= 0 ? w->place : x->place) != x) continue;
        if (!worst || x->condition > worst->condition) worst = x;
    }
    return worst;
}

void tripwires_crossed(struct arena *a, const struct facts *facts, const struct facts_worth *more,
                       day today, struct crossed **out, int *n)
{
    *n = 0;
    *out = ARENA_ARRAY(a, struct crossed, 3 * more->n_tripwires);
    for (int i = 0; i < more->n_tripwires; i++) {
        const struct fact_tripwire *w = &more->tripwires[i];
        struct crossed none = {.passed = DAY_NONE, .why = w->why};
        const struct fact_finding *finding = found(facts, w);
        if (w->spent > 0 && more->spent > w->spent) {
            struct crossed *to = &(*out)[(*n)++];
            *to = none;
            to->limit = w->spent;
            to->spent = more->spent;
        }
        if (w->passed != DAY_NONE && today > w->passed) {
            struct crossed *to = &(*out)[(*n)++];
            *to = none;
            to->passed = w->passed;
        }
        if (finding) {
            struct crossed *to = &(*out)[(*n)++];
            *to = none;
            to->finding = finding;
        }
    }
}
