/* test_fit.c - random small models against trying everything, and answers spoiled in sixteen ways.
 */
#include "reckon/random_fit.h"

#include "reckon/near.h"

#include <string.h>

enum { MODELS = 3000 };

static struct arena arena;

static int open_arena(void **state)
{
    (void)state;
    arena = arena_open((size_t)1 << 30);
    return 0;
}

static int close_arena(void **state)
{
    (void)state;
    arena_close(&arena);
    return 0;
}

static void equals_brute_force(void **state)
{
    (void)state;
    int met = 0, barren = 0;
    for (uint64_t seed = 1; seed <= MODELS; seed++) {
        struct arena a = arena;
        struct fail f = {0};
        struct fit_model m = random_fit(&a, seed);
        if (!fit_valid(&m, &f)) fail_msg("seed %d: %s", (int)seed, f.text);
        int64_t best = brute_fit(a, &m, NULL, NULL);
        struct fit_answer answer = fit_solve(&a, &m, FIT_NODES);
        if (best == INT64_MAX) {
            barren++;
            if (answer.state != FIT_NOTHING) fail_msg("seed %d: something fits", (int)seed);
            continue;
        }
        met++;
        if (answer.state != FIT_PROVEN) fail_msg("seed %d: state %d", (int)seed, answer.state);
        if (!fit_check(&m, &answer, a, &f)) fail_msg("seed %d: %s", (int)seed, f.text);
        if (answer.cost.total != best)
            fail_msg("seed %d: %d, not %d", (int)seed, (int)answer.cost.total, (int)best);
    }
    assert_true(met > MODELS / 4 && barren > MODELS / 10);
}

/* Each makes of a good answer a bad one, or false: this answer has nothing to spoil so. */
struct spoil {
    struct fit_model *m;
    struct fit_answer *answer;
    struct fit_option *options;
    struct fit_supplier *suppliers;
    struct fit_limit *limits;
};

static bool drops_an_option(struct spoil *s)
{
    for (int o = 0; o < s->m->n_options; o++)
        if (s->answer->chosen[o] && s->m->options[o].need >= 0) {
            s->answer->chosen[o] = 0;
            s->answer->cost.own -= s->m->options[o].money;
            return true;
        }
    return false;
}

static bool meets_a_need_twice(struct spoil *s)
{
    for (int o = 0; o < s->m->n_options; o++)
        if (!s->answer->chosen[o] && s->m->options[o].need >= 0) {
            s->answer->chosen[o] = 1;
            return true;
        }
    return false;
}

static bool takes_what_is_barred(struct spoil *s)
{
    for (int o = 0; o < s->m->n_options; o++)
        if (s->answer->chosen[o]) {
            s->options[o].held = FIT_BARRED;
            return true;
        }
    return false;
}

static bool breaks_a_rule(struct spoil *s)
{
    static int when[1];
    static struct fit_rule rule = {.when = when, .n_when = 1};
    for (int o = 0; o < s->m->n_options; o++)
        if (s->answer->chosen[o]) {
            when[0] = o;
            s->m->rules = &rule;
            s->m->n_rules = 1;
            return true;
        }
    return false;
}

static bool buys_one_too_few(struct spoil *s)
{
    struct fit_answer *a = s->answer;
    if (a->n_buys == 0) return false;
    const struct fit_offer *t = &s->m->offers[a->buys[0].offer];
    if (s->m->parts[t->part].spare > 0 || t->n_breaks > 1) return false;
    a->buys[0].count--;
    a->buys[0].goods -= t->breaks[0].unit, a->buys[0].cores -= t->core;
    a->baskets[0].goods -= t->breaks[0].unit, a->baskets[0].cores -= t->core;
    a->cost.goods -= t->breaks[0].unit, a->cost.cores -= t->core;
    a->cost.total -= t->breaks[0].unit;
    return true;
}

static bool buys_below_the_price(struct spoil *s)
{
    if (s->answer->n_buys == 0) return false;
    s->answer->buys[0].goods--, s->answer->baskets[0].goods--;
    s->answer->cost.goods--, s->answer->cost.total--, s->answer->bound--;
    return true;
}

static bool forgets_carriage(struct spoil *s)
{
    struct fit_answer *a = s->answer;
    if (a->n_baskets == 0 || a->baskets[0].carriage == 0) return false;
    a->cost.carriage -= a->baskets[0].carriage;
    a->cost.total -= a->baskets[0].carriage;
    a->bound = a->cost.total;
    a->baskets[0].carriage = 0;
    return true;
}

static bool orders_below_the_least(struct spoil *s)
{
    if (s->answer->n_baskets == 0) return false;
    s->suppliers[s->answer->baskets[0].supplier].least_order = s->answer->baskets[0].goods + 1;
    return true;
}

static bool passes_a_limit(struct spoil *s)
{
    if (s->m->n_limits == 0) return false;
    s->limits[0].most = s->answer->used[0] - 1;
    return true;
}

static bool misstates_a_use(struct spoil *s)
{
    if (s->m->n_limits == 0) return false;
    s->answer->used[0]--;
    return true;
}

static bool buys_more_than_there_is(struct spoil *s)
{
    struct fit_answer *a = s->answer;
    for (int i = 0; i < a->n_buys; i++)
        if (s->m->offers[a->buys[i].offer].most > 0) {
            a->buys[i].count = s->m->offers[a->buys[i].offer].most + 1;
            return true;
        }
    return false;
}

static bool hides_lateness(struct spoil *s)
{
    if (s->answer->cost.late == 0) return false;
    s->answer->cost.total -= s->answer->cost.late;
    s->answer->bound = s->answer->cost.total;
    s->answer->cost.late = 0;
    return true;
}

static bool hides_originality(struct spoil *s)
{
    if (s->answer->cost.originality == 0) return false;
    s->answer->cost.total -= s->answer->cost.originality;
    s->answer->bound = s->answer->cost.total;
    s->answer->cost.originality = 0;
    return true;
}

static bool misadds(struct spoil *s)
{
    s->answer->cost.total--;
    s->answer->bound--;
    return true;
}

static bool boasts_of_its_bound(struct spoil *s)
{
    s->answer->bound++;
    return true;
}

static bool loses_a_basket(struct spoil *s)
{
    if (s->answer->n_baskets == 0) return false;
    s->answer->n_baskets--;
    return true;
}

static bool (*const spoils[])(struct spoil *) = {
    drops_an_option,         meets_a_need_twice,
    takes_what_is_barred,    breaks_a_rule,
    buys_one_too_few,        buys_below_the_price,
    forgets_carriage,        orders_below_the_least,
    passes_a_limit,          misstates_a_use,
    buys_more_than_there_is, hides_lateness,
    hides_originality,       misadds,
    boasts_of_its_bound,     loses_a_basket,
};
enum { SPOILS = sizeof spoils / sizeof spoils[0] };

static void *copy(struct arena *a, const void *from, int n, size_t size)
{
    void *to = arena_take(a, (size_t)n, size);
    if (n > 0) memcpy(to, from, (size_t)n * size);
    return to;
}

static void checker_rejects_sabotage(void **state)
{
    (void)state;
    int spoiled[SPOILS] = {0};
    for (uint64_t seed = 1; seed <= 400; seed++) {
        struct arena a = arena;
        struct fit_model good = random_fit(&a, seed);
        struct fit_answer answer = fit_solve(&a, &good, FIT_NODES);
        if (answer.state != FIT_PROVEN) continue;
        for (int k = 0; k < SPOILS; k++) {
            struct arena own = a;
            struct fail f = {0};
            struct fit_model m = good;
            struct fit_answer bad = answer;
            struct spoil s = {&m, &bad, copy(&own, m.options, m.n_options, sizeof *m.options),
                              copy(&own, m.suppliers, m.n_suppliers, sizeof *m.suppliers),
                              copy(&own, m.limits, m.n_limits, sizeof *m.limits)};
            m.options = s.options, m.suppliers = s.suppliers, m.limits = s.limits;
            bad.chosen = copy(&own, answer.chosen, m.n_options, 1);
            bad.buys = copy(&own, answer.buys, answer.n_buys, sizeof *bad.buys);
            bad.baskets = copy(&own, answer.baskets, answer.n_baskets, sizeof *bad.baskets);
            bad.used = copy(&own, answer.used, m.n_limits, sizeof *bad.used);
            assert_true(fit_check(&m, &bad, own, &f));
            if (!spoils[k](&s)) continue;
            spoiled[k]++;
            if (fit_check(&m, &bad, own, &f)) fail_msg("seed %d: sabotage %d passes", (int)seed, k);
        }
    }
    for (int k = 0; k < SPOILS; k++)
        if (spoiled[k] < 10) fail_msg("sabotage %d was tried %d times only", k, spoiled[k]);
}

/* Whatever the work allows: what is found holds, and no bound is above the best. */
static void ended_work_tells_a_bound(void **state)
{
    (void)state;
    int ended = 0;
    for (uint64_t seed = 1; seed <= 1000; seed++) {
        struct arena a = arena;
        struct fail f = {0};
        struct fit_model m = random_fit(&a, seed);
        struct fit_answer best = fit_solve(&a, &m, FIT_NODES);
        for (int64_t nodes = 1; nodes <= 4; nodes++) {
            struct fit_answer answer = fit_solve(&a, &m, nodes);
            assert_true(answer.nodes <= nodes);
            if (!fit_check(&m, &answer, a, &f)) fail_msg("seed %d: %s", (int)seed, f.text);
            ended += answer.state == FIT_FOUND || answer.state == FIT_UNKNOWN;
            if (best.state == FIT_NOTHING) {
                assert_true(answer.state == FIT_NOTHING || answer.state == FIT_UNKNOWN);
            } else {
                assert_true(answer.state != FIT_NOTHING);
                assert_true(answer.bound <= best.cost.total);
            }
        }
    }
    assert_true(ended > 50);
}

static void same_answer_each_time(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= 300; seed++) {
        struct arena a = arena;
        struct fit_model m = random_fit(&a, seed);
        struct fit_answer one = fit_solve(&a, &m, FIT_NODES), two = fit_solve(&a, &m, FIT_NODES);
        assert_int_equal(one.state, two.state);
        assert_int_equal(one.nodes, two.nodes);
        if (one.state != FIT_PROVEN) continue;
        assert_memory_equal(one.chosen, two.chosen, (size_t)m.n_options);
        assert_int_equal(one.n_buys, two.n_buys);
        for (int i = 0; i < one.n_buys; i++) {
            assert_int_equal(one.buys[i].offer, two.buys[i].offer);
            assert_int_equal(one.buys[i].count, two.buys[i].count);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(equals_brute_force),
        cmocka_unit_test(checker_rejects_sabotage),
        cmocka_unit_test(ended_work_tells_a_bound),
        cmocka_unit_test(same_answer_each_time),
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}
