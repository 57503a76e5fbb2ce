#include "reckon/fit_rows.h"

#include <assert.h>

/* Everything that may be loosened; what is off is left out of the model. */
struct all {
    const struct fit_model *m;
    struct fit_clash_member *of;
    uint8_t *off; /* by index into `of` */
    int n;
    int64_t nodes;
};

static void add(struct all *all, enum fit_clash_kind kind, int which)
{
    all->of[all->n++] = (struct fit_clash_member){.kind = kind, .which = which};
}

/* What comes first is dropped first: what is left at the end is rather what a builder can loosen.
 */
static struct all collect(struct arena *a, const struct fit_model *m, int64_t nodes)
{
    struct all all = {.m = m, .nodes = nodes};
    int most = m->n_parts + m->n_suppliers + m->n_needs + m->n_rules + m->n_options + m->n_limits;
    bool irreversible = false;
    all.of = ARENA_ARRAY(a, struct fit_clash_member, most + 1);
    all.off = ARENA_ARRAY(a, uint8_t, most + 1);
    for (int p = 0; p < m->n_parts; p++) add(&all, FIT_PART, p);
    for (int s = 0; s < m->n_suppliers; s++)
        if (m->suppliers[s].least_order > 0) add(&all, FIT_LEAST_ORDER, s);
    for (int n = 0; n < m->n_needs; n++) add(&all, FIT_NEED, n);
    for (int r = 0; r < m->n_rules; r++) add(&all, FIT_RULE, r);
    for (int o = 0; o < m->n_options; o++) {
        irreversible = irreversible || m->options[o].irreversible;
        if (m->options[o].held != FIT_FREE) add(&all, FIT_HELD, o);
    }
    if (irreversible && m->no_irreversible) add(&all, FIT_IRREVERSIBLE, 0);
    for (int l = 0; l < m->n_limits; l++) add(&all, FIT_LIMIT, l);
    return all;
}

/* The model without what is off. */
static struct fit_answer without(struct arena *a, const struct all *all, bool any, int least_of)
{
    const struct fit_model *m = all->m;
    struct arena *s = a;
    uint8_t *flags[FIT_LEAST_ORDER + 1] = {
        [FIT_NEED] = ARENA_ARRAY(s, uint8_t, m->n_needs),
        [FIT_RULE] = ARENA_ARRAY(s, uint8_t, m->n_rules),
        [FIT_LIMIT] = ARENA_ARRAY(s, uint8_t, m->n_limits),
        [FIT_HELD] = ARENA_ARRAY(s, uint8_t, m->n_options),
        [FIT_IRREVERSIBLE] = ARENA_ARRAY(s, uint8_t, 1),
        [FIT_PART] = ARENA_ARRAY(s, uint8_t, m->n_parts),
        [FIT_LEAST_ORDER] = ARENA_ARRAY(s, uint8_t, m->n_suppliers),
    };
    for (int i = 0; i < all->n; i++) flags[all->of[i].kind][all->of[i].which] = all->off[i];
    struct fit_ask ask = {.loose = {.need = flags[FIT_NEED],
                                    .rule = flags[FIT_RULE],
                                    .limit = flags[FIT_LIMIT],
                                    .held = flags[FIT_HELD],
                                    .part = flags[FIT_PART],
                                    .least_order = flags[FIT_LEAST_ORDER],
                                    .irreversible = flags[FIT_IRREVERSIBLE][0]},
                          .any = any,
                          .least_of = least_of};
    return fit_asked(s, m, &ask, all->nodes);
}

/* Drops by halves, then quarters ... what the clash does not need. */
static bool shrink(struct all *all, struct arena scratch)
{
    bool proven = true;
    for (int size = all->n > 1 ? (all->n + 1) / 2 : 1; size > 0;
         size = size > 1 ? (size + 1) / 2 : 0) {
        for (int from = 0; from < all->n; from += size) {
            struct arena own = scratch;
            int to = from + size < all->n ? from + size : all->n;
            uint8_t *before = ARENA_ARRAY(&own, uint8_t, size);
            bool news = false;
            for (int i = from; i < to; i++) {
                before[i - from] = all->off[i];
                news = news || !all->off[i];
                all->off[i] = 1;
            }
            if (!news) continue;
            struct fit_answer answer = without(&own, all, true, 0);
            if (answer.state == FIT_NOTHING) continue;
            if (answer.state == FIT_UNKNOWN) proven = false;
            for (int i = from; i < to; i++) all->off[i] = before[i - from];
        }
    }
    return proven;
}

/* What comes of loosening one alone. */
static void loosen(struct all *all, int i, struct fit_clash *clash, struct fit_clash_member *out,
                   struct arena scratch)
{
    for (int k = 0; k < all->n; k++) all->off[k] = k == i;
    struct arena own = scratch;
    struct fit_answer answer = without(&own, all, false, 0);
    if (answer.state == FIT_FOUND || answer.state == FIT_UNKNOWN) clash->proven = false;
    if (answer.state == FIT_NOTHING || answer.state == FIT_UNKNOWN) return;
    out->frees = true;
    out->total = answer.cost.total;
    if (out->kind != FIT_LIMIT) return;
    own = scratch;
    answer = without(&own, all, false, out->which + 1);
    if (answer.state != FIT_PROVEN) clash->proven = false;
    out->raise = answer.used[out->which] - all->m->limits[out->which].most;
}

struct fit_clash fit_clash_of(struct arena *a, const struct fit_model *m, int64_t most_nodes)
{
    struct fit_clash clash = {.helps_most = -1, .proven = true};
    struct all all = collect(a, m, most_nodes);
    clash.members = ARENA_ARRAY(a, struct fit_clash_member, all.n);
    int *member = ARENA_ARRAY(a, int, all.n);
    struct arena scratch = *a;
    struct arena own = scratch;
    struct fit_answer answer = without(&own, &all, true, 0);
    if (answer.state != FIT_NOTHING) {
        clash.proven = answer.state != FIT_UNKNOWN;
        return clash;
    }
    clash.proven = shrink(&all, scratch);
    for (int i = 0; i < all.n; i++)
        if (!all.off[i]) member[clash.n] = i, clash.members[clash.n++] = all.of[i];
    for (int k = 0; k < clash.n; k++) {
        struct fit_clash_member *out = &clash.members[k];
        loosen(&all, member[k], &clash, out, scratch);
        if (out->frees &&
            (clash.helps_most < 0 || out->total < clash.members[clash.helps_most].total))
            clash.helps_most = k;
    }
    return clash;
}
