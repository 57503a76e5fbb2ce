/* Suppliers, quotes, orders and pieces sent: what is refused, and what keeps what from going. */
#include "world.h"

#include "garage/kinds.h"

static const struct {
    const char *kind, *field, *text, *says;
} slips[] = {
    {"quote", "price", "12.50", "quote.price: '12.50': no currency; add its code"},
    {"quote", "core", "5", "quote.core: '5': no currency"},
    {"quote", "price", "12.50 XXQ", "no currency 'XXQ'"},
    {"quote", "lead", "-2", "must rise and be above 0"},
    {"quote", "lead", "9/4/10", "must rise"},
    {"quote", "from-count", "0", "beyond what can be"},
    {"quote", "return-days", "-1", "beyond what can be"},
    {"measured", "least", "wide", "not a number"},
    {"sent", "count", "0", "beyond what can be"},
    {"order", "checked", "perhaps", "neither yes nor no"},
};

static void a_slip_of_the_pen_is_one_line(void **state)
{
    struct world *w = *state;
    for (size_t i = 0; i < sizeof slips / sizeof *slips; i++) {
        struct fail f = {0};
        struct record *r = record_new(&w->arena, record_kind_find(slips[i].kind));
        assert_false(record_set(&w->arena, r, slips[i].field, slips[i].text, "GBP", &f));
        if (!strstr(f.text, slips[i].says))
            fail_msg("'%s' does not say '%s'", f.text, slips[i].says);
    }
}

static void fields_are_held_against_each_other(void **state)
{
    struct world *w = *state;
    struct {
        struct record *r;
        const char *says;
    } wrong[] = {
        {world_record(w, "supplier", "name=A", "carriage=5 GBP", "minimum=9 EUR", NULL),
         "use one currency"},
        {world_record(w, "supplier", "name=A", "carriage=-5 GBP", NULL), "less than nothing"},
        {world_record(w, "supplier", "carriage=5 GBP", NULL), "supplier.name: missing"},
        {world_record(w, "quote", "supplier=A", "part=x", "price=-1 GBP", NULL),
         "less than nothing"},
        {world_record(w, "quote", "supplier=A", "part=x", NULL), "quote.price: missing"},
        {world_record(w, "measured", "vehicle=V", "of=x", "join=y", NULL), "nothing was measured"},
        {world_record(w, "measured", "vehicle=V", "of=x", "join=y", "least=9", "most=8", NULL),
         "measured.least: 9 is above most, 8"},
        {world_record(w, "sent", "vehicle=V", "supplier=A", "what=x", "sent=2026-11-25", "count=8",
                      "count-returned=9", NULL),
         "9 came back of 8 that went"},
        {world_record(w, "sent", "vehicle=V", "supplier=A", "what=x", "sent=2026-11-25",
                      "promised=2026-11-24", NULL),
         "sent.promised: 2026-11-24 lies before 'sent', 2026-11-25"},
        {world_record(w, "order", "vehicle=V", "part=x", "ordered=2026-11-25", "arrived=2026-11-24",
                      NULL),
         "order.arrived"},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        struct fail f = {0};
        assert_false(record_valid(wrong[i].r, &f));
        if (!strstr(f.text, wrong[i].says))
            fail_msg("'%s' does not say '%s'", f.text, wrong[i].says);
    }
}

static bool removed(struct world *w, const struct record *r, struct fail *f)
{
    bool ok = garage_begin(w->garage, f) && garage_remove(w->garage, r->kind, r->id, f) &&
              garage_commit(w->garage, f);
    if (!ok) garage_rollback(w->garage);
    return ok;
}

static void change(struct world *w, struct record *r, const char *field, const char *text)
{
    assert_true(record_set(&w->arena, r, field, text, NULL, &w->fail));
    if (!garage_begin(w->garage, &w->fail) || !garage_change(w->garage, r, &w->fail) ||
        !garage_commit(w->garage, &w->fail))
        fail_msg("%s", w->fail.text);
}

/* One record at a time stands in the supplier's way; when all are gone it goes. */
static void a_supplier_stays_while_it_is_named(void **state)
{
    struct world *w = *state;
    struct record *s = world_add(w, world_record(w, "supplier", "name=Northgate", NULL));
    struct record *q = world_add(
        w, world_record(w, "quote", "supplier=Northgate", "part=fan-belt", "price=9 EUR", NULL));
    struct fail f = {0};
    assert_false(removed(w, s, &f));
    assert_non_null(strstr(f.text, "supplier Northgate: cannot go while 0 open orders, 1 quote and "
                                   "0 pieces sent name it"));

    struct record *o =
        world_add(w, world_record(w, "order", "vehicle=Wren", "part=fan-belt",
                                  arena_print(&w->arena, "quote=%.6s", q->id), NULL));
    assert_string_equal(record_text(o, "quote", ""), q->id);
    assert_string_not_equal(record_text(o, "vehicle", ""), q->id);
    f = (struct fail){0};
    assert_false(removed(w, q, &f)); /* an order speaks of it */
    assert_non_null(strstr(f.text, "other records belong to it"));
    const char *what;
    f = (struct fail){0};
    assert_false(garage_undo(w->garage, &w->arena, NULL, &what, &f));
    assert_int_equal(f.kind, FAIL_INPUT);
    assert_non_null(strstr(f.text, "other records speak of what would go"));

    change(w, o, "quote", "?");
    change(w, o, "supplier", "northgate");
    assert_true(removed(w, q, &w->fail));
    f = (struct fail){0};
    assert_false(removed(w, s, &f));
    assert_non_null(strstr(f.text, "1 open order, 0 quotes"));

    struct record *p = world_add(w, world_record(w, "sent", "vehicle=Wren", "supplier=Northgate",
                                                 "what=head", "sent=2026-11-25", NULL));
    change(w, o, "arrived", "2026-12-01");
    f = (struct fail){0};
    assert_false(removed(w, s, &f));
    assert_non_null(strstr(f.text, "0 quotes and 1 piece sent"));
    assert_true(removed(w, p, &w->fail));
    assert_true(removed(w, s, &w->fail));
    const char *report;
    if (world_faults(w, &report)) fail_msg("%s", report);
    int entries;
    assert_true(garage_rebuild(w->garage, &entries, &w->fail));
    if (world_faults(w, &report)) fail_msg("%s", report);
}

static int set_up(void **state)
{
    struct world *w = world_open();
    world_garage(w);
    world_add(w, world_record(w, "vehicle", "name=Wren", NULL));
    *state = w;
    return 0;
}

static int tear_down(void **state)
{
    world_close(*state);
    return 0;
}

#define IN_A_GARAGE(test) cmocka_unit_test_setup_teardown(test, set_up, tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_A_GARAGE(a_slip_of_the_pen_is_one_line),
        IN_A_GARAGE(fields_are_held_against_each_other),
        IN_A_GARAGE(a_supplier_stays_while_it_is_named),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
