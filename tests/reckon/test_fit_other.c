/* test_fit_other.c - next best sets, prices at which a choice flips, and clashes, of random small
 * models against trying everything. */
#include "reckon/random_fit.h"

#include "reckon/near.h"

#include <string.h>

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

static void next_best_equal_brute_force(void **state)
{
    (void)state;
    int both = 0;
    for (uint64_t seed = 1; seed <= 500; seed++) {
        struct arena a = arena;
        struct fail f = {0};
        struct fit_model m = random_fit(&a, seed);
        struct fit_answer best = fit_solve(&a, &m, FIT_NODES), next[2];
        if (best.state != FIT_PROVEN) continue;
        int n = fit_next(&a, &m, &best, FIT_NODES, next, 2);
        for (int i = 0; i < 2; i++) {
            int64_t expected = brute_fit(a, &m, best.chosen, i > 0 ? next[0].chosen : NULL);
            if (i >= n) {
                assert_true(expected == INT64_MAX);
                break;
            }
            assert_int_equal(next[i].cost.total, expected);
            if (!fit_check(&m, &next[i], a, &f)) fail_msg("seed %d: %s", (int)seed, f.text);
            both += i;
        }
    }
    assert_true(both > 50);
}

/* The least total with one option held at a price. */
static int64_t held_at(struct arena a, const struct fit_model *m, int option, enum fit_held held,
                       int64_t money)
{
    struct fit_model changed = *m;
    struct fit_option *options = ARENA_ARRAY(&a, struct fit_option, m->n_options);
    memcpy(options, m->options, (size_t)m->n_options * sizeof *options);
    options[option].held = held;
    options[option].money = money;
    changed.options = options;
    return brute_fit(a, &changed, NULL, NULL);
}

static void choice_flips_at_its_price(void **state)
{
    (void)state;
    int flipped = 0, never = 0, by_purse = 0;
    for (uint64_t seed = 1; seed <= 600; seed++) {
        struct arena a = arena;
        struct fit_model m = random_fit(&a, seed);
        struct fit_answer best = fit_solve(&a, &m, FIT_NODES);
        if (best.state != FIT_PROVEN) continue;
        for (int o = 0; o < m.n_options; o++) {
            struct fit_flip flip = fit_flip_of(&a, &m, &best, o, FIT_NODES);
            assert_true(flip.proven);
            int64_t without = best.chosen[o] ? held_at(a, &m, o, FIT_BARRED, 0) : best.cost.total;
            if (!flip.flips) {
                never++;
                assert_true(without == INT64_MAX ||
                            held_at(a, &m, o, FIT_TAKEN, -FIT_MOST_MONEY) == INT64_MAX);
                continue;
            }
            int64_t at = held_at(a, &m, o, FIT_TAKEN, flip.money);
            flipped++;
            by_purse += at < without;
            assert_true(at <= without);
            assert_true(held_at(a, &m, o, FIT_TAKEN, flip.money + 1) > without);
            if (best.chosen[o] && m.options[o].held == FIT_FREE)
                assert_true(flip.money >= m.options[o].money);
        }
    }
    assert_true(flipped > 100 && never > 20 && by_purse > 5);
}

/* The model with what is marked loosened, in the words of fit.h. */
struct loosened {
    struct fit_model m;
    struct fit_option *options;
    struct fit_rule *rules;
    struct fit_part *parts;
    struct fit_supplier *suppliers;
    struct fit_limit *limits;
};

static struct loosened open_to_change(struct arena *a, const struct fit_model *m)
{
    struct loosened l = {*m,
                         ARENA_ARRAY(a, struct fit_option, m->n_options + m->n_needs),
                         ARENA_ARRAY(a, struct fit_rule, m->n_rules),
                         ARENA_ARRAY(a, struct fit_part, m->n_parts),
                         ARENA_ARRAY(a, struct fit_supplier, m->n_suppliers),
                         ARENA_ARRAY(a, struct fit_limit, m->n_limits)};
    for (int i = 0; i < m->n_options; i++) l.options[i] = m->options[i];
    for (int i = 0; i < m->n_rules; i++) l.rules[i] = m->rules[i];
    for (int i = 0; i < m->n_parts; i++) l.parts[i] = m->parts[i];
    for (int i = 0; i < m->n_suppliers; i++) l.suppliers[i] = m->suppliers[i];
    for (int i = 0; i < m->n_limits; i++) l.limits[i] = m->limits[i];
    l.m.options = l.options, l.m.rules = l.rules, l.m.parts = l.parts;
    l.m.suppliers = l.suppliers, l.m.limits = l.limits;
    return l;
}

static void loosen(struct arena *a, struct loosened *l, enum fit_clash_kind kind, int which)
{
    static const int any[] = {0};
    switch (kind) {
    case FIT_NEED: /* an option that is nothing meets it */
        l->options[l->m.n_options++] = (struct fit_option){.need = which};
        break;
    case FIT_RULE: /* one that always holds */
        l->rules[which] = (struct fit_rule){.when = any, .one_of = any, .n_when = 1, .n_one_of = 1};
        break;
    case FIT_LIMIT:
        l->limits[which].most = FIT_MOST_MONEY;
        break;
    case FIT_HELD:
        l->options[which].held = FIT_FREE;
        break;
    case FIT_IRREVERSIBLE:
        l->m.no_irreversible = false;
        break;
    case FIT_LEAST_ORDER:
        l->suppliers[which].least_order = 0;
        break;
    case FIT_PART: /* nobody takes it */
        l->parts[which].spare = 0;
        for (int o = 0; o < l->m.n_options; o++) {
            struct fit_option *t = &l->options[o];
            struct fit_take *takes = ARENA_ARRAY(a, struct fit_take, t->n_takes);
            int n = 0;
            for (int i = 0; i < t->n_takes; i++)
                if (t->takes[i].part != which) takes[n++] = t->takes[i];
            t->takes = takes, t->n_takes = n;
        }
        break;
    }
}

static bool fits(struct arena a, const struct fit_model *m, int64_t *total)
{
    *total = brute_fit(a, m, NULL, NULL);
    return *total < INT64_MAX;
}

static bool is_member(const struct fit_clash *c, enum fit_clash_kind kind, int which)
{
    for (int i = 0; i < c->n; i++)
        if (c->members[i].kind == kind && c->members[i].which == which) return true;
    return false;
}

/* Only the members of the clash, without the one numbered `but`. */
static struct loosened members_only(struct arena *a, const struct fit_model *m,
                                    const struct fit_clash *clash, int but)
{
    struct loosened l = open_to_change(a, m);
    const int counts[] = {
        [FIT_NEED] = m->n_needs,           [FIT_RULE] = m->n_rules, [FIT_LIMIT] = m->n_limits,
        [FIT_HELD] = m->n_options,         [FIT_IRREVERSIBLE] = 1,  [FIT_PART] = m->n_parts,
        [FIT_LEAST_ORDER] = m->n_suppliers};
    for (int kind = 0; kind <= FIT_LEAST_ORDER; kind++)
        for (int i = 0; i < counts[kind]; i++)
            if (!is_member(clash, (enum fit_clash_kind)kind, i) ||
                (but >= 0 && (int)clash->members[but].kind == kind &&
                 clash->members[but].which == i))
                loosen(a, &l, (enum fit_clash_kind)kind, i);
    return l;
}

static void clash_is_one_and_no_larger(void **state)
{
    (void)state;
    int clashes = 0, frees = 0, raised = 0, several = 0;
    for (uint64_t seed = 1; seed <= 400; seed++) {
        struct arena a = arena;
        struct fit_model m = random_fit(&a, seed);
        if (m.n_options > 7) continue;
        struct fit_answer answer = fit_solve(&a, &m, FIT_NODES);
        struct fit_clash clash = fit_clash_of(&a, &m, FIT_NODES);
        int64_t total;
        assert_true(clash.proven && !clash.wide);
        assert_int_equal(clash.n > 0, answer.state == FIT_NOTHING);
        if (clash.n == 0) continue;
        clashes++, several += clash.n > 1;
        struct arena own = a;
        struct loosened l = members_only(&own, &m, &clash, -1);
        if (fits(own, &l.m, &total)) fail_msg("seed %d: what is told does not clash", (int)seed);
        int64_t least = INT64_MAX;
        for (int i = 0; i < clash.n; i++) {
            const struct fit_clash_member *t = &clash.members[i];
            own = a;
            l = members_only(&own, &m, &clash, i);
            if (!fits(own, &l.m, &total))
                fail_msg("seed %d: member %d is not needed for the clash", (int)seed, i);
            own = a;
            l = open_to_change(&own, &m);
            loosen(&own, &l, t->kind, t->which);
            assert_int_equal(t->frees, fits(own, &l.m, &total));
            if (!t->frees) continue;
            frees++;
            assert_int_equal(t->total, total);
            if (total < least) least = total;
            if (t->kind != FIT_LIMIT) continue;
            raised++;
            l.limits[t->which].most = m.limits[t->which].most + t->raise;
            assert_true(fits(own, &l.m, &total));
            l.limits[t->which].most--;
            assert_false(fits(own, &l.m, &total));
        }
        if (clash.helps_most < 0)
            assert_true(least == INT64_MAX);
        else
            assert_int_equal(clash.members[clash.helps_most].total, least);
    }
    assert_true(clashes > 50 && frees > 20 && raised > 5 && several > 20);
}

/* Twenty needs that cost 10 each, two of which could be met for 20, and a purse of 150: sixteen of
 * them pass it. */
static void short_purse_clashes_with_all(void **state)
{
    (void)state;
    enum { NEEDS = 20 };
    struct fit_option options[NEEDS + 2] = {0};
    struct fit_need needs[NEEDS] = {0};
    const struct fit_limit purse = {.most = 150, .purse = true};
    for (int o = 0; o < NEEDS + 2; o++)
        options[o] = (struct fit_option){.need = o % NEEDS, .money = o < NEEDS ? 10 : 20};
    const struct fit_model m = {.options = options,
                                .needs = needs,
                                .limits = &purse,
                                .n_options = NEEDS + 2,
                                .n_needs = NEEDS,
                                .n_limits = 1};
    struct fit_clash clash = fit_clash_of(&arena, &m, FIT_NODES);
    assert_true(clash.wide && clash.proven);
    assert_int_equal(clash.n, 1);
    assert_int_equal(clash.helps_most, 0);
    assert_int_equal(clash.members[0].kind, FIT_LIMIT);
    assert_int_equal(clash.members[0].total, 200);
    assert_int_equal(clash.members[0].raise, 50);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(next_best_equal_brute_force),
        cmocka_unit_test(choice_flips_at_its_price),
        cmocka_unit_test(clash_is_one_and_no_larger),
        cmocka_unit_test(short_purse_clashes_with_all),
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}
