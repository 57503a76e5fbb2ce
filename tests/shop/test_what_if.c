/* What if: the same as storing it and planning again, run by run; nothing said, no difference; and
 * the right way for whatever is said. */
#include "shop/scene.h"
#include "shop/what_if.h"

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
    scene_add(&scene, "workshop", "hours-a-week=10", "hands=1", "currency=GBP", NULL);
    scene_add(&scene, "purse", "a-month=200", "in-hand=600", "ceiling=20000", NULL);
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
    return scene_ask(&scene, NULL, RUNS);
}

static struct what_if_side side_now(void)
{
    struct what_if_side side;
    struct fail f = {0};
    struct shop_ask ask = ask_now();
    if (!what_if_as_is(&scene.arena, &ask, &side, &f)) fail_msg("%s", f.text);
    return side;
}

static struct what_if say(struct override said)
{
    struct what_if w;
    struct fail f = {0};
    struct shop_ask ask = ask_now();
    struct what_if_side as_is = side_now();
    if (!what_if_reckon(&scene.arena, &ask, &said, &as_is, &w, &f)) fail_msg("%s", f.text);
    return w;
}

static void assert_same_runs(const struct what_if_side *x, const struct what_if_side *y)
{
    assert_int_equal(x->runs, y->runs);
    for (int i = 0; i < x->runs; i++)
        if (x->finish[i] != y->finish[i] || x->cost[i] != y->cost[i])
            fail_msg("run %d: finish %.4f and %.4f, cost %.2f and %.2f", i, x->finish[i],
                     y->finish[i], x->cost[i], y->cost[i]);
}

static void nothing_said_is_no_difference(void **state)
{
    (void)state;
    struct what_if w = say(override_none());
    assert_same_runs(&w.as_is, &w.changed);
    const struct what_if_difference *all[] = {&w.days_p50, &w.days_p80, &w.money_p50, &w.money_p80};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        assert_int_equal(all[i]->kind, DIFFERS);
        assert_true(all[i]->by == 0 && all[i]->error == 0 && !all[i]->tells);
    }
}

static void the_runs_are_those_of_the_plan(void **state)
{
    (void)state;
    struct plan p;
    struct fail f = {0};
    struct shop_ask ask = ask_now();
    struct what_if_side side = side_now();
    if (!plan_reckon(&scene.arena, &ask, &p, &f)) fail_msg("%s", f.text);
    assert_true(fabs(p.first + p.finish.p80 / MINUTES_A_DAY - side.finished.p80) < 1e-6);
    assert_true(p.cost.p80 == side.bill.p80);
    for (int i = 0; i < PLAN_FAN; i++) assert_true(fabs(p.fan[i] - side.fan[i]) < 1e-3);
}

/* Each told as a fact afterwards gives the same runs. */
static void it_is_as_if_it_were_stored(void **state)
{
    (void)state;
    struct override said = override_none();
    said.hours_a_week = 6;
    said.start = day_from_civil(2027, 1, 11);
    said.a_month = 35000;
    said.direction = trade_find_direction(&scene.trade, "sell");
    said.helpers = 2;
    struct what_if w = say(said);
    scene_add(&scene, "workshop", "hours-a-week=6", "hands=1", "currency=GBP", "start=2027-01-11",
              NULL);
    scene_add(&scene, "purse", "a-month=350", "in-hand=600", "ceiling=20000", NULL);
    scene_add(&scene, "decision", "direction=sell", NULL);
    /* A week after the first day, then a fortnight on; Saturday mornings where no time was told. */
    scene_add(&scene, "helper-day", "date=2027-01-23", "from=09:00", "to=13:00", "hands=1", NULL);
    scene_add(&scene, "helper-day", "date=2027-02-06", "from=09:00", "to=13:00", "hands=1", NULL);
    struct what_if_side after = side_now();
    assert_same_runs(&w.changed, &after);
}

static void a_better_rank_is_reckoned_with_it_too(void **state)
{
    (void)state;
    scene_add(&scene, "vehicle", "name=Second", "kind=car", "year=1958", "build=unitary",
              "cylinders=4", "fuel=petrol", "gearbox=manual", "driven=rear", "brakes=drum",
              "voltage=12", "earth=positive", "state=whole", "standing=25", "storage=dry", "rank=2",
              NULL);
    struct override said = override_none();
    said.hours_a_week = 16;
    struct what_if w = say(said);
    assert_string_equal(w.after, "First");
    scene_add(&scene, "workshop", "hours-a-week=16", "hands=1", "currency=GBP", NULL);
    struct what_if_side after = side_now();
    assert_same_runs(&w.changed, &after);
}

static void it_moves_the_right_way(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        double hours, a_month;
        int start;
        int way; /* -1 sooner, 1 later */
    } rows[] = {
        {"more hours", 20, -1, 0, -1},     {"fewer hours", 4, -1, 0, 1},
        {"more money", -1, 90000, 0, -1},  {"less money", -1, 8000, 0, 1},
        {"a later start", -1, -1, 180, 1},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct override said = override_none();
        said.hours_a_week = rows[i].hours;
        said.a_month = rows[i].a_month;
        if (rows[i].start) said.start = ask_now().today + rows[i].start;
        struct what_if w = say(said);
        if (!w.days_p50.tells || w.days_p50.by * rows[i].way <= 0)
            fail_msg("%s: %.1f days, error %.1f", rows[i].name, w.days_p50.by, w.days_p50.error);
        assert_true(w.money_p50.by == 0); /* what is needed does not hang on when */
    }
}

/* Where money does not hold it up. */
static void helpers_win_days(void **state)
{
    (void)state;
    scene_add(&scene, "purse", "a-month=5000", "in-hand=20000", "ceiling=50000", NULL);
    struct override said = override_none();
    said.helpers = 26;
    struct what_if w = say(said);
    assert_true(w.days_p50.tells && w.days_p50.by < 0);
}

static void another_direction_costs_another_sum(void **state)
{
    (void)state;
    struct override said = override_none();
    said.direction = trade_find_direction(&scene.trade, "restore");
    struct what_if w = say(said);
    assert_true(w.money_p80.tells && w.money_p80.by > 0);
}

static void a_side_comes_back_from_its_bytes(void **state)
{
    (void)state;
    struct what_if_side side = side_now(), back;
    char *data;
    size_t n;
    what_if_pack(&scene.arena, &side, &data, &n);
    assert_true(what_if_unpack(&scene.arena, data, n, &back));
    assert_same_runs(&side, &back);
    assert_memory_equal(side.fan, back.fan, sizeof side.fan);
    assert_true(side.with.start == back.with.start && side.never == back.never);
    assert_false(what_if_unpack(&scene.arena, data, n - 1, &back));
    assert_false(what_if_unpack(&scene.arena, data, 3, &back));
}

/* ---- differences of made-up columns ---- */

static void differences(void **state)
{
    (void)state;
    enum { N = 400 };
    double before[N], after[N];
    for (int i = 0; i < N; i++) before[i] = 1000 + (i * 7919) % N;
    for (int i = 0; i < N; i++) after[i] = before[i] + 30;
    struct what_if_difference d = what_if_differ(scene.arena, before, after, N, 0.5);
    assert_true(d.kind == DIFFERS && d.tells && d.by == 30 && d.error < 1e-6);
    /* The share that never ends passes the quantile, one way and the other. */
    for (int i = 0; i < N; i++) after[i] = i % 4 == 0 ? (double)INFINITY : before[i];
    assert_int_equal(what_if_differ(scene.arena, before, after, N, 0.8).kind, NEVER_NOW);
    assert_int_equal(what_if_differ(scene.arena, after, before, N, 0.8).kind, NEVER_BEFORE);
    assert_int_equal(what_if_differ(scene.arena, after, after, N, 0.8).kind, NEVER_BOTH);
    assert_int_equal(what_if_differ(scene.arena, before, after, N, 0.5).kind, DIFFERS);
}

/* Noise alone is called a difference in about one case of twenty, no more often than three. */
static void noise_is_not_told_as_a_difference(void **state)
{
    (void)state;
    enum { N = 400, TRIES = 200 };
    static double before[N], after[N];
    int told = 0;
    for (int k = 0; k < TRIES; k++) {
        for (int i = 0; i < N; i++) {
            uint64_t x = ((uint64_t)k * N + (uint64_t)i) * 0x9E3779B97F4A7C15u;
            uint64_t y = (x ^ (x >> 29)) * 0xBF58476D1CE4E5B9u;
            uint64_t z = (y ^ (y >> 32)) * 0x94D049BB133111EBu;
            before[i] = (double)(y >> 44);
            after[i] = (double)(z >> 44);
        }
        told += what_if_differ(scene.arena, before, after, N, 0.5).tells;
    }
    if (told > TRIES * 3 / 20) fail_msg("%d of %d", told, TRIES);
}

/* ---- weeks ---- */

static void a_told_week_gets_other_hours(void **state)
{
    (void)state;
    struct fact_slot told[] = {{1, 19 * 60, 22 * 60, 0}, {5, 9 * 60, 17 * 60, 0}};
    struct facts facts = {.slots = told, .n_slots = 2};
    static const struct {
        double hours;
        int kept, added; /* times of the week */
        double sum;
    } rows[] = {{11, 2, 0, 11}, {9, 2, 0, 9},   {8, 1, 0, 8},       {6.5, 1, 0, 6.5},
                {8.1, 1, 0, 8}, {14, 2, 1, 14}, {20.5, 2, 3, 20.5}, {0.5, 1, 0, 0.5}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct week_change *week;
        int n = override_week(&scene.arena, &facts, rows[i].hours, &week), kept = 0, added = 0;
        double sum = 0;
        for (int k = 0; k < n; k++) {
            if (week[k].drop) continue;
            *(week[k].told < 0 ? &added : &kept) += 1;
            sum += (week[k].slot.to - week[k].slot.from) / 60.0;
        }
        if (kept != rows[i].kept || added != rows[i].added || fabs(sum - rows[i].sum) > 1e-9)
            fail_msg("%g hours: %d kept, %d added, %g in all", rows[i].hours, kept, added, sum);
    }
}

int main(void)
{
#define EACH(test) cmocka_unit_test_setup_teardown(test, set_up, tear_down)
    const struct CMUnitTest tests[] = {
        EACH(nothing_said_is_no_difference),
        EACH(the_runs_are_those_of_the_plan),
        EACH(it_is_as_if_it_were_stored),
        EACH(a_better_rank_is_reckoned_with_it_too),
        EACH(it_moves_the_right_way),
        EACH(helpers_win_days),
        EACH(another_direction_costs_another_sum),
        EACH(a_side_comes_back_from_its_bytes),
        EACH(differences),
        EACH(noise_is_not_told_as_a_difference),
        EACH(a_told_week_gets_other_hours),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
