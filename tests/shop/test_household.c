/* The household: the same figures as each vehicle's plan, their sums, and what was spent. */
#include "shop/household.h"
#include "shop/plan.h"
#include "shop/scene.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

enum { RUNS = 200 };

static struct scene scene;

static int set_up(void **state)
{
    (void)state;
    scene_open(&scene);
    scene_add(&scene, "workshop", "hours-a-week=10", "hands=1", "currency=GBP", NULL);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    scene_close(&scene);
    return 0;
}

static void add_vehicle(const char *name, const char *rank)
{
    scene_add(&scene, "vehicle", arena_print(&scene.arena, "name=%s", name), "kind=car",
              "year=1958", "build=unitary", "cylinders=4", "fuel=petrol", "gearbox=manual",
              "driven=rear", "brakes=drum", "state=whole", "standing=25", "storage=dry",
              arena_print(&scene.arena, "rank=%s", rank), NULL);
}

static struct shop_ask ask_now(const char *vehicle)
{
    return (struct shop_ask){.garage = scene.garage,
                             .trade = &scene.trade,
                             .vehicle = vehicle,
                             .today = day_from_civil(2026, 11, 25),
                             .direction = -1,
                             .seed = SEED_USUAL,
                             .runs = RUNS};
}

static struct household *household_now(void)
{
    struct household *x = ARENA_NEW(&scene.arena, struct household);
    struct shop_ask ask = ask_now("");
    struct fail f = {0};
    if (!household_reckon(&scene.arena, &ask, x, &f)) fail_msg("%s", f.text);
    return x;
}

static void an_empty_garage_asks_nothing(void **state)
{
    (void)state;
    const struct household *x = household_now();
    assert_int_equal(x->n_vehicles, 0);
    assert_int_equal(x->reckoned, 0);
}

/* By rank, though added the other way round; each finish is that of its own plan. */
static void it_agrees_with_the_plans(void **state)
{
    (void)state;
    char id[2][33];
    scene_add(&scene, "purse", "a-month=900", "in-hand=4000", NULL);
    add_vehicle("Second", "2");
    strcpy(id[1], scene.vehicle);
    add_vehicle("First", "1");
    strcpy(id[0], scene.vehicle);
    const struct household *x = household_now();
    assert_int_equal(x->n_vehicles, 2);
    for (int i = 0; i < 2; i++) {
        struct plan plan;
        struct shop_ask ask = ask_now(id[i]);
        struct fail f = {0};
        if (!plan_reckon(&scene.arena, &ask, &plan, &f)) fail_msg("%s", f.text);
        assert_string_equal(x->vehicles[i].name, i == 0 ? "First" : "Second");
        assert_null(x->vehicles[i].why);
        assert_true(x->vehicles[i].finish.p50 == plan.finish.p50);
        assert_true(x->vehicles[i].finish.p80 == plan.finish.p80);
        assert_false(x->vehicles[i].decided);
        assert_non_null(x->vehicles[i].gate);
    }
}

static void sums_of_two_are_more_than_of_one(void **state)
{
    (void)state;
    add_vehicle("First", "1");
    const struct household *one = household_now();
    assert_true(one->purse_open);
    assert_true(one->money.p50 > 0 && one->money.p80 >= one->money.p50);
    assert_true(one->weekends.p80 <= one->weekends_planned);
    assert_true(one->weekdays.p80 <= one->weekdays_planned);
    assert_true(one->weekends.p50 + one->weekdays.p50 > 0);
    add_vehicle("Second", "2");
    const struct household *two = household_now();
    assert_true(two->money.p50 > one->money.p50); /* no purse holds the second one's survey back */
    assert_true(two->weekends.p50 >= one->weekends.p50);
    assert_true(two->weekends.p80 <= two->weekends_planned);
    assert_int_equal(two->weekends_planned, one->weekends_planned);
}

/* What is ordered stays within what there is and comes in. */
static void the_purse_holds(void **state)
{
    (void)state;
    scene_add(&scene, "purse", "a-month=50", "in-hand=200", "reserve=40", NULL);
    add_vehicle("First", "1");
    add_vehicle("Second", "2");
    const struct household *x = household_now();
    assert_false(x->purse_open);
    assert_true(x->reserve == 4000);
    assert_true(x->brought >= 20000 + 2 * 5000 && x->brought <= 20000 + 4 * 5000);
    assert_true(x->vehicles[0].why || x->money.p80 <= x->brought - x->reserve);
}

static void orders_are_summed(void **state)
{
    (void)state;
    add_vehicle("First", "1");
    scene_add(&scene, "order", "part=wheel-cylinder-kit", "price=48", NULL);
    scene_add(&scene, "order", "part=something else", "price=12.50", NULL);
    scene_add(&scene, "order", "part=brake-hose", NULL);
    const struct household *x = household_now();
    assert_int_equal(x->orders, 3);
    assert_int_equal(x->unpriced, 1);
    assert_true(x->spent == 6050);
    scene_add(&scene, "supplier", "name=Hale", NULL);
    scene_add(&scene, "sent", "supplier=Hale", "what=head", "sent=2026-11-20", "deposit=20", NULL);
    assert_true(household_now()->spent == 8050);
}

int main(void)
{
#define TEST(f) cmocka_unit_test_setup_teardown(f, set_up, tear_down)
    const struct CMUnitTest tests[] = {
        TEST(an_empty_garage_asks_nothing),
        TEST(it_agrees_with_the_plans),
        TEST(sums_of_two_are_more_than_of_one),
        TEST(the_purse_holds),
        TEST(orders_are_summed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
