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

static struct buying buying_of(struct buying_want *wants, int n)
{
    struct fail f = {0};
    struct facts *facts = ARENA_NEW(&scene.arena, struct facts);
    struct buying x;
    if (!facts_read(scene.garage, &scene.arena, &scene.trade, scene.vehicle, facts, &f))
        fail_msg("%s", f.text);
    const struct buying_vehicle vehicle = {
        .facts = facts, .wants = wants, .n_wants = n, .planned = true, .current = true};
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
    struct buying x = buying_of(NULL, 0);
    static const char *const kinds[] = {"short", "measure", "pieces", "pieces"};
    static const char *const what[] = {"shafts", "shafts", "head", "tank"};
    assert_int_equal(x.n_due, 4);
    assert_int_equal(x.n_now, 3);
    for (int i = 0; i < 4; i++) {
        assert_string_equal(due_name(x.due[i].kind), kinds[i]);
        assert_string_equal(x.due[i].sent->what, what[i]);
    }
}

static struct buying_want want(const char *part, double count, double chance, int in_days)
{
    return (struct buying_want){trade_find_part(&scene.trade, part), count, chance,
                                today + in_days};
}

static void a_basket_says_what_earns_its_carriage(void **state)
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
    struct buying_want wants[] = {
        want("hose-set", 0.4, 1, 3),   want("fan-belt", 1, 1, 10),
        want("thermostat", 1, 1, 90),  want("carburettor-kit", 1, 1, 60),
        want("air-filter", 1, 1, 5),   want("soda", 1, 1, 5),
        want("thermostat", 1, 0.2, 5),
    };
    struct buying x = buying_of(wants, 7);
    assert_int_equal(x.n_wanted, 4);
    assert_int_equal(x.n_unquoted, 2); /* no quote; none that can be had in pounds */
    assert_int_equal(x.n_notes, 1);
    assert_non_null(strstr(x.notes[0], "add rate currency=EUR per=GBP"));
    assert_int_equal(x.n_baskets, 2);
    const struct basket *b = &x.baskets[0];
    assert_string_equal(b->supplier->name, "North");
    assert_int_equal(b->n_items, 1);
    assert_true(b->items[0].count == 1 && b->sum == 5000 && b->carriage == 750);
    assert_true(!b->below_minimum && b->wanting == 3000);
    assert_int_equal(b->n_add, 1); /* the carburettor's alone reaches it */
    assert_true(b->added == 4000);
    b = &x.baskets[1];
    assert_string_equal(b->supplier->name, "South");
    assert_true(b->sum == 900 && b->carriage == 0 && b->wanting == 0);

    /* Two belts are cheapest in the north by its price break, and then the sum is free. */
    wants[1].count = 4;
    x = buying_of(wants, 7);
    assert_int_equal(x.n_baskets, 1);
    assert_true(x.baskets[0].sum == 8200 && x.baskets[0].carriage == 0);
    assert_true(x.baskets[0].wanting == 0 && x.baskets[0].n_add == 0);

    /* The belt alone is below what they send at all. */
    x = buying_of(&wants[2], 1);
    assert_int_equal(x.n_baskets, 0);
    wants[2].by = today;
    x = buying_of(&wants[2], 1);
    assert_int_equal(x.n_baskets, 1);
    assert_true(x.baskets[0].below_minimum && x.baskets[0].wanting == 300);
    assert_true(x.baskets[0].n_add == 0 && x.baskets[0].added == 0);
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
        IN_A_SCENE(a_basket_says_what_earns_its_carriage),
        IN_A_SCENE(a_spare_pays_where_a_day_is_worth_enough),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
