#include "shop/candidate_parts.h"

#include "shop/plan.h"
#include "shop/survey.h"

#include <math.h>
#include <stdlib.h>

/* Mean odds, over the places of the kinds that call for the job, of sound or worn; 0 where the
 * job hangs on no component. */
static double odds_good(const struct survey *v, const struct trade *t, const struct trade_job *j)
{
    double sum = 0;
    int n = 0;
    for (int i = 0; i < v->n_lines; i++)
        for (int k = 0; k < j->n_when; k++)
            if (v->lines[i].kind == &t->components[j->when_components[k]]) {
                sum += v->lines[i].odds[COND_SOUND] + v->lines[i].odds[COND_WORN];
                n++;
            }
    return n > 0 ? sum / n : 0;
}

static int by_worth(const void *a, const void *b)
{
    const struct candidate_part *x = a, *y = b;
    if (x->worth != y->worth) return x->worth > y->worth ? -1 : 1;
    return x->part < y->part ? -1 : 1;
}

bool candidate_parts_reckon(struct arena *a, const struct shop_ask *ask, struct candidate *out,
                            struct fail *f)
{
    struct survey *v = ARENA_NEW(a, struct survey);
    struct plan *plan = ARENA_NEW(a, struct plan);
    struct shop_ask other = *ask;
    const struct facts_candidate *facts = &out->facts;
    if (!facts->serves) return true;
    other.vehicle = facts->serves;
    other.direction = -1;
    other.leave_out = 0;
    if (!survey_reckon(a, ask, v, f) || !plan_reckon(a, &other, plan, f)) return false;
    struct candidate_parts *p = out->parts = ARENA_NEW(a, struct candidate_parts);
    p->vehicle = facts->serves_name;
    p->direction = plan->direction->head.id;
    const struct trade_default *share = trade_find_default(ask->trade, "used-part-share");
    const double used = share && share->n_value > 0 ? share->value[0] : 1;
    p->used = used;
    p->parts = ARENA_ARRAY(a, struct candidate_part, plan->n_orders);
    for (int i = 0; i < plan->n_orders; i++) {
        const struct plan_order *o = &plan->orders[i];
        struct candidate_part one = {.part = o->part,
                                     .wanted = o->chance,
                                     .good = odds_good(v, ask->trade, o->job),
                                     .price = o->price * o->count};
        one.worth = one.wanted * one.good * one.price * used;
        if (!o->part->off_another || !(one.worth > 0)) continue;
        p->parts[p->n_parts++] = one;
        p->parts_worth += one.worth;
    }
    qsort(p->parts, (size_t)p->n_parts, sizeof *p->parts, by_worth);
    p->room =
        facts->room_a_month > 0 && facts->months > 0 ? facts->room_a_month * facts->months : 0;
    double fixed = p->parts_worth - fmax(facts->asked, 0) - fmax(facts->carriage, 0) - p->room;
    p->net = (struct points){fixed + facts->remains.low, fixed + facts->remains.middle,
                             fixed + facts->remains.high};
    return true;
}
