/* A setback from the page, without script: four taps, one next step, and what came of it. */
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
    return 0;
}

static int end(void **state)
{
    (void)state;
    browse_site_end(&world.arena, world.site);
    arena_close(&world.arena);
    return 0;
}

static void from_a_tap_to_cured(void **state)
{
    (void)state;
    struct browser *b = browse_open(&world.arena, world.site);
    browse_go(b, "/");
    const char *survey = browse_link(b, "/vehicle/");
    const char *path =
        arena_print(&world.arena, "%.*s/setback", (int)(strchr(survey + 9, '/') - survey), survey);
    browse_go(b, path);
    assert_int_equal(b->page.status, 200);
    browse_expect(b, "It is tight, not yet snapped");
    browse_go(b, arena_print(&world.arena, "%s?what=<b>", path));
    assert_int_equal(b->page.status, 422);
    browse_expect(b, "none called &#39;&lt;b&gt;&#39;");
    browse_go(b,
              arena_print(&world.arena, "%s?what=snapped-stud&is=proud&in=iron&drill=yes", path));
    browse_expect(b, "not yet");
    browse_expect(b, "Next: Heat the casting");
    assert_true(browse_has(b, "is", "flush") && browse_has(b, "hole", "blind"));
    assert_false(browse_has(b, "act", "worse"));
    browse_press(b, "act", "store");
    browse_expect(b, "Open now");
    browse_press(b, "act", "same");
    browse_expect(b, "Next: Weld a nut");
    browse_press(b, "act", "stopped");
    browse_expect(b, "given up");
    browse_go(
        b, arena_print(&world.arena, "%.*s/pace", (int)(strchr(survey + 9, '/') - survey), survey));
    browse_expect(b, "No finished job has hours yet");
    browse_go(
        b, arena_print(&world.arena, "%.*s/log", (int)(strchr(survey + 9, '/') - survey), survey));
    browse_choose(b, "what", "battery");
    browse_type(b, "value", "12.7 pounds");
    browse_press(b, "act", "judge");
    assert_int_equal(b->page.status, 422);
    browse_expect(b, "is no unit for that");
    browse_type(b, "value", "124");
    browse_press(b, "act", "judge");
    browse_expect(b, "did the point slip?");
    assert_false(browse_has(b, "act", "measured"));
    browse_press(b, "act", "measured-sure");
    browse_expect(b, "Stored:");
    browse_go(b, "/garage.ics");
    browse_expect(b, "BEGIN:VCALENDAR\r\n");
    assert_string_equal(b->page.type, "text/calendar; charset=utf-8");
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(from_a_tap_to_cured)};
    return cmocka_run_group_tests(tests, begin, end);
}
