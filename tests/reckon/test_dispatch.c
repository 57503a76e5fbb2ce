/* test_dispatch.c - the dispatcher on cases small enough for the eye, one rule each, with the
 * moments worked out by hand; and that it does not look ahead. */
#include "reckon/dispatch.h"

#include "reckon/near.h"
#include "reckon/random_project.h"
#include "reckon/small_project.h"

#include <stdlib.h>

static struct arena arena;
static struct small s;

/* Schedules what was told; the checker has the first word. */
static struct small_run run_it(void)
{
    struct small_run r = small_do(&arena, &s.p, 1);
    struct fail f = {0};
    if (!schedule_check(&s.p, &r.drawn, &r.schedule, arena, &f)) fail_msg("%s", f.text);
    return r;
}

static void assert_job(const struct small_run *r, int job, int start, int finish, int line)
{
    if (r->schedule.start[job] == start && r->schedule.finish[job] == finish) return;
    fail_msg("line %d: '%s' runs from %d to %d, not from %d to %d", line, s.jobs[job].id,
             r->schedule.start[job], r->schedule.finish[job], start, finish);
}
#define ASSERT_JOB(job, start, finish) assert_job(&r, job, start, finish, __LINE__)

static void assert_stints(const struct small_run *r, const struct stint *expected, int n)
{
    assert_int_equal(r->schedule.n_stints, n);
    for (int i = 0; i < n; i++) {
        const struct stint *x = &r->schedule.stints[i], *e = &expected[i];
        if (x->job != e->job || x->session != e->session || x->hands != e->hands ||
            x->again != e->again || x->from != e->from || x->to != e->to)
            fail_msg("stint %d is job %d, session %d, %d..%d", i, x->job, x->session, x->from,
                     x->to);
    }
}

/* Evenings of two hours from minute 1000 of each day. */
static void evenings(int n)
{
    for (int i = 0; i < n; i++) small_session(&s, i * DAY_LONG + 1000, i * DAY_LONG + 1120);
}

static void work_is_split_over_sessions(void **state)
{
    (void)state;
    small_begin(&s);
    int strip = small_job(&s, "strip", 300), clean = small_job(&s, "clean", 30);
    small_after(&s, clean, strip);
    evenings(4);
    struct small_run r = run_it();
    const struct stint expected[] = {
        {strip, 0, 1, false, 1000, 1120},
        {strip, 1, 1, false, 2440, 2560},
        {strip, 2, 1, false, 3880, 3940},
        {clean, 2, 1, false, 3940, 3970},
    };
    assert_stints(&r, expected, 4);
    assert_int_equal(r.outcome.finish, 3970);
    assert_true(r.critical[strip] && r.critical[clean]);
    assert_near(r.outcome.hang[HOLD_HANDS], 3970 - 1000, 0);
    assert_near(r.outcome.hang[HOLD_NOTHING], 1000, 0);
}

static void missed_sessions_are_left_out(void **state)
{
    (void)state;
    small_begin(&s);
    small_job(&s, "strip", 150);
    evenings(3);
    struct small_run r = run_it();
    r.drawn.kept[1] = 0;
    small_dispatch(&arena, &s.p, &r);
    ASSERT_JOB(0, 1000, 2 * DAY_LONG + 1030);
    r.drawn.kept[2] = 0;
    small_dispatch(&arena, &s.p, &r);
    ASSERT_JOB(0, 1000, NEVER);
    assert_int_equal(r.outcome.finish, NEVER);
    assert_false(r.outcome.out_of_money);
}

static void waits_pass_without_hands(void **state)
{
    (void)state;
    small_begin(&s);
    int soak = small_job(&s, "soak", 20), free = small_job(&s, "free", 40),
        sort = small_job(&s, "sort", 60);
    s.jobs[soak].wait = exactly(50);
    small_after(&s, free, soak);
    s.jobs[sort].chance = 0.1; /* the least urgent */
    evenings(2);
    struct small_run r = run_it();
    ASSERT_JOB(soak, 1000, 1020);
    ASSERT_JOB(sort, 1020, 1080); /* while it soaks */
    ASSERT_JOB(free, 1080, 1120); /* ready at 1070, but hands are busy: work is not put down */
    assert_true(r.critical[sort] && r.critical[free]);
    s.jobs[sort].minutes = exactly(45);
    r = run_it();
    ASSERT_JOB(free, 1070, 1110);
    assert_true(r.critical[soak] && !r.critical[sort]);
    assert_near(r.outcome.hang[HOLD_WAIT], 50, 0);
}

static void parts_are_ordered_on_day_0(void **state)
{
    (void)state;
    small_begin(&s);
    int fit = small_job(&s, "fit", 60), other = small_job(&s, "other", 30);
    int late = small_part(&s, "late", 100, 1010), soon = small_part(&s, "soon", 10, 5);
    small_buy(&s, fit, late, 2);
    small_buy(&s, fit, soon, 3);
    evenings(2);
    struct small_run r = run_it();
    ASSERT_JOB(other, 1000, 1030);
    ASSERT_JOB(fit, 1030, 1090); /* all its parts are here at 1010 */
    assert_int_equal(r.schedule.n_orders, 1);
    assert_int_equal(r.schedule.orders[0].ordered, 0);
    assert_int_equal(r.schedule.orders[0].arrives, 1010);
    assert_near(r.schedule.orders[0].price, 230, 0);
    assert_near(r.money, 230, 0);
    s.jobs[fit].parts_here = true;
    r = run_it();
    ASSERT_JOB(fit, 1000, 1060);
    assert_int_equal(r.schedule.n_orders, 0);
}

static void orders_wait_for_payday(void **state)
{
    (void)state;
    small_begin(&s);
    int tyres = small_job(&s, "tyres", 60), seat = small_job(&s, "seat", 30);
    small_buy(&s, tyres, small_part(&s, "tyre", 100, 200), 4);
    small_buy(&s, seat, small_part(&s, "cover", 50, 100), 1);
    s.p.purse.in_hand = 300;
    s.p.purse.ceiling = 1000;
    s.p.purse.reserve = 20;
    small_payday(&s, 500, 60); /* 360: not yet */
    small_payday(
        &s, 1010,
        60); /* 420 = 400 + 20, in the middle of the session; the seat still waits behind */
    small_payday(&s, 1020, 60);
    evenings(2);
    struct small_run r = run_it();
    assert_int_equal(r.schedule.n_orders, 2);
    assert_int_equal(r.schedule.orders[0].ordered, 1010);
    assert_int_equal(r.schedule.orders[1].ordered,
                     1020); /* though it could be paid at once: orders wait in turn */
    ASSERT_JOB(tyres, DAY_LONG + 1000, DAY_LONG + 1060); /* here at 1210, between the evenings */
    ASSERT_JOB(seat, DAY_LONG + 1060, DAY_LONG + 1090);
    assert_near(r.outcome.hang[HOLD_MONEY], DAY_LONG + 1000, 0);
}

static void the_ceiling_ends_it(void **state)
{
    (void)state;
    small_begin(&s);
    int tyres = small_job(&s, "tyres", 60), free = small_job(&s, "free", 30);
    small_buy(&s, tyres, small_part(&s, "tyre", 100, 200), 4);
    s.p.purse.in_hand = 5000;
    s.p.purse.ceiling = 399;
    small_payday(&s, 10, 5000);
    evenings(3);
    struct small_run r = run_it();
    assert_true(r.outcome.out_of_money);
    assert_int_equal(r.outcome.finish, NEVER);
    ASSERT_JOB(tyres, NEVER, NEVER);
    ASSERT_JOB(free, 1000, 1030); /* what costs nothing goes on */
    s.p.purse.ceiling = 400;
    r = run_it();
    assert_false(r.outcome.out_of_money);
    ASSERT_JOB(tyres, 1000, 1060);
}

static void a_helper_is_used_first(void **state)
{
    (void)state;
    small_begin(&s);
    int dig = small_job(&s, "dig", 500), lift = small_job(&s, "lift", 60),
        sweep = small_job(&s, "sweep", 60);
    s.jobs[lift].hands = 2;
    s.jobs[sweep].chance = 0.1;
    evenings(6);
    s.sessions[1].hands = 2;
    struct small_run r = run_it();
    const struct stint expected[] = {
        {dig, 0, 1, false, 1000, 1120},
        {lift, 1, 2, false, 2440, 2500}, /* before the begun dig, which outranks it */
        {sweep, 1, 1, false, 2500, 2560},
        {dig, 1, 1, false, 2500, 2560}, /* then side by side */
        {dig, 2, 1, false, 3880, 4000},
        {dig, 3, 1, false, 5320, 5440},
        {dig, 4, 1, false, 6760, 6840},
    };
    assert_int_equal(r.schedule.n_stints, 7);
    assert_stints(&r, expected, 7);
}

/* Two who work every evening: a job for both would wait until nothing else is left, were begun work
 * always first. */
static void two_do_not_starve_a_job_for_both(void **state)
{
    (void)state;
    small_begin(&s);
    int prepare = small_job(&s, "prepare", 10), lift = small_job(&s, "lift", 60);
    int left = small_job(&s, "left", 500), right = small_job(&s, "right", 500);
    small_after(&s, lift, prepare);
    s.jobs[prepare].wait = exactly(200);
    s.jobs[lift].hands = 2;
    s.jobs[left].chance = s.jobs[right].chance = 0.1;
    evenings(9);
    for (int i = 0; i < 9; i++) s.sessions[i].hands = 2;
    struct small_run r = run_it();
    ASSERT_JOB(lift, DAY_LONG + 1000, DAY_LONG + 1060);
    assert_true(r.schedule.start[left] < 1120 && r.schedule.start[right] < 1120);
}

/* So would unbroken work that needs the whole of an evening. */
static void begun_work_gives_way_to_a_long_unbroken_job(void **state)
{
    (void)state;
    small_begin(&s);
    int prepare = small_job(&s, "prepare", 10), pour = small_job(&s, "pour", 110),
        dig = small_job(&s, "dig", 900);
    small_after(&s, pour, prepare);
    s.jobs[prepare].wait = exactly(200);
    s.jobs[pour].unbroken = true;
    evenings(12);
    s.sessions[11].end -= 60; /* there is a shorter one */
    s.jobs[dig].chance = 0.1;
    struct small_run r = run_it();
    ASSERT_JOB(prepare, 1000, 1010);
    assert_int_equal(r.schedule.start[dig], 1010);
    ASSERT_JOB(pour, DAY_LONG + 1000, DAY_LONG + 1110);
}

static void place_and_warmth(void **state)
{
    (void)state;
    small_begin(&s);
    int weld = small_job(&s, "weld", 60), paint = small_job(&s, "paint", 50),
        sort = small_job(&s, "sort", 60);
    s.jobs[weld].bay = true;
    s.jobs[paint].warm = 15;
    s.jobs[sort].chance = 0.1;
    evenings(3);
    s.sessions[0].bay = false;
    s.sessions[0].degrees = s.sessions[1].degrees = 14;
    s.sessions[2].degrees = 15;
    struct small_run r = run_it();
    ASSERT_JOB(sort, 1000, 1060);
    ASSERT_JOB(weld, DAY_LONG + 1000, DAY_LONG + 1060);
    ASSERT_JOB(paint, 2 * DAY_LONG + 1000, 2 * DAY_LONG + 1050);
}

/* Whether it fits is judged by the high figure; what overruns is finished that day if the next
 * session leaves room. */
static void unbroken_work(void **state)
{
    (void)state;
    small_begin(&s);
    int first = small_job(&s, "first", 40), pour = small_job(&s, "pour", 60),
        sort = small_job(&s, "sort", 30);
    small_after(&s, pour, first);
    s.jobs[pour].unbroken = true;
    s.jobs[sort].chance = 0.1;
    s.jobs[pour].minutes = about(50, 60, 81); /* 80 minutes are left when it is ready */
    evenings(3);
    struct small_run r = run_it();
    ASSERT_JOB(sort, 1040, 1070);
    assert_int_equal(r.schedule.start[pour], DAY_LONG + 1000);
    s.jobs[pour].minutes = about(50, 60, 79);
    r = run_it();
    assert_int_equal(r.schedule.start[pour], 1040);
    r.drawn.minutes[pour] = 200; /* worse than its high figure */
    small_dispatch(&arena, &s.p, &r);
    ASSERT_JOB(pour, 1040, 1240);
    assert_int_equal(r.schedule.stints[1].session, 0);
    /* With the next session in the way it has to be put down after all. */
    s.sessions[1].start = 1200;
    s.sessions[1].end = 1320;
    small_dispatch(&arena, &s.p, &r);
    ASSERT_JOB(pour, 1040, 1320);
    struct fail f = {0};
    assert_true(schedule_check(&s.p, &r.drawn, &r.schedule, arena, &f));
}

/* Too long for any evening: it is begun in the longest near at hand, and a long day that has passed
 * is not missed. */
static void unbroken_work_longer_than_sessions(void **state)
{
    (void)state;
    small_begin(&s);
    int strip = small_job(&s, "strip", 230), pour = small_job(&s, "pour", 300);
    small_after(&s, pour, strip);
    s.jobs[pour].unbroken = true;
    evenings(4);
    s.sessions[0].start = 500; /* a long day, over before the job is ready */
    s.sessions[0].end = 700;
    s.sessions[3].end += 10;
    struct small_run r = run_it();
    ASSERT_JOB(strip, 500, DAY_LONG + 1030);
    ASSERT_JOB(pour, 3 * DAY_LONG + 1000,
               3 * DAY_LONG + 1300); /* not on the evening before, which is shorter */
    s.sessions[3].start += 30 * DAY_LONG;
    s.sessions[3].end += 30 * DAY_LONG;
    r = run_it();
    ASSERT_JOB(pour, 2 * DAY_LONG + 1000, 2 * DAY_LONG + 1300); /* a month is not waited */
}

static void a_setback_adds_its_phase(void **state)
{
    (void)state;
    small_begin(&s);
    int bleed = small_job(&s, "bleed", 30), road = small_job(&s, "road", 10),
        sort = small_job(&s, "sort", 90);
    small_after(&s, road, bleed);
    s.jobs[sort].chance = 0.1;
    small_setback(&s, bleed, 45, 20, small_part(&s, "pipe", 70, 60));
    evenings(3);
    struct small_run r = run_it();
    const struct stint expected[] = {
        {bleed, 0, 1, false, 1000, 1030},
        {sort, 0, 1, false, 1030, 1120},
        {bleed, 1, 1, true, 2440, 2485},
        {road, 1, 1, false, 2485, 2495},
    };
    assert_stints(&r, expected, 4);
    assert_int_equal(r.schedule.orders[0].ordered, 1030); /* when it happened */
    assert_int_equal(r.schedule.orders[0].arrives, 1090);
    assert_true(r.schedule.orders[0].again);
    ASSERT_JOB(bleed, 1000, 2485);
    assert_true(r.critical[bleed] && !r.critical[sort]);
    assert_near(r.outcome.hang[HOLD_PARTS], 0, 0); /* nothing held its start */
}

static void the_gate_holds_orders(void **state)
{
    (void)state;
    small_begin(&s);
    int look = small_job(&s, "look", 60), decide = small_job(&s, "decide", 30),
        fit = small_job(&s, "fit", 20);
    int gauge = small_part(&s, "gauge", 10, 900), panel = small_part(&s, "panel", 500, 100);
    small_buy(&s, look, gauge, 1);
    small_after(&s, decide, look);
    small_buy(&s, fit, panel, 1);
    s.jobs[look].survey = s.jobs[decide].gate = true;
    evenings(3);
    struct small_run r = run_it();
    ASSERT_JOB(look, 1000, 1060);
    ASSERT_JOB(decide, 1060, 1090);
    assert_int_equal(r.schedule.orders[0].ordered, 0);
    assert_int_equal(r.schedule.orders[1].ordered, 1090);
    ASSERT_JOB(fit, DAY_LONG + 1000, DAY_LONG + 1020); /* here at 1190 */
    assert_near(r.outcome.hang[HOLD_PARTS], 1000 + (DAY_LONG + 1000 - 1090),
                0);                                         /* the gauge, and the panel */
    s.jobs[look].finished = s.jobs[decide].finished = true; /* decided already: today */
    r = run_it();
    assert_int_equal(r.schedule.n_orders, 1);
    assert_int_equal(r.schedule.orders[0].ordered, 0);
    ASSERT_JOB(fit, 1000, 1020);
}

static void jobs_not_needed_pass_through(void **state)
{
    (void)state;
    small_begin(&s);
    int bores = small_component(&s, "bores", COND_SOUND);
    int look = small_job(&s, "look", 30), hone = small_job(&s, "hone", 500),
        paint = small_job(&s, "paint", 40);
    small_need(&s, hone, bores, 1u << COND_POOR | 1u << COND_FAILED);
    small_after(&s, hone, look);
    small_after(&s, paint, hone);
    s.jobs[look].wait = exactly(15);
    s.jobs[hone].wait = exactly(10000);
    evenings(9);
    struct small_run r = run_it();
    ASSERT_JOB(hone, 1045,
               1045); /* no work, no wait of its own, but it hands on what was before it */
    ASSERT_JOB(paint, 1045, 1085);
    assert_int_equal(r.schedule.n_stints, 2);
    assert_true(r.critical[look] && r.critical[paint] && !r.critical[hone]);
    s.components[bores].known = COND_POOR;
    r = run_it();
    assert_int_equal(r.schedule.start[hone], 1045);
    assert_int_equal(r.drawn.minutes[hone], 500);
}

static void the_end_is_when_done_is_done(void **state)
{
    (void)state;
    small_begin(&s);
    int drive = small_job(&s, "drive", 30);
    small_job(&s, "polish", 1000);
    s.jobs[1].chance = 0.01;
    s.p.n_done = 1;
    evenings(12);
    struct small_run r = run_it();
    assert_int_equal(r.outcome.finish, r.schedule.finish[drive]);
    assert_int_equal(r.outcome.finish, 1030);
}

/* ---- it does not look ahead ---- */

static void keep_until(const struct schedule *x, int32_t t, struct stint *to, int *n)
{
    *n = 0;
    for (int i = 0; i < x->n_stints; i++) {
        if (x->stints[i].from >= t) continue;
        to[*n] = x->stints[i];
        if (to[*n].to > t) to[*n].to = t;
        (*n)++;
    }
}

static int by_moment(const void *a, const void *b)
{
    const struct stint *x = a, *y = b;
    return x->from != y->from ? (x->from > y->from) - (x->from < y->from) : x->job - y->job;
}

/* Whatever a job that starts at t or later takes, what was done before t is the same to the minute.
 */
static void nothing_looks_ahead(void **state)
{
    (void)state;
    int compared = 0, changed = 0;
    for (uint64_t i = 0; i < 200; i++) {
        struct arena a = arena;
        struct dice dice = {i, 0};
        struct project p = random_project(&a, 1000 + i, RANDOM_ALL, 0);
        struct small_run r = {.drawn = drawn_new(&a, &p)}, other;
        struct belief b = belief_of(&a, &p);
        draw_run(&p, &b, 3, (uint32_t)i, -1, &r.drawn, &r.work);
        small_dispatch(&a, &p, &r);
        if (r.schedule.n_stints < 4) continue;
        int32_t t = r.schedule.stints[dice_between(&dice, 2, r.schedule.n_stints - 1)].from;
        struct schedule first = r.schedule;
        for (int j = 0; j < p.n_jobs; j++) {
            if (first.start[j] < t || !r.drawn.applies[j]) continue;
            r.drawn.minutes[j] = dice_between(&dice, 1, 2000);
            r.drawn.wait[j] = dice_between(&dice, 0, 20000);
            r.drawn.again_minutes[j] = dice_chance(&dice, 0.5) ? dice_between(&dice, 1, 2000) : 0;
            r.drawn.again_wait[j] = dice_chance(&dice, 0.5) ? dice_between(&dice, 1, 2000) : 0;
        }
        for (int k = 0; k < p.n_sessions; k++)
            if (p.sessions[k].start >= t) r.drawn.kept[k] = dice_chance(&dice, 0.5);
        other = r;
        small_dispatch(&a, &p, &other);
        struct stint *x = ARENA_ARRAY(&a, struct stint, first.n_stints);
        struct stint *y = ARENA_ARRAY(&a, struct stint, other.schedule.n_stints);
        int n, m;
        keep_until(&first, t, x, &n);
        keep_until(&other.schedule, t, y, &m);
        assert_int_equal(n, m);
        qsort(x, (size_t)n, sizeof *x, by_moment);
        qsort(y, (size_t)m, sizeof *y, by_moment);
        for (int k = 0; k < n; k++)
            assert_true(x[k].job == y[k].job && x[k].from == y[k].from && x[k].to == y[k].to &&
                        x[k].session == y[k].session && x[k].again == y[k].again);
        compared += n;
        changed += other.outcome.finish != r.outcome.finish;
    }
    assert_true(compared > 1000 && changed > 100);
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

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(work_is_split_over_sessions),
        cmocka_unit_test(missed_sessions_are_left_out),
        cmocka_unit_test(waits_pass_without_hands),
        cmocka_unit_test(parts_are_ordered_on_day_0),
        cmocka_unit_test(orders_wait_for_payday),
        cmocka_unit_test(the_ceiling_ends_it),
        cmocka_unit_test(a_helper_is_used_first),
        cmocka_unit_test(two_do_not_starve_a_job_for_both),
        cmocka_unit_test(begun_work_gives_way_to_a_long_unbroken_job),
        cmocka_unit_test(place_and_warmth),
        cmocka_unit_test(unbroken_work),
        cmocka_unit_test(unbroken_work_longer_than_sessions),
        cmocka_unit_test(a_setback_adds_its_phase),
        cmocka_unit_test(the_gate_holds_orders),
        cmocka_unit_test(jobs_not_needed_pass_through),
        cmocka_unit_test(the_end_is_when_done_is_done),
        cmocka_unit_test(nothing_looks_ahead),
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}
