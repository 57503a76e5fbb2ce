/* The plan: a finding moves it the right way, ranks share the workshop, the shown plan keeps a
 * former one that is better. */
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

/* An ordinary small car; what each test adds comes on top. */
static int set_up(void **state)
{
    (void)state;
    scene_open(&scene);
    scene_add(&scene, "workshop", "hours-a-week=11", "hands=1", "currency=GBP", NULL);
    scene_add(&scene, "purse", "a-month=300", "in-hand=1500", "ceiling=20000", NULL);
    scene_add_small_car(&scene);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    scene_close(&scene);
    return 0;
}

static struct plan plan_now(const char *vehicle, const char *direction)
{
    struct plan p;
    struct fail f = {0};
    struct shop_ask ask = {.garage = scene.garage,
                           .trade = &scene.trade,
                           .vehicle = vehicle,
                           .today = day_from_civil(2026, 11, 25),
                           .direction =
                               direction ? trade_find_direction(&scene.trade, direction) : -1,
                           .seed = SEED_USUAL,
                           .runs = RUNS};
    if (!plan_reckon(&scene.arena, &ask, &p, &f)) fail_msg("%s", f.text);
    return p;
}

static void findings_move_the_plan_the_right_way(void **state)
{
    (void)state;
    static const char *const components[] = {"cylinder-bore", "fuel-tank", "sill", "carburettor"};
    double before = plan_now(scene.vehicle, "drive").cost.mean;
    for (size_t i = 0; i < sizeof components / sizeof components[0]; i++) {
        scene_add(&scene, "finding", arena_print(&scene.arena, "component=%s", components[i]),
                  "condition=failed", NULL);
        struct plan bad = plan_now(scene.vehicle, "drive");
        scene_add(&scene, "finding", arena_print(&scene.arena, "component=%s", components[i]),
                  "condition=sound", NULL);
        struct plan good = plan_now(scene.vehicle, "drive");
        if (!(bad.cost.mean > good.cost.mean) || !(bad.finish.p80 >= good.finish.p80) ||
            !(bad.hours.mean > good.hours.mean))
            fail_msg("%s: bad %.0f by %.0f, good %.0f by %.0f", components[i], bad.cost.mean,
                     bad.finish.p80, good.cost.mean, good.finish.p80);
        if (i == 0) assert_true(bad.cost.mean > before && good.cost.mean < before);
    }
}

/* What the vehicle's state carries from one component to the others must stay in proportion. */
static void a_finding_on_a_trifle_moves_little(void **state)
{
    (void)state;
    static const struct {
        const char *component;
        double least, most; /* mean hours with it failed, over those with it sound */
    } rows[] = {
        {"wiper-arm", 1.0, 1.12}, /* from one end of what can be found to the other */
        {"bonnet-catch", 1.0, 1.2},
        {"sill", 1.1, 1.8},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double hours[2];
        for (int failed = 0; failed < 2; failed++) {
            scene_add(&scene, "finding",
                      arena_print(&scene.arena, "component=%s", rows[i].component),
                      failed ? "condition=failed" : "condition=sound", NULL);
            hours[failed] = plan_now(scene.vehicle, "drive").hours.mean;
        }
        double moved = hours[1] / hours[0];
        if (!(moved >= rows[i].least && moved <= rows[i].most))
            fail_msg("%s: %.3f times the hours, wanted %.2f to %.2f", rows[i].component, moved,
                     rows[i].least, rows[i].most);
    }
}

static void a_lower_rank_gets_what_is_left(void **state)
{
    (void)state;
    char first[33];
    struct plan alone = plan_now(scene.vehicle, "drive");
    for (size_t i = 0; i < sizeof first; i++) first[i] = scene.vehicle[i];
    scene_add(&scene, "vehicle", "name=Second", "kind=car", "year=1958", "build=unitary",
              "cylinders=4", "fuel=petrol", "gearbox=manual", "driven=rear", "brakes=drum",
              "voltage=12", "earth=positive", "state=whole", "standing=25", "storage=dry", "rank=2",
              NULL);
    struct plan second = plan_now(scene.vehicle, "drive");
    struct plan still = plan_now(first, "drive");
    assert_true(still.finish.p80 == alone.finish.p80); /* the higher rank is not disturbed */
    assert_true(second.finish.p50 >
                still.finish.p80); /* the lower one comes after its reservation */
    assert_string_equal(second.after, "First");
    assert_null(still.after);
}

static void an_adopted_order_is_tried_again(void **state)
{
    (void)state;
    struct plan p = plan_now(scene.vehicle, "drive");
    assert_true(p.order[0] != 0);
    scene_add(&scene, "adopted-plan", "direction=drive", "as-of=2026-11-25",
              arena_print(&scene.arena, "order=%s", p.order), NULL);
    struct plan again = plan_now(scene.vehicle, "drive");
    assert_true(again.shown_finish <= p.shown_finish); /* never later than what is still feasible */
}

static void finished_work_leaves_the_plan(void **state)
{
    (void)state;
    struct plan p = plan_now(scene.vehicle, "drive");
    scene_add(&scene, "work", "job=record-as-found", "hours=4 h", "finished=yes", NULL);
    struct plan after = plan_now(scene.vehicle, "drive");
    assert_int_equal(after.n_jobs, p.n_jobs - 1);
    assert_true(after.hours.mean < p.hours.mean);
}

static void money_binds_and_more_of_it_helps(void **state)
{
    (void)state;
    scene_add(&scene, "purse", "a-month=60", "in-hand=100", "ceiling=20000", NULL);
    struct plan poor = plan_now(scene.vehicle, "drive");
    assert_true(poor.money_binds);
    assert_true(poor.more_days > 2 * poor.more_error);
    scene_add(&scene, "purse", "a-month=5000", "in-hand=20000", "ceiling=50000", NULL);
    struct plan rich = plan_now(scene.vehicle, "drive");
    assert_true(rich.finish.p50 < poor.finish.p50);
    assert_true(rich.hang[HOLD_MONEY] == 0);
}

static void a_purse_of_nothing_is_told(void **state)
{
    (void)state;
    struct plan p;
    struct fail f = {0};
    scene_add(&scene, "purse", "a-month=0", "in-hand=0", NULL);
    struct shop_ask ask = {.garage = scene.garage,
                           .trade = &scene.trade,
                           .vehicle = scene.vehicle,
                           .today = day_from_civil(2026, 11, 25),
                           .direction = -1,
                           .runs = RUNS};
    assert_false(plan_reckon(&scene.arena, &ask, &p, &f));
    assert_int_equal(f.kind, FAIL_INPUT);
    assert_true(text_starts(f.text, "purse: "));
}

static void a_day_beyond_the_calendar_is_refused(void **state)
{
    (void)state;
    static const struct {
        int year;
        bool good;
    } cases[] = {{1700, false}, {1799, false}, {1800, true},
                 {2300, true},  {2301, false}, {2399, false}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct plan p;
        struct fail f = {0};
        struct shop_ask ask = {.garage = scene.garage,
                               .trade = &scene.trade,
                               .vehicle = scene.vehicle,
                               .today = day_from_civil(cases[i].year, 12, 31),
                               .direction = -1,
                               .runs = 50};
        assert_int_equal(plan_reckon(&scene.arena, &ask, &p, &f), cases[i].good);
        if (!cases[i].good) assert_true(text_starts(f.text, "plan: its first day"));
    }
}

static void what_is_not_covered_stands_at_the_top(void **state)
{
    (void)state;
    scene_add(&scene, "vehicle", "name=Third", "fuel=diesel", "gearbox=automatic", NULL);
    struct plan p = plan_now(scene.vehicle, "drive");
    assert_true(p.n_notes >= 3);
    assert_true(text_starts(p.notes[0], "Not covered: "));
    assert_true(text_starts(p.notes[1], "Not covered: "));
}

static int notes_with(const struct plan *p, const char *word)
{
    int n = 0;
    for (int i = 0; i < p->n_notes; i++) n += strstr(p->notes[i], word) != NULL;
    return n;
}

static void facts_that_move_nothing_are_told_once(void **state)
{
    (void)state;
    static const char *const words[] = {"'hover-skirt'", "'polish-the-clouds'", "'flux-pump'",
                                        "'record-as-fuond'"};
    struct plan before = plan_now(scene.vehicle, "drive");
    scene_add(&scene, "finding", "component=hover-skirt", "condition=failed", NULL);
    scene_add(&scene, "work", "job=polish-the-clouds", "hours=2 h", "finished=yes", NULL);
    scene_add(&scene, "work", "job=polish-the-clouds", "hours=1 h", NULL);
    scene_add(&scene, "work", "job=record-as-fuond", "hours=1 h", NULL);
    scene_add(&scene, "order", "part=flux-pump", "ordered=2026-11-20", NULL);
    struct plan after = plan_now(scene.vehicle, "drive");
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        assert_int_equal(notes_with(&before, words[i]), 0);
        assert_int_equal(notes_with(&after, words[i]), 1);
    }
    assert_int_equal(notes_with(&after, "did you mean 'record-as-found'?"), 1);
    assert_true(after.cost.mean == before.cost.mean && after.hours.mean == before.hours.mean);
}

static const struct plan_order *order_of(const struct plan *p, const char *part)
{
    for (int i = 0; i < p->n_orders; i++)
        if (text_is(p->orders[i].part->head.id, part)) return &p->orders[i];
    return NULL;
}

static void what_was_ordered_is_not_to_be_ordered_again(void **state)
{
    (void)state;
    struct plan before = plan_now(scene.vehicle, "drive");
    assert_non_null(order_of(&before, "label-set"));
    scene_add(&scene, "order", "part=Label set", "ordered=2026-11-20",
              NULL); /* as a person writes it */
    struct plan after = plan_now(scene.vehicle, "drive");
    assert_null(order_of(&after, "label-set"));
    assert_int_equal(after.n_orders, before.n_orders - 1);
    assert_true(after.cost.mean < before.cost.mean);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(findings_move_the_plan_the_right_way),
        cmocka_unit_test_setup_teardown(a_finding_on_a_trifle_moves_little, set_up, tear_down),
        TEST(a_lower_rank_gets_what_is_left),
        TEST(an_adopted_order_is_tried_again),
        TEST(finished_work_leaves_the_plan),
        TEST(money_binds_and_more_of_it_helps),
        TEST(a_purse_of_nothing_is_told),
        TEST(what_is_not_covered_stands_at_the_top),
        TEST(a_day_beyond_the_calendar_is_refused),
        TEST(facts_that_move_nothing_are_told_once),
        TEST(what_was_ordered_is_not_to_be_ordered_again),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
