/* test_quantile.c - quantiles against a plain sort, on samples that upset selection, and with
 * infinity. */
#include "base/random.h"
#include "reckon/quantile.h"

#include "reckon/near.h"

#include <stdlib.h>
#include <string.h>

static int compare(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* By definition: the smallest value that at least p n of the sample do not exceed. */
static double by_definition(const double *sorted, size_t n, size_t percent)
{
    size_t k = 0;
    while ((k + 1) * 100 < percent * n) k++;
    return sorted[k];
}

enum shape { DRAWN, RISING, FALLING, EQUAL, FEW, ORGAN, SOME_NEVER, SHAPES };

static double value_of(enum shape shape, size_t i, size_t n)
{
    uint32_t word = random_words(7, shape, (uint32_t)i, 0).word[0];
    switch (shape) {
    case DRAWN:
        return exp(random_normal(word));
    case RISING:
        return (double)i;
    case FALLING:
        return -(double)i;
    case FEW:
        return (double)(word % 3);
    case ORGAN:
        return (double)(i < n / 2 ? i : n - i);
    case SOME_NEVER:
        return word % 4 == 0 ? INFINITY : random_unit(word);
    case EQUAL:
    default:
        return 5;
    }
}

static void against_sorting(void **state)
{
    (void)state;
    static const size_t sizes[] = {1, 2, 3, 4, 5, 7, 10, 30, 70, 100, 101, 1000, 4000};
    static const size_t percents[] = {1, 5, 7, 10, 29, 50, 55, 80, 90, 99, 100};
    static double sample[4000], sorted[4000], work[4000];
    struct arena arena = arena_open(1 << 20);

    for (size_t s = 0; s < sizeof sizes / sizeof sizes[0]; s++) {
        for (int shape = 0; shape < SHAPES; shape++) {
            size_t n = sizes[s], bytes = n * sizeof(double);
            for (size_t i = 0; i < n; i++) sample[i] = value_of((enum shape)shape, i, n);
            memcpy(sorted, sample, bytes);
            qsort(sorted, n, sizeof(double), compare);
            for (size_t p = 0; p < sizeof percents / sizeof percents[0]; p++) {
                memcpy(work, sample, bytes);
                double got = quantile_of(work, n, (double)percents[p] / 100);
                assert_true(got == by_definition(sorted, n, percents[p]));
                qsort(work, n, sizeof(double), compare);
                assert_memory_equal(work, sorted, bytes); /* it only reorders */
            }
            memcpy(work, sample, bytes);
            struct quantiles q = quantiles_of(sample, n, arena);
            assert_memory_equal(work, sample, bytes);
            assert_true(q.p10 == by_definition(sorted, n, 10));
            assert_true(q.p50 == by_definition(sorted, n, 50));
            assert_true(q.p80 == by_definition(sorted, n, 80));
            assert_true(q.p90 == by_definition(sorted, n, 90));
        }
    }
    arena_close(&arena);
}

static void moments(void **state)
{
    (void)state;
    static const struct {
        double sample[8];
        size_t n;
        double mean, sd, finite;
    } cases[] = {
        {{5}, 1, 5, 0, 1},
        {{2, 4, 4, 4, 5, 5, 7, 9}, 8, 5, 2.13808993529939517, 1}, /* sqrt(32 / 7) */
        {{1e9 + 4, 1e9 + 7, 1e9 + 13, 1e9 + 16}, 4, 1e9 + 10, 5.47722557505166113, 1}, /* sqrt 30 */
        {{1, INFINITY, 3, 2}, 4, INFINITY, INFINITY, 0.75},
    };
    struct arena arena = arena_open(1 << 16);
    for (size_t k = 0; k < sizeof cases / sizeof cases[0]; k++) {
        struct quantiles q = quantiles_of(cases[k].sample, cases[k].n, arena);
        assert_near(q.finite, cases[k].finite, 0);
        if (isinf(cases[k].mean)) {
            assert_true(isinf(q.mean) && isinf(q.sd) && isinf(q.error));
            continue;
        }
        assert_near(q.mean, cases[k].mean, 0);
        assert_near(q.sd, cases[k].sd, 1e-14);
        assert_near(q.error, cases[k].sd / sqrt((double)cases[k].n), 1e-14);
    }
    /* Three of four finish: half are done by 2, and no date has 80 % behind it. */
    struct quantiles q = quantiles_of(cases[3].sample, 4, arena);
    assert_near(q.p50, 2, 0);
    assert_true(isinf(q.p80));
    arena_close(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(against_sorting),
        cmocka_unit_test(moments),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
