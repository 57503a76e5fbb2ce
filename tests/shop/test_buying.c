/* What is due, and what to order together. */
#include "shop/buying.h"
#include "shop/scene.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static struct scene scene;
static day today;

static int set_up(void **state)
{
    (void)state;
    today = day_from_civil(2026, 11, 25);
    scene_open(&scene);
    scene_add(&scene, "workshop", "currency=GBP", NULL);
    scene_add(&scene, "vehicle", "name=Only", NULL);
    scene_add(&scene, "supplier", "name=North", "carriage=7.50 GBP", "carriage-free=80 GBP",
              "minimum=15 GBP", NULL);
    scene_add(&scene, "supplier", "name=South", NULL);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    scene_close(&scene);
    return 0;
}

static double sooner_worth;

static struct buying buying_of(struct buying_want *wants, int n)
{
    struct fail f = {0};
    struct facts *facts = ARENA_NEW(&scene.arena, struct facts);
    struct buying x;
    if (!facts_read(scene.garage, &scene.arena, &scene.trade, scene.vehicle, facts, &f))
        fail_msg("%s", f.text);
    const struct buying_vehicle vehicle = {.facts = facts,
                                           .wants = wants,
                                           .n_wants = n,
                                           .day_worth = sooner_worth,
                                           .planned = true,
                                           .current = true};
    buying_reckon(&scene.arena, &scene.trade, &vehicle, 1, today, &x);
    return x;
}

/* One order a row, and all that is due on it: kind, how pressing, day. */
static const struct {
    const char *words[6];
    struct {
        const char *due;
        enum due_press press;
        const char *day;
    } due[3];
} orders[] = {
    {{"ordered=2026-11-20", "due=2026-11-25"}, {{NULL, 0, NULL}}}, /* today is not late */
    {{"ordered=2026-11-01", "due=2026-11-24"}, {{"late", PRESS_NOW, "2026-11-24"}}},
    {{"due=2026-11-24", "returned=2026-11-24"}, {{NULL, 0, NULL}}},
    {{"arrived=2026-11-20"}, {{"check", PRESS_NOW, NULL}}},
    {{"arrived=2026-11-20", "checked=no", "return-by=2026-11-26"},
     {{"check", PRESS_SOON, "2026-11-26"}}},
    {{"arrived=2026-11-20", "return-by=2027-11-26"}, {{"check", PRESS_SOON, "2027-11-26"}}},
    {{"arrived=2026-11-20", "return-by=2026-11-24"}, {{"check", PRESS_NOW, "2026-11-24"}}},
    {{"arrived=2026-11-20", "checked=yes"}, {{NULL, 0, NULL}}},
    {{"arrived=2026-11-20", "fitted=2026-11-21"}, {{NULL, 0, NULL}}},
    {{"arrived=2026-11-20", "checked=yes", "wrong=bent", "return-by=2026-12-30"},
     {{"return", PRESS_LATER, "2026-12-30"}}},
    {{"arrived=2026-11-20", "checked=yes", "wrong=bent"}, {{"return", PRESS_NOW, NULL}}},
    {{"arrived=2026-11-20", "wrong=bent", "returned=2026-11-22"}, {{NULL, 0, NULL}}},
    {{"arrived=2026-11-20", "checked=yes", "warranty=2027-11-20", "core=5 GBP"},
     {{"warranty", PRESS_LATER, "2027-11-20"}, {"core", PRESS_LATER, NULL}}},
    {{"arrived=2026-11-20", "checked=yes", "warranty=2026-11-24"}, {{NULL, 0, NULL}}},
    {{"arrived=2026-11-20", "checked=yes", "warranty=2026-12-01", "fitted=2026-11-22"},
     {{NULL, 0, NULL}}},
};

static void orders_are_due_as_their_days_say(void **state)
{
    (void)state;
    struct fail f = {0};
    for (size_t i = 0; i < sizeof orders / sizeof *orders; i++) {
        const char *const *w = orders[i].words;
        scene_add(&scene, "vehicle", arena_print(&scene.arena, "name=V%zu", i), NULL);
        scene_add(&scene, "order", "part=fan-belt", w[0], w[1], w[2], w[3], w[4], NULL);
        struct buying x = buying_of(NULL, 0);
        int n = 0;
        for (; n < 3 && orders[i].due[n].due; n++) {
            day d = DAY_NONE;
            if (orders[i].due[n].day) assert_true(day_parse(orders[i].due[n].day, &d, &f));
            if (n >= x.n_due || !text_is(due_name(x.due[n].kind), orders[i].due[n].due) ||
                x.due[n].press != orders[i].due[n].press || x.due[n].day != d)
                fail_msg("order %zu (%s): due %d is not %s", i, w[0], n, orders[i].due[n].due);
        }
        if (x.n_due != n) fail_msg("order %zu (%s): %d are due, not %d", i, w[0], x.n_due, n);
    }
}

static void the_days_to_return_follow_from_the_quote(void **state)
{
    (void)state;
    scene_add(&scene, "quote", "supplier=North", "part=fan-belt", "price=9 GBP", "return-days=14",
              NULL);
    struct buying x = buying_of(NULL, 0);
    struct record *q;
    struct fail f = {0};
    int n;
    assert_true(
        garage_list(scene.garage, &scene.arena, record_kind_find("quote"), NULL, &q, &n, &f));
    scene_add(&scene, "order", "part=fan-belt", arena_print(&scene.arena, "quote=%s", q[0].id),
              "arrived=2026-11-20", NULL);
    x = buying_of(NULL, 0);
    assert_int_equal(x.n_due, 1);
    assert_int_equal(x.due[0].day, day_from_civil(2026, 12, 4));
    assert_string_equal(x.due[0].supplier, "North");
}

static void pieces_are_chased_counted_and_measured(void **state)
{
    (void)state;
    scene_add(&scene, "sent", "supplier=South", "what=head", "sent=2026-11-01", "chase=2026-11-25",
              "promised=2026-12-10", NULL);
    scene_add(&scene, "sent", "supplier=South", "what=shafts", "count=2", "sent=2026-11-01",
              "returned=2026-11-20", "count-returned=1", "tolerances=0.05 mm", NULL);
    scene_add(&scene, "sent", "supplier=South", "what=drums", "count=2", "sent=2026-11-01",
              "returned=2026-11-20", "count-returned=2", "tolerances=1 mm", "measured=0.8 mm",
              NULL);
    scene_add(&scene, "sent", "supplier=South", "what=tank", "sent=2026-11-01", NULL);
    scene_add(&scene, "sent", "supplier=South", "what=bumper", "sent=2026-11-01",
              "promised=2026-11-22", "chase=2026-12-10",
              NULL); /* late before it was to be chased */
    struct buying x = buying_of(NULL, 0);
    static const char *const kinds[] = {"short", "measure", "pieces", "pieces", "pieces"};
    static const char *const what[] = {"shafts", "shafts", "bumper", "head", "tank"};
    assert_int_equal(x.n_due, 5);
    assert_int_equal(x.n_now, 4);
    for (int i = 0; i < 5; i++) {
        assert_string_equal(due_name(x.due[i].kind), kinds[i]);
        assert_string_equal(x.due[i].sent->what, what[i]);
    }
}

static struct buying_want want(const char *part, double count, double chance, int in_days)
{
    return (struct buying_want){
        trade_find_part(&scene.trade, part), count, chance, today + in_days, 2, 1};
}

/* "North 90.00+0: hose-set carburettor-kit*; South 9.00+0: fan-belt": by supplier goods, carriage,
 * items, with a star what is ordered along and an exclamation mark what is below a minimum. */
static const char *told(const struct buying *x)
{
    struct text t = {.arena = &scene.arena};
    for (int i = 0; i < x->n_baskets; i++) {
        const struct basket *b = &x->baskets[i];
        text_print(&t, "%s%s %.0f+%.0f%s:", i > 0 ? "; " : "", b->supplier->name, b->sum,
                   b->carriage, b->below_minimum ? "!" : "");
        for (int k = 0; k < b->n_items; k++)
            text_print(&t, " %s%s", b->items[k].part->head.id, b->items[k].later ? "*" : "");
    }
    return text_get(&t);
}

static void baskets_are_the_least_of_goods_and_carriage(void **state)
{
    (void)state;
    scene_add(&scene, "quote", "supplier=North", "part=hose-set", "price=50 GBP", NULL);
    scene_add(&scene, "quote", "supplier=North", "part=fan-belt", "price=10 GBP", NULL);
    scene_add(&scene, "quote", "supplier=North", "part=fan-belt", "price=8 GBP", "from-count=2",
              NULL);
    scene_add(&scene, "quote", "supplier=South", "part=fan-belt", "price=9 GBP", NULL);
    scene_add(&scene, "quote", "supplier=North", "part=thermostat", "price=12 GBP", NULL);
    scene_add(&scene, "quote", "supplier=North", "part=carburettor-kit", "price=40 GBP", NULL);
    scene_add(&scene, "quote", "supplier=South", "part=soda", "price=3 EUR", NULL); /* no rate */
    struct buying_want hose = want("hose-set", 0.4, 1, 3), belt = want("fan-belt", 1, 1, 10),
                       belts = want("fan-belt", 4, 1, 10), kit = want("carburettor-kit", 1, 1, 60),
                       doubtful_kit = want("carburettor-kit", 1, 0.81, 60),
                       unlikely_kit = want("carburettor-kit", 1, 0.6, 60),
                       later = want("thermostat", 1, 1, 90), soon = want("thermostat", 1, 1, 0);
    const struct {
        struct buying_want wants[4];
        const char *told;
        enum along along; /* of the first basket */
        double wanting;
    } cases[] = {
        /* The kit earns the carriage; the thermostat would not, and is left for later. */
        {{hose, belt, later, kit},
         "North 9000+0: hose-set carburettor-kit*; South 900+0: fan-belt",
         ALONG_CARRIAGE,
         0},
        {{hose, belt, later, unlikely_kit},
         "North 5000+750: hose-set; South 900+0: fan-belt",
         ALONG_NOTHING,
         3000},
        /* A fifth of its price is lost on average: more than the carriage. */
        {{hose, doubtful_kit}, "North 5000+750: hose-set", ALONG_NOTHING, 3000},
        /* Four belts are cheapest in the north by its price break, and then all is free. */
        {{hose, belts, later, kit}, "North 8200+0: hose-set fan-belt", ALONG_NOTHING, 0},
        /* Below the least that they send; and what reaches it. */
        {{soon}, "North 1200+750!: thermostat", ALONG_NOTHING, 300},
        {{soon, kit}, "North 5200+750: thermostat carburettor-kit*", ALONG_MINIMUM, 2800},
        {{later, kit}, "", ALONG_NOTHING, 0},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct buying_want wants[4];
        int n = 0;
        memcpy(wants, cases[i].wants, sizeof wants);
        while (n < 4 && wants[n].count > 0) n++;
        const struct buying x = buying_of(wants, n);
        assert_string_equal(told(&x), cases[i].told);
        if (x.n_baskets == 0) continue;
        assert_true(x.proven);
        assert_int_equal(x.baskets[0].along, cases[i].along);
        assert_true(x.baskets[0].wanting == cases[i].wanting);
    }
    /* No quote at all; none that can be had in pounds. */
    struct buying_want unknown[] = {want("air-filter", 1, 1, 5), want("soda", 1, 1, 5),
                                    want("thermostat", 1, 0.2, 5)};
    const struct buying x = buying_of(unknown, 3);
    assert_int_equal(x.n_wanted, 2);
    assert_int_equal(x.n_unquoted, 2);
    assert_string_equal(x.unquoted[0]->head.id, "air-filter");
    assert_int_equal(x.n_notes, 1);
    assert_non_null(strstr(x.notes[0], "add rate currency=EUR per=GBP"));
}

/* Dearer, and yet less with its carriage; unless it is waited for, or the seller was chosen. */
static void carriage_waiting_and_a_choice_decide_where(void **state)
{
    (void)state;
    scene_add(&scene, "quote", "supplier=North", "part=hose-set", "price=50 GBP", "lead=1/2/4",
              NULL);
    scene_add(&scene, "quote", "supplier=South", "part=hose-set", "price=56 GBP", "lead=40/60/90",
              NULL);
    struct buying_want hose = want("hose-set", 1, 1, 3);
    sooner_worth = 1;
    struct buying x = buying_of(&hose, 1);
    assert_string_equal(told(&x), "South 5600+0: hose-set");
    sooner_worth = 10; /* pence; 58 days late on average, so 5.80 GBP more */
    x = buying_of(&hose, 1);
    assert_string_equal(told(&x), "North 5000+750: hose-set");
    sooner_worth = 0; /* not told: the usual figure */
    x = buying_of(&hose, 1);
    assert_true(x.late_assumed && x.late_day > 100);
    assert_string_equal(told(&x), "North 5000+750: hose-set");
    scene_add(&scene, "seller", "supplier=South", "part=hose-set", NULL);
    x = buying_of(&hose, 1);
    assert_string_equal(told(&x), "South 5600+0: hose-set");
    assert_true(x.baskets[0].items[0].chosen);
}

static struct buying spares_of(double chance, double critical, double day_worth)
{
    struct fail f = {0};
    struct facts *facts = ARENA_NEW(&scene.arena, struct facts);
    struct buying_setback *b = ARENA_NEW(&scene.arena, struct buying_setback);
    struct buying x;
    if (!facts_read(scene.garage, &scene.arena, &scene.trade, scene.vehicle, facts, &f))
        fail_msg("%s", f.text);
    *b = (struct buying_setback){trade_find_setback(&scene.trade, "bitten-loom"),
                                 trade_find_job(&scene.trade, "circuit-repair"), chance, critical};
    const struct buying_vehicle vehicle = {
        .facts = facts, .setbacks = b, .n_setbacks = 1, .day_worth = day_worth, .planned = true};
    buying_reckon(&scene.arena, &scene.trade, &vehicle, 1, today, &x);
    return x;
}

static const struct spare *spare_of(const struct buying *x, const char *part)
{
    for (int i = 0; i < x->n_spares; i++)
        if (text_is(x->spares[i].part->head.id, part)) return &x->spares[i];
    return NULL;
}

/* Odds of its step, days that it saves, and the worth of a day from which it pays, by hand. */
static void a_spare_pays_where_a_day_is_worth_enough(void **state)
{
    (void)state;
    const struct trade_setback *s =
        &scene.trade.setbacks[trade_find_setback(&scene.trade, "bitten-loom")];
    int step = 0;
    double odds = 0.9;
    const int part = trade_find_part(&scene.trade, "sub-loom");
    for (; step < s->n_ladder; odds *= 1 - s->ladder[step++].works)
        if (s->ladder[step].n_parts > 0 && s->ladder[step].parts[0].part == part) break;
    assert_true(step > 0 && step < s->n_ladder); /* not the first: something is tried before */
    const struct trade_part *p = &scene.trade.parts[part];
    const double days = odds * 0.5 * p->lead.middle;

    struct buying x = spares_of(0.9, 0.5, 0);
    const struct spare *o = spare_of(&x, "sub-loom");
    assert_non_null(o);
    assert_true(fabs(o->odds - odds) < 1e-12 && fabs(o->days - days) < 1e-9);
    assert_true(!o->quoted && fabs(o->price - 100 * p->price.middle) < 1e-6);
    assert_true(fabs(o->from_a_day - (1 - odds) * o->price / days) < 1e-6 && !o->pays);
    const double at = o->from_a_day;
    x = spares_of(0.9, 0.5, at * 1.01);
    assert_true(spare_of(&x, "sub-loom")->pays);
    x = spares_of(0.9, 0.5, at * 0.99);
    assert_false(spare_of(&x, "sub-loom")->pays);
    x = spares_of(0.9, 0, at * 2); /* nothing waits for that job */
    assert_int_equal(x.n_spares, 0);

    scene_add(&scene, "quote", "supplier=North", "part=sub-loom", "price=1 GBP", NULL);
    x = spares_of(0.9, 0.5, at * 0.99);
    assert_true(spare_of(&x, "sub-loom")->quoted && spare_of(&x, "sub-loom")->pays);
    scene_add(&scene, "order", "part=sub-loom", NULL);
    x = spares_of(0.9, 0.5, at);
    assert_null(spare_of(&x, "sub-loom")); /* it comes already */
}

#define IN_A_SCENE(test) cmocka_unit_test_setup_teardown(test, set_up, tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_A_SCENE(orders_are_due_as_their_days_say),
        IN_A_SCENE(the_days_to_return_follow_from_the_quote),
        IN_A_SCENE(pieces_are_chased_counted_and_measured),
        IN_A_SCENE(baskets_are_the_least_of_goods_and_carriage),
        IN_A_SCENE(carriage_waiting_and_a_choice_decide_where),
        IN_A_SCENE(a_spare_pays_where_a_day_is_worth_enough),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
