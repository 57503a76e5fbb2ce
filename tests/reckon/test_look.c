/* test_look.c - worth of a look against a textbook case, closed forms, and a two-level simulation.
 */
#include "base/random.h"
#include "reckon/look.h"

#include "reckon/near.h"

static struct arena arena;

static int open_arena(void **state)
{
    (void)state;
    arena = arena_open(64 << 20);
    return 0;
}

static int close_arena(void **state)
{
    (void)state;
    arena_close(&arena);
    return 0;
}

/* Source: Goferbroke Company, Hillier & Lieberman, decision analysis. Drill: 700 if oil, -100 if
 * dry; sell: 90; P(oil) 1/4. Perfect information is worth 142.5. A survey that says favourable with
 * 0.6 if oil and 0.2 if dry is worth 53. Of each 20 runs of a half 3 are oil and favourable, 2 oil
 * and not, 3 dry and favourable, 12 neither: the sample has the exact odds, so the answers are
 * exact. */
static void goferbroke(void **state)
{
    (void)state;
    enum { RUNS = 160 };
    int oil[RUNS], favourable[RUNS];
    double net[2 * RUNS], certain[2 * RUNS];

    for (int r = 0; r < RUNS; r++) {
        int k = (r / 2) % 20; /* the same in both halves, which are the even and the odd runs */
        oil[r] = k < 5;
        favourable[r] = k < 3 || (k >= 5 && k < 8);
        net[r] = oil[r] ? 700 : -100;
        net[RUNS + r] = 90;
        certain[r] = net[r];
        certain[RUNS + r] = 1000; /* a choice that is best whatever is found */
    }
    const struct {
        const int *shows;
        const double *net;
        double gain;
        bool tells;
    } cases[] = {
        {oil, net, 142.5, true},
        {favourable, net, 53, true},
        {oil, certain, 0, false},
    };
    for (size_t k = 0; k < sizeof cases / sizeof cases[0]; k++) {
        struct look look = {.runs = RUNS, .shows = cases[k].shows, .outcomes = 2};
        struct look_worth w = look_worth_of(&look, cases[k].net, 2, arena);
        assert_near(w.gain, cases[k].gain, 1e-12);
        assert_int_equal(w.tells, cases[k].tells);
    }
    /* The error is that of the mean gain: 0 in 3 of 4 runs' worth of oil, 190 where dry and sold.
     */
    struct look look = {.runs = RUNS, .shows = oil, .outcomes = 2};
    struct look_worth w = look_worth_of(&look, net, 2, arena);
    assert_near(w.error, 190 * sqrt(0.25 * 0.75 / (RUNS - 1)), 1e-12);
}

/* An outcome that is too rare to choose by, or to fit a band to, is not used, however good it
 * looks. */
static void rare_outcomes(void **state)
{
    (void)state;
    enum { RUNS = 400 };
    int shows[RUNS] = {0};
    double net[2 * RUNS] = {0}, quantity[RUNS];
    struct look look = {.runs = RUNS, .shows = shows, .outcomes = 3};

    for (int r = 0; r < RUNS; r++) {
        net[RUNS + r] = -100;
        quantity[r] = 5;
    }
    for (int rare = 0; rare <= LOOK_FEWEST; rare++) {
        double share = rare == LOOK_FEWEST ? 2.0 * rare / RUNS : 0;
        assert_near(look_worth_of(&look, net, 2, arena).gain, 100 * share, 1e-12);
        /* The others' band is 5 to 5; the rare one's, once it is told, 1005 to 1005. */
        struct look_narrowing narrow = look_narrowing_of(&look, quantity, arena);
        assert_near(narrow.worth.gain, 10 * 1000 * share, 1e-9);
        for (int r = 2 * rare; r < 2 * rare + 2; r++) { /* one more in each half */
            shows[r] = 2;
            net[RUNS + r] = 100;
            quantity[r] = 1005;
        }
    }
}

static double normal_density(double z)
{
    return exp(-z * z / 2) / sqrt(2 * acos(-1));
}

/* Closed form. Choice 0 nets 0, choice 1 nets m + s X + t Y, X and Y standard normal, and the look
 * shows in which of GROUPS equally likely intervals X lies. E[X | interval] is GROUPS times the
 * fall of the density over it, so that the value is the mean of max(0, m + s E[X | interval]), less
 * max(0, m). */
static void two_choices_normal(void **state)
{
    (void)state;
    enum { RUNS = 40000, GROUPS = 20 };
    static const struct {
        double m, s, t;
        bool tells;
    } cases[] = {{0, 1, 1, true}, {-1, 2, 3, true}, {0.5, 1, 0.1, true}, {3, 0.5, 2, false}};
    int *shows = ARENA_ARRAY(&arena, int, RUNS);
    double *net = ARENA_ARRAY(&arena, double, 2 * RUNS);

    for (size_t k = 0; k < sizeof cases / sizeof cases[0]; k++) {
        double m = cases[k].m, s = cases[k].s, expected = 0, before = 0;
        for (int g = 0; g < GROUPS; g++) {
            double after =
                g + 1 == GROUPS ? 0 : normal_density(normal_quantile((g + 1) / (double)GROUPS));
            expected += fmax(0, m + s * GROUPS * (before - after)) / GROUPS;
            before = after;
        }
        expected -= fmax(0, m);
        double whole = s * normal_density(m / s) + m * normal_cdf(m / s) - fmax(0, m);
        assert_true(expected <= whole + 1e-12 &&
                    expected > 0.97 * whole - 1e-3); /* little lost by groups */

        for (uint32_t r = 0; r < RUNS; r++) {
            struct philox w = random_words(11, k, r, 0);
            double u = random_unit(w.word[0]);
            shows[r] = (int)(u * GROUPS);
            net[RUNS + r] = m + s * normal_quantile(u) + cases[k].t * random_normal(w.word[1]);
        }
        struct look look = {.runs = RUNS, .shows = shows, .outcomes = GROUPS};
        struct look_worth got = look_worth_of(&look, net, 2, arena);
        assert_near(got.gain, expected, 4 * got.error + 1e-3);
        assert_true(got.error > 0 || !cases[k].tells);
        assert_true(got.error < 0.03);
        assert_int_equal(got.tells, cases[k].tells);
    }
}

/* Three small problems without a closed form: a component is sound, worn or failed; three choices;
 * a cost that is the product of skewed draws. */
enum { CONDITIONS = 3, CHOICES = 3, PROBLEMS = 3 };
static const double condition_chance[CONDITIONS] = {0.5, 0.3, 0.2};

static double net_of(int problem, int choice, int condition, double z1, double z2)
{
    double hours = 10 * (condition + 1) * exp(0.4 * z1), bill = 200 * condition * exp(0.6 * z2);
    double worth = 900 * exp(0.2 * z2), fails = z1 > 1.5 - condition;
    switch (problem * CHOICES + choice) {
    /* what becomes of a pump */
    case 0:
        return 500 - 20 * hours - bill; /* mend what is there */
    case 1:
        return 250 - 5 * hours; /* an exchange unit */
    case 2:
        return 150 + 30 * sin(z1 * z2) - condition; /* leave it */
    /* what becomes of a vehicle; its market and its bill go together */
    case 3:
        return worth - bill - 3 * hours;
    case 4:
        return 0.6 * worth * (1 - 0.2 * condition);
    case 5:
        return 430;
    /* to use it as it is: it may fail on the way, the more the worse it is */
    case 6:
        return 200 - 600 * fails;
    case 7:
        return 60 - 200 * fails * fails * exp(-z2 * z2);
    default:
        return -40 * exp(0.1 * z2);
    }
}

/* Two levels: for each condition its own inner draws, as many as make their error small beside the
 * other. */
static double two_level_value(int problem)
{
    enum { INNER = 40000 };
    double overall[CHOICES] = {0}, informed = 0;
    for (int c = 0; c < CONDITIONS; c++) {
        double mean[CHOICES] = {0};
        for (uint32_t r = 0; r < INNER; r++) {
            struct philox w = random_words(21, (uint64_t)c, r, 1);
            for (int d = 0; d < CHOICES; d++) {
                mean[d] +=
                    net_of(problem, d, c, random_normal(w.word[0]), random_normal(w.word[1])) /
                    INNER;
            }
        }
        informed += condition_chance[c] * fmax(mean[0], fmax(mean[1], mean[2]));
        for (int d = 0; d < CHOICES; d++) overall[d] += condition_chance[c] * mean[d];
    }
    return informed - fmax(overall[0], fmax(overall[1], overall[2]));
}

static void against_two_levels(void **state)
{
    (void)state;
    enum { RUNS = 8000 };
    int *shows = ARENA_ARRAY(&arena, int, RUNS), *nothing = ARENA_ARRAY(&arena, int, RUNS);
    double *net = ARENA_ARRAY(&arena, double, CHOICES *RUNS);

    for (int problem = 0; problem < PROBLEMS; problem++) {
        for (uint32_t r = 0; r < RUNS; r++) {
            struct philox w = random_words(22, 0, r, 0);
            double u = random_unit(w.word[2]);
            shows[r] = u < condition_chance[0] ? 0 : u < 1 - condition_chance[2] ? 1 : 2;
            nothing[r] = (int)(w.word[3] % 8);
            for (int d = 0; d < CHOICES; d++) {
                net[d * RUNS + (int)r] = net_of(problem, d, shows[r], random_normal(w.word[0]),
                                                random_normal(w.word[1]));
            }
        }
        double expected = two_level_value(problem);
        struct look look = {.runs = RUNS, .shows = shows, .outcomes = CONDITIONS};
        struct look_worth got = look_worth_of(&look, net, CHOICES, arena);
        assert_true(expected > 10 && got.error < expected / 10);
        assert_near(got.gain, expected, 4 * got.error);
        assert_true(got.tells);

        look = (struct look){.runs = RUNS, .shows = nothing, .outcomes = 8};
        got = look_worth_of(&look, net, CHOICES, arena);
        assert_false(got.tells);
        assert_near(got.gain, 0, 4 * got.error + 1e-9);
    }
}

/* ---- signs ---- */

enum { STATES = 4, SIGNS = 3, FEW = 40 };

/* Chances of states in FEW-ths, odds of signs, and what each choice nets in each state. */
struct small {
    int share[STATES];
    double odds[STATES * SIGNS], net[CHOICES][STATES];
};

static struct small small_problem(uint32_t number)
{
    struct small p;
    int left = FEW;
    for (uint32_t k = 0; k < STATES; k++) {
        struct philox w = random_words(71, number, k, 0), v = random_words(71, number, k, 1);
        p.share[k] = k + 1 == STATES ? left : 4 + (int)(w.word[0] % 8);
        left -= p.share[k];
        double sum = 0;
        for (int s = 0; s < SIGNS; s++)
            sum += p.odds[k * SIGNS + (uint32_t)s] = 0.02 + pow(random_unit(w.word[s + 1]), 4);
        for (int s = 0; s < SIGNS; s++) p.odds[k * SIGNS + (uint32_t)s] /= sum;
        for (int d = 0; d < CHOICES; d++) p.net[d][k] = 100 * random_unit(v.word[d]);
    }
    return p;
}

/* Runs in the exact shares, in both halves. */
enum { EXACT = 20, SMALL_RUNS = 2 * FEW * EXACT };
static void spread_out(const struct small *p, int *state, double *net)
{
    for (int r = 0; r < SMALL_RUNS; r++) {
        int at = (r / 2) % FEW, k = 0;
        while (at >= p->share[k]) at -= p->share[k++];
        state[r] = k;
        for (int d = 0; d < CHOICES; d++) net[d * SMALL_RUNS + r] = p->net[d][k];
    }
}

/* By enumeration: the best choice after each sign, and what that gives on average. */
static double enumerate(const struct small *p, int after[SIGNS], double chance[SIGNS])
{
    double informed = 0, blind = -1e9;
    for (int s = 0; s <= SIGNS; s++) { /* the last: no sign */
        double best = -1e9, all = 0;
        for (int k = 0; k < STATES; k++)
            all += p->share[k] * (s < SIGNS ? p->odds[k * SIGNS + s] : 1) / FEW;
        for (int d = 0; d < CHOICES; d++) {
            double mean = 0;
            for (int k = 0; k < STATES; k++)
                mean += p->share[k] * (s < SIGNS ? p->odds[k * SIGNS + s] : 1) / FEW * p->net[d][k];
            if (mean <= best) continue;
            best = mean;
            if (s < SIGNS) after[s] = d;
        }
        if (s == SIGNS) {
            blind = best;
        } else {
            informed += best;
            chance[s] = all;
        }
    }
    return informed - blind;
}

static void signs_against_enumeration(void **state)
{
    (void)state;
    enum { PROBLEMS_MANY = 60 };
    static int shows[SMALL_RUNS];
    static double net[CHOICES * SMALL_RUNS], quantity[SMALL_RUNS];
    int worth_something = 0;
    for (uint32_t n = 0; n < PROBLEMS_MANY; n++) {
        struct small p = small_problem(n);
        int after[SIGNS] = {0}, leading = 0;
        double chance[SIGNS];
        spread_out(&p, shows, net);
        for (int r = 0; r < SMALL_RUNS; r++) quantity[r] = 10 * shows[r];
        double expected = enumerate(&p, after, chance), best = -1e9;
        struct look look = {SMALL_RUNS, shows, STATES, p.odds, SIGNS};
        struct look_worth got = look_worth_of(&look, net, CHOICES, arena);
        assert_near(got.gain, expected, 1e-9);
        worth_something += expected > 0.1;

        for (int d = 0; d < CHOICES; d++) {
            double mean = 0;
            for (int k = 0; k < STATES; k++) mean += p.share[k] * p.net[d][k];
            if (mean > best) best = mean, leading = d;
        }
        struct look_sign signs[SIGNS];
        look_signs_of(&look, net, CHOICES, leading, quantity, signs, arena);
        for (int s = 0; s < SIGNS; s++) {
            double mean = 0;
            for (int k = 0; k < STATES; k++)
                mean += p.share[k] * p.odds[k * SIGNS + s] / FEW * 10 * k / chance[s];
            assert_near(signs[s].chance, chance[s], 1e-12);
            assert_near(signs[s].mean, mean, 1e-9);
            /* Another is told of only where it is better, and beyond doubt. */
            assert_true(signs[s].choice == after[s] || signs[s].choice == leading);
        }
    }
    assert_true(worth_something > PROBLEMS_MANY / 4);
}

/* A sign for each state is a look at it; signs as likely whatever is so tell nothing at all. */
static void the_ends_of_signs(void **state)
{
    (void)state;
    static int shows[SMALL_RUNS];
    static double net[CHOICES * SMALL_RUNS];
    static const double perfect[STATES * STATES] = {1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1};
    static const double nothing[STATES * SIGNS] = {0.5, 0.3, 0.2, 0.5, 0.3, 0.2,
                                                   0.5, 0.3, 0.2, 0.5, 0.3, 0.2};
    for (uint32_t n = 0; n < 20; n++) {
        struct small p = small_problem(n);
        spread_out(&p, shows, net);
        for (int r = 0; r < CHOICES * SMALL_RUNS; r++) /* no longer exact */
            net[r] += 30 * random_normal(random_words(72, n, (uint32_t)r, 0).word[0]);
        struct look look = {.runs = SMALL_RUNS, .shows = shows, .outcomes = STATES};
        struct look_worth seen = look_worth_of(&look, net, CHOICES, arena);
        look.signs = perfect;
        look.n_signs = STATES;
        struct look_worth shown = look_worth_of(&look, net, CHOICES, arena);
        assert_true(shown.gain == seen.gain && shown.error == seen.error);
        look.signs = nothing;
        look.n_signs = SIGNS;
        shown = look_worth_of(&look, net, CHOICES, arena);
        assert_true(shown.gain == 0 && shown.error == 0 && !shown.tells);
        struct look_sign signs[SIGNS];
        look_signs_of(&look, net, CHOICES, 0, NULL, signs, arena);
        assert_true(signs[0].choice == signs[1].choice && signs[1].choice == signs[2].choice);
        assert_near(signs[1].chance, 0.3, 1e-12);
    }
}

/* What a sign costs in certainty: never more than to see the thing itself, and less the weaker it
 * is. */
static void weaker_signs_are_worth_less(void **state)
{
    (void)state;
    static int shows[SMALL_RUNS];
    static double net[CHOICES * SMALL_RUNS];
    for (uint32_t n = 0; n < 20; n++) {
        struct small p = small_problem(n);
        double before = 1e9, odds[STATES * STATES];
        spread_out(&p, shows, net);
        for (int weak = 0; weak <= 4; weak++) {
            for (int k = 0; k < STATES * STATES; k++)
                odds[k] = (k / STATES == k % STATES) * (1 - weak / 4.0) + weak / 4.0 / STATES;
            struct look look = {SMALL_RUNS, shows, STATES, odds, STATES};
            double gain = look_worth_of(&look, net, CHOICES, arena).gain;
            assert_true(gain <= before + 1e-9 && gain >= -1e-9);
            before = gain;
        }
        assert_near(before, 0, 1e-9);
    }
}

/* Without the halves a useless look seems worth something: many small groups, equal choices. */
static void useless_look_is_not_flattered(void **state)
{
    (void)state;
    enum { RUNS = 2000, OUTCOMES = 40, REPEATS = 200 };
    int shows[RUNS], told = 0;
    static double net[2 * RUNS];
    double sum = 0, same_draws = 0;

    for (uint32_t k = 0; k < REPEATS; k++) {
        double by_outcome[2][OUTCOMES] = {{0}}, total[2] = {0};
        for (uint32_t r = 0; r < RUNS; r++) {
            struct philox w = random_words(31, k, r, 0);
            shows[r] = (int)(w.word[2] % OUTCOMES);
            for (int d = 0; d < 2; d++) {
                net[d * RUNS + (int)r] = random_normal(w.word[d]);
                by_outcome[d][shows[r]] += net[d * RUNS + (int)r];
                total[d] += net[d * RUNS + (int)r];
            }
        }
        struct look look = {.runs = RUNS, .shows = shows, .outcomes = OUTCOMES};
        struct look_worth got = look_worth_of(&look, net, 2, arena);
        sum += got.gain;
        told += got.tells;
        for (int o = 0; o < OUTCOMES; o++) same_draws += fmax(by_outcome[0][o], by_outcome[1][o]);
        same_draws -= fmax(total[0], total[1]);
    }
    /* sd of a gain is at most that of the difference of two nets, sqrt(2); the mean gain's error:
     */
    double error = sqrt(2.0 / RUNS / REPEATS);
    assert_true(same_draws / RUNS / REPEATS > 20 * error); /* the flattery that is kept out */
    assert_near(sum / REPEATS, 0, 4 * error);
    /* One side of two errors is 2.3 % of a normal. */
    assert_share((double)told / REPEATS, 0.0228, REPEATS, 0.01);
}

/* Closed form: the quantity is 80 or 120 plus a standard normal; the look shows which of the two,
 * or nothing. */
static void narrowing(void **state)
{
    (void)state;
    enum { RUNS = 20000 };
    double z90 = normal_quantile(0.9);
    int *shows = ARENA_ARRAY(&arena, int, RUNS), *nothing = ARENA_ARRAY(&arena, int, RUNS);
    double *quantity = ARENA_ARRAY(&arena, double, RUNS);

    for (uint32_t r = 0; r < RUNS; r++) {
        struct philox w = random_words(41, 0, r, 0);
        shows[r] = (int)(w.word[0] & 1);
        nothing[r] = (int)(w.word[2] & 1);
        quantity[r] = 100 + (shows[r] ? 20 : -20) + random_normal(w.word[1]);
    }
    struct look look = {.runs = RUNS, .shows = shows, .outcomes = 2};
    struct look_narrowing got = look_narrowing_of(&look, quantity, arena);
    /* The halves of the mixture do not meet, so its 90th percentile is the 80th of the upper one.
     * An error of a 10th percentile of n / 2 draws is sqrt(0.09 / n') / density, below 0.03 for
     * each end. */
    assert_near(got.band, 40 + 2 * normal_quantile(0.8), 0.1);
    assert_near(got.band_known, 2 * z90, 0.1);
    /* Of a normal the interval score at its true 10..90 % is 20 phi(z90), since the overshoot is
     * phi(z90) - 0.1 z90 a side; of the mixture width + 10 x (phi(z80) - 0.2 z80), a half of the
     * runs a side. */
    double z80 = normal_quantile(0.8);
    double without = 40 + 2 * z80 + 10 * (normal_density(z80) - 0.2 * z80);
    double with = 20 * normal_density(z90);
    assert_near(got.worth.gain, without - with, 4 * got.worth.error);
    assert_true(got.worth.tells && got.worth.error < 0.1);

    look = (struct look){.runs = RUNS, .shows = nothing, .outcomes = 2};
    got = look_narrowing_of(&look, quantity, arena);
    assert_false(got.worth.tells);
    assert_near(got.worth.gain, 0, 4 * got.worth.error + 0.01);
    assert_near(got.band, got.band_known, 0.2);
}

/* Many small groups that say nothing: the widths shrink by themselves, the score does not. */
static void narrow_by_chance_is_not_told(void **state)
{
    (void)state;
    enum { RUNS = 1200, OUTCOMES = 40 };
    int shows[RUNS];
    double quantity[RUNS];
    for (uint32_t r = 0; r < RUNS; r++) {
        struct philox w = random_words(51, 0, r, 0);
        shows[r] = (int)(r / 2 % OUTCOMES);
        quantity[r] = random_normal(w.word[0]);
    }
    struct look look = {.runs = RUNS, .shows = shows, .outcomes = OUTCOMES};
    struct look_narrowing got = look_narrowing_of(&look, quantity, arena);
    assert_true(got.band_known < got.band - 0.1);
    assert_false(got.worth.tells);
    assert_true(got.worth.gain < 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(goferbroke),
        cmocka_unit_test(rare_outcomes),
        cmocka_unit_test(two_choices_normal),
        cmocka_unit_test(against_two_levels),
        cmocka_unit_test(signs_against_enumeration),
        cmocka_unit_test(the_ends_of_signs),
        cmocka_unit_test(weaker_signs_are_worth_less),
        cmocka_unit_test(narrowing),
        cmocka_unit_test(useless_look_is_not_flattered),
        cmocka_unit_test(narrow_by_chance_is_not_told),
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}
