/* buying_spare.c - which parts of a setback are worth having on the shelf before it happens.
 *
 * If it happens and the part must be ordered then, the job stands for the part's lead time, and the
 * finish with it as often as that job is on the binding chain. If it does not happen, the part was
 * bought for nothing. Steps of a ladder are tried in turn: a part of the third is needed only where
 * the first two did not help. */
#include "shop/buying_inside.h"

#include "model/facts_worth.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double SURELY = 0.8; /* a part that the plan wants as often is bought anyway */

static bool is_had(const struct buying_vehicle *v, int part)
{
    for (int i = 0; i < v->facts->n_orders; i++) {
        const struct fact_order *o = &v->facts->orders[i];
        if (o->part == part && (order_is_here(o) || order_is_coming(o)) && o->fitted == DAY_NONE)
            return true;
    }
    for (int i = 0; i < v->n_wants; i++)
        if (v->wants[i].part == part && v->wants[i].chance >= SURELY) return true;
    return false;
}

/* Of the trade data, at the level of prices here. */
static double usual_price(const struct baskets *x, const struct facts *facts, int part)
{
    const struct trade_part *p = &x->t->parts[part];
    int digits = 2;
    double rate = facts_rate(facts, p->currency, x->out->currency);
    currency_digits(x->out->currency, &digits);
    return p->price.middle * pow(10, digits) * (facts->price_level > 0 ? facts->price_level : 1) *
           (rate > 0 ? rate : 1);
}

static void add_spare(struct baskets *x, const struct buying_vehicle *v,
                      const struct buying_setback *b, const struct trade_buy *buy, double odds)
{
    const struct trade_part *part = &x->t->parts[buy->part];
    struct buying_item quoted;
    struct buying *out = x->out;
    const bool goods = part->from == FROM_STOCK || part->from == FROM_SPECIALIST ||
                       part->from == FROM_EXCHANGE || part->from == FROM_AUTOJUMBLE;
    const double lead = part->lead.middle, days = odds * b->critical * lead;
    if (!goods || days <= 0 || is_had(v, buy->part)) return;
    struct spare s = {.part = part,
                      .setback = &x->t->setbacks[b->setback],
                      .job = &x->t->jobs[b->job],
                      .vehicle = v->facts->name,
                      .odds = odds,
                      .lead = lead,
                      .days = days,
                      .count = fmax(ceil(buy->count - 1e-9), 1)};
    s.quoted =
        buying_best(x, &(struct buying_want){.part = buy->part, .count = buy->count, .chance = 1},
                    -1, v->facts->name, &quoted);
    s.price = s.quoted ? quoted.sum : usual_price(x, v->facts, buy->part) * s.count;
    s.from_a_day = (1 - odds) * s.price / days;
    s.day_worth = v->day_worth;
    s.pays = v->day_worth > 0 && v->day_worth >= s.from_a_day;
    for (int i = 0; i < out->n_spares; i++) { /* of two steps, the likelier stands for the part */
        struct spare *o = &out->spares[i];
        if (o->part != part || o->vehicle != s.vehicle) continue;
        if (s.from_a_day < o->from_a_day) *o = s;
        return;
    }
    out->spares = arena_grow(x->a, out->spares, (size_t)out->n_spares, &out->spares_capacity,
                             sizeof *out->spares);
    out->spares[out->n_spares++] = s;
}

static int by_worth(const void *a, const void *b)
{
    const struct spare *x = a, *y = b;
    if (x->from_a_day != y->from_a_day) return x->from_a_day < y->from_a_day ? -1 : 1;
    return strcmp(x->part->head.id, y->part->head.id);
}

void buying_spares(struct baskets *x, const struct buying_vehicle *vehicles, int n)
{
    for (int i = 0; i < n; i++)
        for (int k = 0; k < vehicles[i].n_setbacks; k++) {
            const struct buying_setback *b = &vehicles[i].setbacks[k];
            const struct trade_setback *setback = &x->t->setbacks[b->setback];
            double odds = b->chance;
            for (int s = 0; s < setback->n_ladder; s++) {
                const struct trade_step *step = &setback->ladder[s];
                for (int p = 0; p < step->n_parts; p++)
                    add_spare(x, &vehicles[i], b, &step->parts[p], odds);
                odds *= 1 - step->works;
            }
        }
    if (x->out->n_spares > 0)
        qsort(x->out->spares, (size_t)x->out->n_spares, sizeof *x->out->spares, by_worth);
    if (x->out->n_spares > BUYING_SPARES) x->out->n_spares = BUYING_SPARES;
}
