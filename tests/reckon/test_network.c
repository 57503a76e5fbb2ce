/* test_network.c - the critical path method against worked examples, and the refusal of cycles. */
#include "base/random.h"
#include "reckon/network.h"
#include "reckon/pert.h"
#include "reckon/quantile.h"

#include "reckon/near.h"
#include "reckon/reliable.h"

static struct arena arena;

static struct network make(int jobs, const struct network_link *links, int n_links)
{
    struct network n;
    struct network_cycle cycle;
    assert_true(network_make(&arena, jobs, links, n_links, &n, &cycle));
    assert_int_equal(cycle.count, 0);
    return n;
}

/* Source: Hillier & Lieberman, as in reliable.h: durations, project time 44, critical path and
 * slacks. */
static void reliable_passes(void **state)
{
    (void)state;
    static const struct {
        double d, early_start, early_finish, late_start, late_finish, total, free;
    } expected[RELIABLE_JOBS] = {
        [A] = {2, 0, 2, 0, 2, 0, 0},     [B] = {4, 2, 6, 2, 6, 0, 0},
        [C] = {10, 6, 16, 6, 16, 0, 0},  [D] = {6, 16, 22, 20, 26, 4, 0},
        [E] = {4, 16, 20, 16, 20, 0, 0}, [F] = {5, 20, 25, 20, 25, 0, 0},
        [G] = {7, 22, 29, 26, 33, 4, 0}, [H] = {9, 29, 38, 33, 42, 4, 0},
        [I] = {7, 16, 23, 18, 25, 2, 2}, [J] = {8, 25, 33, 25, 33, 0, 0},
        [K] = {4, 33, 37, 34, 38, 1, 1}, [L] = {5, 33, 38, 33, 38, 0, 0},
        [M] = {2, 38, 40, 42, 44, 4, 4}, [N] = {6, 38, 44, 38, 44, 0, 0},
    };
    static const int critical[] = {A, B, C, E, F, J, L, N};
    struct network n = make(RELIABLE_JOBS, reliable_links, RELIABLE_LINKS);
    double duration[RELIABLE_JOBS];
    int chain[RELIABLE_JOBS];

    for (int j = 0; j < RELIABLE_JOBS; j++) duration[j] = expected[j].d;
    struct network_times t = network_times_of(&arena, &n, duration);
    assert_near(t.finish, 44, 0);
    for (int j = 0; j < RELIABLE_JOBS; j++) {
        assert_near(t.early_start[j], expected[j].early_start, 0);
        assert_near(t.early_finish[j], expected[j].early_finish, 0);
        assert_near(t.late_start[j], expected[j].late_start, 0);
        assert_near(t.late_finish[j], expected[j].late_finish, 0);
        assert_near(t.total_float[j], expected[j].total, 0);
        assert_near(t.free_float[j], expected[j].free, 0);
    }
    assert_int_equal(network_chain(&n, t.early_start, t.early_finish, chain), 8);
    assert_memory_equal(chain, critical, sizeof critical);
}

/* Source: seven activities with fractions, the worked example of the encyclopedia article "Program
 * evaluation and review technique", which prints 19.51 from rounded means; exact 19.5. */
static void fractions_passes(void **state)
{
    (void)state;
    static const struct network_link links[] = {{0, 2}, {0, 3}, {1, 4}, {2, 4}, {3, 5}, {4, 6}};
    static const struct pert estimate[] = {{2, 4, 6}, {3, 5, 9}, {4, 5, 7}, {4, 6, 10},
                                           {4, 5, 7}, {3, 4, 8}, {3, 5, 8}};
    static const double early[] = {0, 0, 4, 4, 9 + 1 / 6.0, 10 + 1 / 3.0, 14 + 1 / 3.0};
    static const double slack[] = {0, 23 / 6.0, 0, 14 / 3.0, 0, 14 / 3.0, 0};
    static const int critical[] = {0, 2, 4, 6};
    struct network n = make(7, links, 6);
    double duration[7];
    int chain[7];

    for (int j = 0; j < 7; j++) duration[j] = pert_mean(estimate[j]);
    struct network_times t = network_times_of(&arena, &n, duration);
    assert_near(t.finish, 19.5, 1e-12);
    for (int j = 0; j < 7; j++) {
        assert_near(t.early_start[j], early[j], 1e-12);
        assert_near(t.total_float[j], slack[j], 1e-12);
        assert_near(t.late_start[j], early[j] + slack[j], 1e-12);
    }
    assert_int_equal(network_chain(&n, t.early_start, t.early_finish, chain), 4);
    assert_memory_equal(chain, critical, sizeof critical);
}

static void order_and_degenerate(void **state)
{
    (void)state;
    /* Numbered against the order of doing, with a link told twice and a job that stands alone. */
    static const struct network_link links[] = {{3, 2}, {2, 1}, {3, 1}, {3, 2}};
    static const double duration[] = {0, 1, 2, 3};
    struct network n = make(4, links, 4);
    double start[4], finish[4];
    int place[4], chain[4];

    for (int k = 0; k < 4; k++) place[n.order[k]] = k;
    for (int i = 0; i < 4; i++) assert_true(place[links[i].before] < place[links[i].after]);
    assert_near(network_forward(&n, duration, start, finish), 6, 0);
    assert_int_equal(network_chain(&n, start, finish, chain), 3);
    assert_int_equal(chain[0], 3);
    assert_int_equal(chain[2], 1);

    n = make(0, NULL, 0);
    assert_near(network_forward(&n, NULL, start, finish), 0, 0);
    assert_int_equal(network_chain(&n, start, finish, chain), 0);
}

static void cycles_are_told(void **state)
{
    (void)state;
    static const struct {
        struct network_link links[8];
        int count, length;
    } cases[] = {
        {{{0, 0}}, 1, 1},
        {{{0, 1}, {1, 0}}, 2, 2},
        {{{0, 1}, {1, 2}, {2, 3}, {3, 1}, {3, 4}}, 5, 3},         /* 0 before it, 4 behind it */
        {{{5, 0}, {0, 1}, {1, 5}, {5, 2}, {2, 3}, {3, 4}}, 6, 3}, /* a long tail behind it */
    };
    for (size_t k = 0; k < sizeof cases / sizeof cases[0]; k++) {
        struct network n;
        struct network_cycle cycle;
        assert_false(network_make(&arena, 6, cases[k].links, cases[k].count, &n, &cycle));
        assert_int_equal(cycle.count, cases[k].length);
        for (int i = 0; i < cycle.count; i++) {
            bool linked = false;
            for (int l = 0; l < cases[k].count; l++) {
                linked |= cases[k].links[l].before == cycle.job[i] &&
                          cases[k].links[l].after == cycle.job[(i + 1) % cycle.count];
            }
            assert_true(linked);
        }
    }
}

/* Reference: 10,000,000 independent draws of the same network by another program (mean 44.3272,
 * standard error 0.0009); odds known to 4 decimals, quantiles to 2, criticality to 3. */
static void reliable_simulated(void **state)
{
    (void)state;
    enum { RUNS = 20000 };
    static const struct {
        double at, chance;
    } odds[] = {{44, 0.4736}, {47, 0.8163}, {50, 0.9675}};
    static const struct {
        double p, at;
    } quantile[] = {{0.05, 39.72}, {0.10, 40.63}, {0.50, 44.20},
                    {0.80, 46.81}, {0.90, 48.21}, {0.95, 49.37}};
    static const double criticality[RELIABLE_JOBS] = {
        [A] = 1,     [B] = 1,     [C] = 1,     [D] = 0.098, [E] = 0.831, [F] = 0.831, [G] = 0.098,
        [H] = 0.098, [I] = 0.071, [J] = 0.902, [K] = 0.157, [L] = 0.744, [M] = 0.098, [N] = 0.902,
    };
    struct network n = make(RELIABLE_JOBS, reliable_links, RELIABLE_LINKS);
    double *finish_of_all = ARENA_ARRAY(&arena, double, RUNS);
    int times_critical[RELIABLE_JOBS] = {0};

    for (uint32_t r = 0; r < RUNS; r++) {
        double duration[RELIABLE_JOBS], start[RELIABLE_JOBS], finish[RELIABLE_JOBS];
        int chain[RELIABLE_JOBS];
        for (int j = 0; j < RELIABLE_JOBS; j++) {
            double u = random_unit(random_words(44, (uint64_t)j, r, 0).word[0]);
            duration[j] = pert_quantile(reliable_estimate[j], u);
        }
        finish_of_all[r] = network_forward(&n, duration, start, finish);
        int length = network_chain(&n, start, finish, chain);
        for (int i = 0; i < length; i++) times_critical[chain[i]]++;
    }
    struct quantiles q = quantiles_of(finish_of_all, RUNS, arena);
    assert_near(q.mean, 44.3272, 4 * 2.9340 / sqrt(RUNS) + 0.0009);
    assert_near(q.sd, 2.9340, 4 * 2.9340 / sqrt(2.0 * RUNS));
    for (size_t i = 0; i < sizeof odds / sizeof odds[0]; i++) {
        int under = 0;
        for (int r = 0; r < RUNS; r++) under += finish_of_all[r] <= odds[i].at;
        assert_share((double)under / RUNS, odds[i].chance, RUNS, 0.00005);
    }
    for (size_t i = 0; i < sizeof quantile / sizeof quantile[0]; i++) {
        int under = 0;
        for (int r = 0; r < RUNS; r++) under += finish_of_all[r] <= quantile[i].at;
        /* Half a hundredth of a week is at most 0.0007 of the odds: the density peaks below 0.14.
         */
        assert_share((double)under / RUNS, quantile[i].p, RUNS, 0.0007);
    }
    for (int j = 0; j < RELIABLE_JOBS; j++) {
        assert_share((double)times_critical[j] / RUNS, criticality[j], RUNS, 0.0005);
    }
}

/* Sources: C. E. Clark, Operations Research 9 (1961) 145-162 (two correlated normals); L. H. C.
 * Tippett, Biometrika 17 (1925) (largest of n equal normals). Two jobs that end together are the
 * maximum. */
static void merge_bias(void **state)
{
    (void)state;
    enum { RUNS = 40000 };
    static const struct {
        double m1, s1, m2, s2, r, mean, sd, first_larger;
    } cases[] = {
        {10, 2, 10, 2, 0, 11.1283791671, 1.6512905424, 0.5},
        {10, 2, 11, 3, 0.3, 11.7876234850, 2.3940081740, 0.3721501248},
        {20, 4, 20, 4, 0.5, 21.5957691216, 3.6679041578, 0.5},
        {30, 1, 25, 1, 0, 30.0000717621, 0.9998205761, 0.9997965240},
    };
    struct network n = make(2, NULL, 0);
    double *last = ARENA_ARRAY(&arena, double, RUNS);

    for (size_t k = 0; k < sizeof cases / sizeof cases[0]; k++) {
        int first_last = 0;
        for (uint32_t run = 0; run < RUNS; run++) {
            struct philox w = random_words(9, k, run, 0);
            double x = random_normal(w.word[0]), y = random_normal(w.word[1]), r = cases[k].r;
            double duration[2] = {cases[k].m1 + cases[k].s1 * x,
                                  cases[k].m2 + cases[k].s2 * (r * x + sqrt(1 - r * r) * y)};
            double start[2], finish[2];
            int chain[2];
            last[run] = network_forward(&n, duration, start, finish);
            network_chain(&n, start, finish, chain);
            first_last += chain[0] == 0;
        }
        struct quantiles q = quantiles_of(last, RUNS, arena);
        assert_near(q.mean, cases[k].mean, 4 * cases[k].sd / sqrt(RUNS));
        assert_near(q.sd, cases[k].sd, 4 * cases[k].sd / sqrt(2.0 * RUNS));
        assert_share((double)first_last / RUNS, cases[k].first_larger, RUNS, 0);
    }
}

static int open_arena(void **state)
{
    (void)state;
    arena = arena_open(16 << 20);
    return 0;
}

static int close_arena(void **state)
{
    (void)state;
    arena_close(&arena);
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reliable_passes),      cmocka_unit_test(fractions_passes),
        cmocka_unit_test(order_and_degenerate), cmocka_unit_test(cycles_are_told),
        cmocka_unit_test(reliable_simulated),   cmocka_unit_test(merge_bias),
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}
