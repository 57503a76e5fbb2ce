/* test_anomaly.c - when more work may bring an earlier end, and when it may not.
 *
 * Where nothing but precedence holds a job, and where one pair of hands works through jobs that can
 * be put down, less work never ends later. Elsewhere a list dispatcher has anomalies: R. L. Graham,
 * "Bounds on multiprocessing timing anomalies", SIAM J. Appl. Math. 17 (1969). His example is held
 * here, and how often and how far it happens on random projects is counted: test_anomaly N counts
 * on N of them instead of 100. */
#include "reckon/dispatch.h"

#include "reckon/near.h"
#include "reckon/random_project.h"
#include "reckon/small_project.h"

#include <stdlib.h>
#include <string.h>

static struct arena arena;
static int networks = 100;

static struct small_run drawn_of(struct arena *a, const struct project *p, uint32_t run)
{
    struct small_run r = {.drawn = drawn_new(a, p)};
    struct belief b = belief_of(a, p);
    draw_run(p, &b, 8, run, -1, &r.drawn, &r.work);
    small_dispatch(a, p, &r);
    return r;
}

static void longer(struct dice *dice, int32_t *minutes)
{
    if (dice_chance(dice, 0.3)) *minutes += dice_between(dice, 1, 3000);
}

static void precedence_alone_is_monotone(void **state)
{
    (void)state;
    enum {
        FREE = RANDOM_WAITS | RANDOM_PARTS | RANDOM_COMPONENTS | RANDOM_SETBACKS | RANDOM_GATE |
               RANDOM_UNBROKEN
    };
    int later = 0;
    for (uint32_t i = 0; i < 150; i++) {
        struct arena a = arena;
        struct dice dice = {i, 0};
        struct project p = random_project(&a, i, FREE, 0);
        struct small_run r = drawn_of(&a, &p, i), slow = r;
        assert_int_not_equal(r.outcome.finish, NEVER);
        for (int j = 0; j < p.n_jobs; j++) {
            if (!r.drawn.applies[j]) continue;
            longer(&dice, &slow.drawn.minutes[j]);
            longer(&dice, &slow.drawn.wait[j]);
            longer(&dice, &slow.drawn.again_minutes[j]);
            longer(&dice, &slow.drawn.again_wait[j]);
            longer(&dice, &slow.drawn.lead[j]);
            longer(&dice, &slow.drawn.again_lead[j]);
        }
        small_dispatch(&a, &p, &slow);
        for (int j = 0; j < p.n_jobs; j++) /* NEVER: still open when all that must be was done */
            assert_true(slow.schedule.finish[j] >= r.schedule.finish[j] ||
                        r.schedule.finish[j] == NEVER);
        later += slow.outcome.finish > r.outcome.finish;
    }
    assert_true(later > 100);
}

static void one_pair_of_hands_is_monotone(void **state)
{
    (void)state;
    enum { PLAIN = RANDOM_CALENDAR | RANDOM_COMPONENTS | RANDOM_SETBACKS | RANDOM_GATE };
    int sooner = 0;
    for (uint32_t i = 0; i < 150; i++) {
        struct arena a = arena;
        struct dice dice = {i, 0};
        struct project p = random_project(&a, 500 + i, PLAIN, 0);
        struct small_run r = drawn_of(&a, &p, i), more = r;
        assert_int_not_equal(r.outcome.finish, NEVER);
        for (int s = 0; s < p.n_sessions; s++) {
            if (dice_chance(&dice, 0.2)) p.sessions[s].end += dice_between(&dice, 1, 90);
            if (dice_chance(&dice, 0.1)) more.drawn.kept[s] = 1;
        }
        small_dispatch(&a, &p, &more);
        for (int j = 0; j < p.n_jobs; j++)
            assert_true(more.schedule.finish[j] <= r.schedule.finish[j]);
        sooner += more.outcome.finish < r.outcome.finish;
        /* And less work, on the first hours again. */
        struct small_run less = more;
        for (int j = 0; j < p.n_jobs; j++)
            if (less.drawn.minutes[j] > 1)
                less.drawn.minutes[j] = dice_between(&dice, 1, less.drawn.minutes[j]);
        small_dispatch(&a, &p, &less);
        assert_true(less.outcome.finish <= more.outcome.finish);
    }
    assert_true(sooner > 100);
}

/* Graham's example: nine tasks in the order of their numbers on three hands take 12; with four
 * hands 15; each a unit shorter 13; without two of the precedences 16 (mark: memory, and worked out
 * again by hand). */
static int graham(struct small *s, int hands, int shorter, bool fewer)
{
    static const int durations[] = {3, 2, 2, 2, 4, 4, 4, 4, 9};
    static const char *const names[] = {"T1", "T2", "T3", "T4", "T5", "T6", "T7", "T8", "T9"};
    static const int order[] = {0, 1, 2, 3, 4, 5, 6, 7, 8};
    struct arena a = arena;
    small_begin(s);
    for (int j = 0; j < 9; j++) {
        small_job(s, names[j], durations[j] - shorter);
        if (j == 8)
            small_after(s, j, 0);
        else if (j >= 4 && !(fewer && j < 6))
            small_after(s, j, 3);
    }
    small_session(s, 0, 1000);
    s->sessions[0].hands = hands;
    struct small_run r = small_do(&a, &s->p, 1);
    const struct dispatch *d = dispatch_prepare(&a, &s->p, order);
    return dispatch_run(d, desk_new(&a, d), &r.drawn, &r.schedule, NULL).finish;
}

static void grahams_example(void **state)
{
    (void)state;
    static struct small s;
    assert_int_equal(graham(&s, 3, 0, false), 12);
    assert_int_equal(graham(&s, 4, 0, false), 15);
    assert_int_equal(graham(&s, 3, 1, false), 13);
    assert_int_equal(graham(&s, 3, 0, true), 16);
}

/* ---- how often, and how far ---- */

enum change {
    ONE_SHORTER,
    MANY_SHORTER,
    PARTS_SOONER,
    WAITS_SHORTER,
    LONGER_SESSIONS,
    ONE_MORE_HAND,
    MORE_MONEY,
    CHANGES
};
static const char *const change_names[CHANGES] = {
    "one job half as long",      "a third of the jobs a tenth shorter", "parts a third sooner",
    "waits a third shorter",     "sessions half an hour longer",        "one more pair of hands",
    "a fifth more money a month"};

static void make_easier(enum change c, struct dice *dice, struct arena *a, struct project *p,
                        struct drawn *d)
{
    if (c == ONE_SHORTER) {
        int j = dice_between(dice, 0, p->n_jobs - 1);
        for (int i = 0; i < p->n_jobs && d->minutes[j] < 2; i++) j = (j + 1) % p->n_jobs;
        d->minutes[j] = (d->minutes[j] + 1) / 2;
    }
    for (int j = 0; j < p->n_jobs; j++) {
        if (c == MANY_SHORTER && j % 3 == 0 && d->minutes[j] > 10)
            d->minutes[j] -= d->minutes[j] / 10;
        if (c == PARTS_SOONER && d->lead[j] > 0) d->lead[j] -= d->lead[j] / 3;
        if (c == WAITS_SHORTER) d->wait[j] -= d->wait[j] / 3;
    }
    if (c == LONGER_SESSIONS || c == ONE_MORE_HAND) {
        struct project_session *more = ARENA_ARRAY(a, struct project_session, p->n_sessions);
        memcpy(more, p->sessions, (size_t)p->n_sessions * sizeof *more);
        for (int s = 0; s < p->n_sessions; s++) {
            if (c == LONGER_SESSIONS)
                more[s].end += 30;
            else
                more[s].hands++;
        }
        p->sessions = more;
    }
    if (c == MORE_MONEY) {
        double *pay = ARENA_ARRAY(a, double, p->purse.n_paydays);
        for (int i = 0; i < p->purse.n_paydays; i++) pay[i] = p->purse.pay[i] * 1.2;
        p->purse.pay = pay;
    }
}

struct count {
    int compared, later, sooner;
    double worst, sum_later, sum; /* shares of the finish before */
};

static void anomalies_are_counted(void **state)
{
    (void)state;
    struct count counts[CHANGES] = {{0}};
    for (int i = 0; i < networks; i++) {
        struct arena a = arena;
        struct project p = random_project(&a, 7000 + (uint64_t)i, RANDOM_ALL, 0);
        struct small_run r = drawn_of(&a, &p, (uint32_t)i);
        if (r.outcome.finish == NEVER || r.outcome.finish == 0) continue;
        for (enum change c = 0; c < CHANGES; c++) {
            struct arena b = a;
            struct dice dice = {(uint64_t)i, 0};
            struct project q = p;
            struct small_run easy = {.drawn = drawn_new(&b, &p)};
            struct belief belief = belief_of(&b, &p);
            draw_run(&p, &belief, 8, (uint32_t)i, -1, &easy.drawn, &easy.work);
            make_easier(c, &dice, &b, &q, &easy.drawn);
            small_dispatch(&b, &q, &easy);
            struct fail f = {0};
            if (!schedule_check(&q, &easy.drawn, &easy.schedule, b, &f)) fail_msg("%s", f.text);
            /* One that no longer ends within the calendar is later by what is known: its last
             * session. */
            double end = easy.outcome.finish != NEVER ? easy.outcome.finish
                                                      : p.sessions[p.n_sessions - 1].end;
            double change = end / r.outcome.finish - 1;
            struct count *n = &counts[c];
            n->compared++;
            n->sum += change;
            n->sooner += change < 0;
            if (change <= 0) continue;
            n->later++;
            n->sum_later += change;
            n->worst = fmax(n->worst, change);
        }
    }
    double all = 0;
    for (enum change c = 0; c < CHANGES; c++) {
        const struct count *n = &counts[c];
        print_message("%-36s %4d runs: %4.1f %% sooner, %4.1f %% later (by %4.1f %% of the time on "
                      "average, at most "
                      "%4.1f %%); mean %+5.2f %%\n",
                      change_names[c], n->compared, 100.0 * n->sooner / n->compared,
                      100.0 * n->later / n->compared,
                      n->later > 0 ? 100 * n->sum_later / n->later : 0, 100 * n->worst,
                      100 * n->sum / n->compared);
        assert_true(n->compared > networks * 8 / 10);
        assert_true(n->sooner > n->later); /* what makes it easier helps more often than it harms */
        all += n->sum / n->compared;
    }
    assert_true(all < 0); /* and on average */
}

static int open_arena(void **state)
{
    (void)state;
    arena = arena_open((size_t)1 << 26);
    return 0;
}

static int close_arena(void **state)
{
    (void)state;
    arena_close(&arena);
    return 0;
}

int main(int argc, char **argv)
{
    if (argc > 1) networks = atoi(argv[1]);
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(precedence_alone_is_monotone),
        cmocka_unit_test(one_pair_of_hands_is_monotone),
        cmocka_unit_test(grahams_example),
        cmocka_unit_test(anomalies_are_counted),
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}
