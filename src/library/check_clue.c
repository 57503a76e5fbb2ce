#include "library/check_clue.h"

#include "base/text.h"

#include <math.h>

#define FAULT(f, head, ...) fault_add((f), (head)->file, (head)->line, __VA_ARGS__)

enum { CAUSES_MOST = 5 };

static void check_cluster(struct faults *f, const struct trade_cluster *k)
{
    double sum = 0;
    for (int i = 0; i < k->n_causes; i++) {
        sum += k->causes[i].chance;
        if (k->of != CLUE_OF_MILES && k->causes[i].looks > 1)
            FAULT(f, &k->head,
                  "'%s': cause '%s' looks %g; where there are two columns it is 0 to 1", k->head.id,
                  k->causes[i].id, k->causes[i].looks);
        if (k->of == CLUE_OF_MILES && k->causes[i].looks <= 0)
            FAULT(f, &k->head, "'%s': cause '%s' looks like no miles; give a number above 0",
                  k->head.id, k->causes[i].id);
    }
    if (sum > 0.95)
        FAULT(f, &k->head, "'%s': the chances of its causes sum to %g; leave 0.05 for none",
              k->head.id, sum);
    if (k->n_causes > CAUSES_MOST)
        FAULT(f, &k->head, "'%s': more than %d causes; leave one out", k->head.id, CAUSES_MOST);
}

static void check_clue(struct faults *f, const struct trade *t, const struct trade_clue *c)
{
    if (c->cluster < 0) return;
    const int columns = clue_columns(t->clusters[c->cluster].of);
    double sum[CLUE_COLUMNS_MOST] = {0};
    if (c->n_outcomes < 2)
        FAULT(f, &c->head, "'%s': a clue needs two outcomes or more; add one", c->head.id);
    for (int i = 0; i < c->n_outcomes; i++) {
        const struct trade_outcome *o = &c->outcomes[i];
        for (int k = 0; k < i; k++)
            if (text_is(o->id, c->outcomes[k].id))
                FAULT(f, &c->head, "'%s': outcome '%s' stands twice; keep one", c->head.id, o->id);
        if (o->n_odds != columns) {
            FAULT(f, &c->head, "'%s': outcome '%s' has %d odds; a clue to %s has %d", c->head.id,
                  o->id, o->n_odds, clue_of_name(t->clusters[c->cluster].of), columns);
            return;
        }
        for (int k = 0; k < columns; k++) sum[k] += o->odds[k];
    }
    for (int k = 0; k < columns; k++)
        if (fabs(sum[k] - 1) > 1e-6)
            FAULT(f, &c->head, "'%s': odds in column %d sum to %.6g, not 1; correct one of them",
                  c->head.id, k + 1, sum[k]);
}

void check_clues(struct faults *f, const struct trade *t)
{
    for (int i = 0; i < t->n_clusters; i++) check_cluster(f, &t->clusters[i]);
    for (int i = 0; i < t->n_clues; i++) check_clue(f, t, &t->clues[i]);
}
