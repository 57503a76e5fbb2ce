/* test_tool_cost.c - the least cost against every way of covering the spells, tried one by one. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "reckon/tool_cost.h"

#include <math.h>

enum { SPELLS = 5, WAYS = 4 };

static uint32_t seed = 11;
static int drawn(int below)
{
    seed = seed * 1664525 + 1013904223;
    return (int)((seed >> 8) % (uint32_t)below);
}

/* Each spell is covered by a way, or by what is kept from the spell before: all such assignments.
 */
static double tried(const struct tool_way_cost *ways, int n_ways, const struct tool_spell *s, int n,
                    int at, int held, int since)
{
    double least = INFINITY;
    if (at == n) return 0;
    if (held >= 0) { /* go on with it */
        const struct tool_way_cost *w = &ways[held];
        const double more = w->way == WAY_BUY     ? 0
                            : s[at].to > w->until ? INFINITY
                                                  : w->a_day * (s[at].to - s[at - 1].to);
        least = more + tried(ways, n_ways, s, n, at + 1, held, since);
    }
    for (int i = 0; i < n_ways; i++) { /* or begin anew */
        const struct tool_way_cost *w = &ways[i];
        const double cost = w->way == WAY_BUY ? w->price
                            : s[at].to > w->until
                                ? INFINITY
                                : w->price + w->a_day * (s[at].to - s[at].from + 1);
        const double all = cost + tried(ways, n_ways, s, n, at + 1, i, at);
        if (all < least) least = all;
    }
    return least;
}

static void no_other_way_costs_less(void **state)
{
    (void)state;
    struct arena a = arena_open((size_t)4 << 20);
    int none = 0, steps_met[SPELLS + 1] = {0};
    for (int run = 0; run < 2000; run++) {
        struct tool_spell s[SPELLS];
        struct tool_way_cost ways[WAYS];
        struct tool_step steps[SPELLS];
        const int n = 1 + drawn(SPELLS), n_ways = 1 + drawn(WAYS);
        int n_steps, day = 0, next = 0;
        for (int i = 0; i < n; i++) {
            s[i].from = day + 1 + drawn(20);
            day = s[i].to = s[i].from + drawn(6);
        }
        for (int i = 0; i < n_ways; i++)
            ways[i] = (struct tool_way_cost){(enum tool_way)drawn(TOOL_WAYS), drawn(60), drawn(8),
                                             drawn(3) ? INT32_MAX : drawn(80)};
        const double found = tool_cost(a, ways, n_ways, s, n, steps, &n_steps),
                     least = tried(ways, n_ways, s, n, 0, -1, 0);
        if (isinf(least)) {
            assert_true(isinf(found));
            none++;
            continue;
        }
        assert_true(fabs(found - least) < 1e-9);
        double sum = 0;
        for (int i = 0; i < n_steps; i++) { /* and the steps are those that cost so much */
            assert_int_equal(steps[i].first, next);
            next = steps[i].last + 1;
            sum += steps[i].cost;
        }
        assert_int_equal(next, n);
        assert_true(fabs(sum - found) < 1e-9);
        steps_met[n_steps]++;
    }
    assert_true(none > 20 && steps_met[1] > 100 && steps_met[2] > 100);
    arena_close(&a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(no_other_way_costs_less)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
