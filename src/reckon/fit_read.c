#include "reckon/fit_rows.h"

static void buys(const struct fit_model *m, const struct fit_columns *c, const int64_t *x,
                 int columns, struct fit_answer *out, struct arena scratch)
{
    struct fit_buy *of = ARENA_ARRAY(&scratch, struct fit_buy, m->n_offers);
    for (int j = 0; j < columns; j++) {
        if (c->offer[j] < 0 || x[j] == 0) continue;
        struct fit_buy *buy = &of[c->offer[j]];
        buy->count += (int)x[j];
        buy->goods += x[j] * c->unit[j];
        buy->cores += x[j] * m->offers[c->offer[j]].core;
    }
    for (int s = 0; s < m->n_suppliers; s++) {
        struct fit_basket basket = {.supplier = s, .first = out->n_buys};
        for (int f = 0; f < m->n_offers; f++) {
            if (m->offers[f].supplier != s || of[f].count == 0) continue;
            of[f].offer = f;
            basket.goods += of[f].goods;
            basket.cores += of[f].cores;
            out->cost.late += m->offers[f].late;
            out->buys[out->n_buys++] = of[f];
        }
        basket.n = out->n_buys - basket.first;
        if (basket.n == 0) continue;
        const struct fit_supplier *t = &m->suppliers[s];
        basket.carriage = t->free_from > 0 && basket.goods >= t->free_from ? 0 : t->carriage;
        out->cost.goods += basket.goods;
        out->cost.cores += basket.cores;
        out->cost.carriage += basket.carriage;
        out->baskets[out->n_baskets++] = basket;
    }
}

void fit_read(const struct fit_model *m, const struct fit_columns *columns, const int64_t *x,
              int n_columns, struct fit_answer *out, struct arena scratch)
{
    for (int o = 0; o < m->n_options; o++) {
        const struct fit_option *t = &m->options[o];
        out->chosen[o] = x[o] != 0;
        if (!out->chosen[o]) continue;
        out->cost.own += t->money;
        out->cost.lost += t->lost;
        for (int i = 0; i < t->n_uses; i++) out->used[t->uses[i].limit] += t->uses[i].amount;
    }
    buys(m, columns, x, n_columns, out, scratch);
    struct fit_cost *cost = &out->cost;
    cost->originality = m->weight * cost->lost;
    cost->total = cost->own + cost->goods + cost->carriage + cost->late + cost->originality;
    for (int l = 0; l < m->n_limits; l++)
        if (m->limits[l].purse)
            out->used[l] += cost->own + cost->goods + cost->carriage + cost->cores;
}
