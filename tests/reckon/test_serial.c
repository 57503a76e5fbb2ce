/* test_serial.c - the serial scheme on a project small enough for the eye, and on random ones.
 *
 * Source: the example of S. Hartmann, Naval Research Logistics 45 (1998), and R. Kolisch & S.
 * Hartmann (1999): six activities, one resource of capacity 4. Its answers were worked out again
 * over all lists. */
#include "base/random.h"
#include "reckon/psplib.h"
#include "reckon/serial.h"

#include "reckon/near.h"

#include <limits.h>
#include <string.h>

static struct arena arena;

static struct network make(int jobs, const struct network_link *links, int n_links)
{
    struct network n;
    struct network_cycle cycle;
    assert_true(network_make(&arena, jobs, links, n_links, &n, &cycle));
    return n;
}

static const struct network_link six_links[] = {{0, 2}, {2, 4}, {1, 3}, {3, 5}};
static const int six_duration[] = {3, 4, 2, 2, 1, 4}, six_request[] = {2, 3, 4, 4, 3, 2};

static void named_lists(void **state)
{
    (void)state;
    static const struct {
        int list[6], start[6], finish;
    } cases[] = {
        {{1, 3, 5, 0, 2, 4}, {6, 0, 10, 4, 12, 6}, 13},
        {{0, 1, 2, 3, 4, 5}, {0, 3, 7, 9, 11, 12}, 16},
    };
    struct network n = make(6, six_links, 4);
    const int capacity = 4;
    struct serial_project p = {&n, six_duration, 1, six_request, &capacity};
    for (size_t k = 0; k < sizeof cases / sizeof cases[0]; k++) {
        int start[6];
        assert_int_equal(serial_by_list(&p, cases[k].list, start, arena), cases[k].finish);
        assert_memory_equal(start, cases[k].start, sizeof start);
    }
}

/* Every list that puts no job before its predecessors, by trying each job that is ready in each
 * place. */
struct tally {
    const struct serial_project *p;
    int list[6], of_13, of_16, others;
};

static void try_all(struct tally *t, int placed)
{
    if (placed == 6) {
        int start[6], finish = serial_by_list(t->p, t->list, start, arena);
        if (finish == 13) {
            t->of_13++;
        } else if (finish == 16) {
            t->of_16++;
        } else {
            t->others++;
        }
        return;
    }
    for (int j = 0; j < 6; j++) {
        bool ready = true;
        for (int i = 0; i < placed; i++) ready &= t->list[i] != j;
        for (int l = 0; l < 4; l++) {
            bool before_done = six_links[l].after != j;
            for (int i = 0; i < placed; i++) before_done |= t->list[i] == six_links[l].before;
            ready &= before_done;
        }
        if (!ready) continue;
        t->list[placed] = j;
        try_all(t, placed + 1);
    }
}

static void all_lists(void **state)
{
    (void)state;
    struct network n = make(6, six_links, 4);
    const int capacity = 4;
    struct serial_project p = {&n, six_duration, 1, six_request, &capacity};
    struct tally t = {.p = &p};
    try_all(&t, 0);
    assert_int_equal(t.of_13 + t.of_16, 20); /* 6! / (3! 3!) interleavings of two chains */
    assert_int_equal(t.others, 0);
    assert_true(t.of_13 > 0 && t.of_16 > 0);
}

/* Without scarcity the scheme is the forward pass; jobs of no duration hold nothing. */
static void degenerate(void **state)
{
    (void)state;
    static const int plenty = 1000, one = 1, forward[] = {0, 0, 3, 4, 5, 6},
                     list[] = {0, 1, 2, 3, 4, 5};
    struct network n = make(6, six_links, 4);
    struct serial_project p = {&n, six_duration, 1, six_request, &plenty};
    int start[6];
    assert_int_equal(serial_by_list(&p, list, start, arena), 10);
    assert_memory_equal(start, forward, sizeof forward);

    static const int none[] = {0, 0, 0, 0, 0, 0}, all[] = {1, 1, 1, 1, 1, 1};
    p = (struct serial_project){&n, none, 1, all, &one};
    assert_int_equal(serial_by_list(&p, list, start, arena), 0);

    struct network empty = make(0, NULL, 0);
    p = (struct serial_project){&empty, NULL, 0, NULL, NULL};
    assert_int_equal(serial_by_list(&p, NULL, NULL, arena), 0);

    struct network loose = make(3, NULL, 0); /* no resource at all: side by side */
    static const int lasts[] = {5, 2, 9};
    p = (struct serial_project){&loose, lasts, 0, NULL, NULL};
    assert_int_equal(serial_by_list(&p, list, start, arena), 9);
}

static void latest_finish_ties(void **state)
{
    (void)state;
    /* Horizon 9. Job 3 has latest finish 9 - 2 = 7, the others 9: it comes first, and job 0, ready
     * only then, still before 1 and 2. */
    static const struct network_link links[] = {{3, 0}};
    static const int duration[] = {2, 1, 2, 4}, expected[] = {3, 0, 1, 2};
    struct network n = make(4, links, 1);
    struct serial_project p = {&n, duration, 0, NULL, NULL};
    int list[4];
    serial_latest_finish_list(&p, list, arena);
    assert_memory_equal(list, expected, sizeof list);
}

static void impossible_is_told(void **state)
{
    (void)state;
    static const int capacity[] = {4, 2}, long_ones[] = {INT_MAX, 1};
    static const struct {
        int request[4];
        const int *duration;
        const char *fault;
    } cases[] = {
        {{4, 2, 0, 0}, six_duration, NULL},
        {{4, 2, 0, 3}, six_duration, "job 1 asks for 3 of resource 1, which has 2"},
        {{5, 0, 0, 0}, six_duration, "job 0 asks for 5 of resource 0, which has 4"},
        {{0, 0, 0, 0}, long_ones, "beyond 2147483647"},
    };
    struct network n = make(2, NULL, 0);
    for (size_t k = 0; k < sizeof cases / sizeof cases[0]; k++) {
        struct fail f = {0};
        struct serial_project p = {&n, cases[k].duration, 2, cases[k].request, capacity};
        assert_int_equal(serial_valid(&p, &f), cases[k].fault == NULL);
        if (cases[k].fault) assert_non_null(strstr(f.text, cases[k].fault));
    }
}

/* Random projects, random lists: each is a schedule, and an active one (no job alone could start
 * sooner), as the scheme promises. Both are found by the checker, which knows nothing of the
 * scheme. */
static void random_projects_are_active(void **state)
{
    (void)state;
    enum { JOBS = 12, RESOURCES = 2, PROJECTS = 150 };
    for (uint32_t k = 0; k < PROJECTS; k++) {
        struct network_link links[JOBS * JOBS];
        int before[JOBS * JOBS], after[JOBS * JOBS], duration[JOBS], request[JOBS * RESOURCES];
        int capacity[RESOURCES] = {5, 3}, list[JOBS], start[JOBS], finish, n_links = 0;
        for (uint32_t j = 0; j < JOBS; j++) {
            struct philox w = random_words(61, k, j, 0);
            duration[j] = (int)(w.word[0] % 7);
            request[j * RESOURCES] = (int)(w.word[1] % 6);
            request[j * RESOURCES + 1] = (int)(w.word[2] % 4);
            list[j] = (int)j; /* links run upward, so that any sorted list will do */
            for (uint32_t i = 0; i < j; i++) {
                if (random_words(62, k, j, i).word[0] % 6) continue;
                links[n_links] = (struct network_link){(int)i, (int)j};
                before[n_links] = (int)i;
                after[n_links++] = (int)j;
            }
        }
        struct psplib instance = {JOBS,  RESOURCES, n_links, before,
                                  after, duration,  request, capacity};
        struct arena kept = arena;
        struct network n = make(JOBS, links, n_links);
        struct serial_project p = {&n, duration, RESOURCES, request, capacity};
        struct fail f = {0};
        if (k % 2) serial_latest_finish_list(&p, list, arena);
        int makespan = serial_by_list(&p, list, start, arena);
        if (!psplib_check(&instance, start, &finish, arena, &f)) fail_msg("%s", f.text);
        assert_int_equal(finish, makespan);
        for (int j = 0; j < JOBS; j++) {
            int held = start[j];
            for (start[j] = 0; start[j] < held; start[j]++) {
                f = (struct fail){0};
                assert_false(psplib_check(&instance, start, &finish, arena, &f));
            }
        }
        arena = kept;
    }
}

static int open_arena(void **state)
{
    (void)state;
    arena = arena_open(1 << 20);
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
        cmocka_unit_test(named_lists),        cmocka_unit_test(all_lists),
        cmocka_unit_test(degenerate),         cmocka_unit_test(latest_finish_ties),
        cmocka_unit_test(impossible_is_told), cmocka_unit_test(random_projects_are_active),
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}
