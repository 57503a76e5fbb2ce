/* What is due, with a button that tells that it was done, without script. */
#include "web/browse.h"

#include <string.h>

static struct {
    struct arena arena;
    struct site *site;
} world;

static int begin(void **state)
{
    (void)state;
    world.arena = arena_open((size_t)256 << 20);
    world.site = browse_site(&world.arena);
    browse_add(&world.arena, world.site, "vehicle", "name=Barge", NULL);
    browse_add(&world.arena, world.site, "supplier", "name=<i>North", NULL);
    browse_add(&world.arena, world.site, "order", "vehicle=Barge", "part=fan-belt",
               "supplier=<i>north", "arrived=2026-11-20", NULL);
    browse_add(&world.arena, world.site, "sent", "vehicle=Barge", "supplier=<i>North",
               "what=<b>head", "count=2", "sent=2026-11-01", "chase=2026-11-10", "photo=00ab",
               NULL);
    return 0;
}

static int end(void **state)
{
    (void)state;
    browse_site_end(&world.arena, world.site);
    arena_close(&world.arena);
    return 0;
}

static void what_is_done_goes_from_the_list(void **state)
{
    (void)state;
    struct browser *b = browse_open(&world.arena, world.site);
    browse_go(b, "/buying");
    assert_int_equal(b->page.status, 200);
    browse_expect(b, "2 things want doing now.");
    browse_expect(b, "fan belt");
    browse_expect(b, "/photographs/00ab");
    browse_press(b, "act", "wrong"); /* with nothing typed */
    assert_int_equal(b->page.status, 422);
    browse_expect(b, "What is wrong with it: nothing was typed");
    browse_type(b, "text", "too long");
    browse_press(b, "act", "wrong");
    assert_int_equal(b->page.status, 200);
    browse_expect(b, "Send it back: too long");
    browse_press(b, "act", "returned");
    browse_expect(b, "One thing wants doing now.");
    browse_press(b, "act", "back");
    browse_expect(b, "Nothing is due");
}

static void a_list_is_pasted_whole_or_not_at_all(void **state)
{
    (void)state;
    struct browser *b = browse_open(&world.arena, world.site);
    browse_go(b, "/buying");
    browse_expect(b, "No prices of a supplier are known yet.");
    browse_press(b, "act", "import");
    assert_int_equal(b->page.status, 422);
    browse_expect(b, "say whose prices they are");
    browse_choose(b, "supplier", "<i>North");
    browse_type(b, "list", "part,price\r\nfan-belt,9 GBP\r\nfan-bel,<9>\r\n");
    browse_press(b, "act", "import");
    assert_int_equal(b->page.status, 422);
    browse_expect(b, "1 fault; mend it");
    browse_expect(b, "line 3: quote.price: &#39;&lt;9&gt;&#39;: no currency");
    browse_expect(b, "No prices of a supplier are known yet.");
    browse_type(b, "list", "part,price\r\nfan-belt,9 GBP\r\n");
    browse_press(b, "act", "import");
    assert_int_equal(b->page.status, 200);
    browse_expect(b, "No part must be ordered within 30 days");
}

/* Forms of a kind: what is wrong comes back as typed with one line, and nothing is stored. */
static void a_supplier_is_told_and_stays_while_it_is_named(void **state)
{
    (void)state;
    struct browser *b = browse_open(&world.arena, world.site);
    browse_go(b, "/buying");
    browse_follow(b, "/buying/supplier");
    browse_type(b, "name", "South & Sons");
    browse_type(b, "carriage", "lo<ts");
    browse_press(b, "act", "keep");
    assert_int_equal(b->page.status, 422);
    browse_expect(b, "South &amp; Sons");
    browse_expect(b, "lo&lt;ts");
    browse_expect(b, "Nothing was stored: see the line beside the field.");
    browse_type(b, "carriage", "6 GBP");
    browse_type(b, "minimum", "9 EUR");
    browse_press(b, "act", "keep");
    assert_int_equal(b->page.status, 422);
    browse_expect(b, "use one currency");
    browse_type(b, "minimum", "9 GBP");
    browse_press(b, "act", "keep");
    assert_int_equal(b->page.status, 200);
    browse_expect(b, "South &amp; Sons</b>");
    const char *address = browse_link(b, "/buying/supplier/");
    const char *id = address + strlen("/buying/supplier/");

    static const struct {
        const char *field, *typed, *told;
    } wrong[] = {
        {"price", "9", "quote.price: &#39;9&#39;: no currency"},
        {"lead", "-3", "quote.lead: "},
        {"lead", "9/4/2", "quote.lead: "},
        {"part", "fan-bel", "did you mean &#39;fan-belt&#39;?"},
    };
    browse_go(b, "/buying/quote");
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        browse_choose(b, "supplier", id);
        browse_type(b, "part", "fan-belt");
        browse_type(b, "price", "9 GBP");
        browse_type(b, "lead", "2/4/9");
        browse_type(b, wrong[i].field, wrong[i].typed);
        browse_press(b, "act", "keep");
        assert_int_equal(b->page.status, 422);
        browse_expect(b, wrong[i].told);
        assert_true(browse_has(b, wrong[i].field, wrong[i].typed));
    }
    browse_type(b, "part", "fan-belt");
    browse_press(b, "act", "keep");
    assert_int_equal(b->page.status, 200);
    browse_go(b, address);
    browse_press(b, "act", "remove");
    assert_int_equal(b->page.status, 422);
    browse_expect(b, "supplier South &amp; Sons: cannot go while 0 open orders, 1 quote");
}

static void an_order_changed_elsewhere_is_shown_beside_what_was_typed(void **state)
{
    (void)state;
    struct browser *here = browse_open(&world.arena, world.site),
                   *there = browse_open(&world.arena, world.site);
    browse_go(here, "/buying/order");
    browse_type(here, "part", "fan-belt");
    browse_type(here, "due", "2026-13-01");
    browse_press(here, "act", "keep");
    assert_int_equal(here->page.status, 422);
    browse_expect(here, "order.due: ");
    browse_type(here, "due", "2026-12-01");
    browse_press(here, "act", "keep");
    assert_int_equal(here->page.status, 200);
    const char *address = browse_link(here, "/buying/order/");
    browse_go(here, address);
    browse_go(there, address);
    browse_type(there, "due", "2026-12-08");
    browse_press(there, "act", "keep");
    assert_int_equal(there->page.status, 200);
    browse_type(here, "arrived", "2026-11-25");
    browse_choose(here, "checked", "yes");
    browse_press(here, "act", "keep");
    assert_int_equal(here->page.status, 409);
    browse_expect(here, "It was changed elsewhere since this form was loaded");
    browse_expect(here, "as it stands now: 2026-12-08");
    assert_true(browse_has(here, "arrived", "2026-11-25"));
    browse_type(here, "due", "2026-12-08");
    browse_press(here, "act", "keep");
    assert_int_equal(here->page.status, 200);
    browse_go(here, address);
    assert_true(browse_has(here, "arrived", "2026-11-25") && browse_has(here, "due", "2026-12-08"));
    browse_press(here, "act", "remove");
    assert_int_equal(here->page.status, 200);
    browse_go(here, address);
    assert_int_equal(here->page.status, 404);
    browse_go(here, "/buying/nonsense");
    assert_int_equal(here->page.status, 404);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_done_goes_from_the_list),
        cmocka_unit_test(a_list_is_pasted_whole_or_not_at_all),
        cmocka_unit_test(a_supplier_is_told_and_stays_while_it_is_named),
        cmocka_unit_test(an_order_changed_elsewhere_is_shown_beside_what_was_typed),
    };
    return cmocka_run_group_tests(tests, begin, end);
}
