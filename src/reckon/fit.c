#include "reckon/fit_rows.h"
#include "reckon/search.h"

#include <assert.h>

struct fit_answer fit_asked(struct arena *a, const struct fit_model *m, const struct fit_ask *ask,
                            int64_t most_nodes)
{
    struct fit_answer out = {
        .chosen = ARENA_ARRAY(a, uint8_t, m->n_options),
        .used = ARENA_ARRAY(a, int64_t, m->n_limits),
        .buys = ARENA_ARRAY(a, struct fit_buy, m->n_offers),
        .baskets = ARENA_ARRAY(a, struct fit_basket, m->n_suppliers),
    };
    struct arena scratch = *a;
    struct fit_columns columns;
    struct program p = fit_program(&scratch, m, ask, &columns);
    struct search_end end = search_program(
        &scratch, &p, &(struct search_ask){.most_nodes = most_nodes, .first = ask->any});
    out.nodes = end.nodes;
    out.bound = end.bound;
    out.state = end.found ? (end.proven ? FIT_PROVEN : FIT_FOUND)
                          : (end.proven ? FIT_NOTHING : FIT_UNKNOWN);
    if (!end.found) return out;
    fit_read(m, &columns, end.x, p.columns, &out, scratch);
    if (out.bound > out.cost.total || out.state == FIT_PROVEN) out.bound = out.cost.total;
    return out;
}

struct fit_answer fit_solve(struct arena *a, const struct fit_model *m, int64_t most_nodes)
{
    struct fail f = {0};
    assert(fit_valid(m, &f));
    (void)f;
    return fit_asked(a, m, &(struct fit_ask){0}, most_nodes);
}
