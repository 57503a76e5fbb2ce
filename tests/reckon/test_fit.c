/* test_fit.c - random small models against trying everything. */
#include "reckon/random_fit.h"

#include "reckon/near.h"

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

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(equals_brute_force),
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}
