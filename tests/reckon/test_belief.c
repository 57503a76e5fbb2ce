/* test_belief.c - odds of condition against brute force: a fine double integral, draws kept only
 * where they agree with the findings, and the law of total variance. */
#include "reckon/belief.h"

#include "base/random.h"
#include "reckon/draw.h"
#include "reckon/forecast.h"
#include "reckon/near.h"
#include "reckon/random_project.h"
#include "reckon/small_project.h"

#include <string.h>

static struct arena arena;

static void odds_come_back_from_cuts(void **state)
{
    (void)state;
    struct dice dice = {3, 0};
    for (int i = 0; i < 500; i++) {
        double odds[COND_COUNT] = {0}, sum = 0, cut[COND_COUNT - 1], back[COND_COUNT];
        for (int c = 0; c < COND_MISSING; c++)
            sum += odds[c] = dice_chance(&dice, 0.2) ? 0 : dice_unit(&dice);
        if (sum <= 0) continue;
        for (int c = 0; c < COND_MISSING; c++) odds[c] /= sum;
        double missing = dice_chance(&dice, 0.3) ? 0 : 0.5 * dice_unit(&dice);
        belief_cuts(odds, 0, missing, cut);
        belief_odds_of_cuts(cut, back);
        for (int c = 0; c < COND_MISSING; c++) assert_near(back[c], odds[c] * (1 - missing), 2e-9);
        assert_near(back[COND_MISSING], missing, 2e-9);
        /* A shift of d moves every boundary: P(z + d <= cut) of the unshifted cuts. */
        double shift = 2 * dice_unit(&dice) - 1, plain[COND_COUNT - 1], below = 0, moved = 0;
        belief_cuts(odds, 0, 0, plain);
        belief_cuts(odds, shift, 0, cut);
        belief_odds_of_cuts(cut, back);
        for (int c = 0; c < COND_FAILED; c++) {
            below = normal_cdf(plain[c] - shift);
            moved += back[c];
            assert_near(moved, below, 2e-9);
        }
    }
}

/* A worked case: half sound, half failed, shifted by one standard deviation: Phi(-1) = 0.158655
 * sound; a tenth missing leaves nine tenths of that. Phi(1) = 0.841345, any table of the normal
 * distribution. */
static void shifted_by_one(void **state)
{
    (void)state;
    const double odds[COND_COUNT] = {[COND_SOUND] = 0.5, [COND_FAILED] = 0.5};
    double cut[COND_COUNT - 1], back[COND_COUNT];
    belief_cuts(odds, 1, 0.1, cut);
    belief_odds_of_cuts(cut, back);
    assert_near(back[COND_SOUND], 0.9 * 0.158655, 1e-6);
    assert_near(back[COND_WORN], 0, 1e-9);
    assert_near(back[COND_FAILED], 0.9 * 0.841345, 1e-6);
    assert_near(back[COND_MISSING], 0.1, 1e-9);
}

/* ---- small cases ---- */

/* Components 0 and 1 are of one kind, 2 is of another; what is known of 0 and 2, what is asked of 1
 * or 2. */
struct tale {
    double state, kind;
    int known[3];
    int asked;
};

static const struct tale tales[] = {
    {0.3, 0.4, {COND_FAILED, -1, -1}, 1},          {0.3, 0.4, {COND_SOUND, -1, -1}, 1},
    {0.3, 0.4, {COND_FAILED, -1, -1}, 2},          {0.2, 0.5, {COND_WORN, -1, COND_POOR}, 1},
    {0.5, 0.2, {COND_MISSING, -1, COND_SOUND}, 1}, {0.0, 0.6, {COND_BODGED, -1, -1}, 1},
    {0.4, 0.0, {COND_FAILED, -1, COND_FAILED}, 1}, {0.1, 0.1, {COND_POOR, COND_SOUND, -1}, 2},
};
enum { TALES = sizeof tales / sizeof tales[0] };

static struct small s;

static void tell(const struct tale *t)
{
    small_begin(&s);
    static const double odds[3][COND_COUNT] = {{0.25, 0.30, 0.20, 0.05, 0.20, 0},
                                               {0.35, 0.25, 0.15, 0.10, 0.15, 0},
                                               {0.10, 0.40, 0.20, 0.10, 0.20, 0}};
    static const char *const names[] = {"left", "right", "tank"};
    for (int i = 0; i < 3; i++) {
        struct project_component *c = &s.components[small_component(&s, names[i], t->known[i])];
        belief_cuts(odds[i], 0, 0.05, c->cut);
        c->state = t->state;
        c->kind_share = t->kind;
        c->kind = i < 2 ? 0 : 1;
    }
    small_session(&s, 0, 100);
    small_job(&s, "job", 1);
}

static double in_cell(const struct project_component *c, int cell, double centre, double spread)
{
    double upto = cell < COND_COUNT - 1 ? normal_cdf((c->cut[cell] - centre) / spread) : 1;
    double from = cell > 0 ? normal_cdf((c->cut[cell - 1] - centre) / spread) : 0;
    return upto - from;
}

/* Sums over S and the two kinds on grids much finer and wider than the reckoner's, written anew
 * from the model. */
static void by_integration(const struct tale *t, double odds[COND_COUNT])
{
    enum { STEPS = 640 };
    const double low = -8, step = 16.0 / STEPS, own = sqrt(1 - t->state - t->kind);
    memset(odds, 0, COND_COUNT * sizeof *odds);
    double total = 0;
    for (int i = 0; i <= STEPS; i++) {
        double S = low + step * i, kinds[2] = {0, 0}, asked[COND_COUNT] = {0};
        for (int kind = 0; kind < 2; kind++)
            for (int k = 0; k <= STEPS; k++) {
                double K = low + step * k, w = exp(-K * K / 2);
                double centre = sqrt(t->state) * S + sqrt(t->kind) * K;
                for (int c = 0; c < 3; c++)
                    if (s.components[c].kind == kind && t->known[c] >= 0)
                        w *= in_cell(&s.components[c], t->known[c], centre, own);
                kinds[kind] += w;
                if (s.components[t->asked].kind != kind) continue;
                for (int c = 0; c < COND_COUNT; c++)
                    asked[c] += w * in_cell(&s.components[t->asked], c, centre, own);
            }
        double prior = exp(-S * S / 2), other = kinds[1 - s.components[t->asked].kind];
        total += prior * kinds[0] * kinds[1];
        for (int c = 0; c < COND_COUNT; c++) odds[c] += prior * other * asked[c];
    }
    for (int c = 0; c < COND_COUNT; c++) odds[c] /= total;
}

static void posterior_is_the_integral(void **state)
{
    (void)state;
    double worst = 0;
    for (int i = 0; i < TALES; i++) {
        struct arena a = arena;
        double expected[COND_COUNT], got[COND_COUNT];
        tell(&tales[i]);
        struct belief b = belief_of(&a, &s.p);
        belief_odds(&b, &s.p, tales[i].asked, got);
        by_integration(&tales[i], expected);
        for (int c = 0; c < COND_COUNT; c++) {
            assert_near(got[c], expected[c],
                        3e-5); /* where findings contradict each other; else 1e-6 */
            worst = fmax(worst, fabs(got[c] - expected[c]));
        }
    }
    print_message("largest difference from the integral: %.1e\n", worst);
}

static int cell_of(const struct project_component *c, double z)
{
    int cell = 0;
    while (cell < COND_COUNT - 1 && z > c->cut[cell]) cell++;
    return cell;
}

/* Draws of the plain model, kept only where they agree with the findings; and draw_run with the
 * findings known. */
static void posterior_is_what_is_left_by_rejection(void **state)
{
    (void)state;
    enum { DRAWS = 200000, RUNS = 20000 };
    int compared = 0;
    for (int i = 0; i < TALES; i++) {
        struct arena a = arena;
        const struct tale *t = &tales[i];
        tell(t);
        double odds[COND_COUNT];
        struct belief b = belief_of(&a, &s.p);
        belief_odds(&b, &s.p, t->asked, odds);
        int kept = 0, seen[COND_COUNT] = {0};
        double state_sum = 0, state_squares = 0;
        for (uint32_t run = 0; run < DRAWS; run++) {
            struct philox w = random_words(7, (uint64_t)i, run, 0),
                          v = random_words(7, (uint64_t)i, run, 1);
            double S = random_normal(w.word[0]);
            double K[2] = {random_normal(w.word[1]), random_normal(w.word[2])};
            int cell[3];
            bool agrees = true;
            for (int c = 0; c < 3; c++) {
                double z = sqrt(t->state) * S + sqrt(t->kind) * K[s.components[c].kind] +
                           sqrt(1 - t->state - t->kind) * random_normal(v.word[c]);
                cell[c] = cell_of(&s.components[c], z);
                agrees = agrees && (t->known[c] < 0 || t->known[c] == cell[c]);
            }
            if (!agrees) continue;
            kept++;
            seen[cell[t->asked]]++;
            state_sum += S;
            state_squares += S * S;
        }
        bool enough = kept > 500; /* findings that contradict each other are too rare */
        compared += enough;
        for (int c = 0; c < COND_COUNT && enough; c++)
            assert_share((double)seen[c] / kept, odds[c], kept, 0);

        struct drawn d = drawn_new(&a, &s.p);
        int drawn[COND_COUNT] = {0};
        double drawn_state = 0, drawn_squares = 0, work;
        for (uint32_t run = 0; run < RUNS; run++) {
            draw_run(&s.p, &b, 19, run, -1, &d, &work);
            for (int c = 0; c < 3; c++)
                if (t->known[c] >= 0) assert_int_equal(d.condition[c], t->known[c]);
            drawn[d.condition[t->asked]]++;
            drawn_state += d.state;
            drawn_squares += d.state * d.state;
        }
        /* 1e-3: draws of S and K are even within a cell of the grid, an eighth and a sixth of a
         * deviation wide. */
        for (int c = 0; c < COND_COUNT; c++)
            assert_share((double)drawn[c] / RUNS, odds[c], RUNS, 1e-3);
        if (!enough) continue;
        double error = 4 * sqrt(1.0 / kept + 1.0 / RUNS);
        assert_near(drawn_state / RUNS, state_sum / kept, error);
        assert_near(drawn_squares / RUNS, state_squares / kept, error * 2);
    }
    assert_int_equal(compared, TALES - 1);
}

/* ---- sense ---- */

static double badness(const double odds[COND_COUNT])
{
    double worse = 0;
    for (int c = COND_POOR; c < COND_COUNT; c++) worse += odds[c];
    return worse;
}

static void findings_speak_of_siblings(void **state)
{
    (void)state;
    struct dice dice = {5, 0};
    for (int i = 0; i < 40; i++) {
        struct arena a = arena;
        double share = 0.05 + 0.4 * dice_unit(&dice), kind = 0.05 + 0.4 * dice_unit(&dice);
        tell(&(struct tale){share, kind, {-1, -1, -1}, 1});
        struct belief b = belief_of(&a, &s.p);
        double prior[3][COND_COUNT], got[COND_COUNT], before[3] = {-1, -1, -1};
        for (int c = 0; c < 3; c++) {
            double plain[COND_COUNT];
            belief_odds_of_cuts(s.components[c].cut, plain);
            belief_odds(&b, &s.p, c, prior[c]);
            for (int k = 0; k < COND_COUNT; k++)
                assert_near(prior[c][k], plain[k], 1e-6); /* without findings */
        }
        assert_false(b.informed);
        /* The worse one is found, the worse are the others, its sibling more than the tank. */
        for (int found = 0; found < COND_COUNT; found++) {
            s.components[0].known = found;
            b = belief_of(&a, &s.p);
            belief_odds(&b, &s.p, 0, got);
            assert_near(got[found], 1, 0);
            double moved[3];
            for (int c = 1; c < 3; c++) {
                belief_odds(&b, &s.p, c, got);
                assert_true(badness(got) > before[c]);
                before[c] = badness(got);
                moved[c] = badness(got) - badness(prior[c]);
            }
            if (found == COND_SOUND) assert_true(moved[1] < 0 && moved[2] < 0);
            if (found == COND_MISSING) assert_true(moved[1] > 0 && moved[2] > 0);
            assert_true(fabs(moved[1]) > fabs(moved[2]) || found == COND_WORN ||
                        found == COND_POOR);
        }
    }
}

/* Wear: twice or half the usual miles, each in half of the runs, move the odds as the runs do; no
 * doubling at all leaves every bit as it was. */
static void wear_follows_the_miles(void **state)
{
    (void)state;
    enum { RUNS = 20000 };
    struct arena a = arena;
    tell(&(struct tale){0.3, 0.2, {-1, -1, -1}, 1});
    struct belief b = belief_of(&a, &s.p);
    double plain[COND_COUNT], none[COND_COUNT], worn[COND_COUNT], seen[COND_COUNT] = {0};
    belief_odds(&b, &s.p, 0, plain);
    s.components[0].wear = 0.5;
    belief_odds(&b, &s.p, 0, none);
    assert_memory_equal(none, plain, sizeof none);
    s.p.n_doublings = 4;
    s.p.doublings[0] = s.p.doublings[1] = 0;
    s.p.doublings[2] = s.p.doublings[3] = 2;
    b = belief_of(&a, &s.p);
    belief_odds(&b, &s.p, 0, worn);
    assert_true(badness(worn) > badness(plain));
    struct drawn drawn = drawn_new(&a, &s.p);
    for (uint32_t run = 0; run < RUNS; run++) {
        double work;
        draw_run(&s.p, &b, 11, run, -1, &drawn, &work);
        seen[drawn.condition[0]] += 1.0 / RUNS;
    }
    /* the odds take the doublings as normal, which two equal heaps are not quite */
    for (int c = 0; c < COND_COUNT; c++) assert_share(seen[c], worn[c], RUNS, 0.01);
    s.p.n_doublings = 0;
    s.components[0].wear = 0;
}

/* A finding that the odds call impossible is kept and tells nothing. */
static void impossible_findings(void **state)
{
    (void)state;
    tell(&(struct tale){0.3, 0.3, {COND_BODGED, -1, -1}, 1});
    const double odds[COND_COUNT] = {0.6, 0.4, 0, 0, 0, 0};
    for (int c = 0; c < 2; c++) belief_cuts(odds, 0, 0, s.components[c].cut);
    struct belief b = belief_of(&arena, &s.p);
    double got[COND_COUNT];
    belief_odds(&b, &s.p, 0, got);
    assert_near(got[COND_BODGED], 1, 0);
    belief_odds(&b, &s.p, 1, got);
    assert_near(got[COND_SOUND], 0.6, 1e-6);
    assert_near(got[COND_WORN], 0.4, 1e-6);
}

/* ---- a look narrows, on average ---- */

struct moments {
    double mean, variance, error; /* error: standard error of the variance */
};

static struct moments moments_of(const double *x, int n)
{
    struct moments m = {0};
    double fourth = 0;
    for (int i = 0; i < n; i++) m.mean += x[i] / n;
    for (int i = 0; i < n; i++) {
        double d = x[i] - m.mean;
        m.variance += d * d / n;
        fourth += d * d * d * d / n;
    }
    m.error = sqrt(fmax(fourth - m.variance * m.variance, 0) / n);
    return m;
}

static void forecast_moments(struct arena a, const struct project *p, uint64_t seed, int runs,
                             struct moments out[2])
{
    struct belief b = belief_of(&a, p);
    const struct dispatch *d = dispatch_prepare(&a, p, NULL);
    struct forecast_ask ask = {.seed = seed, .runs = runs, .threads = 2, .without = -1};
    struct forecast fc = forecast_run(&a, p, &b, d, &ask);
    double *finish = ARENA_ARRAY(&a, double, runs);
    for (int i = 0; i < runs; i++) {
        assert_int_not_equal(fc.finish[i], NEVER);
        finish[i] = fc.finish[i];
    }
    out[0] = moments_of(fc.cost, runs);
    out[1] = moments_of(finish, runs);
}

/* Var(Y) = E[Var(Y | X)] + Var(E[Y | X]): over what a look at X shows, weighted with its odds, the
 * variance of cost and of finish does not grow on average, and what it loses is the spread of the
 * means. */
static void total_variance(void **state)
{
    (void)state;
    enum { RUNS = 4000, WITH = RANDOM_COMPONENTS | RANDOM_PARTS | RANDOM_SETBACKS | RANDOM_WAITS };
    int looks = 0, told = 0;
    for (uint64_t seed = 0; seed < 4; seed++) {
        struct arena a = arena;
        struct project p = random_project(&a, seed, WITH, 8);
        struct moments before[2];
        forecast_moments(a, &p, 40 + seed, RUNS, before);
        struct belief b = belief_of(&a, &p);
        for (int x = 0; x < p.n_components; x += 2) {
            if (p.components[x].known >= 0) continue;
            double odds[COND_COUNT];
            belief_odds(&b, &p, x, odds);
            struct moments after[COND_COUNT][2];
            for (int c = 0; c < COND_COUNT; c++) {
                p.components[x].known = c;
                if (odds[c] > 1e-6)
                    forecast_moments(a, &p, 50 + seed + (uint64_t)c, RUNS, after[c]);
            }
            p.components[x].known = -1;
            looks++;
            for (int y = 0; y < 2; y++) {
                double within = 0, mean = 0, between = 0, error = pow(before[y].error, 2);
                for (int c = 0; c < COND_COUNT; c++) {
                    if (odds[c] <= 1e-6) continue;
                    within += odds[c] * after[c][y].variance;
                    mean += odds[c] * after[c][y].mean;
                    error += pow(odds[c] * after[c][y].error, 2);
                }
                for (int c = 0; c < COND_COUNT; c++)
                    if (odds[c] > 1e-6) between += odds[c] * pow(after[c][y].mean - mean, 2);
                error = sqrt(error);
                assert_true(within <= before[y].variance + 4 * error);
                assert_near(within + between, before[y].variance,
                            4 * error + 6 * before[y].variance / RUNS);
                assert_near(mean, before[y].mean, 4 * sqrt(2 * before[y].variance / RUNS));
                told += between > 25 * before[y].variance / RUNS; /* of chance it is about 5 */
            }
        }
    }
    print_message("%d looks, of which %d tell something of cost or finish\n", looks, told);
    assert_true(looks > 15 && told > 5);
}

static int open_arena(void **state)
{
    (void)state;
    arena = arena_open((size_t)1 << 27);
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
        cmocka_unit_test(odds_come_back_from_cuts),
        cmocka_unit_test(shifted_by_one),
        cmocka_unit_test(posterior_is_the_integral),
        cmocka_unit_test(posterior_is_what_is_left_by_rejection),
        cmocka_unit_test(findings_speak_of_siblings),
        cmocka_unit_test(wear_follows_the_miles),
        cmocka_unit_test(impossible_findings),
        cmocka_unit_test(total_variance),
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}
