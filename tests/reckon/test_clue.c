/* test_clue.c - sums over causes against plain enumeration, published cases of evidence, and what a
 * second witness of one cause is worth. */
#include "base/random.h"
#include "reckon/clue.h"

#include "reckon/near.h"

enum { BYTES = 8 << 20 };

struct dice {
    uint32_t at;
};

static double throw(struct dice * d)
{
    return random_unit(random_words(7, 99, 0, d->at++).word[0]);
}

static double *odds(struct arena *a, struct dice *d, int n)
{
    double *x = ARENA_ARRAY(a, double, n), sum = 0;
    for (int i = 0; i < n; i++) sum += x[i] = 0.05 + throw(d);
    for (int i = 0; i < n; i++) x[i] /= sum;
    return x;
}

static int whole(struct dice *d, int n)
{
    return (int)(throw(d) * n);
}

static struct clue_problem random_problem(struct arena *a, struct dice *d)
{
    int nh = 2 + whole(d, 4), nc = 1 + whole(d, 3), n = 1 + whole(d, 5);
    struct clue_axis *axes = ARENA_ARRAY(a, struct clue_axis, 2);
    for (int x = 0; x < 2; x++) {
        int *row = ARENA_ARRAY(a, int, nh);
        axes[x].n_rows = x == 0 ? nh : 2;
        for (int h = 0; h < nh; h++) row[h] = x == 0 ? h : h % 2;
        axes[x].row_of = row;
    }
    struct clue_cluster *clusters = ARENA_ARRAY(a, struct clue_cluster, nc);
    for (int k = 0; k < nc; k++) {
        int causes = 1 + whole(d, 3);
        clusters[k] = (struct clue_cluster){whole(d, 2), odds(a, d, causes), causes};
    }
    struct clue *clues = ARENA_ARRAY(a, struct clue, n);
    for (int i = 0; i < n; i++) {
        int k = whole(d, nc), outcomes = 2 + whole(d, 2);
        int cells = axes[clusters[k].axis].n_rows * clusters[k].n_causes;
        double *table = ARENA_ARRAY(a, double, cells *outcomes);
        for (int c = 0; c < cells; c++) {
            double *one = odds(a, d, outcomes);
            for (int o = 0; o < outcomes; o++) table[c * outcomes + o] = one[o];
        }
        clues[i] = (struct clue){k, outcomes, table, NULL, whole(d, outcomes + 1) - 1};
    }
    return (struct clue_problem){odds(a, d, nh), nh, axes, 2, clusters, nc, clues, n};
}

/* Sums over every joint assignment of causes to clusters, one after the other. */
static void enumerate(const struct clue_problem *p, double *posterior)
{
    double total = 0;
    int combinations = 1;
    for (int k = 0; k < p->n_clusters; k++) combinations *= p->clusters[k].n_causes;
    for (int h = 0; h < p->n_hypotheses; h++) {
        posterior[h] = 0;
        for (int x = 0; x < combinations; x++) {
            int cause[8], left = x;
            double joint = p->prior[h];
            for (int k = 0; k < p->n_clusters; k++) {
                cause[k] = left % p->clusters[k].n_causes;
                left /= p->clusters[k].n_causes;
                joint *= p->clusters[k].chance[cause[k]];
            }
            for (int i = 0; i < p->n_clues; i++) {
                const struct clue *c = &p->clues[i];
                const struct clue_cluster *k = &p->clusters[c->cluster];
                int row = p->axes[k->axis].row_of[h];
                if (c->seen >= 0)
                    joint *=
                        c->table[(row * k->n_causes + cause[c->cluster]) * c->n_outcomes + c->seen];
            }
            posterior[h] += joint;
        }
        total += posterior[h];
    }
    for (int h = 0; h < p->n_hypotheses; h++) posterior[h] /= total;
}

static void exact_sum_is_enumeration(void **state)
{
    (void)state;
    struct dice d = {0};
    for (int round = 0; round < 300; round++) {
        struct arena a = arena_open(BYTES);
        struct clue_problem p = random_problem(&a, &d);
        struct clue_weighed w;
        double plain[8], without[8];
        bool claim[8] = {true};
        clue_weigh(&a, &p, &w);
        enumerate(&p, plain);
        for (int h = 0; h < p.n_hypotheses; h++) assert_near(w.posterior[h], plain[h], 1e-12);
        assert_near(clue_share(&w, claim), plain[0], 1e-12);
        struct clue *clues = (struct clue *)p.clues;
        for (int i = 0; i < p.n_clues; i++) {
            int seen = clues[i].seen;
            double push = clue_push(&w, a, i, claim);
            clues[i].seen = CLUE_UNSEEN;
            enumerate(&p, without);
            clues[i].seen = seen;
            assert_near(push, decibans_of(plain[0]) - decibans_of(without[0]), 1e-9);
        }
        arena_close(&a);
    }
}

/* What a clue promises is what taking it would do, averaged over what it may show. */
static void promise_is_the_mean_of_what_comes(void **state)
{
    (void)state;
    struct dice d = {1000000};
    for (int round = 0; round < 100; round++) {
        struct arena a = arena_open(BYTES);
        struct clue_problem p = random_problem(&a, &d);
        struct clue *clues = (struct clue *)p.clues;
        clues[0].seen = CLUE_UNSEEN;
        struct clue_weighed w, after;
        double chance[3], claimed[3], bits = 0, sum = 0;
        bool claim[8] = {true};
        clue_weigh(&a, &p, &w);
        double promised = clue_promise(&w, a, 0, claim, chance, claimed);
        /* the information is on the rows of the clue's axis */
        const struct clue_axis *axis = &p.axes[p.clusters[clues[0].cluster].axis];
        for (int o = 0; o < clues[0].n_outcomes; o++) {
            double before_row[8] = {0}, after_row[8] = {0};
            clues[0].seen = o;
            clue_weigh(&a, &p, &after);
            clues[0].seen = CLUE_UNSEEN;
            assert_near(clue_share(&after, claim), claimed[o], 1e-9);
            for (int h = 0; h < p.n_hypotheses; h++) {
                before_row[axis->row_of[h]] += w.posterior[h];
                after_row[axis->row_of[h]] += after.posterior[h];
            }
            for (int r = 0; r < axis->n_rows; r++)
                bits += chance[o] * after_row[r] * log2(after_row[r] / before_row[r]);
            sum += chance[o];
        }
        assert_near(sum, 1, 1e-12);
        assert_near(promised, bits, 1e-9);
        arena_close(&a);
    }
}

/* Two hypotheses, one cluster; a clue by the two rows of its first outcome. */
struct simple {
    struct clue_axis axis;
    struct clue_cluster cluster[2];
    struct clue clue[24];
    double prior[2], chance[2];
    struct clue_problem problem;
};

static const int two_rows[] = {0, 1};
static const double certain[] = {1};

static void simple_make(struct simple *s, double prior, int n_clusters)
{
    s->axis = (struct clue_axis){2, two_rows};
    s->cluster[0] = s->cluster[1] = (struct clue_cluster){0, certain, 1};
    s->prior[0] = prior;
    s->prior[1] = 1 - prior;
    s->problem =
        (struct clue_problem){s->prior, 2, &s->axis, 1, s->cluster, n_clusters, s->clue, 0};
}

static double share(struct simple *s)
{
    static const bool claim[] = {true, false};
    struct arena a = arena_open(1 << 20);
    struct clue_weighed w;
    clue_weigh(&a, &s->problem, &w);
    double x = clue_share(&w, claim);
    arena_close(&a);
    return x;
}

/* planning.md O7: E. T. Jaynes, Probability Theory (2003), ch. 4: machine A makes a third of its
 * widgets bad, machine B a sixth; A has prior 1/11. Independent draws from one cluster without
 * causes. */
static void weight_of_evidence(void **state)
{
    (void)state;
    static const double table[] = {1 / 3.0, 2 / 3.0, 1 / 6.0, 5 / 6.0};
    static const struct {
        int bad, good;
        double decibans, probability;
    } cases[] = {{1, 0, -6.989700, 1 / 6.0},
                 {0, 1, -10.969100, 2 / 27.0},
                 {5, 7, -1.732201, 0.401588},
                 {5, 12, -6.577702, 0.180262},
                 {10, 12, 8.473798, 0.875574}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct simple s;
        simple_make(&s, 1 / 11.0, 1);
        for (int k = 0; k < cases[i].bad + cases[i].good; k++)
            s.clue[s.problem.n_clues++] = (struct clue){0, 2, table, NULL, k >= cases[i].bad};
        assert_near(share(&s), cases[i].probability, 5e-7);
        assert_near(decibans_of(share(&s)), cases[i].decibans, 5e-6);
    }
}

/* planning.md O8: one test, one base rate. */
static void base_rates(void **state)
{
    (void)state;
    static const struct {
        double prior, hit, false_alarm, after;
    } cases[] = {{0.01, 0.8, 0.096, 25 / 322.0}, /* Eddy 1982 */
                 {0.001, 1, 0.05, 20 / 1019.0},  /* Casscells et al. 1978; no misses */
                 {0.15, 0.8, 0.2, 12 / 29.0},    /* Tversky & Kahneman 1982 */
                 {0.01, 0.8, 0.1, 0.0747664}};   /* Rice, 3rd ed. */
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const double table[] = {cases[i].hit, 1 - cases[i].hit, cases[i].false_alarm,
                                1 - cases[i].false_alarm};
        struct simple s;
        simple_make(&s, cases[i].prior, 1);
        s.clue[s.problem.n_clues++] = (struct clue){0, 2, table, NULL, 0};
        assert_near(share(&s), cases[i].after, 5e-8);
    }
}

/* Hard use looks worn and a renewal looks new, whatever the miles: where one cause could have made
 * both, the second pedal adds less than the first. */
static void a_duplicate_says_less(void **state)
{
    (void)state;
    static const double chance[] = {0.5, 0.25, 0.25};
    static const double table[] = {
        0.8, 0.2, 0.9, 0.1, 0.2, 0.8, /* few miles: by cause, looks new or worn */
        0.2, 0.8, 0.9, 0.1, 0.1, 0.9};
    static const double strength[] = {0.8, 0.2, 0.3, 0.8};
    for (int by_strength = 0; by_strength < 2; by_strength++)
        for (int seen = 0; seen < 2; seen++) {
            struct simple s;
            simple_make(&s, 0.5, 1);
            s.cluster[0] = (struct clue_cluster){0, chance, 3};
            struct clue one = {0, 2, by_strength ? NULL : table, by_strength ? strength : NULL,
                               seen};
            double before = decibans_of(share(&s));
            s.clue[s.problem.n_clues++] = one;
            double first = decibans_of(share(&s)) - before;
            s.clue[s.problem.n_clues++] = one;
            double second = decibans_of(share(&s)) - before - first;
            assert_true(fabs(first) > 0.5);
            assert_true(fabs(second) < fabs(first));
            if (by_strength) assert_near(second, first / 2, 1e-9); /* its square root */
        }
}

/* The strongest in full, of the others the square root, in whatever order; another cluster counts
 * in full again. */
static void strengths(void **state)
{
    (void)state;
    static const double four[] = {4, 1, 1, 1}, nine[] = {9, 1, 1, 1};
    struct simple s;
    simple_make(&s, 0.5, 2);
    s.clue[0] = (struct clue){0, 2, NULL, four, 0};
    s.clue[1] = (struct clue){0, 2, NULL, nine, 0};
    s.problem.n_clues = 2;
    assert_near(share(&s), 18 / 19.0, 1e-12);
    s.clue[1].cluster = 1;
    assert_near(share(&s), 36 / 37.0, 1e-12);
}

static void ratio_one_changes_nothing(void **state)
{
    (void)state;
    static const double flat[] = {0.3, 0.7, 0.3, 0.7}, even[] = {1, 1, 1, 1}, four[] = {4, 1, 1, 1};
    static const bool claim[] = {true, false};
    struct arena a = arena_open(BYTES);
    struct simple s;
    simple_make(&s, 0.2, 1);
    s.clue[s.problem.n_clues++] = (struct clue){0, 2, NULL, four, 0};
    double before = share(&s);
    for (int table = 0; table < 2; table++) {
        s.clue[1] = (struct clue){0, 2, table ? flat : NULL, table ? NULL : even, 0};
        s.problem.n_clues = 2;
        struct clue_weighed w;
        clue_weigh(&a, &s.problem, &w);
        assert_near(share(&s), before, 1e-15);
        assert_near(clue_push(&w, a, 1, claim), 0, 1e-12);
    }
    arena_close(&a);
}

/* A clock of few miles against a bore of many: each is likely under a hypothesis, both are under
 * none. */
static void conflict_is_named(void **state)
{
    (void)state;
    static const double few[] = {0.95, 0.05, 0.05, 0.95};
    struct arena a = arena_open(BYTES);
    struct simple s;
    simple_make(&s, 0.5, 2);
    s.clue[0] = (struct clue){0, 2, few, NULL, 0};
    s.clue[1] = (struct clue){1, 2, few, NULL, 1};
    s.problem.n_clues = 2;
    /* P(a) = P(b) = 1/2, P(a, b) = 0.0475 */
    assert_near(clue_conflict(&s.problem, 0, 1), 10 * log10(0.25 / 0.0475), 1e-9);
    assert_true(clue_conflict(&s.problem, 0, 1) > CLUE_APART);
    s.clue[1].seen = 0;
    assert_true(clue_conflict(&s.problem, 0, 1) < 0);
    s.clue[1] = (struct clue){0, 2, few, NULL, 1}; /* the same in one cluster */
    assert_true(clue_conflict(&s.problem, 0, 1) > CLUE_APART);

    static const double hardly[] = {0.01, 0.99, 0.02, 0.98};
    s.clue[1] = (struct clue){1, 2, hardly, NULL, 0};
    struct clue_weighed w;
    clue_weigh(&a, &s.problem, &w);
    assert_near(clue_best_chance(&w, 1), 0.02, 1e-12);
    assert_near(clue_best_chance(&w, 0), 0.95, 1e-12);

    static const double never[] = {1, 0, 1, 0};
    s.clue[1] = (struct clue){1, 2, never, NULL, 1};
    clue_weigh(&a, &s.problem, &w);
    assert_true(w.impossible);
    assert_near(w.posterior[0], 0.5, 1e-12);
    arena_close(&a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(exact_sum_is_enumeration),
        cmocka_unit_test(promise_is_the_mean_of_what_comes),
        cmocka_unit_test(weight_of_evidence),
        cmocka_unit_test(base_rates),
        cmocka_unit_test(a_duplicate_says_less),
        cmocka_unit_test(strengths),
        cmocka_unit_test(ratio_one_changes_nothing),
        cmocka_unit_test(conflict_is_named),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
