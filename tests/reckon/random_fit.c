#include "reckon/random_fit.h"

#include "reckon/random_project.h"

static int *some(struct arena *a, struct dice *d, int most, int options, int *n, int but)
{
    int *list = ARENA_ARRAY(a, int, most);
    *n = 0;
    for (int o = 0; o < options && *n < most; o++)
        if (o != but && dice_chance(d, 0.3)) list[(*n)++] = o;
    return list;
}

static void random_options(struct arena *a, struct dice *d, struct fit_model *m,
                           struct fit_option *options)
{
    for (int o = 0; o < m->n_options; o++) {
        struct fit_option *t = &options[o];
        struct fit_take *takes = ARENA_ARRAY(a, struct fit_take, m->n_parts);
        struct fit_use *uses = ARENA_ARRAY(a, struct fit_use, m->n_limits);
        t->need = o < 2 * m->n_needs ? o % m->n_needs : dice_between(d, -1, m->n_needs - 1);
        t->money = dice_between(d, -20, 200);
        t->lost = dice_between(d, -2, 10);
        t->irreversible = dice_chance(d, 0.2);
        t->held = dice_chance(d, 0.9) ? FIT_FREE : dice_chance(d, 0.5) ? FIT_TAKEN : FIT_BARRED;
        for (int p = 0; p < m->n_parts; p++)
            if (dice_chance(d, 0.4))
                takes[t->n_takes++] = (struct fit_take){p, dice_between(d, 1, 2)};
        for (int l = 0; l < m->n_limits; l++)
            if (dice_chance(d, 0.6))
                uses[t->n_uses++] = (struct fit_use){l, dice_between(d, -10, 60)};
        t->takes = takes;
        t->uses = uses;
    }
}

static void random_offers(struct arena *a, struct dice *d, struct fit_model *m,
                          struct fit_offer *offers)
{
    for (int i = 0; i < m->n_offers; i++) {
        struct fit_offer *t = &offers[i];
        struct fit_break *breaks = ARENA_ARRAY(a, struct fit_break, 3);
        t->part = i < m->n_parts ? i : dice_between(d, 0, m->n_parts - 1);
        t->supplier = dice_between(d, 0, m->n_suppliers - 1);
        t->n_breaks = dice_chance(d, 0.6) ? 1 : dice_between(d, 2, 3);
        int from = dice_chance(d, 0.7) ? dice_between(d, 0, 1) : 2;
        for (int k = 0; k < t->n_breaks; k++) {
            breaks[k] = (struct fit_break){from, dice_between(d, 20, 100) / (k + 1)};
            from = (from < 1 ? 1 : from) + dice_between(d, 1, 2);
        }
        t->breaks = breaks;
        t->most = dice_chance(d, 0.7) ? 0 : dice_between(d, 1, 3);
        t->core = dice_chance(d, 0.7) ? 0 : dice_between(d, 1, 40);
        t->late = dice_chance(d, 0.6) ? 0 : dice_between(d, 1, 60);
    }
}

struct fit_model random_fit(struct arena *a, uint64_t seed)
{
    struct dice d = {seed, 0};
    struct fit_model m = {0};
    m.n_needs = dice_between(&d, 1, 3);
    m.n_options = 2 * m.n_needs + dice_between(&d, 0, 3);
    m.n_rules = dice_between(&d, 0, 4);
    m.n_parts = dice_between(&d, 1, 3);
    m.n_offers = m.n_parts + dice_between(&d, 0, 2);
    m.n_suppliers = dice_between(&d, 1, 3);
    m.n_limits = dice_between(&d, 0, 2);
    m.weight = dice_between(&d, 0, 10);
    m.no_irreversible = dice_chance(&d, 0.3);
    struct fit_option *options = ARENA_ARRAY(a, struct fit_option, m.n_options);
    struct fit_need *needs = ARENA_ARRAY(a, struct fit_need, m.n_needs);
    struct fit_rule *rules = ARENA_ARRAY(a, struct fit_rule, m.n_rules);
    struct fit_part *parts = ARENA_ARRAY(a, struct fit_part, m.n_parts);
    struct fit_offer *offers = ARENA_ARRAY(a, struct fit_offer, m.n_offers);
    struct fit_supplier *suppliers = ARENA_ARRAY(a, struct fit_supplier, m.n_suppliers);
    struct fit_limit *limits = ARENA_ARRAY(a, struct fit_limit, m.n_limits);
    random_options(a, &d, &m, options);
    random_offers(a, &d, &m, offers);
    for (int n = 0; n < m.n_needs; n++)
        if (n > 0 && dice_chance(&d, 0.4))
            needs[n].woken_by = some(a, &d, 2, m.n_options, &needs[n].n_woken_by, -1);
    for (int r = 0; r < m.n_rules; r++) {
        int when = dice_between(&d, 0, m.n_options - 1);
        int *list = ARENA_ARRAY(a, int, 1);
        list[0] = when;
        rules[r] = (struct fit_rule){.when = list, .n_when = dice_chance(&d, 0.9), .tag = r};
        rules[r].one_of =
            some(a, &d, 2, m.n_options, &rules[r].n_one_of, rules[r].n_when ? when : -1);
    }
    for (int p = 0; p < m.n_parts; p++) {
        parts[p].spare = dice_chance(&d, 0.6) ? 0 : dice_between(&d, 1, 2);
        parts[p].whole = dice_chance(&d, 0.2);
    }
    for (int s = 0; s < m.n_suppliers; s++) {
        suppliers[s].carriage = dice_chance(&d, 0.2) ? 0 : dice_between(&d, 1, 80);
        suppliers[s].least_order = dice_chance(&d, 0.6) ? 0 : dice_between(&d, 1, 150);
        suppliers[s].free_from = dice_chance(&d, 0.5) ? 0 : dice_between(&d, 1, 300);
    }
    for (int l = 0; l < m.n_limits; l++) {
        limits[l].purse = dice_chance(&d, 0.5);
        limits[l].most = limits[l].purse ? dice_between(&d, 0, 900) : dice_between(&d, 0, 120);
    }
    m.options = options, m.needs = needs, m.rules = rules, m.parts = parts, m.offers = offers;
    m.suppliers = suppliers, m.limits = limits;
    return m;
}

struct brute {
    const struct fit_model *m;
    const uint8_t *chosen;
    int64_t *wanted;
    int *count; /* by offer */
    int64_t best;
};

static bool chosen_of(const uint8_t *chosen, const int *list, int n, bool all)
{
    int found = 0;
    for (int i = 0; i < n; i++) found += chosen[list[i]];
    return all ? found == n : found > 0;
}

static bool may_choose(const struct fit_model *m, const uint8_t *chosen)
{
    for (int o = 0; o < m->n_options; o++) {
        const struct fit_option *t = &m->options[o];
        if (chosen[o] ? t->held == FIT_BARRED || (t->irreversible && m->no_irreversible)
                      : t->held == FIT_TAKEN)
            return false;
    }
    for (int n = 0; n < m->n_needs; n++) {
        int met = 0;
        for (int o = 0; o < m->n_options; o++) met += chosen[o] && m->options[o].need == n;
        int wanted = m->needs[n].n_woken_by == 0 ||
                     chosen_of(chosen, m->needs[n].woken_by, m->needs[n].n_woken_by, false);
        if (met != wanted) return false;
    }
    for (int r = 0; r < m->n_rules; r++)
        if (chosen_of(chosen, m->rules[r].when, m->rules[r].n_when, true) &&
            !chosen_of(chosen, m->rules[r].one_of, m->rules[r].n_one_of, false))
            return false;
    return true;
}

/* Everything is counted out: what does it cost? */
static void reckon(struct brute *b)
{
    const struct fit_model *m = b->m;
    int64_t total = 0, paid = 0;
    for (int p = 0; p < m->n_parts; p++) {
        int64_t bought = 0, from = 0;
        for (int i = 0; i < m->n_offers; i++)
            if (m->offers[i].part == p) bought += b->count[i], from += b->count[i] > 0;
        if (bought < b->wanted[p] || bought > b->wanted[p] + m->parts[p].spare) return;
        if (m->parts[p].whole && from > 1) return;
    }
    for (int s = 0; s < m->n_suppliers; s++) {
        int64_t goods = 0;
        bool order = false;
        for (int i = 0; i < m->n_offers; i++) {
            const struct fit_offer *t = &m->offers[i];
            if (t->supplier != s || b->count[i] == 0) continue;
            int64_t unit = 0;
            for (int k = t->n_breaks - 1; k >= 0 && !unit; k--)
                if (b->count[i] >= t->breaks[k].from) unit = t->breaks[k].unit;
            order = true;
            goods += unit * b->count[i];
            paid += t->core * b->count[i];
            total += t->late;
        }
        if (!order) continue;
        if (goods < m->suppliers[s].least_order) return;
        bool free = m->suppliers[s].free_from && goods >= m->suppliers[s].free_from;
        int64_t with_carriage = goods + (free ? 0 : m->suppliers[s].carriage);
        total += with_carriage;
        paid += with_carriage;
    }
    for (int o = 0; o < m->n_options; o++) {
        if (!b->chosen[o]) continue;
        total += m->options[o].money + m->weight * m->options[o].lost;
        paid += m->options[o].money;
    }
    for (int l = 0; l < m->n_limits; l++) {
        int64_t used = m->limits[l].purse ? paid : 0;
        for (int o = 0; o < m->n_options; o++)
            for (int i = 0; i < m->options[o].n_uses; i++)
                if (b->chosen[o] && m->options[o].uses[i].limit == l)
                    used += m->options[o].uses[i].amount;
        if (used > m->limits[l].most) return;
    }
    if (total < b->best) b->best = total;
}

static void buy(struct brute *b, int offer)
{
    if (offer == b->m->n_offers) {
        reckon(b);
        return;
    }
    const struct fit_offer *t = &b->m->offers[offer];
    int64_t most = b->wanted[t->part] + b->m->parts[t->part].spare;
    for (int i = 0; i < offer; i++)
        if (b->m->offers[i].part == t->part) most -= b->count[i];
    if (t->most > 0 && most > t->most) most = t->most;
    for (int n = 0; n <= most; n++) {
        if (n > 0 && n < t->breaks[0].from) continue;
        b->count[offer] = n;
        buy(b, offer + 1);
    }
    b->count[offer] = 0;
}

static bool unlike(const struct fit_model *m, const uint8_t *x, const uint8_t *y)
{
    if (!y) return true;
    for (int o = 0; o < m->n_options; o++)
        if (m->options[o].need >= 0 && x[o] != y[o]) return true;
    return false;
}

int64_t brute_fit(struct arena a, const struct fit_model *m, const uint8_t *but,
                  const uint8_t *but_too)
{
    uint8_t *chosen = ARENA_ARRAY(&a, uint8_t, m->n_options);
    struct brute b = {m, chosen, ARENA_ARRAY(&a, int64_t, m->n_parts),
                      ARENA_ARRAY(&a, int, m->n_offers), INT64_MAX};
    for (int set = 0; set < 1 << m->n_options; set++) {
        for (int o = 0; o < m->n_options; o++) chosen[o] = (uint8_t)(set >> o & 1);
        if (!may_choose(m, chosen) || !unlike(m, chosen, but) || !unlike(m, chosen, but_too))
            continue;
        for (int p = 0; p < m->n_parts; p++) b.wanted[p] = 0;
        for (int o = 0; o < m->n_options; o++)
            for (int i = 0; chosen[o] && i < m->options[o].n_takes; i++)
                b.wanted[m->options[o].takes[i].part] += m->options[o].takes[i].count;
        buy(&b, 0);
    }
    return b.best;
}
