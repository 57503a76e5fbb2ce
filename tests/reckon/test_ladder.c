/* test_ladder.c - published decision processes, and ladders against every policy tried by hand. */
#include "base/random.h"
#include "reckon/ladder.h"
#include "reckon/mdp.h"

#include "reckon/near.h"

#include <math.h>
#include <string.h>

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

/* Published: R. A. Howard, Dynamic Programming and Markov Processes (1960), ch. 4, the taxicab. */
static void howards_taxicab(void **state)
{
    static const struct {
        int town;
        double chance[3], fare[3];
    } ways[8] = {
        {0, {.5, .25, .25}, {10, 4, 8}},       {0, {.0625, .75, .1875}, {8, 2, 4}},
        {0, {.25, .125, .625}, {4, 6, 4}},     {1, {.5, 0, .5}, {14, 0, 18}},
        {1, {.0625, .875, .0625}, {8, 16, 8}}, {2, {.25, .25, .5}, {10, 2, 8}},
        {2, {.125, .75, .125}, {6, 4, 2}},     {2, {.75, .0625, .1875}, {4, 0, 8}},
    };
    static const double at_once[8] = {8, 2.75, 4.25, 16, 15, 7, 4, 4.5};
    struct mdp_arc arcs[24];
    struct mdp_action actions[8];
    (void)state;
    for (int i = 0; i < 8; i++) {
        double reward = 0;
        for (int k = 0; k < 3; k++) {
            arcs[3 * i + k] = (struct mdp_arc){k, ways[i].chance[k]};
            reward += ways[i].chance[k] * ways[i].fare[k];
        }
        assert_near(reward, at_once[i], 1e-12);
        actions[i] = (struct mdp_action){ways[i].town, reward, arcs + 3 * i, 3};
    }
    const struct mdp m = {3, actions, 8};
    static const struct {
        int policy[3];
        double gain, value[2];
    } steps[3] = {{{0, 3, 5}, 9.2, {1.333333, 7.466667}},
                  {{0, 4, 6}, 434 / 33., {-3.878788, 12.848485}},
                  {{1, 4, 6}, 13.344538, {-1.176471, 12.655462}}};
    for (int rounds = 0; rounds < 4; rounds++) {
        const int at = rounds < 2 ? rounds : 2; /* then it is the best, and stays */
        int policy[3] = {0, 3, 5};
        double value[3];
        assert_near(mdp_average(arena, &m, rounds, policy, value), steps[at].gain, 1e-6);
        assert_memory_equal(policy, steps[at].policy, sizeof policy);
        for (int i = 0; i < 2; i++) assert_near(value[i], steps[at].value[i], 1e-6);
        assert_near(value[2], 0, 0);
    }
}

/* Published: S. Russell & P. Norvig, Artificial Intelligence: A Modern Approach, ch. 17, the grid
 * of 4 by 3: a step costs 0.04, goes as meant in 0.8 and to each side in 0.1. */
static void grid_of_four_by_three(void **state)
{
    static const double utility[3][4] = {{0.705308, 0.655308, 0.611416, 0.387925},
                                         {0.761558, 0, 0.660274, -1},
                                         {0.811558, 0.867808, 0.917808, 1}};
    static const char *const way[3] = {"NWWW", "N.N.", "EEE."};
    static const int dx[4] = {0, 1, 0, -1}, dy[4] = {1, 0, -1, 0}; /* N E S W */
    struct mdp_arc arcs[12 * 4 * 3];
    struct mdp_action actions[12 * 4];
    int n = 0, n_arcs = 0, policy[12];
    double value[12];
    (void)state;
    for (int s = 0; s < 12; s++) {
        const int x = s % 4, y = s / 4;
        if (way[y][x] == '.') {
            actions[n++] = (struct mdp_action){s, utility[y][x], NULL, 0};
            continue;
        }
        for (int d = 0; d < 4; d++) {
            actions[n++] = (struct mdp_action){s, -0.04, arcs + n_arcs, 3};
            for (int turn = -1; turn <= 1; turn++) {
                const int to = (d + turn + 4) % 4;
                int u = x + dx[to], v = y + dy[to];
                if (u < 0 || u > 3 || v < 0 || v > 2 || (u == 1 && v == 1)) u = x, v = y;
                arcs[n_arcs++] = (struct mdp_arc){4 * v + u, turn == 0 ? 0.8 : 0.1};
            }
        }
    }
    const struct mdp m = {12, actions, n};
    assert_true(mdp_total(&m, 1, 1e-12, 1000, policy, value) > 0);
    for (int s = 0; s < 12; s++) {
        const int x = s % 4, y = s / 4;
        assert_near(value[s], utility[y][x], 1e-6);
        if (way[y][x] == '.') continue;
        int first = 0;
        while (actions[first].state != s) first++;
        assert_int_equal("NESW"[policy[s] - first], way[y][x]);
    }
    assert_int_equal(mdp_total(&m, 1, 1e-12, 3, policy, value), -1);
}

/* ---- ladders ---- */

static uint32_t drawn;
static double unit(void)
{
    return random_unit(random_words(7, 0, 0, drawn++).word[0]);
}

static struct ladder random_ladder(int n)
{
    struct ladder l = {.n = n, .stuck = 2 * unit(), .stop = unit() < 0.3 ? 30 * unit() : INFINITY};
    const unsigned last = 1u << (n - 1);
    for (int i = 0; i < n; i++) {
        struct ladder_step *s = &l.steps[i];
        const unsigned all = (1u << n) - 1;
        *s = (struct ladder_step){.works = i == n - 1 ? 1 : unit(), .cost = 10 * unit() + 0.01};
        if (i == n - 1) {
            s->cost *= 4;
            continue;
        }
        if (unit() < 0.5) s->worse = unit(), s->worse_cost = 10 * unit();
        s->worse_ends = (unsigned)(unit() * (all + 1)) & ~last;
        if (unit() < 0.3) s->ends = (1u << i) - 1;
        if (i > 0 && unit() < 0.2) s->needs = 1u << (i - 1);
        if (unit() < 0.1) l.gone |= 1u << i;
    }
    return l;
}

/* Every policy by its histories, with no states: the chance of each level and of what happened is
 * carried along, never divided out. */
static double enumerate(const struct ladder_solved *x, const double *level, unsigned tried,
                        unsigned gone)
{
    const struct ladder *l = x->ladder;
    double all = 0;
    for (int k = 0; k < LADDER_LEVELS; k++) all += level[k];
    double best = l->stop * all;
    if (all == 0) return 0;
    for (int i = 0; i < l->n; i++) {
        if ((tried | gone) >> i & 1 || (l->steps[i].needs & ~tried)) continue;
        const struct ladder_step *s = &l->steps[i];
        double same[LADDER_LEVELS], worse[LADDER_LEVELS], cost = s->cost * all;
        double worse_all = 0;
        for (int k = 0; k < LADDER_LEVELS; k++) {
            const double vain = level[k] * (1 - x->cures[i][k]);
            same[k] = vain * (1 - s->worse);
            worse_all += worse[k] = vain * s->worse;
        }
        cost += s->worse_cost * worse_all;
        if (i < l->n - 1)
            cost += enumerate(x, same, tried | 1u << i, gone | s->ends) +
                    enumerate(x, worse, tried | 1u << i, gone | s->ends | s->worse_ends);
        best = fmin(best, cost);
    }
    return best;
}

static const double start[LADDER_LEVELS] = {1 / 256.,  8 / 256.,  28 / 256., 56 / 256., 70 / 256.,
                                            56 / 256., 28 / 256., 8 / 256.,  1 / 256.};

static void as_good_as_every_policy(void **state)
{
    static const int tries[LADDER_STEPS] = {0, 20, 40, 60, 60, 60, 20, 4};
    (void)state;
    for (int n = 1; n < LADDER_STEPS; n++)
        for (int i = 0; i < tries[n]; i++) {
            struct arena here = arena;
            const struct ladder l = random_ladder(n);
            const struct ladder_solved x = ladder_solve(&here, &l);
            const double best = enumerate(&x, start, 0, l.gone);
            assert_near(x.cost[ladder_start(&l)], best, 1e-9 * (1 + best));
        }
}

/* In the order of the ladder each step works as often as it says. */
static void works_as_it_says(void **state)
{
    (void)state;
    for (int i = 0; i < 50; i++) {
        struct arena here = arena;
        struct ladder l = random_ladder(5);
        l.gone = 0;
        for (int k = 0; k < 5; k++) l.steps[k].ends = l.steps[k].needs = 0;
        const struct ladder_solved x = ladder_solve(&here, &l);
        ladder_state s = ladder_start(&l);
        for (int k = 0; k < 5; k++) {
            double odds[LADDER_OUTCOMES];
            ladder_odds(&x, s, k, odds);
            assert_near(odds[LADDER_CURED], l.steps[k].works, 1e-9);
            assert_near(odds[0] + odds[1] + odds[2], 1, 1e-12);
            if (k < 4) s = ladder_after(&l, s, k, false);
        }
    }
}

/* What failed makes every other step less likely to work; where nothing is shared, no less. */
static void failures_tell(void **state)
{
    struct ladder l = {
        .n = 3,
        .stop = INFINITY,
        .steps = {{.works = 0.5, .cost = 1}, {.works = 0.4, .cost = 1}, {.works = 1, .cost = 9}}};
    (void)state;
    for (int stuck = 0; stuck < 2; stuck++) {
        struct arena here = arena;
        double before[LADDER_OUTCOMES], after[LADDER_OUTCOMES];
        l.stuck = stuck;
        const struct ladder_solved x = ladder_solve(&here, &l);
        ladder_odds(&x, ladder_start(&l), 1, before);
        ladder_odds(&x, ladder_after(&l, ladder_start(&l), 0, false), 1, after);
        assert_near(after[0], 0.4, 1e-9);
        if (stuck)
            assert_true(before[0] > after[0] + 0.05);
        else
            assert_near(before[0], 0.4, 1e-9);
    }
}

/* Memory: the rule for testing in turn until one test succeeds: where steps are independent and
 * none leaves it worse, the best order is by cost over chance, and all that are dearer by that
 * ratio than the step that always works are left out. */
static void ratio_rule(void **state)
{
    (void)state;
    for (int i = 0; i < 200; i++) {
        struct arena here = arena;
        struct ladder l = random_ladder(6);
        l.stuck = 0;
        l.stop = INFINITY;
        l.gone = 0;
        for (int k = 0; k < 6; k++) l.steps[k].ends = l.steps[k].needs = 0, l.steps[k].worse = 0;
        const struct ladder_solved x = ladder_solve(&here, &l);
        for (ladder_state s = ladder_start(&l);;) {
            int least = -1;
            for (int k = 0; k < 6; k++)
                if (ladder_open(&l, s, k) &&
                    (least < 0 || l.steps[k].cost / l.steps[k].works <
                                      l.steps[least].cost / l.steps[least].works))
                    least = k;
            assert_int_equal(x.best[s], least);
            if (least == 5) break;
            s = ladder_after(&l, s, least, false);
        }
    }
}

/* The same ladder as a process of the general kind, solved by sweeps. */
static void as_the_general_process(void **state)
{
    struct mdp_arc arcs[3 * 81 * 5];
    struct mdp_action actions[81 * 5];
    int policy[82], n_arcs = 0, n = 0;
    double value[82];
    struct ladder l = random_ladder(4);
    (void)state;
    l.stop = 25;
    const struct ladder_solved x = ladder_solve(&arena, &l);
    for (int s = 0; s < 81; s++) {
        actions[n++] = (struct mdp_action){s, -l.stop, NULL, 0};
        for (int k = 0; k < 4; k++) {
            double odds[LADDER_OUTCOMES];
            if (!ladder_open(&l, s, k)) continue;
            ladder_odds(&x, s, k, odds);
            struct mdp_action *to = &actions[n++];
            *to = (struct mdp_action){
                s, -l.steps[k].cost - odds[LADDER_WORSE] * l.steps[k].worse_cost, arcs + n_arcs, 3};
            arcs[n_arcs++] = (struct mdp_arc){81, odds[LADDER_CURED]};
            arcs[n_arcs++] =
                (struct mdp_arc){ladder_after(&l, s, k, false), odds[LADDER_NO_CHANGE]};
            arcs[n_arcs++] = (struct mdp_arc){ladder_after(&l, s, k, true), odds[LADDER_WORSE]};
        }
    }
    actions[n++] = (struct mdp_action){81, 0, NULL, 0};
    const struct mdp m = {82, actions, n};
    assert_true(mdp_total(&m, 1, 1e-12, 100, policy, value) > 0);
    for (int s = 0; s < 81; s++) assert_near(-value[s], x.cost[s], 1e-9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(howards_taxicab, open_arena, close_arena),
        cmocka_unit_test_setup_teardown(grid_of_four_by_three, open_arena, close_arena),
        cmocka_unit_test_setup_teardown(as_good_as_every_policy, open_arena, close_arena),
        cmocka_unit_test_setup_teardown(works_as_it_says, open_arena, close_arena),
        cmocka_unit_test_setup_teardown(failures_tell, open_arena, close_arena),
        cmocka_unit_test_setup_teardown(ratio_rule, open_arena, close_arena),
        cmocka_unit_test_setup_teardown(as_the_general_process, open_arena, close_arena),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
