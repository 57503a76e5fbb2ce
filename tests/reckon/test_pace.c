/* test_pace.c - the pace update against a worked case, and against the joint normal of the whole
 * model; the share of sessions that happen. */
#include "base/random.h"
#include "reckon/habit.h"
#include "reckon/pace.h"

#include "reckon/near.h"

/* An even lognormal estimate of log sd 0.5 about 10 hours. */
static struct points even(void)
{
    double by = exp(0.5 * normal_quantile(0.9));
    return (struct points){10 / by, 10, 10 * by};
}

/* Form: Gelman et al., Bayesian Data Analysis, sec. 2.5. Case, computed for this purpose: ln f has
 * prior N(0, 0.3^2), each ln ratio sd 0.4; ratios 1.4, 1.1, 1.7, 0.9, 1.5. With s = 0.5 that is a =
 * 0.36, b = 0. */
static void productivity_factor(void **state)
{
    (void)state;
    static const double s = 0.5, ratio[] = {1.4, 1.1, 1.7, 0.9, 1.5};
    static const struct pace_shares shares = {.pace = 0.36, .state = 0};
    static const struct normal after[] = {{0.121130005184, 0.24},
                                          {0.114295345524, 0.205798302171},
                                          {0.201434790870, 0.182998284399},
                                          {0.148335603201, 0.166410058868},
                                          {0.186272743270, 0.153644255919}};
    struct pace_log log = {0}, backwards = {0};

    struct normal prior = pace_posterior(shares, &log, 1);
    assert_near(prior.mean, 0, 0);
    assert_near(prior.sd, 1, 0);
    for (int i = 0; i < 5; i++) {
        pace_log_add(&log, even(), 10 * ratio[i]);
        struct normal pace = pace_posterior(shares, &log, 1);
        assert_near(sqrt(shares.pace) * s * pace.mean, after[i].mean, 1e-11);
        assert_near(sqrt(shares.pace) * s * pace.sd, after[i].sd, 1e-11);
        pace_log_add(&backwards, even(), 10 * ratio[4 - i]);
    }
    struct normal pace = pace_posterior(shares, &backwards, 1);
    double mean = sqrt(shares.pace) * s * pace.mean, sd = sqrt(shares.pace) * s * pace.sd;
    assert_near(mean, after[4].mean, 1e-11); /* in whatever order */
    assert_near(exp(mean), 1.204750803245, 1e-10);
    assert_near(exp(mean + sd * sd / 2), 1.219055065252, 1e-10);

    struct normal next = pace_predict(shares, &log, 1, 0);
    double next_sd = s * next.sd;
    assert_near(s * next.mean, after[4].mean, 1e-11);
    assert_near(next_sd, 0.428493357448, 1e-11);
    assert_near(exp(s * next.mean + next_sd * next_sd / 2), 1.320586586971, 1e-10);
    assert_near(pace_quantile(even(), next, 0.8), 10 * 1.727891452110, 1e-9);
}

/* A job without spread says nothing; nor does one of points "none". */
static void silent_jobs(void **state)
{
    (void)state;
    struct pace_log log = {0};
    pace_log_add(&log, (struct points){4, 4, 4}, 9);
    pace_log_add(&log, (struct points){0, 0, 0}, 9);
    assert_int_equal(log.jobs, 0);
    pace_log_add(&log, (struct points){2, 4, 4}, 2);
    assert_int_equal(log.jobs, 1);
    assert_near(log.z_sum, -1.2815515655446, 1e-12);
}

/* With nothing logged the predictive quantiles are the job's own points, whatever the shares and
 * the skew. */
static void quantiles_come_back(void **state)
{
    (void)state;
    static const struct pace_shares shares = {.pace = 0.25, .state = 0.15};
    struct points p = {2, 5, 12};
    struct pace_log none = {0};
    struct normal z = pace_predict(shares, &none, 1, 0);
    assert_near(pace_quantile(p, z, 0.1), 2, 1e-12);
    assert_near(pace_quantile(p, z, 0.5), 5, 1e-12);
    assert_near(pace_quantile(p, z, 0.9), 12, 1e-12);
}

enum { MOST = 4 }; /* the pace, and the states of three vehicles */

/* Conditioning by plain linear algebra on the joint covariance, sharing nothing with pace.c: what
 * is known is worked out of `mean` and `cov` one observation at a time. */
struct joint {
    double mean[MOST], cov[MOST][MOST];
};

static void observe(struct joint *j, const double by[MOST], double noise, double value)
{
    double gain[MOST] = {0}, variance = noise, expected = 0;
    for (int i = 0; i < MOST; i++) {
        for (int k = 0; k < MOST; k++) gain[i] += j->cov[i][k] * by[k];
        expected += by[i] * j->mean[i];
    }
    for (int i = 0; i < MOST; i++) variance += by[i] * gain[i];
    for (int i = 0; i < MOST; i++) {
        j->mean[i] += gain[i] / variance * (value - expected);
        for (int k = 0; k < MOST; k++) j->cov[i][k] -= gain[i] * gain[k] / variance;
    }
}

static void against_joint_normal(void **state)
{
    (void)state;
    static const struct {
        struct pace_shares shares;
        int jobs[3];
        double z[3][4];
    } cases[] = {
        {{0.3, 0.2}, {3, 0, 0}, {{1.2, 0.4, 2}}},
        {{0.3, 0.2}, {3, 1, 0}, {{1.2, 0.4, 2}, {-1}}},
        {{0.3, 0.2}, {4, 2, 3}, {{1.2, 0.4, 2, -0.3}, {-1, -2}, {0.5, 0.6, 0.7}}},
        {{0, 0.5}, {2, 2, 0}, {{1, 2}, {-1, 0}}},
        {{0.5, 0}, {2, 2, 0}, {{1, 2}, {-1, 0}}},
    };
    for (size_t c = 0; c < sizeof cases / sizeof cases[0]; c++) {
        double a = cases[c].shares.pace, b = cases[c].shares.state;
        struct joint j = {0};
        struct pace_log logs[3] = {{0, 0}};
        for (int i = 0; i < MOST; i++) j.cov[i][i] = 1;
        for (int v = 0; v < 3; v++) {
            for (int i = 0; i < cases[c].jobs[v]; i++) {
                double by[MOST] = {sqrt(a)};
                by[1 + v] = sqrt(b);
                observe(&j, by, 1 - a - b, cases[c].z[v][i]);
                logs[v].jobs++;
                logs[v].z_sum += cases[c].z[v][i];
            }
        }
        struct normal pace = pace_posterior(cases[c].shares, logs, 3);
        assert_near(pace.mean, j.mean[0], 1e-12);
        assert_near(pace.sd, sqrt(j.cov[0][0]), 1e-12);
        for (int v = 0; v < 3; v++) {
            struct normal next = pace_predict(cases[c].shares, logs, 3, v);
            double variance = a * j.cov[0][0] + b * j.cov[1 + v][1 + v] +
                              2 * sqrt(a * b) * j.cov[0][1 + v] + 1 - a - b;
            assert_near(next.mean, sqrt(a) * j.mean[0] + sqrt(b) * j.mean[1 + v], 1e-12);
            assert_near(next.sd, sqrt(variance), 1e-12);
            /* S given P = 0.7 of the joint normal of the two. */
            struct normal at = pace_state(cases[c].shares, logs[v], 0.7);
            double lean = j.cov[0][1 + v] / j.cov[0][0];
            assert_near(at.mean, j.mean[1 + v] + lean * (0.7 - j.mean[0]), 1e-12);
            assert_near(at.sd, sqrt(j.cov[1 + v][1 + v] - lean * j.cov[0][1 + v]), 1e-12);
        }
    }
}

/* The same of a builder with one pace, two kinds of work and one vehicle, told job by job to the
 * joint normal; and what the root stands for is its covariance. */
static void kinds_of_work(void **state)
{
    (void)state;
    static const struct pace_shares shares = {.pace = 0.36, .state = 0.04, .kind = 0.1};
    static const struct {
        int jobs[2];
        double z[2][4];
    } cases[] = {{{0, 0}, {{0}}},
                 {{1, 0}, {{1.5}}},
                 {{4, 0}, {{1.2, 0.4, 2, 0.9}}},
                 {{4, 2}, {{1.2, 0.4, 2, 0.9}, {-1, -0.2}}}};
    struct arena arena = arena_open(1 << 16);
    for (size_t c = 0; c < sizeof cases / sizeof cases[0]; c++) {
        struct joint j = {0}; /* P, K of each kind, S */
        struct pace_cell cells[2] = {{.kind = 0}, {.kind = 1}};
        for (int i = 0; i < MOST; i++) j.cov[i][i] = 1;
        for (int k = 0; k < 2; k++)
            for (int i = 0; i < cases[c].jobs[k]; i++) {
                double by[MOST] = {sqrt(shares.pace), 0, 0, sqrt(shares.state)};
                by[1 + k] = sqrt(shares.kind);
                observe(&j, by, 0.5, cases[c].z[k][i]);
                cells[k].log.jobs++;
                cells[k].log.z_sum += cases[c].z[k][i];
            }
        struct arena here = arena;
        const struct pace_learned x = pace_learn(&here, shares, cells, 2, 1, 2);
        for (int i = 0; i < 3; i++) {
            assert_near(x.mean[i], j.mean[i], 1e-12);
            for (int k = 0; k < 3; k++) {
                double sum = 0;
                for (int n = 0; n < 3; n++) sum += x.root[3 * i + n] * x.root[3 * k + n];
                assert_near(sum, j.cov[i][k], 1e-12);
                if (k > i) assert_near(x.root[3 * i + k], 0, 0);
            }
        }
        const struct normal of = pace_of_kind(&x, shares, 0);
        const double variance = shares.pace * j.cov[0][0] + shares.kind * j.cov[1][1] +
                                2 * sqrt(shares.pace * shares.kind) * j.cov[0][1];
        assert_near(of.mean, 0.6 * j.mean[0] + sqrt(0.1) * j.mean[1], 1e-12);
        assert_near(of.sd, sqrt(variance), 1e-12);
        assert_near(pace_of_kind(&x, shares, -1).sd, 0.6 * sqrt(j.cov[0][0]), 1e-12);
    }
    arena_close(&arena);
}

/* With no kinds it is the pace of before, and so the worked case again. */
static void kinds_of_no_share(void **state)
{
    (void)state;
    static const struct pace_shares shares = {.pace = 0.36};
    static const double ratio[] = {1.4, 1.1, 1.7, 0.9, 1.5};
    struct arena arena = arena_open(1 << 16);
    struct pace_cell cells[2] = {{.kind = 0}, {.kind = 1}};
    for (int i = 0; i < 5; i++) pace_log_add(&cells[i % 2].log, even(), 10 * ratio[i]);
    const struct pace_learned x = pace_learn(&arena, shares, cells, 2, 1, 2);
    const struct normal of = pace_of_kind(&x, shares, 1);
    assert_near(0.5 * of.mean, 0.186272743270, 1e-11);
    assert_near(0.5 * of.sd, 0.153644255919, 1e-11);
    arena_close(&arena);
}

/* Little data leaves the prior nearly as it was, and a kind without data goes with the pace. */
static void shrinks(void **state)
{
    (void)state;
    static const struct pace_shares shares = {.pace = 0.36, .state = 0.04, .kind = 0.1};
    struct arena arena = arena_open(1 << 20);
    double before = 0;
    for (int jobs = 0; jobs <= 64; jobs = jobs ? 4 * jobs : 1) {
        struct pace_cell cell = {.log = {jobs, 1.5 * jobs}}; /* every one as slow: z = 1.5 */
        const struct pace_learned x = pace_learn(&arena, shares, &cell, 1, 1, 2);
        const struct normal own = pace_of_kind(&x, shares, 0), other = pace_of_kind(&x, shares, 1);
        if (jobs > 0) {
            assert_true(own.mean > before && own.mean < 1.5);
            assert_true(other.mean > 0 && other.mean < own.mean);
            assert_true(own.sd < other.sd);
        }
        before = own.mean;
    }
    assert_true(before > 1.3);
    arena_close(&arena);
}

/* ---- sessions and lay-offs ---- */

static const struct habit_prior usual = {.kept = 0.7,
                                         .kept_sessions = 20,
                                         .layoffs_a_month = 0.05,
                                         .layoff_months = 20,
                                         .layoff_weeks = 3,
                                         .layoff_count = 2};

/* Conjugate by hand: 14 + kept of 20 + planned; 1 + lay-offs in 20 + months; the mean of logs. */
static void sessions_and_layoffs(void **state)
{
    static const struct {
        const char *done; /* by week; '-': nothing was planned; two sessions a week */
        int planned, kept, layoffs, weeks;
        double layoff_weeks;
    } cases[] = {
        {"", 0, 0, 0, 0, 3},
        {"2121", 8, 6, 0, 4, 3},
        {"2003", 8, 4, 0, 4, 3},   /* two empty weeks are missed; a third session counts no more */
        {"20002", 4, 4, 1, 5, 3},  /* three are a lay-off */
        {"20-002", 4, 4, 1, 5, 3}, /* a week away does not end it */
        {"2000000", 2, 2, 1, 7, 3.7797631496846198}, /* exp((2 ln 3 + ln 6) / 3) */
        {"2--2", 4, 4, 0, 2, 3},
    };
    (void)state;
    for (size_t c = 0; c < sizeof cases / sizeof cases[0]; c++) {
        struct habit_week weeks[8];
        int n = 0;
        for (const char *s = cases[c].done; *s; s++)
            weeks[n++] = (struct habit_week){*s == '-' ? 0 : 2, *s == '-' ? 0 : *s - '0'};
        const struct habit h = habit_learn(usual, weeks, n);
        assert_int_equal(h.planned, cases[c].planned);
        assert_int_equal(h.kept, cases[c].kept);
        assert_int_equal(h.layoffs, cases[c].layoffs);
        assert_int_equal(h.weeks, cases[c].weeks);
        assert_near(habit_kept(&h), (14.0 + h.kept) / (20 + h.planned), 1e-12);
        assert_near(h.layoffs_a_month, (1.0 + h.layoffs) / (20 + h.weeks * 84 / 365.25), 1e-12);
        assert_near(h.layoff_weeks, cases[c].layoff_weeks, 1e-9);
        assert_true(habit_kept_quantile(&h, 0.1) < habit_kept(&h) &&
                    habit_kept_quantile(&h, 0.9) > habit_kept(&h));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(productivity_factor),
        cmocka_unit_test(silent_jobs),
        cmocka_unit_test(quantiles_come_back),
        cmocka_unit_test(against_joint_normal),
        cmocka_unit_test(kinds_of_work),
        cmocka_unit_test(kinds_of_no_share),
        cmocka_unit_test(shrinks),
        cmocka_unit_test(sessions_and_layoffs),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
