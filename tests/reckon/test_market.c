/* test_market.c - few sales lean on what was thought, many speak for themselves, and the one that
 * pulls is found. */
#include "base/random.h"
#include "reckon/market.h"

#include "reckon/near.h"

static struct arena arena;

static int open_arena(void **state)
{
    (void)state;
    arena = arena_open(1 << 26);
    return 0;
}

static int close_arena(void **state)
{
    (void)state;
    arena_close(&arena);
    return 0;
}

enum { MANY = 400 };

/* Sales as a market of known habits makes them. */
static void market_of(uint64_t seed, int n, double scatter, struct market_sale *out)
{
    for (int i = 0; i < n; i++) {
        struct philox w = random_words(seed, 0, (uint32_t)i, 0),
                      v = random_words(seed, 0, (uint32_t)i, 1);
        struct market_sale s = {.asked = random_unit(w.word[0]) < 0.5,
                                .years = 3 * random_unit(w.word[1]),
                                .grade = 1 + (int)(5 * random_unit(w.word[2])),
                                .original = random_unit(w.word[3]),
                                .kilometres = 400 * random_unit(v.word[1])};
        s.price = 10000 * exp(0.15 * s.asked - 0.04 * s.years - 0.4 * (s.grade - 3) +
                              0.3 * (s.original - 1) + scatter * random_normal(v.word[0]));
        out[i] = s;
    }
}

static void many_sales_speak_for_themselves(void **state)
{
    (void)state;
    struct market_sale sales[MANY];
    struct market m;
    market_of(5, MANY, 0.2, sales);
    assert_true(market_fit(&arena, sales, MANY, &m));
    for (int grade = 1; grade <= 5; grade++) {
        struct points p = market_worth(&m, grade, 0.8, arena);
        double median = log(10000) - 0.4 * (grade - 3) - 0.06;
        assert_true(points_valid(p));
        assert_near(log(p.middle), median, 0.08);
        /* The band of one more sale: nearly the market's own. */
        assert_near(log(p.high / p.middle), 0.2 * 1.28155, 0.03);
        assert_near(log(p.middle / p.low), log(p.high / p.middle), 1e-9);
    }
}

/* In four of five cases one more sale lies within the band, at five sales too: over many markets
 * whose habits are drawn from what is thought beforehand, the band is right. */
static void the_band_keeps_its_word(void **state)
{
    (void)state;
    enum { MARKETS = 4000, SALES = 5 };
    int below = 0, within = 0;
    for (uint32_t k = 0; k < MARKETS; k++) {
        struct philox w = random_words(91, k, 0, 0), v = random_words(91, k, 0, 1),
                      u = random_words(91, k, 0, 2);
        /* A chi-square of four degrees is twice the sum of two exponentials. */
        double chi = -2 * (log(random_unit(w.word[0])) + log(random_unit(w.word[1])));
        double s = 0.25 * sqrt(4 / chi), by = s / 0.25, level = 8 + random_normal(u.word[2]);
        double asked = 0.10 + 0.08 * by * random_normal(w.word[2]);
        double years = 0.05 * by * random_normal(w.word[3]);
        double grade = -0.30 + 0.12 * by * random_normal(v.word[0]);
        double original = 0.25 + 0.20 * by * random_normal(v.word[1]);
        double away = 0.10 * by * random_normal(v.word[2]);
        struct market_sale sales[SALES];
        for (uint32_t i = 0; i < SALES; i++) {
            struct philox x = random_words(92, k, i, 0), y = random_words(92, k, i, 1);
            sales[i] = (struct market_sale){.asked = x.word[0] & 1,
                                            .years = 2 * random_unit(x.word[1]),
                                            .grade = 2 + (int)(3 * random_unit(x.word[2])),
                                            .original = random_unit(x.word[3]),
                                            .kilometres = 300 * random_unit(y.word[0])};
            sales[i].price =
                exp(level + asked * sales[i].asked + years * sales[i].years +
                    grade * (sales[i].grade - 3) + original * (sales[i].original - 1) +
                    away * log1p(sales[i].kilometres / 100) + s * random_normal(y.word[1]));
        }
        struct market m;
        assert_true(market_fit(&arena, sales, SALES, &m));
        double truth = exp(level + 2 * grade - 0.3 * original + s * random_normal(u.word[3]));
        struct points p = market_worth(&m, 5, 0.7, arena);
        below += truth < p.low;
        within += truth >= p.low && truth <= p.high;
    }
    assert_share((double)below / MARKETS, 0.1, MARKETS, 0);
    assert_share((double)within / MARKETS, 0.8, MARKETS, 0);
}

static void five_are_needed_and_sane(void **state)
{
    (void)state;
    struct market_sale sales[5];
    struct market m;
    for (int i = 0; i < 5; i++)
        sales[i] = (struct market_sale){.price = 8000 + 500 * i, .grade = 3, .original = 1};
    assert_false(market_fit(&arena, sales, 4, &m));
    assert_true(market_fit(&arena, sales, 5, &m));
    struct points same = market_worth(&m, 3, 1, arena), worse = market_worth(&m, 5, 1, arena);
    assert_near(same.middle, exp((log(8000) + log(8500) + log(9000) + log(9500) + log(10000)) / 5),
                1e-6);
    /* No sale tells of grades: two steps are what was thought, and wider. */
    assert_near(worse.middle / same.middle, exp(-0.6), 1e-9);
    assert_true(log(worse.high / worse.low) > log(same.high / same.low));
    /* An asked price is taken down, a far one only widened. */
    for (int i = 0; i < 5; i++) sales[i].asked = true;
    assert_true(market_fit(&arena, sales, 5, &m));
    assert_near(market_worth(&m, 3, 1, arena).middle, same.middle * exp(-0.1), 1e-6);
    /* In another unit it is the same market. */
    for (int i = 0; i < 5; i++) sales[i].price *= 100;
    assert_true(market_fit(&arena, sales, 5, &m));
    assert_near(market_worth(&m, 3, 1, arena).middle, 100 * same.middle * exp(-0.1), 1e-4);
}

static void the_one_that_pulls(void **state)
{
    (void)state;
    struct market_sale sales[7];
    struct market m;
    market_of(6, 7, 0.05, sales);
    sales[4].price *= 3;
    assert_true(market_fit(&arena, sales, 7, &m));
    double grade = sales[4].grade, original = sales[4].original;
    struct market_pull pull = market_pull_of(&m, grade, original, arena);
    assert_int_equal(pull.sale, 4);
    double with = market_worth(&m, grade, original, arena).middle;
    sales[4] = sales[6];
    assert_true(market_fit(&arena, sales, 6, &m));
    assert_near(pull.factor, with / market_worth(&m, grade, original, arena).middle, 1e-9);
    assert_true(pull.factor > 1.1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(many_sales_speak_for_themselves),
        cmocka_unit_test(the_band_keeps_its_word),
        cmocka_unit_test(five_are_needed_and_sane),
        cmocka_unit_test(the_one_that_pulls),
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}
