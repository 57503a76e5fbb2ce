/* test_tools.c - tools that the plan wants, and how they are had, from facts to the answer. */
#include "shop/scene.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "shop/tools.h"

#include <math.h>
#include <string.h>

static struct tools asked(struct scene *s)
{
    struct tools x;
    struct fail f = {0};
    const struct shop_ask ask = {.garage = s->garage,
                                 .trade = &s->trade,
                                 .vehicle = s->vehicle,
                                 .today = day_from_civil(2026, 11, 28),
                                 .direction = trade_find_direction(&s->trade, "drive"),
                                 .seed = 1,
                                 .runs = 40};
    if (!tools_reckon(&s->arena, &ask, &x, &f)) fail_msg("%s", f.text);
    return x;
}

static const struct tool_need *need(const struct tools *x, const char *id)
{
    for (int i = 0; i < x->n_needs; i++)
        if (strcmp(x->trade->tools[x->needs[i].tool].head.id, id) == 0) return &x->needs[i];
    return NULL;
}

static void a_tool_is_had_at_least_cost(void **state)
{
    (void)state;
    struct scene s;
    scene_open(&s);
    scene_add(&s, "vehicle", "name=Linnet", "year=1959", "build=unitary", "kind=car", "fuel=petrol",
              "gearbox=manual", "driven=rear", "brakes=drum", "voltage=12", NULL);
    scene_add(&s, "workshop", "hours-a-week=6", "currency=GBP", "bays=1", NULL);
    struct tools x = asked(&s);
    const struct tool_need *n = need(&x, "torque-wrench");
    assert_non_null(n);
    assert_int_equal(n->have, TOOL_NOT_TOLD);
    assert_true(isinf(n->cost) && n->n_steps == 0);
    assert_true(n->n_spells > 0 && n->by == n->spells[0].from && n->by >= x.as_of);
    for (int i = 1; i < n->n_spells; i++)
        assert_true(n->spells[i].from > n->spells[i - 1].to + TOOL_KEEP_DAYS);
    int days = 0;
    for (int i = 0; i < n->n_spells; i++) days += n->spells[i].to - n->spells[i].from + 1;
    /* Hired by the day with nothing each time, it costs its days; a dear one is bought instead, and
     * one that is lent for nothing costs nothing. A price in a currency without a rate is none. */
    scene_add(&s, "tool-offer", "tool=torque wrench", "way=buy", "price=1 USD", NULL);
    scene_add(&s, "tool-offer", "tool=torque wrench", "way=hire", "a-day=0.02 GBP", NULL);
    x = asked(&s);
    n = need(&x, "torque-wrench");
    assert_int_equal(n->n_offers, 1);
    assert_true(fabs(n->cost - 2.0 * days) < 1e-9);
    assert_int_equal(n->n_steps, n->n_spells);
    assert_true(fabs(x.cost - n->cost) < 1e-9);
    scene_add(&s, "tool-offer", "tool=torque wrench", "way=buy", "price=0.01 GBP", NULL);
    x = asked(&s);
    n = need(&x, "torque-wrench");
    assert_int_equal(n->n_steps, 1);
    assert_true(fabs(n->cost - 1) < 1e-9);
    scene_add(&s, "tool-offer", "tool=torque wrench", "way=borrow", "until=2026-11-20", NULL);
    x = asked(&s);
    assert_true(fabs(need(&x, "torque-wrench")->cost - 1) < 1e-9); /* it is gone by then */
    scene_add(&s, "tool-offer", "tool=torque wrench", "way=borrow", "whose=Ann", NULL);
    x = asked(&s);
    n = need(&x, "torque-wrench");
    assert_true(n->cost == 0 && n->n_steps > 0);
    scene_add(&s, "tool", "tool=torque wrench", "have=owned", NULL);
    const int wanting = x.n_wanting;
    x = asked(&s);
    assert_int_equal(x.n_wanting, wanting - 1);
    assert_int_equal(need(&x, "torque-wrench")->have, TOOL_OWNED);
    scene_close(&s);
}

static void promises_are_asked_about_until_they_are_kept(void **state)
{
    (void)state;
    struct scene s;
    scene_open(&s);
    scene_add(&s, "vehicle", "name=Linnet", NULL);
    scene_add(&s, "workshop", "hours-a-week=6", "currency=GBP", NULL);
    scene_add(&s, "promise", "who=Ann", "what=some day", NULL);
    scene_add(&s, "promise", "who=Ann", "what=today", "by-day=2026-11-28", NULL);
    scene_add(&s, "promise", "who=Ann", "what=late", "by-day=2026-11-27", NULL);
    scene_add(&s, "promise", "who=Ann", "what=kept", "by-day=2026-11-20", "kept=2026-11-27", NULL);
    const struct tools x = asked(&s);
    assert_int_equal(x.n_promises, 3);
    static const char *const order[] = {"late", "today", "some day"};
    for (int i = 0; i < 3; i++) {
        assert_string_equal(x.promises[i].what, order[i]);
        assert_int_equal(x.promises[i].late, i == 0);
    }
    scene_close(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_tool_is_had_at_least_cost),
        cmocka_unit_test(promises_are_asked_about_until_they_are_kept),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
