/* The pace: what was logged moves the figures of the same kind of work most, all work a little, and
 * the plan with them; what says nothing of pace is left out. */
#include "shop/pace.h"
#include "shop/plan.h"
#include "shop/scene.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

enum { RUNS = 300 };

static struct scene scene;

static int set_up(void **state)
{
    (void)state;
    scene_open(&scene);
    scene_add(&scene, "workshop", "hours-a-week=8", "hands=1", "currency=GBP", NULL);
    scene_add(&scene, "slot", "weekday=tue", "from=19:00", "to=22:00", NULL);
    scene_add(&scene, "slot", "weekday=sat", "from=09:00", "to=14:00", NULL);
    scene_add_small_car(&scene);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    scene_close(&scene);
    return 0;
}

static struct shop_ask ask_now(void)
{
    return scene_ask(&scene, "drive", RUNS);
}

static struct pace pace_now(void)
{
    const struct shop_ask ask = ask_now();
    struct pace p;
    struct fail f = {0};
    if (!pace_reckon(&scene.arena, &ask, &p, &f)) fail_msg("%s", f.text);
    return p;
}

static double hours_now(void)
{
    const struct shop_ask ask = ask_now();
    struct plan p;
    struct fail f = {0};
    if (!plan_reckon(&scene.arena, &ask, &p, &f)) fail_msg("%s", f.text);
    return p.hours.p50;
}

/* The first jobs of a system that do not grow with their components, each at so many times its
 * middle figure. */
static int log_jobs(const char *system, int n, double times, const char *more)
{
    int done = 0;
    for (int i = 0; i < scene.trade.n_jobs && done < n; i++) {
        const struct trade_job *j = &scene.trade.jobs[i];
        if (!text_is(scene.trade.systems[j->system].head.id, system) || j->by_share) continue;
        scene_add(&scene, "work", arena_print(&scene.arena, "job=%s", j->head.id),
                  arena_print(&scene.arena, "hours=%g min", 60 * times * j->hours.middle),
                  "finished=yes",
                  arena_print(&scene.arena, "date=2026-10-%02d", 6 + 7 * (done % 3)), more, NULL);
        done++;
    }
    return done;
}

static void the_log_moves_pace_and_plan(void **state)
{
    (void)state;
    const struct pace before = pace_now();
    const double hours = hours_now();
    assert_int_equal(before.all.jobs, 0);
    assert_true(fabs(before.all.factor - 1) < 1e-9 && before.all.low < 0.8 &&
                before.all.high > 1.25);
    const int n = log_jobs("engine", 4, 1.5, NULL);
    assert_true(n >= 3);
    const struct pace p = pace_now();
    assert_int_equal(p.n_kinds, 1);
    assert_string_equal(p.kinds[0].system->head.id, "engine");
    assert_int_equal(p.kinds[0].jobs, n);
    assert_true(fabs(p.kinds[0].logged - 1.5 * p.kinds[0].estimated) < 1);
    /* Shrunk: under what was logged, over the prior; other work follows less. */
    assert_true(p.kinds[0].factor > p.all.factor && p.all.factor > 1.05 && p.kinds[0].factor < 1.5);
    assert_true(p.kinds[0].high - p.kinds[0].low < before.all.high - before.all.low);
    const double moved = hours_now();
    assert_true(moved > 1.05 * hours && moved < 1.5 * hours);
}

static void what_says_nothing_is_left_out(void **state)
{
    (void)state;
    const struct pace before = pace_now();
    log_jobs("fuel", 1, 5, "setback=tank-pinholes");
    scene_add(&scene, "work", "job=no-such-job", "hours=9", "finished=yes", NULL);
    const struct pace p = pace_now();
    assert_int_equal(p.left_out, before.left_out + 1);
    assert_true(p.all.factor == before.all.factor);
    /* It is the builder's pace: the hours on another vehicle tell as much. */
    char first[33];
    memcpy(first, scene.vehicle, sizeof first);
    scene_add(&scene, "vehicle", "name=Second", "year=1960", NULL);
    log_jobs("cooling", 2, 0.5, NULL);
    memcpy(scene.vehicle, first, sizeof first);
    assert_true(pace_now().all.factor < p.all.factor);
}

/* Logged on 2026-10-06, 13 and 20, all Tuesdays; the weeks since, to 22 November, are empty. */
static void sessions_are_counted(void **state)
{
    (void)state;
    const struct pace p = pace_now();
    assert_int_equal(p.habit.weeks, 7);
    assert_int_equal(p.habit.planned, 6);
    assert_int_equal(p.habit.kept, 3);
    assert_int_equal(p.habit.layoffs, 1);
    assert_true(p.kept < p.kept_usual && p.kept_low < p.kept && p.kept < p.kept_high);
    assert_true(p.layoffs_a_month > p.layoffs_usual);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_log_moves_pace_and_plan),
        cmocka_unit_test(what_says_nothing_is_left_out),
        cmocka_unit_test(sessions_are_counted),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
