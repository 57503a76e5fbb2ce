/* Clues on a phone without script: one tap each, and what was wrong beside its form. */
#include "web/browse.h"

#include <string.h>

static struct {
    struct arena arena;
    struct site *site;
    const char *page;
} world;

static int begin(void **state)
{
    (void)state;
    world.arena = arena_open((size_t)256 << 20);
    world.site = browse_site(&world.arena);
    world.site->runs = 40;
    const char *id =
        browse_add(&world.arena, world.site, "vehicle", "name=<b>Barge", "kind=car", NULL);
    world.page = arena_print(&world.arena, "/vehicle/%s/identify", id);
    return 0;
}

static int end(void **state)
{
    (void)state;
    browse_site_end(&world.arena, world.site);
    arena_close(&world.arena);
    return 0;
}

static void a_clue_is_one_tap(void **state)
{
    (void)state;
    struct browser *b = browse_open(&world.arena, world.site);
    browse_go(b, world.page);
    browse_press(b, "outcome", "sanded");
    assert_int_equal(b->taps, 1);
    assert_int_equal(b->page.status, 200);
    browse_expect(b, "Stored.");
    browse_expect(b, "✓ over 20 pits, arcs to be felt");
    browse_press(b, "outcome", "pitted");
    browse_expect(b, "the latest counts");
}

static void what_is_wrong_stands_beside_it(void **state)
{
    (void)state;
    struct browser *b = browse_open(&world.arena, world.site);
    browse_go(b, world.page);
    browse_type(b, "reading", "34567");
    browse_type(b, "digits", "4");
    browse_press(b, "", "");
    assert_int_equal(b->page.status, 422);
    browse_expect(b, "beyond a clock of 4 figures");
    browse_expect(b, "Nothing was stored");
    browse_type(b, "digits", "5");
    browse_press(b, "", "");
    assert_int_equal(b->page.status, 200);
    browse_expect(b, "34567 miles, a clock of 5 figures");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_clue_is_one_tap),
        cmocka_unit_test(what_is_wrong_stands_beside_it),
    };
    return cmocka_run_group_tests(tests, begin, end);
}
