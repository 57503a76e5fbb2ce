#include "reckon/fit_rows.h"

#include <limits.h>

/* Everything that may be loosened; what is off is left out of the model. */
struct all {
    const struct fit_model *m;
    struct fit_clash_member *of;
    uint8_t *off; /* by index into `of` */
    int n, work;  /* the first `work` of them are parts, needs and rules */
    int64_t nodes;
    bool proven;
};

static void add(struct all *all, enum fit_clash_kind kind, int which)
{
    all->of[all->n++] = (struct fit_clash_member){.kind = kind, .which = which};
}

static struct all collect(struct arena *a, const struct fit_model *m, int64_t nodes)
{
    struct all all = {.m = m, .nodes = nodes, .proven = true};
    int most = m->n_parts + m->n_suppliers + m->n_needs + m->n_rules + m->n_options + m->n_limits;
    bool irreversible = false;
    all.of = ARENA_ARRAY(a, struct fit_clash_member, most + 1);
    all.off = ARENA_ARRAY(a, uint8_t, most + 1);
    for (int p = 0; p < m->n_parts; p++) add(&all, FIT_PART, p);
    for (int n = 0; n < m->n_needs; n++) add(&all, FIT_NEED, n);
    for (int r = 0; r < m->n_rules; r++) add(&all, FIT_RULE, r);
    all.work = all.n;
    for (int s = 0; s < m->n_suppliers; s++)
        if (m->suppliers[s].least_order > 0) add(&all, FIT_LEAST_ORDER, s);
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
    return fit_asked(s, m, &ask, any ? all->nodes / 500 + 1 : all->nodes);
}

/* Whether what is on clashes; what is not proven to clash is taken for fitting. */
static bool clashes(struct all *all, struct arena scratch)
{
    int limit = 0; /* towards a small use of the last that is on: so that what fits is soon found */
    for (int i = 0; i < all->n; i++)
        if (all->of[i].kind == FIT_LIMIT && !all->off[i]) limit = all->of[i].which + 1;
    struct fit_answer answer = without(&scratch, all, true, limit);
    if (answer.state == FIT_UNKNOWN) all->proven = false;
    return answer.state == FIT_NOTHING;
}

static void set(struct all *all, int from, int to, uint8_t off)
{
    for (int i = from; i < to; i++) all->off[i] = off;
}

/* Of those from `first` to `end`, all on and clashing, turns off what the clash does not need;
 * false: more than `most` are needed, and all are on again. Each turn finds the shortest beginning
 * that still clashes with what is known to be needed; its last is needed too (the idea of U.
 * Junker, QuickXplain, AAAI 2004). */
static bool reduce(struct all *all, int first, int end, int most, struct arena scratch)
{
    int *needed = ARENA_ARRAY(&scratch, int, end - first + 1), n = 0, pool = end;
    while (true) {
        int low = first - 1, high = pool; /* on up to `high` it clashes, up to `low` it does not */
        while (high - low > 1) {
            int middle = low < first ? first : low + (high - low) / 2;
            set(all, first, end, 1);
            set(all, first, middle, 0);
            for (int i = 0; i < n; i++) all->off[needed[i]] = 0;
            if (clashes(all, scratch))
                high = middle;
            else
                low = middle;
        }
        if (high == first) break;
        needed[n++] = pool = high - 1;
        if (n < most) continue;
        set(all, first, end, 0);
        return false;
    }
    set(all, first, end, 1);
    for (int i = 0; i < n; i++) all->off[needed[i]] = 0;
    return true;
}

/* Whether more than FIT_CLASH_MOST parts, needs and rules belong to the clash, told from a few
 * blocks of them: of each that cannot be left out at least one belongs to it. */
static bool is_wide(struct all *all, struct arena scratch)
{
    int blocks = 2 * (FIT_CLASH_MOST + 1), belong = 0;
    for (int b = 0; b < blocks && all->work > blocks; b++) {
        int from = all->work * b / blocks, to = all->work * (b + 1) / blocks;
        set(all, from, to, 1);
        belong += !clashes(all, scratch);
        set(all, from, to, 0);
    }
    return belong > FIT_CLASH_MOST;
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
    reduce(&all, all.work, all.n, INT_MAX, scratch);
    clash.wide = is_wide(&all, scratch) || !reduce(&all, 0, all.work, FIT_CLASH_MOST + 1, scratch);
    clash.proven = all.proven;
    for (int i = clash.wide ? all.work : 0; i < all.n; i++)
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
