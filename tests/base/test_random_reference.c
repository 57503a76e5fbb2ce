#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

/* Merge bias: where several paths meet, the last one decides, and it is later than each. Published
 * moments against simulation with the program's own draws, each within four standard errors of the
 * simulation. */
#include "base/random.h"

#include <math.h>

#define COUNT(array) (sizeof(array) / sizeof *(array))

enum { RUNS = 200000, SEED = 20261125 };

struct moments {
    double sum, squares;
};

static void add(struct moments *m, double x)
{
    m->sum += x;
    m->squares += x * x;
}

/* `kurtosis` of the variable simulated: the error of a standard deviation is sd sqrt((kurtosis - 1)
 * / 4n). */
static void check(const char *what, const struct moments *m, double mean, double sd,
                  double kurtosis)
{
    const double got_mean = m->sum / RUNS;
    const double got_sd = sqrt(m->squares / RUNS - got_mean * got_mean);
    if (fabs(got_mean - mean) > 4 * sd / sqrt(RUNS))
        fail_msg("%s: mean %.6f, expected %.6f", what, got_mean, mean);
    if (fabs(got_sd - sd) > 4 * sd * sqrt((kurtosis - 1) / (4.0 * RUNS)))
        fail_msg("%s: sd %.6f, expected %.6f", what, got_sd, sd);
}

static double draw(uint64_t stream, uint32_t run)
{
    return random_normal(random_words(SEED, stream, run, 0).word[0]);
}

/* Published: mean and standard deviation of the largest of n standard normals, L. H. C. Tippett,
 * Biometrika 17 (1925); H. L. Harter, Biometrika 48 (1961). Digits from memory, and recomputed by
 * quadrature. */
static void largest_of_normals(void **state)
{
    (void)state;
    static const struct {
        uint64_t n;
        double mean, sd;
    } cases[] = {
        {2, 0.5641895835, 0.8256452712},
        {3, 0.8462843753, 0.7479754032},
        {5, 1.1629644736, 0.6689798719},
        {10, 1.5387527308, 0.5868081656},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        struct moments m = {0};
        for (uint32_t run = 0; run < RUNS; run++) {
            double largest = -INFINITY;
            for (uint64_t path = 0; path < cases[i].n; path++)
                largest = fmax(largest, draw(path, run));
            add(&m, largest);
        }
        check("largest normal", &m, cases[i].mean, cases[i].sd, 3.5); /* kurtosis is 3.06 to 3.4 */
    }
}

/* Two parallel paths N(10, 4) finish at 11.128 in the mean, where averages alone say 10. */
static void two_paths_finish_late(void **state)
{
    (void)state;
    struct moments m = {0};
    for (uint32_t run = 0; run < RUNS; run++)
        add(&m, fmax(10 + 2 * draw(100, run), 10 + 2 * draw(101, run)));
    check("two paths", &m, 11.1283791671, 1.6512905424, 3.5);
}

/* Textbook: the largest of n exponentials of mean 1 is the sum of independent exponentials of means
 * 1, 1/2,
 * ... 1/n, so mean, variance and fourth cumulant are sums of 1/k, 1/k^2 and 6/k^4. */
static void largest_of_exponentials(void **state)
{
    (void)state;
    static const struct {
        uint64_t n;
        double mean, sd;
    } cases[] = {
        {2, 1.5, 1.1180339887},
        {3, 11.0 / 6, 1.1666666667},
        {4, 25.0 / 12, 1.1931517553},
        {10, 2.9289682540, 1.2448966749},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        struct moments m = {0};
        double variance = 0, fourth = 0;
        for (int k = 1; k <= (int)cases[i].n; k++) {
            variance += 1.0 / (k * k);
            fourth += 6.0 / ((double)k * k * k * k);
        }
        for (uint32_t run = 0; run < RUNS; run++) {
            double largest = 0;
            for (uint64_t path = 0; path < cases[i].n; path++)
                largest =
                    fmax(largest, -log(random_unit(random_words(SEED, path, run, 1).word[0])));
            add(&m, largest);
        }
        assert_true(fabs(sqrt(variance) - cases[i].sd) < 1e-9);
        check("largest exponential", &m, cases[i].mean, cases[i].sd,
              3 + fourth / (variance * variance));
    }
}

/* Published: C. E. Clark, "The greatest of a finite set of random variables", Operations Research 9
 * (1961) 145-162: moments of the larger of two correlated normals; digits reckoned from the
 * formulas there. */
static void larger_of_two_correlated_normals(void **state)
{
    (void)state;
    static const struct {
        double m1, s1, m2, s2, r, mean, sd, first_larger;
    } cases[] = {
        {10, 2, 10, 2, 0, 11.1283791671, 1.6512905424, 0.5},
        {10, 2, 11, 3, 0.3, 11.7876234850, 2.3940081740, 0.3721501248},
        {20, 4, 20, 4, 0.5, 21.5957691216, 3.6679041578, 0.5},
        {30, 1, 25, 1, 0, 30.0000717621, 0.9998205761, 0.9997965240},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        struct moments m = {0};
        int first_larger = 0;
        for (uint32_t run = 0; run < RUNS; run++) {
            const double z1 = draw(200 + i, run), z2 = draw(300 + i, run);
            const double a = cases[i].m1 + cases[i].s1 * z1;
            const double b = cases[i].m2 + cases[i].s2 * (cases[i].r * z1 +
                                                          sqrt(1 - cases[i].r * cases[i].r) * z2);
            add(&m, fmax(a, b));
            first_larger += a > b;
        }
        check("correlated", &m, cases[i].mean, cases[i].sd, 3.5);
        const double p = cases[i].first_larger;
        if (fabs((double)first_larger / RUNS - p) > 4 * sqrt(p * (1 - p) / RUNS))
            fail_msg("case %zu: first larger in %d runs", i, first_larger);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(largest_of_normals),
        cmocka_unit_test(two_paths_finish_late),
        cmocka_unit_test(largest_of_exponentials),
        cmocka_unit_test(larger_of_two_correlated_normals),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
