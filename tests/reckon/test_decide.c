/* test_decide.c - the published drilling case, and what must hold of any table of values. */
#include "base/random.h"
#include "reckon/decide.h"
#include "reckon/look.h"

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

/* Published: the Goferbroke Company, F. S. Hillier & G. J. Lieberman, chapter on decision analysis.
 * Thousands of dollars; drill or sell, oil in one of four. */
enum { DRILL, SELL, CHOICES, LANDS = 20 };
static const double given_oil[] = {700, 90}, given_dry[] = {-100, 90};

static void goferbroke(void **state)
{
    (void)state;
    double value[CHOICES * LANDS];
    for (int c = 0; c < CHOICES; c++)
        for (int i = 0; i < LANDS; i++)
            value[c * LANDS + i] = i < LANDS / 4 ? given_oil[c] : given_dry[c];
    struct decide d = decide_of(&arena, value, CHOICES, LANDS);
    assert_int_equal(d.leading, DRILL);
    assert_int_equal(d.runner, SELL);
    assert_int_equal(d.safest, SELL);
    assert_near(d.choices[DRILL].mean, 100, 1e-12);
    assert_near(d.choices[SELL].mean, 90, 1e-12);
    assert_near(d.ahead, 10, 1e-12);
    assert_near(d.choices[DRILL].least, -100, 0);
    assert_near(d.choices[DRILL].best, 0.25, 1e-12);
    assert_near(d.choices[SELL].loses, 0.25, 1e-12);
    assert_false(d.choices[SELL].dominated);
    /* The regret of the best choice is what perfect information is worth. */
    assert_near(d.choices[DRILL].regret, 142.5, 1e-12);
    assert_near(d.choices[SELL].regret, 0.25 * 610, 1e-12);
    assert_near(d.choices[DRILL].regret_90, 190, 1e-12);
    assert_near(d.choices[SELL].regret_90, 610, 1e-12);
}

static void break_even(void **state)
{
    (void)state;
    static const struct {
        double prior, chance;
        int to;
    } cases[] = {{0.25, 0.2375, SELL}, {0.9, 0.2375, SELL}, {0.1, 0.2375, DRILL}};
    struct decide_change change;
    for (size_t k = 0; k < sizeof cases / sizeof *cases; k++) {
        assert_true(decide_break_even(given_oil, given_dry, CHOICES, cases[k].prior, &change));
        assert_near(change.t, cases[k].chance, 1e-12);
        assert_int_equal(change.to, cases[k].to);
    }
    /* The likeliest state alone, dry: to sell, as if oil had no chance. */
    assert_true(decide_break_even(given_oil, given_dry, CHOICES, 0, &change));
    assert_int_equal(change.to, DRILL);
    /* At a price of 800 for the land nothing makes drilling better. */
    static const double oil[] = {700, 800}, dry[] = {-100, 800};
    assert_false(decide_break_even(oil, dry, CHOICES, 0.25, &change));
    /* What the land would have to fetch: the seller's line rises by 1. */
    static const double at[] = {100, 90}, slope[] = {0, 1}, level[] = {1, 1};
    assert_true(decide_change_of(at, slope, CHOICES, DRILL, &change));
    assert_near(change.t, 10, 1e-12);
    assert_false(decide_change_of(at, level, CHOICES, DRILL, &change));
    /* Of three the nearest is taken. */
    static const double three[] = {10, 4, 7}, turns[] = {0, 3, 1};
    assert_true(decide_change_of(three, turns, 3, 0, &change));
    assert_int_equal(change.to, 1);
    assert_near(change.t, 2, 1e-12);
}

/* Whatever the table: shares sum to 1, regrets differ as means do, the leading one regrets least,
 * and a choice dominated run by run is dominated. */
static void any_table(void **state)
{
    (void)state;
    enum { RUNS = 500, MANY = 4 };
    double value[MANY * RUNS];
    for (uint32_t k = 0; k < 30; k++) {
        for (uint32_t i = 0; i < RUNS; i++) {
            struct philox w = random_words(71, k, i, 0);
            for (uint32_t c = 0; c < MANY; c++) value[c * RUNS + i] = random_normal(w.word[c]);
            value[3 * RUNS + i] = value[i] - 0.1; /* worse than the first in every run */
        }
        struct decide d = decide_of(&arena, value, MANY, RUNS);
        double best = 0;
        for (int c = 0; c < MANY; c++) {
            best += d.choices[c].best;
            assert_true(d.choices[c].regret >= d.choices[d.leading].regret - 1e-12);
            assert_near(d.choices[c].regret - d.choices[d.leading].regret,
                        d.choices[d.leading].mean - d.choices[c].mean, 1e-12);
            assert_true(d.choices[c].regret_90 >= 0);
        }
        assert_near(best, 1, 1e-9);
        assert_true(d.leading != 3 && d.choices[3].best == 0);
        if (d.leading == 0) assert_true(d.choices[3].dominated && d.choices[3].loses == 1);
    }
    /* Alike in all: nobody dominates, and the runs are shared out. */
    for (int i = 0; i < RUNS; i++) value[i] = value[RUNS + i] = i;
    struct decide d = decide_of(&arena, value, 2, RUNS);
    assert_near(d.choices[0].best, 0.5, 1e-9);
    assert_true(!d.choices[0].dominated && !d.choices[1].dominated && d.ahead_error == 0);
}

/* ---- the worth of a look, from one set of runs, against two levels of them ---- */

enum { MOST_CHOICES = 3 };

/* Three small problems: what the look shows is one of a few states; the rest is noise that the
 * choices feel differently. */
struct problem {
    const char *name;
    int states, choices;
    double chance[4];
    double (*value)(int choice, int state, double z1, double z2);
};

/* A gearbox: leave it, rebuild it, or change it for another of a known price. */
static double gearbox(int choice, int s, double z1, double z2)
{
    static const double bill[] = {50, 400, 1500, 2500};
    return choice == 0   ? 3000 - 2.2 * bill[s] * exp(0.3 * z1)
           : choice == 1 ? 2600 - bill[s] * exp(0.2 * z1)
                         : 2050 + 100 * z2;
}

/* Sills: go on, or sell; the loss is bent, and the market moves both. */
static double sills(int choice, int s, double z1, double z2)
{
    double market = 500 * z1;
    return choice == 0 ? 5000 - 1800 * s * s - 300 * fabs(z2) + market : 2000 + 0.6 * market;
}

/* Paper: a find that is worth much, and seldom there. */
static double papers(int choice, int s, double z1, double z2)
{
    return choice == 0 ? 1000 + 200 * z1 : (s == 2 ? 4200 : s == 1 ? 900 : 500) + 300 * z2;
}

static const struct problem problems[] = {
    {"gearbox", 4, 3, {0.3, 0.3, 0.25, 0.15}, gearbox},
    {"sills", 3, 2, {0.5, 0.3, 0.2}, sills},
    {"papers", 3, 2, {0.6, 0.3, 0.1}, papers},
};

static double two_levels(const struct problem *p, double *error)
{
    enum { INNER = 40000 };
    double overall[MOST_CHOICES] = {0}, informed = 0, best = -INFINITY, variance = 0;
    for (int s = 0; s < p->states; s++) {
        double mean[MOST_CHOICES] = {0}, squares[MOST_CHOICES] = {0}, top = -INFINITY, most = 0;
        for (uint32_t r = 0; r < INNER; r++) {
            struct philox w = random_words(81, (uint64_t)s, r, 7);
            double z1 = random_normal(w.word[0]), z2 = random_normal(w.word[1]);
            for (int c = 0; c < p->choices; c++) {
                double v = p->value(c, s, z1, z2);
                mean[c] += v / INNER;
                squares[c] += v * v / INNER;
            }
        }
        for (int c = 0; c < p->choices; c++) {
            top = fmax(top, mean[c]);
            most = fmax(most, (squares[c] - mean[c] * mean[c]) / INNER);
            overall[c] += p->chance[s] * mean[c];
        }
        informed += p->chance[s] * top;
        variance += 4 * p->chance[s] * p->chance[s] * most; /* of the difference, at the most */
    }
    for (int c = 0; c < p->choices; c++) best = fmax(best, overall[c]);
    *error = sqrt(variance);
    return informed - best;
}

static void one_level_is_two_levels(void **state)
{
    (void)state;
    enum { RUNS = 10000 };
    int *shows = ARENA_ARRAY(&arena, int, RUNS);
    double *value = ARENA_ARRAY(&arena, double, MOST_CHOICES *RUNS);
    for (size_t k = 0; k < sizeof problems / sizeof *problems; k++) {
        const struct problem *p = &problems[k];
        for (uint32_t r = 0; r < RUNS; r++) {
            struct philox w = random_words(82, k, r, 0);
            double u = random_unit(w.word[2]);
            shows[r] = 0;
            for (double sum = p->chance[0]; u > sum && shows[r] < p->states - 1;)
                sum += p->chance[++shows[r]];
            for (int c = 0; c < p->choices; c++)
                value[c * RUNS + (int)r] =
                    p->value(c, shows[r], random_normal(w.word[0]), random_normal(w.word[1]));
        }
        double error, expected = two_levels(p, &error);
        struct look look = {.runs = RUNS, .shows = shows, .outcomes = p->states};
        struct look_worth got = look_worth_of(&look, value, p->choices, arena);
        double within = 3 * sqrt(got.error * got.error + error * error);
        assert_true(expected > 3 * within); /* so that agreeing says something */
        assert_near(got.gain, expected, within);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(goferbroke),
        cmocka_unit_test(break_even),
        cmocka_unit_test(any_table),
        cmocka_unit_test(one_level_is_two_levels),
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}
