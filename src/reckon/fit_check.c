#include "reckon/fit.h"

#define NO(...) return fail_set(f, FAIL_NO, __VA_ARGS__)

static bool all_of(const uint8_t *chosen, const int *list, int n)
{
    for (int i = 0; i < n; i++)
        if (!chosen[list[i]]) return false;
    return true;
}

static bool any_of(const uint8_t *chosen, const int *list, int n)
{
    for (int i = 0; i < n; i++)
        if (chosen[list[i]]) return true;
    return false;
}

static bool choice_holds(const struct fit_model *m, const uint8_t *chosen, struct fail *f)
{
    for (int o = 0; o < m->n_options; o++) {
        const struct fit_option *t = &m->options[o];
        if (chosen[o] > 1) NO("option %d is neither chosen nor not", o);
        if (t->held == FIT_TAKEN && !chosen[o]) NO("option %d is held, but not chosen", o);
        if (t->held == FIT_BARRED && chosen[o]) NO("option %d is barred, but chosen", o);
        if (chosen[o] && m->no_irreversible && t->irreversible)
            NO("option %d cannot be undone, and that is not allowed", o);
    }
    for (int n = 0; n < m->n_needs; n++) {
        const struct fit_need *t = &m->needs[n];
        bool awake = t->n_woken_by == 0 || any_of(chosen, t->woken_by, t->n_woken_by);
        int met = 0;
        for (int o = 0; o < m->n_options; o++) met += chosen[o] && m->options[o].need == n;
        if (met != awake) NO("need %d: %d options instead of %d", n, met, awake);
    }
    for (int r = 0; r < m->n_rules; r++) {
        const struct fit_rule *t = &m->rules[r];
        if (all_of(chosen, t->when, t->n_when) && !any_of(chosen, t->one_of, t->n_one_of))
            NO("rule %d is broken", r);
    }
    return true;
}

static bool buy_holds(const struct fit_model *m, const struct fit_buy *b, struct fail *f)
{
    if (b->offer < 0 || b->offer >= m->n_offers) NO("offer %d is bought, which is none", b->offer);
    const struct fit_offer *t = &m->offers[b->offer];
    int64_t unit = -1;
    if (b->count < 1) NO("offer %d: %d are bought", b->offer, b->count);
    if (t->most > 0 && b->count > t->most)
        NO("offer %d: %d are bought, %d can be had", b->offer, b->count, t->most);
    for (int k = 0; k < t->n_breaks; k++)
        if (b->count >= t->breaks[k].from) unit = t->breaks[k].unit;
    if (unit < 0) NO("offer %d: %d are fewer than are sold", b->offer, b->count);
    if (b->goods != unit * b->count) NO("offer %d: its goods are not price x count", b->offer);
    if (b->cores != t->core * b->count) NO("offer %d: its cores are not core x count", b->offer);
    return true;
}

/* Each part: as many as are taken, and not more than the spare ones beyond. */
static bool parts_hold(const struct fit_model *m, const struct fit_answer *answer,
                       struct arena scratch, struct fail *f)
{
    int64_t *taken = ARENA_ARRAY(&scratch, int64_t, m->n_parts);
    int64_t *bought = ARENA_ARRAY(&scratch, int64_t, m->n_parts);
    int *from = ARENA_ARRAY(&scratch, int, m->n_parts);
    uint8_t *used = ARENA_ARRAY(&scratch, uint8_t, m->n_offers);
    for (int o = 0; o < m->n_options; o++)
        for (int i = 0; answer->chosen[o] && i < m->options[o].n_takes; i++)
            taken[m->options[o].takes[i].part] += m->options[o].takes[i].count;
    for (int i = 0; i < answer->n_buys; i++) {
        const struct fit_buy *b = &answer->buys[i];
        if (!buy_holds(m, b, f)) return false;
        if (used[b->offer]++) NO("offer %d is bought twice", b->offer);
        bought[m->offers[b->offer].part] += b->count;
        from[m->offers[b->offer].part]++;
    }
    for (int p = 0; p < m->n_parts; p++) {
        if (bought[p] < taken[p])
            NO("part %d: %lld are taken, %lld bought", p, (long long)taken[p],
               (long long)bought[p]);
        if (bought[p] > taken[p] + m->parts[p].spare) NO("part %d: too many are bought", p);
        if (m->parts[p].whole && from[p] > 1) NO("part %d must come from one offer", p);
    }
    return true;
}

static bool baskets_hold(const struct fit_model *m, const struct fit_answer *answer, struct fail *f)
{
    int next = 0, last = -1;
    for (int i = 0; i < answer->n_baskets; i++) {
        const struct fit_basket *b = &answer->baskets[i];
        if (b->supplier <= last || b->supplier >= m->n_suppliers)
            NO("basket %d: its supplier is out of order", i);
        last = b->supplier;
        const struct fit_supplier *t = &m->suppliers[b->supplier];
        if (b->first != next || b->n < 1 || b->n > answer->n_buys - next)
            NO("basket %d: does not follow on", i);
        int64_t goods = 0, cores = 0;
        for (int end = next + b->n; next < end; next++) {
            if (m->offers[answer->buys[next].offer].supplier != b->supplier)
                NO("basket %d: holds what another supplier sells", i);
            goods += answer->buys[next].goods;
            cores += answer->buys[next].cores;
        }
        if (goods != b->goods || cores != b->cores) NO("basket %d: its sums are wrong", i);
        if (goods < t->least_order) NO("basket %d: is below the least order", i);
        int64_t carriage = t->carriage;
        if (t->free_from > 0 && goods >= t->free_from) carriage = 0;
        if (b->carriage != carriage) NO("basket %d: its carriage is wrong", i);
    }
    if (next != answer->n_buys) NO("a purchase is in no basket");
    return true;
}

static bool cost_holds(const struct fit_model *m, const struct fit_answer *answer, struct fail *f)
{
    struct fit_cost c = {0};
    for (int o = 0; o < m->n_options; o++)
        if (answer->chosen[o]) c.own += m->options[o].money, c.lost += m->options[o].lost;
    for (int i = 0; i < answer->n_buys; i++) c.late += m->offers[answer->buys[i].offer].late;
    for (int i = 0; i < answer->n_baskets; i++) {
        c.goods += answer->baskets[i].goods;
        c.cores += answer->baskets[i].cores;
        c.carriage += answer->baskets[i].carriage;
    }
    const struct fit_cost *told = &answer->cost;
    if (told->own != c.own || told->lost != c.lost) NO("own money or originality is wrong");
    if (told->late != c.late) NO("lateness is wrong");
    if (told->goods != c.goods || told->cores != c.cores || told->carriage != c.carriage)
        NO("goods, cores or carriage are wrong");
    if (told->originality != m->weight * c.lost) NO("the price of originality is wrong");
    if (told->total != c.own + c.goods + c.carriage + c.late + m->weight * c.lost)
        NO("the total is wrong");
    for (int l = 0; l < m->n_limits; l++) {
        int64_t used = m->limits[l].purse ? c.own + c.goods + c.carriage + c.cores : 0;
        for (int o = 0; o < m->n_options; o++)
            for (int i = 0; answer->chosen[o] && i < m->options[o].n_uses; i++)
                if (m->options[o].uses[i].limit == l) used += m->options[o].uses[i].amount;
        if (answer->used[l] != used) NO("limit %d: what is used is wrong", l);
        if (used > m->limits[l].most) NO("limit %d is passed", l);
    }
    if (answer->bound > told->total) NO("the bound is above the total");
    if (answer->state == FIT_PROVEN && answer->bound != told->total)
        NO("proven, but the bound is below the total");
    return true;
}

bool fit_check(const struct fit_model *m, const struct fit_answer *answer, struct arena scratch,
               struct fail *f)
{
    if (answer->state == FIT_NOTHING || answer->state == FIT_UNKNOWN) return true;
    return choice_holds(m, answer->chosen, f) && parts_hold(m, answer, scratch, f) &&
           baskets_hold(m, answer, f) && cost_holds(m, answer, f);
}
