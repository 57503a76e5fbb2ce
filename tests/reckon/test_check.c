/* test_check.c - every schedule that is dispatched passes the independent checker, and the checker
 * is no formality: it names each of many ways to spoil one.
 *
 * test_check N checks N random projects instead of 300. */
#include "reckon/check.h"

#include "reckon/near.h"
#include "reckon/random_project.h"
#include "reckon/small_project.h"

#include <stdlib.h>
#include <string.h>

static struct arena arena;
static int projects = 300;

/* ---- what is dispatched is a schedule ---- */

static void random_schedules_hold(void **state)
{
    (void)state;
    int finished = 0, stuck = 0, broke = 0, stints = 0, orders = 0, again = 0, overran = 0;
    for (int i = 0; i < projects; i++) {
        struct arena a = arena;
        /* A third have everything; the rest have one kind of trouble less or more. */
        unsigned with = i % 3 == 0 ? RANDOM_ALL : (unsigned)i * 2654435761u >> 8 & RANDOM_ALL;
        struct project p = random_project(&a, (uint64_t)i + 1, with, 0);
        struct fail f = {0};
        if (!project_valid(&p, a, &f)) fail_msg("project %d: %s", i, f.text);
        struct belief b = belief_of(&a, &p);
        for (uint32_t run = 0; run < 4; run++) {
            struct small_run r = {.drawn = drawn_new(&a, &p)};
            draw_run(&p, &b, 5, run, -1, &r.drawn, &r.work);
            small_dispatch(&a, &p, &r);
            if (!schedule_check(&p, &r.drawn, &r.schedule, a, &f))
                fail_msg("project %d (%x), run %u: %s", i, with, run, f.text);
            assert_true(r.schedule.n_stints <= dispatch_most_stints(&p));
            if (r.outcome.finish != NEVER)
                finished++;
            else if (r.outcome.out_of_money)
                broke++;
            else
                stuck++;
            stints += r.schedule.n_stints;
            orders += r.schedule.n_orders;
            for (int k = 0; k < r.schedule.n_stints; k++) {
                const struct stint *s = &r.schedule.stints[k];
                again += s->again;
                overran += s->to > p.sessions[s->session].end;
            }
        }
    }
    print_message(
        "%d projects x 4 runs: %d finished, %d out of money, %d out of calendar; %d stints, %d "
        "after setbacks, %d past the session's end, %d orders\n",
        projects, finished, broke, stuck, stints, again, overran, orders);
    /* The proof is worth something only if most runs end and every kind of thing happens. */
    assert_true(finished > 3 * projects && broke > 0 && again > projects &&
                overran > projects / 10 && orders > projects);
}

/* ---- spoiling one ---- */

enum { INSPECT, DECIDE, STRIP, LIFT, PAINT, GLUE, FIT, TRIM };

static struct small s;

/* Every rule has something to bear on. Sessions of 4 hours from day 0, each day at 18:00; the third
 * has a helper. */
static void tell_shop(void)
{
    small_begin(&s);
    static const char *const names[] = {"inspect", "decide", "strip", "lift",
                                        "paint",   "glue",   "fit",   "trim"};
    static const int minutes[] = {60, 30, 400, 120, 60, 90, 100, 100};
    int tools = small_part(&s, "tools", 200, 600),
        panel = small_part(&s, "panel", 4000, 2 * DAY_LONG),
        bolts = small_part(&s, "bolts", 300, DAY_LONG);
    for (int j = 0; j < 8; j++) {
        small_job(&s, names[j], minutes[j]);
        if (j == DECIDE)
            small_after(&s, j, INSPECT);
        else if (j > DECIDE)
            small_after(&s, j, j == TRIM ? STRIP : j - 1);
        if (j == INSPECT) small_buy(&s, j, tools, 1);
        if (j == FIT) small_buy(&s, j, panel, 1);
    }
    s.jobs[INSPECT].survey = true;
    s.jobs[DECIDE].gate = true;
    s.jobs[STRIP].bay = true;
    s.jobs[LIFT].hands = 2;
    s.jobs[PAINT].warm = 15;
    s.jobs[PAINT].wait = exactly(DAY_LONG);
    s.jobs[GLUE].unbroken = true;
    small_setback(&s, FIT, 45, 300, bolts);
    for (int day = 0; day < 14; day++) {
        small_session(&s, day * DAY_LONG + 1080, day * DAY_LONG + 1320);
        if (day % 3 == 2) s.sessions[day].hands = 2;
    }
    s.p.purse.in_hand = 2000;
    s.p.purse.ceiling = 5000;
    s.p.purse.reserve = 100;
    small_payday(&s, DAY_LONG + 1000, 3500);
}

static struct stint *stint_of(struct schedule *x, int job, bool again)
{
    for (int i = 0; i < x->n_stints; i++)
        if (x->stints[i].job == job && x->stints[i].again == again) return &x->stints[i];
    fail_msg("no stint of job %d", job);
    return NULL;
}

static struct order_placed *order_of(struct schedule *x, int job, bool again)
{
    for (int i = 0; i < x->n_orders; i++)
        if (x->orders[i].job == job && x->orders[i].again == again) return &x->orders[i];
    fail_msg("no order for job %d", job);
    return NULL;
}

static void move(struct stint *x, int session, int32_t from)
{
    x->to = from + (x->to - x->from);
    x->from = from;
    x->session = session;
}

/* A job of one stint, to another moment, start and finish with it. */
static void move_job(struct schedule *x, int job, int session, int32_t from)
{
    struct stint *at = stint_of(x, job, false);
    move(at, session, from);
    x->start[job] = at->from;
    x->finish[job] = at->to;
}

static void before_predecessor(struct small_run *r)
{
    /* Trim comes after strip; the end of strip's last session is free enough to see it there. */
    s.sessions[0].hands = 3;
    move_job(&r->schedule, TRIM, 0, 1200);
}
static void before_wait_is_over(struct small_run *r)
{
    int32_t end = r->schedule.finish[PAINT];
    move_job(&r->schedule, GLUE, stint_of(&r->schedule, PAINT, false)->session, end);
}
static void outside_session(struct small_run *r)
{
    struct stint *x = stint_of(&r->schedule, PAINT, false);
    move_job(&r->schedule, PAINT, x->session, s.sessions[x->session].end - 30);
}
static void before_session(struct small_run *r)
{
    struct stint *x = stint_of(&r->schedule, INSPECT, false);
    move_job(&r->schedule, INSPECT, x->session, s.sessions[x->session].start - 1);
}
static void in_missed_session(struct small_run *r)
{
    r->drawn.kept[stint_of(&r->schedule, GLUE, false)->session] = 0;
}
static void too_many_hands(struct small_run *r)
{
    s.sessions[stint_of(&r->schedule, LIFT, false)->session].hands = 1;
}
static void two_jobs_one_hand(struct small_run *r)
{
    struct stint *fit = stint_of(&r->schedule, FIT, false);
    move_job(&r->schedule, GLUE, fit->session, fit->from);
}
static void wrong_hands(struct small_run *r)
{
    stint_of(&r->schedule, LIFT, false)->hands = 1;
}
static void too_cold(struct small_run *r)
{
    s.sessions[stint_of(&r->schedule, PAINT, false)->session].degrees = 14.9;
}
static void without_bay(struct small_run *r)
{
    s.sessions[stint_of(&r->schedule, STRIP, false)->session].bay = false;
}
static void work_shortened(struct small_run *r)
{
    struct stint *x = stint_of(&r->schedule, PAINT, false);
    x->to -= 1;
    r->schedule.finish[PAINT] -= 1;
}
static void setback_shortened(struct small_run *r)
{
    struct stint *x = stint_of(&r->schedule, FIT, true);
    x->to -= 1;
    r->schedule.finish[FIT] -= 1;
}
static void setback_left_out(struct small_run *r)
{
    struct stint *x = stint_of(&r->schedule, FIT, true);
    *x = r->schedule.stints[--r->schedule.n_stints];
    r->schedule.finish[FIT] = stint_of(&r->schedule, FIT, false)->to;
}
static void unbroken_is_broken(struct small_run *r)
{
    struct stint *x = stint_of(&r->schedule, GLUE, false);
    struct stint rest = *x;
    s.sessions[x->session].hands = 2;
    x->to -= 30;
    rest.from = x->to + 10;
    rest.to += 10;
    memmove(x + 2, x + 1,
            (size_t)(r->schedule.stints + r->schedule.n_stints - (x + 1)) * sizeof *x);
    x[1] = rest;
    r->schedule.n_stints++;
    r->schedule.finish[GLUE] = rest.to;
}
static void told_start_is_false(struct small_run *r)
{
    r->schedule.start[STRIP] -= 1;
}
static void not_needed(struct small_run *r)
{
    r->drawn.applies[TRIM] = 0;
}
static void parts_too_early(struct small_run *r)
{
    order_of(&r->schedule, FIT, false)->arrives -= 1;
}
static void starts_before_parts(struct small_run *r)
{
    struct order_placed *o = order_of(&r->schedule, FIT, false);
    int32_t later = r->schedule.start[FIT] + 1 - o->arrives;
    o->ordered += later;
    o->arrives += later;
}
static void never_ordered(struct small_run *r)
{
    struct order_placed *o = order_of(&r->schedule, INSPECT, false);
    memmove(o, o + 1, (size_t)(r->schedule.orders + --r->schedule.n_orders - o) * sizeof *o);
}
static void ordered_twice(struct small_run *r)
{
    r->schedule.orders[r->schedule.n_orders++] = *order_of(&r->schedule, FIT, false);
}
static void another_price(struct small_run *r)
{
    order_of(&r->schedule, FIT, false)->price -= 100;
}
static void without_money(struct small_run *r)
{
    (void)r;
    s.payday[0] += 10 * DAY_LONG;
}
static void into_the_reserve(struct small_run *r)
{
    (void)r;
    s.p.purse.reserve = 1001; /* 2000 + 3500 - 4500 = 1000 is left */
}
static void beyond_ceiling(struct small_run *r)
{
    (void)r;
    s.p.purse.ceiling = 4499;
}
static void before_decision(struct small_run *r)
{
    struct order_placed *o = order_of(&r->schedule, FIT, false);
    o->ordered = r->schedule.finish[DECIDE] - 1;
    o->arrives = o->ordered + r->drawn.lead[FIT];
}
static void before_setback_happens(struct small_run *r)
{
    struct order_placed *o = order_of(&r->schedule, FIT, true);
    o->ordered = stint_of(&r->schedule, FIT, false)->to - 1;
    o->arrives = o->ordered + r->drawn.again_lead[FIT];
}
static void before_setback_wait(struct small_run *r)
{
    struct stint *x = stint_of(&r->schedule, FIT, true);
    r->drawn.again_wait[FIT] = x->from - stint_of(&r->schedule, FIT, false)->to + 1;
}
static void before_setback_parts(struct small_run *r)
{
    struct order_placed *o = order_of(&r->schedule, FIT, true);
    int32_t later = stint_of(&r->schedule, FIT, true)->from + 1 - o->arrives;
    o->ordered += later;
    o->arrives += later;
}
static void in_two_places(struct small_run *r)
{
    struct stint *x = stint_of(&r->schedule, STRIP, false), *y = x + 1;
    while (y->job != STRIP) y++;
    s.sessions[y->session].hands = 2;
    move(x, y->session, y->from);
}
static void unknown_session(struct small_run *r)
{
    stint_of(&r->schedule, TRIM, false)->session = s.p.n_sessions;
}

static void spoilt_schedules_are_named(void **state)
{
    (void)state;
    static const struct {
        void (*spoil)(struct small_run *);
        const char *job, *says;
    } cases[] = {
        {before_predecessor, "trim", "before what it comes after"},
        {before_wait_is_over, "glue", "before what it comes after"},
        {outside_session, "paint", "outside its session"},
        {before_session, "inspect", "outside its session"},
        {in_missed_session, "glue", "a session that is missed"},
        {too_many_hands, "lift", "a hand too many"},
        {two_jobs_one_hand, "", "a hand too many"},
        {wrong_hands, "lift", "wrong number of hands"},
        {too_cold, "paint", "too cold"},
        {without_bay, "strip", "needs the bay"},
        {work_shortened, "paint", "for as long as it takes"},
        {setback_shortened, "fit", "for as long as it takes"},
        {setback_left_out, "fit", "for as long as it takes"},
        {unbroken_is_broken, "glue", "broken off"},
        {told_start_is_false, "strip", "another moment than its work"},
        {not_needed, "trim", "worked on but not needed"},
        {parts_too_early, "fit", "come too soon"},
        {starts_before_parts, "fit", "before its parts"},
        {never_ordered, "inspect", "before its parts"},
        {ordered_twice, "fit", "ordered twice"},
        {another_price, "fit", "another price"},
        {without_money, "fit", "without the money"},
        {into_the_reserve, "fit", "without the money"},
        {beyond_ceiling, "fit", "beyond the ceiling"},
        {before_decision, "fit", "before the decision"},
        {before_setback_happens, "fit", "before it happens"},
        {before_setback_wait, "fit", "before its setback's wait"},
        {before_setback_parts, "fit", "before its setback's parts"},
        {in_two_places, "strip", "in two places"},
        {unknown_session, "", "names no session"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct arena a = arena;
        tell_shop();
        struct small_run r = small_do(&a, &s.p, 1);
        struct fail f = {0};
        if (!schedule_check(&s.p, &r.drawn, &r.schedule, a, &f)) fail_msg("unspoilt: %s", f.text);
        assert_int_not_equal(r.outcome.finish, NEVER);
        cases[i].spoil(&r);
        const char *job = cases[i].job[0] ? arena_print(&a, "'%s'", cases[i].job) : "";
        if (schedule_check(&s.p, &r.drawn, &r.schedule, a, &f))
            fail_msg("case %zu: not seen that %s is %s", i, job, cases[i].says);
        if (!strstr(f.text, cases[i].says) || !strstr(f.text, job))
            fail_msg("case %zu: not '%s ... %s' but: %s", i, job, cases[i].says, f.text);
    }
}

/* ---- what is no project ---- */

static void circle(void)
{
    s.after[0] = TRIM; /* decide after trim */
}
static void far_range(void)
{
    s.jobs[FIT].buys.count = SMALL_MOST;
}
static void overlap(void)
{
    s.sessions[3].start = s.sessions[2].end - 1;
}
static void no_hours(void)
{
    s.jobs[GLUE].minutes.middle = 0;
}
static void odd_odds(void)
{
    s.setbacks[0].chance[0] = 1.01;
}
static void two_gates(void)
{
    s.jobs[PAINT].gate = true;
}
static void gate_in_doubt(void)
{
    small_component(&s, "frame", -1);
    small_need(&s, DECIDE, 0, 1);
}
static void no_end(void)
{
    s.p.n_done = 0;
}
static void pay_out_of_order(void)
{
    small_payday(&s, 0, 1);
}
static void never_kept(void)
{
    s.p.kept = 0;
}

static void impossible_projects_are_refused(void **state)
{
    (void)state;
    static const struct {
        void (*spoil)(void);
        const char *says;
    } cases[] = {
        {circle, "in a circle"},        {far_range, "'fit' has an impossible figure"},
        {overlap, "session 3"},         {no_hours, "'glue' has an impossible figure"},
        {odd_odds, "setback"},          {two_gates, "gate"},
        {gate_in_doubt, "gate"},        {no_end, "no job ends it"},
        {pay_out_of_order, "payday 1"}, {never_kept, "sessions kept"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        tell_shop();
        struct fail f = {0};
        assert_true(project_valid(&s.p, arena, &f));
        cases[i].spoil();
        assert_false(project_valid(&s.p, arena, &f));
        if (!strstr(f.text, cases[i].says)) fail_msg("not '%s' but: %s", cases[i].says, f.text);
    }
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
    if (argc > 1) projects = atoi(argv[1]);
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(random_schedules_hold),
        cmocka_unit_test(spoilt_schedules_are_named),
        cmocka_unit_test(impossible_projects_are_refused),
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}
