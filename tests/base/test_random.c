#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/random.h"
#include "base/random_many.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(array) (sizeof(array) / sizeof *(array))

/* Published: known-answer vectors of the Random123 library (its tests/kat_vectors), for the
 * generator of Salmon, Moraes, Dror & Shaw, "Parallel random numbers: as easy as 1, 2, 3", SC 2011.
 */
static void philox_gives_the_known_answers(void **state)
{
    (void)state;
    static const struct {
        uint32_t counter[4], key[2], answer[4];
    } cases[] = {
        {{0, 0, 0, 0}, {0, 0}, {0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8}},
        {{0xffffffff, 0xffffffff, 0xffffffff, 0xffffffff},
         {0xffffffff, 0xffffffff},
         {0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd}},
        {{0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344},
         {0xa4093822, 0x299f31d0},
         {0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1}},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        const struct philox got = philox4x32_10(cases[i].counter, cases[i].key);
        assert_memory_equal(got.word, cases[i].answer, sizeof got.word);
    }
}

/* The place of seed, stream, run and index in counter and key is part of the contract: stored
 * results depend on it. The third vector above, spelled as one draw. */
static void a_draw_is_keyed_as_told(void **state)
{
    (void)state;
    const struct philox got =
        random_words(0x299f31d0a4093822u, 0x0370734413198a2eu, 0x243f6a88, 0x85a308d3);
    assert_int_equal(got.word[0], 0xd16cfe09);
    assert_int_equal(got.word[3], 0x24126ea1);
}

/* Published: the three check values of AS 241 (Wichura 1988); the rest reckoned to 30 digits from
 * the inverse of the normal integral. 1e-10 and 1e-20 reach the far region. */
static void quantiles_are_right(void **state)
{
    (void)state;
    static const struct {
        double p, z;
    } cases[] = {
        {0.25, -0.67448975019608174}, {0.001, -3.0902323061678135}, {1e-20, -9.2623400897984076},
        {0.3, -0.52440051270804078},  {0.6, 0.2533471031357998},    {0.074, -1.4466320671589785},
        {0.075, -1.4395314709384559}, {1e-5, -4.2648907939228246},  {0.99999, 4.2648907939228246},
        {1e-10, -6.3613409024040562}, {0.8, 0.8416212335729144},    {0.9, 1.281551565544601},
        {0.95, 1.644853626951472},    {0.975, 1.959963984540054},   {0.99, 2.326347874040841},
        {0.995, 2.5758293035489},     {0.999, 3.090232306167813},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        /* 1 - p is known to 1.1e-16 only: near 1 that alone moves z by up to 3e-12. */
        const double tolerance = cases[i].p > 0.99 ? 3e-12 : 2e-15 * (1 + fabs(cases[i].z));
        const double z = normal_quantile(cases[i].p);
        if (fabs(z - cases[i].z) > tolerance) fail_msg("p %g: %.17g", cases[i].p, z);
    }
    assert_true(normal_quantile(0.5) == 0.0);
}

/* Reckoned to 30 digits. */
static void cdf_is_right(void **state)
{
    (void)state;
    static const struct {
        double z, p;
    } cases[] = {
        {-8, 6.2209605742717841e-16},
        {-5, 2.8665157187919391e-7},
        {-3, 0.0013498980316300945},
        {-1.5, 0.066807201268858066},
        {-1, 0.15865525393145705},
        {-0.5, 0.3085375387259869},
        {0, 0.5},
        {0.5, 0.6914624612740131},
        {1, 0.84134474606854295},
        {1.96, 0.97500210485177957},
        {2.5, 0.99379033467422386},
        {4, 0.99996832875816688},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        const double p = normal_cdf(cases[i].z);
        if (fabs(p - cases[i].p) > 1e-12 * cases[i].p) fail_msg("z %g: %.17g", cases[i].z, p);
    }
}

/* Property: quantile and integral undo each other, and the quantile rises, across the seams of its
 * regions too (p = 0.075, 0.925, e^-25). */
static void quantile_undoes_cdf(void **state)
{
    (void)state;
    double last = -INFINITY;
    for (int i = -4000; i <= 2000; i++) {
        const double z = i / 500.0;
        const double back = normal_quantile(normal_cdf(z));
        /* The density turns a rounding of p into one of z. */
        const double density = exp(-z * z / 2) * 0.3989422804014327;
        const double slack = 1e-14 * (1 + fabs(z)) + (z > 0 ? 4e-16 / density : 0);
        if (fabs(back - z) > slack) fail_msg("z %g: %.17g", z, back);
    }
    for (uint32_t word = 0; word < 0xffff0000u; word += 65521) {
        const double z = random_normal(word);
        if (!(z > last)) fail_msg("word %u: %g after %g", word, z, last);
        last = z;
    }
}

/* Published: PPND7 gives about seven figures; here against PPND16. */
static void draws_are_the_quantile_to_seven_figures(void **state)
{
    (void)state;
    for (uint64_t word = 0; word <= UINT32_MAX; word += word < 100000 ? 1 : 9973) {
        const double exact = normal_quantile(random_unit((uint32_t)word));
        if (fabs(random_normal((uint32_t)word) - exact) > 1e-6)
            fail_msg("word %llu: %.9f", (unsigned long long)word, exact);
    }
}

static void units_stay_inside_the_open_interval(void **state)
{
    (void)state;
    assert_true(random_unit(0) > 0.0 && random_unit(UINT32_MAX) < 1.0);
    assert_true(random_unit(0) + random_unit(UINT32_MAX) == 1.0);
    assert_true(isfinite(random_normal(0)) && random_normal(0) == -random_normal(UINT32_MAX));
}

enum { DRAWS = 200000 };

/* Chi-square of 256 equal classes, for each of the four words and for streams that differ by one:
 * mean 255, variance 510; four standard deviations. */
static void words_are_even(void **state)
{
    (void)state;
    static int seen[4][256];
    for (uint64_t stream = 0; stream < 3; stream++) {
        memset(seen, 0, sizeof seen);
        for (uint32_t run = 0; run < DRAWS; run++) {
            const struct philox p = random_words(7, stream, run, 0);
            for (int w = 0; w < 4; w++) seen[w][p.word[w] >> 24]++;
        }
        for (int w = 0; w < 4; w++) {
            double chi = 0;
            const double expected = DRAWS / 256.0;
            for (int c = 0; c < 256; c++)
                chi += (seen[w][c] - expected) * (seen[w][c] - expected) / expected;
            if (fabs(chi - 255) > 4 * sqrt(510)) fail_msg("stream, word %d: %g", w, chi);
        }
    }
}

/* Normal draws of neighbouring streams, runs and indices: mean 0, variance 1, no correlation, each
 * within four standard errors. */
static void neighbours_are_independent(void **state)
{
    (void)state;
    static const struct {
        uint64_t seed, stream;
        uint32_t run, index;
    } steps[] = {
        {1, 0, 0, 0}, {0, 1, 0, 0}, {0, 0, 1, 0}, {0, 0, 0, 1}, {0, (uint64_t)1 << 32, 0, 0}};
    for (size_t i = 0; i < COUNT(steps); i++) {
        double sum = 0, squares = 0, products = 0;
        for (uint32_t run = 0; run < DRAWS; run++) {
            const double a = random_normal(random_words(3, 9, run, 4).word[0]);
            const double b = random_normal(random_words(3 + steps[i].seed, 9 + steps[i].stream,
                                                        run + steps[i].run, 4 + steps[i].index)
                                               .word[0]);
            sum += b;
            squares += b * b;
            products += a * b;
        }
        const double error = 1 / sqrt(DRAWS);
        if (fabs(sum / DRAWS) > 4 * error) fail_msg("step %zu: mean %g", i, sum / DRAWS);
        if (fabs(squares / DRAWS - 1) > 4 * error * sqrt(2))
            fail_msg("step %zu: variance %g", i, squares / DRAWS);
        if (fabs(products / DRAWS) > 4 * error) fail_msg("step %zu: r %g", i, products / DRAWS);
    }
}

static void many_at_a_time_are_the_same_as_one_by_one(void **state)
{
    (void)state;
    enum { MOST = 1000 };
    static uint64_t streams[MOST];
    static uint32_t first[MOST], second[MOST];
    static double z[MOST];
    static const int counts[] = {0, 1, 7, 8, 9, MOST};
    for (int i = 0; i < MOST; i++) {
        const struct philox w = random_words(5, 6, (uint32_t)i, 7);
        streams[i] = (uint64_t)w.word[0] << 32 | w.word[1];
    }
    for (size_t c = 0; c < COUNT(counts); c++) {
        const uint64_t seed = 0x9876543212345678u + c;
        random_words_many(seed, streams, counts[c], 41, first, second);
        random_normal_many(first, counts[c], z);
        for (int i = 0; i < counts[c]; i++) {
            const struct philox w = random_words(seed, streams[i], 41, 0);
            assert_int_equal(first[i], w.word[0]);
            assert_int_equal(second[i], w.word[1]);
            assert_true(z[i] == random_normal(w.word[0]));
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(philox_gives_the_known_answers),
        cmocka_unit_test(a_draw_is_keyed_as_told),
        cmocka_unit_test(quantiles_are_right),
        cmocka_unit_test(cdf_is_right),
        cmocka_unit_test(quantile_undoes_cdf),
        cmocka_unit_test(draws_are_the_quantile_to_seven_figures),
        cmocka_unit_test(units_stay_inside_the_open_interval),
        cmocka_unit_test(words_are_even),
        cmocka_unit_test(neighbours_are_independent),
        cmocka_unit_test(many_at_a_time_are_the_same_as_one_by_one),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
