/* What a choice is weighed by: the sales of others, weights, what is spent, tripwires, and another
 * one to start from. */
#include "shop/choose.h"
#include "shop/plan.h"
#include "shop/scene.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

enum { RUNS = 120 };

static struct scene scene;

static int set_up(void **state)
{
    (void)state;
    scene_open(&scene);
    scene_add(&scene, "workshop", "hours-a-week=11", "hands=2", "currency=GBP", NULL);
    scene_add(&scene, "vehicle", "name=Only", "kind=car", "build=unitary", "cylinders=4",
              "fuel=petrol", "gearbox=manual", "driven=rear", "brakes=drum", "voltage=12",
              "earth=positive", "state=whole", "standing=25", "storage=dry", NULL);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    scene_close(&scene);
    return 0;
}

static struct choose choose_now(void)
{
    struct choose c;
    struct fail f = {0};
    struct shop_ask ask = {.garage = scene.garage,
                           .trade = &scene.trade,
                           .vehicle = scene.vehicle,
                           .today = day_from_civil(2026, 11, 25),
                           .direction = -1,
                           .seed = SEED_USUAL,
                           .runs = RUNS};
    if (!choose_reckon(&scene.arena, &ask, &c, &f)) fail_msg("%s", f.text);
    return c;
}

static const struct choose_direction *direction_of(const struct choose *c, const char *id)
{
    for (int i = 0; i < c->n_directions; i++)
        if (text_is(c->directions[i].direction->head.id, id)) return &c->directions[i];
    fail_msg("no direction %s", id);
    return NULL;
}

static bool said(const struct choose *c, const char *part)
{
    for (int i = 0; i < c->n_notes; i++)
        if (strstr(c->notes[i], part)) return true;
    return false;
}

static void add_sale(const char *price, const char *grade)
{
    scene_add(&scene, "comparable", arena_print(&scene.arena, "price=%s", price), "how=sold",
              "date=2026-06-01", arena_print(&scene.arena, "grade=%s", grade), NULL);
}

/* Four are shown beside the builder's own figures; the fifth takes over, wholly. */
static void five_sales_take_over(void **state)
{
    (void)state;
    scene_add(&scene, "worth", "of=now", "worth=800/1200/2000", NULL);
    scene_add(&scene, "worth", "of=restore", "worth=90000/95000/99000", NULL);
    add_sale("9000", "3");
    add_sale("7000", "4");
    add_sale("5200", "5");
    add_sale("12500", "2");
    struct choose c = choose_now();
    assert_int_equal(c.n_sales, 0);
    assert_int_equal(c.facts->n_comparables, 4);
    assert_int_equal(c.worth_now.from, WORTH_TOLD);
    assert_true(c.worth_now.band.middle == 120000);
    assert_int_equal(direction_of(&c, "drive")->worth.from, WORTH_UNKNOWN);
    add_sale("8800", "3");
    c = choose_now();
    assert_int_equal(c.n_sales, 5);
    assert_int_equal(c.worth_now.from, WORTH_SALES);
    assert_true(c.worth_now.told.middle == 120000); /* still to be seen */
    assert_true(c.worth_now.apart && direction_of(&c, "restore")->worth.apart);
    for (int d = 0; d < c.n_directions; d++) {
        const struct choose_worth *w = &c.directions[d].worth;
        assert_int_equal(w->from, WORTH_SALES);
        assert_true(points_valid(w->band) && c.directions[d].worth_known);
        assert_true(w->grade == c.directions[d].direction->grade);
    }
    double now = c.worth_now.band.middle, drive = direction_of(&c, "drive")->worth.band.middle;
    assert_true(now > 350000 && now < 650000 && drive > 700000 && drive < 1000000);
    assert_true(direction_of(&c, "restore")->worth.band.middle > drive);
    /* Sold as it stands it is the same draw: the bill alone is between. */
    const struct choose_direction *sell = direction_of(&c, "sell");
    assert_true(sell->chance_ahead == 0 && c.compared);
    /* The builder knows it better than the usual end of that work. */
    scene_add(&scene, "grade", "of=drive", "grade=2", "original=90 %", NULL);
    c = choose_now();
    assert_true(direction_of(&c, "drive")->worth.grade == 2 &&
                direction_of(&c, "drive")->worth.original == 0.9);
    assert_true(direction_of(&c, "drive")->worth.band.middle > drive * 1.15);
}

static void other_money_needs_a_rate(void **state)
{
    (void)state;
    for (int i = 0; i < 4; i++) add_sale("9000", "3");
    add_sale("9000 EUR", "3");
    struct choose c = choose_now();
    assert_int_equal(c.facts->n_comparables, 4);
    assert_int_equal(c.n_sales, 0);
    assert_true(said(&c, "Left out: a comparable in EUR, for no rate to GBP is known."));
    scene_add(&scene, "rate", "currency=EUR", "per=GBP", "rate=1", "date=2026-11-01", NULL);
    c = choose_now();
    assert_int_equal(c.n_sales, 5);
    assert_false(said(&c, "Left out"));
    /* Minor units differ: 900,000 JPY at 0.01 are 9,000 GBP. */
    add_sale("900000 JPY", "3");
    scene_add(&scene, "rate", "currency=JPY", "per=GBP", "rate=0.01", "date=2026-11-01", NULL);
    c = choose_now();
    assert_true(fabs(c.facts->comparables[5].minor - 900000) < 1e-6);
}

static void tell_worths(void)
{
    scene_add(&scene, "worth", "of=now", "worth=2900/3000/3100", NULL);
    scene_add(&scene, "worth", "of=preserve", "worth=3900/4000/4100", NULL);
    scene_add(&scene, "worth", "of=drive", "worth=11000/12000/13000", NULL);
}

static const struct choose_change *change_of(const struct choose *c, enum change_what what)
{
    for (int i = 0; i < c->n_changes; i++)
        if (c->changes[i].what == what) return &c->changes[i];
    return NULL;
}

/* What is said to change the choice does so, and a little less does not. */
static void changes_change(void **state)
{
    (void)state;
    tell_worths();
    struct choose c = choose_now();
    assert_true(c.compared && c.led_by >= 0 && c.runner >= 0);
    int led = c.led_by, tried = 0;
    const char *was = c.choices[led].name;
    static const struct {
        enum change_what what;
        const char *field;
    } weights[] = {
        {CHANGE_MONTH, "month"}, {CHANGE_KEEPING, "original"}, {CHANGE_DRIVING, "driving"}};
    for (size_t k = 0; k < sizeof weights / sizeof *weights; k++) {
        const struct choose_change *change = change_of(&c, weights[k].what);
        if (!change) continue;
        tried++;
        for (int over = 0; over < 2; over++) {
            scene_add(&scene, "weights",
                      arena_print(&scene.arena, "%s=%.2f", weights[k].field,
                                  change->at / 100 * (over ? 1.01 : 0.99)),
                      NULL);
            struct choose now = choose_now();
            const char *leads = now.choices[now.led_by].name;
            assert_string_equal(leads, over ? c.choices[change->to].name : was);
        }
    }
    assert_true(tried >= 1);
    const struct choose_change *rate = change_of(&c, CHANGE_RATE);
    scene_add(&scene, "weights", "month=0", NULL);
    for (int over = 0; rate && over < 2; over++) {
        scene_add(&scene, "workshop", "hours-a-week=11", "hands=2", "currency=GBP",
                  arena_print(&scene.arena, "own-rate=%.2f", rate->at / 100 * (over ? 1.02 : 0.98)),
                  NULL);
        struct choose now = choose_now();
        assert_string_equal(now.choices[now.led_by].name, over ? c.choices[rate->to].name : was);
    }
    assert_non_null(rate);
}

/* The worth at which the leading one gives way, told to the builder as the middle of three points.
 */
static void a_lower_worth_gives_way(void **state)
{
    (void)state;
    tell_worths();
    struct choose c = choose_now();
    const struct choose_change *change = change_of(&c, CHANGE_WORTH);
    assert_non_null(change);
    const char *was = c.choices[c.led_by].name;
    for (int over = 0; over < 2; over++) {
        double at = change->at / 100 * (over ? 0.98 : 1.02), of = change->now / 100;
        double low = c.directions[c.leading].worth.band.low / 100 / of;
        double high = c.directions[c.leading].worth.band.high / 100 / of;
        scene_add(&scene, "worth", arena_print(&scene.arena, "of=%s", was),
                  arena_print(&scene.arena, "worth=%.0f/%.0f/%.0f", at * low, at, at * high), NULL);
        struct choose now = choose_now();
        assert_string_equal(now.choices[now.led_by].name, over ? c.choices[change->to].name : was);
    }
}

/* Money that is spent is told, and changes nothing. */
static void spent_money_counts_nothing(void **state)
{
    (void)state;
    tell_worths();
    struct choose c = choose_now();
    scene_add(&scene, "order", "part=a rug for the shed", "price=4000", NULL);
    struct choose later = choose_now();
    assert_true(later.facts->spent == 400000 && c.facts->spent == 0);
    for (int i = 0; i < c.n_choices; i++)
        assert_true(c.choices[i].value.mean == later.choices[i].value.mean);
}

static void tripwires(void **state)
{
    (void)state;
    scene_add(&scene, "tripwire", "spent=1000", "passed=2026-11-25", "why=enough", NULL);
    scene_add(&scene, "tripwire", "component=sill", "condition=failed", NULL);
    scene_add(&scene, "tripwire", "component=flux-capacitor", "condition=poor", NULL);
    scene_add(&scene, "order", "part=tyre", "price=1000", NULL);
    scene_add(&scene, "finding", "component=sill@outside-left", "condition=poor", NULL);
    struct choose c = choose_now();
    assert_int_equal(c.n_crossed, 0); /* at the limit, on the day, not as bad */
    assert_true(said(&c, "A tripwire watches nothing."));
    scene_add(&scene, "order", "part=a stamp", "price=0.01", NULL);
    scene_add(&scene, "finding", "component=sill@outside-left", "condition=missing", NULL);
    c = choose_now();
    assert_int_equal(c.n_crossed, 2);
    assert_true(c.crossed[0].limit == 100000 && c.crossed[0].spent == 100001);
    assert_string_equal(c.crossed[0].why, "enough");
    assert_int_equal(c.crossed[1].finding->condition, COND_MISSING);
    /* The last word counts. */
    scene_add(&scene, "finding", "component=sill@outside-left", "condition=sound", NULL);
    struct plan p;
    struct fail f = {0};
    struct shop_ask ask = {.garage = scene.garage,
                           .trade = &scene.trade,
                           .vehicle = scene.vehicle,
                           .today = day_from_civil(2026, 11, 26),
                           .direction = -1,
                           .seed = SEED_USUAL,
                           .runs = 50};
    if (!plan_reckon(&scene.arena, &ask, &p, &f)) fail_msg("%s", f.text);
    assert_int_equal(p.n_crossed, 2);
    assert_true(p.crossed[0].limit > 0 && p.crossed[1].passed == ask.today - 1);
}

/* Another one to start from is a choice among the others, by the builder's figures. */
static void another_to_start_from(void **state)
{
    (void)state;
    tell_worths();
    scene_add(&scene, "instead", "what=a saloon", "price=900/1000/1100", "bill=1900/2000/2100",
              "worth=49000/50000/51000", NULL);
    struct choose c = choose_now();
    const struct choose_choice *led = &c.choices[c.led_by], *sell = NULL;
    for (int i = 0; i < c.n_choices; i++)
        if (text_is(c.choices[i].name, "sell")) sell = &c.choices[i];
    assert_int_equal(led->direction, -1);
    assert_non_null(sell);
    assert_true(fabs(led->value.mean - sell->value.mean - 4700000) < 60000);
    assert_string_equal(c.directions[c.leading].direction->head.id, "sell");
    scene_add(&scene, "instead", "what=a wreck", "price=900/1000/1100", "bill=49000/50000/51000",
              "worth=1900/2000/2100", NULL);
    c = choose_now();
    assert_true(c.choices[c.led_by].direction >= 0);
    const struct choose_choice *last = &c.choices[c.n_choices - 1];
    assert_true(last->direction < 0 && last->odds.dominated && last->odds.loses == 1);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(five_sales_take_over),    TEST(other_money_needs_a_rate),   TEST(changes_change),
        TEST(a_lower_worth_gives_way), TEST(spent_money_counts_nothing), TEST(tripwires),
        TEST(another_to_start_from),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
