/* test_fit_published.c - facility location and many-constraint knapsacks to their published optima,
 * as fit models.
 *
 * Published: J. E. Beasley, OR-Library, J. Operational Research Society 41 (1990) 1069-1072: cap71
 * to cap104 without capacities (after A. A. Kuehn & M. J. Hamburger 1963), optima as listed there;
 * mknap1 (C. C. Petersen, Operations Research 15 (1967) 736-750), optima in the file. */
#include "reckon/fit.h"

#include "reckon/near.h"

#include <stdio.h>
#include <stdlib.h>

#define ORLIB_DIR SHARED_DIR "/data/orlib"

static struct arena arena;

static int open_arena(void **state)
{
    (void)state;
    arena = arena_open((size_t)1 << 30);
    return 0;
}

static int close_arena(void **state)
{
    (void)state;
    arena_close(&arena);
    return 0;
}

static char *at; /* in the file being read */

static void read_file(struct arena *a, const char *path)
{
    FILE *file = fopen(path, "rb");
    if (!file) {
        print_message("skipped: no published instance %s\n", path);
        skip();
        return;
    }
    at = arena_take(a, 1 << 17, 1);
    size_t n = fread(at, 1, (1 << 17) - 1, file);
    assert_true(n < (1 << 17) - 1); /* or it was cut off */
    fclose(file);
}

/* The next number, times `by`: a whole one then. */
static int64_t number(double by)
{
    char *end;
    double v = strtod(at, &end) * by;
    assert_true(end != at);
    at = end;
    assert_near(v, round(v), 1e-3);
    return llround(v);
}

/* In 1/10,000: the figures have four decimals. */
static const struct facility {
    const char *name;
    int64_t optimum;
} facilities[] = {
    {"cap71", 9326157500},  {"cap72", 9777994000},  {"cap73", 10106414500}, {"cap74", 10349769750},
    {"cap101", 7966484375}, {"cap102", 8547042000}, {"cap103", 8937821125}, {"cap104", 9289417500},
};
enum { FACILITIES = sizeof facilities / sizeof facilities[0] };

/* A site is a supplier, its fixed cost the carriage; a customer a need of one part. */
static void facility_location(void **state)
{
    (void)state;
    for (int i = 0; i < FACILITIES; i++) {
        struct arena a = arena;
        struct fail f = {0};
        read_file(&a, arena_print(&a, ORLIB_DIR "/%s.txt", facilities[i].name));
        int sites = (int)number(1), customers = (int)number(1);
        struct fit_model m = {.n_suppliers = sites, .n_options = customers, .n_needs = customers};
        m.n_parts = customers, m.n_offers = sites * customers;
        struct fit_supplier *suppliers = ARENA_ARRAY(&a, struct fit_supplier, sites);
        struct fit_option *options = ARENA_ARRAY(&a, struct fit_option, customers);
        struct fit_take *takes = ARENA_ARRAY(&a, struct fit_take, customers);
        struct fit_offer *offers = ARENA_ARRAY(&a, struct fit_offer, m.n_offers);
        struct fit_break *prices = ARENA_ARRAY(&a, struct fit_break, m.n_offers);
        for (int s = 0; s < sites; s++) {
            number(1); /* its capacity */
            suppliers[s].carriage = number(1e4);
        }
        for (int c = 0; c < customers; c++) {
            number(1e4); /* its demand */
            takes[c] = (struct fit_take){c, 1};
            options[c] = (struct fit_option){.need = c, .takes = &takes[c], .n_takes = 1};
            for (int s = 0; s < sites; s++) {
                int o = c * sites + s;
                prices[o] = (struct fit_break){1, number(1e4)};
                offers[o] = (struct fit_offer){
                    .part = c, .supplier = s, .breaks = &prices[o], .n_breaks = 1};
            }
        }
        m.suppliers = suppliers, m.options = options, m.offers = offers;
        m.needs = ARENA_ARRAY(&a, struct fit_need, customers);
        m.parts = ARENA_ARRAY(&a, struct fit_part, customers);
        if (!fit_valid(&m, &f)) fail_msg("%s: %s", facilities[i].name, f.text);
        struct fit_answer answer = fit_solve(&a, &m, FIT_NODES);
        if (!fit_check(&m, &answer, a, &f)) fail_msg("%s: %s", facilities[i].name, f.text);
        assert_int_equal(answer.state, FIT_PROVEN);
        assert_int_equal(answer.cost.total, facilities[i].optimum);
    }
}

/* A thing is a need: taken, or left and its profit lost. In tenths. */
static void knapsacks(void **state)
{
    (void)state;
    struct arena whole = arena;
    read_file(&whole, ORLIB_DIR "/mknap1.txt");
    int problems = (int)number(1);
    assert_int_equal(problems, 7);
    for (int i = 0; i < problems; i++) {
        struct arena a = whole;
        struct fail f = {0};
        int things = (int)number(1), limited = (int)number(1);
        int64_t optimum = number(10), all = 0;
        struct fit_option *options = ARENA_ARRAY(&a, struct fit_option, 2 * things);
        struct fit_use *uses = ARENA_ARRAY(&a, struct fit_use, things * limited);
        struct fit_limit *limits = ARENA_ARRAY(&a, struct fit_limit, limited);
        for (int t = 0; t < things; t++) {
            int64_t profit = number(10);
            all += profit;
            options[2 * t] =
                (struct fit_option){.need = t, .uses = &uses[t * limited], .n_uses = limited};
            options[2 * t + 1] = (struct fit_option){.need = t, .money = profit};
        }
        for (int l = 0; l < limited; l++)
            for (int t = 0; t < things; t++)
                uses[t * limited + l] = (struct fit_use){l, number(10)};
        for (int l = 0; l < limited; l++) limits[l].most = number(10);
        struct fit_model m = {.options = options, .n_options = 2 * things, .n_needs = things};
        m.limits = limits, m.n_limits = limited;
        m.needs = ARENA_ARRAY(&a, struct fit_need, things);
        if (!fit_valid(&m, &f)) fail_msg("knapsack %d: %s", i, f.text);
        struct fit_answer answer = fit_solve(&a, &m, FIT_NODES);
        if (!fit_check(&m, &answer, a, &f)) fail_msg("knapsack %d: %s", i, f.text);
        assert_int_equal(answer.state, FIT_PROVEN);
        assert_int_equal(all - answer.cost.total, optimum);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(facility_location),
        cmocka_unit_test(knapsacks),
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}
