/* The records of buying as the model reads them: which one counts, and what a slip is told. */
#include "garage/kinds.h"
#include "model/facts.h"
#include "shop/scene.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static struct scene scene;

static int set_up(void **state)
{
    (void)state;
    scene_open(&scene);
    scene_add(&scene, "vehicle", "name=Only", NULL);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    scene_close(&scene);
    return 0;
}

static struct facts facts_now(void)
{
    struct facts x;
    struct fail f = {0};
    if (!facts_read(scene.garage, &scene.arena, &scene.trade, scene.vehicle, &x, &f))
        fail_msg("%s", f.text);
    return x;
}

static void a_later_quote_stands_in_the_place_of_an_earlier(void **state)
{
    (void)state;
    scene_add(&scene, "supplier", "name=North", "carriage=6.50", "carriage-free=80", NULL);
    scene_add(&scene, "supplier", "name=South", NULL);
    scene_add(&scene, "quote", "supplier=North", "part=fan-belt", "price=9 GBP", NULL);
    scene_add(&scene, "quote", "supplier=North", "part=fan-belt", "price=7 GBP", "from-count=5",
              NULL);
    scene_add(&scene, "quote", "supplier=South", "part=fan-belt", "price=10 EUR", "core=2 EUR",
              "lead=1/2/5", "return-days=14", NULL);
    scene_add(&scene, "quote", "supplier=North", "part=Fan belt", "price=8 GBP", NULL);
    struct facts x = facts_now();
    const struct facts_buy *b = &x.buy;
    assert_int_equal(b->n_suppliers, 2);
    assert_true(b->suppliers[0].carriage == 650 && b->suppliers[0].carriage_free == 8000);
    assert_true(b->suppliers[1].carriage == 0 && b->suppliers[1].carriage_free == -1);
    assert_int_equal(b->n_quotes, 4);
    static const bool stale[] = {true, false, false, false};
    static const double minor[] = {900, 700, 1000, 800};
    for (int i = 0; i < 4; i++) {
        assert_int_equal(b->quotes[i].stale, stale[i]);
        assert_true(b->quotes[i].minor == minor[i]);
        assert_int_equal(b->quotes[i].part, trade_find_part(&scene.trade, "fan-belt"));
    }
    assert_string_equal(b->quotes[2].currency, "EUR");
    assert_true(b->quotes[2].lead_told && b->quotes[2].lead.high == 5 && !b->quotes[0].lead_told);
    assert_int_equal(b->quotes[2].return_days, 14);
    assert_int_equal(b->quotes[0].return_days, -1);
}

static void an_order_knows_its_quote_and_supplier(void **state)
{
    (void)state;
    scene_add(&scene, "supplier", "name=North", NULL);
    scene_add(&scene, "quote", "supplier=North", "part=fan-belt", "price=9 GBP", NULL);
    scene_add(&scene, "quote", "supplier=North", "part=fan-belt", "price=8 GBP", NULL);
    struct facts x = facts_now();
    scene_add(&scene, "order", "part=fan-belt",
              arena_print(&scene.arena, "quote=%s", x.buy.quotes[0].id), "price=9", NULL);
    scene_add(&scene, "order", "part=fan-belt", "supplier=north", "arrived=2026-11-25",
              "checked=yes", "wrong=too long", NULL);
    scene_add(&scene, "order", "part=fan-belt", "arrived=2026-11-25", "returned=2026-11-28", NULL);
    x = facts_now();
    assert_int_equal(x.n_orders, 3);
    assert_int_equal(x.orders[0].quote, 0);
    assert_int_equal(x.orders[0].supplier, 0);
    assert_int_equal(x.orders[1].supplier, 0);
    assert_int_equal(x.orders[1].quote, -1);
    assert_int_equal(x.orders[2].supplier, -1);
    assert_true(x.orders[1].checked == TRI_YES && x.orders[0].checked == TRI_UNKNOWN);
    static const bool here[] = {false, true, false}, coming[] = {true, false, false};
    for (int i = 0; i < 3; i++) {
        assert_int_equal(order_is_here(&x.orders[i]), here[i]);
        assert_int_equal(order_is_coming(&x.orders[i]), coming[i]);
    }
}

static void the_latest_choice_and_the_latest_figure_count(void **state)
{
    (void)state;
    scene_add(&scene, "choice", "need=charging", "option=generator-refurbish", NULL);
    scene_add(&scene, "choice", "need=charging", "option=alternator-for-dynamo", NULL);
    scene_add(&scene, "measured", "of=fitting-ammeter", "join=charge-current", "most=20", NULL);
    scene_add(&scene, "measured", "of=fitting-ammeter", "join=charge-current", "most=30", NULL);
    scene_add(&scene, "measured", "of=fitting-generator-bracket", "join=mount-length", "is=97",
              NULL);
    scene_add(&scene, "measured", "of=alternator-for-dynamo", "join=earth-polarity", "is=negative",
              NULL);
    scene_add(&scene, "measured", "of=no-such-thing", "join=mount-length", "is=1", NULL);
    struct facts x = facts_now();
    const struct facts_buy *b = &x.buy;
    assert_int_equal(b->n_choices, 1);
    assert_string_equal(scene.trade.options[b->choices[0].option].head.id, "alternator-for-dynamo");
    assert_int_equal(b->n_ends, 4);
    assert_true(!b->ends[0].gives && b->ends[0].end.most == 30 && isnan(b->ends[0].end.least));
    assert_true(b->ends[1].end.least == 97 && b->ends[1].end.most == 97);
    assert_string_equal(b->ends[2].end.is, "negative");
    assert_true(b->ends[2].fitting < 0 && b->ends[2].option >= 0 && isnan(b->ends[2].end.most));
    assert_true(b->ends[3].fitting < 0 && b->ends[3].option < 0);
}

static const struct {
    const char *kind, *words[4], *says; /* says NULL: it is stored */
} told[] = {
    {"quote", {"part=fan-bel"}, "quote.part: nothing is called 'fan-bel'; did you mean 'fan-belt'"},
    {"quote", {"part=Fan belt"}, NULL},
    {"choice",
     {"need=charging", "option=alternator-bracket-made"},
     "'alternator-bracket-made' does not meet 'charging'; use one of generator-refurbish"},
    {"choice", {"need=chargin", "option=x"}, "did you mean 'charging'"},
    {"measured",
     {"of=fitting-ameter", "join=charge-current", "most=1"},
     "did you mean 'fitting-ammeter'"},
    {"measured",
     {"of=fitting-ammeter", "join=mount-length", "is=1"},
     "'fitting-ammeter' gives and takes nothing at 'mount-length'"},
    {"measured",
     {"of=fitting-ammeter", "join=charge-current", "end=gives", "most=1"},
     "gives nothing at"},
    {"measured",
     {"of=fitting-ammeter", "join=charge-current", "is=30"},
     "reach from a least to a most, in A"},
    {"measured",
     {"of=alternator-for-dynamo", "join=earth-polarity", "most=3"},
     "ends are one word"},
    {"measured",
     {"of=fitting-generator-bracket", "join=mount-length", "is=wide"},
     "'wide' is no figure; give one in mm"},
    {"measured", {"of=fitting-generator-bracket", "join=mount-length", "is=97"}, NULL},
    {"sent", {"what=head", "job=no-such-job-at-all"}, "sent.job: nothing is called"},
    {"sent", {"what=head"}, NULL},
};

static void a_slip_is_told_with_the_nearest(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof told / sizeof *told; i++) {
        struct fail f = {0};
        struct record *r = record_new(&scene.arena, record_kind_find(told[i].kind));
        for (int k = 0; k < 4 && told[i].words[k]; k++) {
            const char *equals = strchr(told[i].words[k], '=');
            const char *field =
                arena_copy_n(&scene.arena, told[i].words[k], (size_t)(equals - told[i].words[k]));
            assert_true(record_set(&scene.arena, r, field, equals + 1, NULL, &f));
        }
        assert_true(facts_buy_settles(r->kind));
        bool ok = facts_buy_settle(&scene.arena, &scene.trade, r, &f);
        if (ok != !told[i].says || (told[i].says && !strstr(f.text, told[i].says)))
            fail_msg("%s %s: '%s' does not say '%s'", told[i].kind, told[i].words[0], f.text,
                     told[i].says ? told[i].says : "(nothing)");
        if (ok && r->kind == &kind_quote)
            assert_string_equal(record_text(r, "part", ""), "fan-belt");
    }
}

#define IN_A_SCENE(test) cmocka_unit_test_setup_teardown(test, set_up, tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_A_SCENE(a_later_quote_stands_in_the_place_of_an_earlier),
        IN_A_SCENE(an_order_knows_its_quote_and_supplier),
        IN_A_SCENE(the_latest_choice_and_the_latest_figure_count),
        IN_A_SCENE(a_slip_is_told_with_the_nearest),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
