/* The yard: forty vehicles, each from the last plan that was kept of it; looking reckons nothing.
 */
#include "web/browse.h"

#include <dirent.h>
#include <string.h>

static struct {
    struct arena arena;
    struct site *site;
} world;

enum { VEHICLES = 40 };

static int begin(void **state)
{
    (void)state;
    struct arena *a = &world.arena;
    world.arena = arena_open((size_t)512 << 20);
    world.site = browse_site(a);
    for (int i = 1; i <= VEHICLES; i++)
        browse_add(a, world.site, "vehicle", arena_print(a, "name=Vehicle %02d <b>", i), "kind=car",
                   arena_print(a, "rank=%d", i), NULL);
    browse_add(a, world.site, "finding", "vehicle=Vehicle 02 <b>", "component=radiator",
               "condition=poor", "date=2026-11-07", NULL);
    browse_add(a, world.site, "work", "vehicle=Vehicle 01 <b>", "job=make-bay-safe", "hours=2",
               "date=2026-11-20", NULL);
    return 0;
}

static int end(void **state)
{
    (void)state;
    browse_site_end(&world.arena, world.site);
    arena_close(&world.arena);
    return 0;
}

static int kept_files(void)
{
    DIR *d = opendir(arena_print(&world.arena, "%s/cache", world.site->dir));
    int n = 0;
    if (!d) return 0;
    for (struct dirent *e; (e = readdir(d)) != NULL;) n += e->d_name[0] != '.';
    closedir(d);
    return n;
}

static int times(const struct browser *b, const char *phrase)
{
    int n = 0;
    for (const char *at = b->page.body; (at = strstr(at, phrase)) != NULL; at++) n++;
    return n;
}

static void test_nothing_is_reckoned(void **state)
{
    (void)state;
    struct browser *b = browse_open(&world.arena, world.site);
    browse_go(b, "/");
    assert_int_equal(times(b, "class=\"card\""), VEHICLES);
    assert_int_equal(times(b, "Not reckoned yet"), VEHICLES);
    assert_int_equal(times(b, "nothing told yet"), VEHICLES - 2);
    assert_int_equal(times(b, "<b>"), 0);
    browse_expect(b, "finding: radiator, poor; Sat 7 Nov 2026");
    browse_expect(b, "work: make-bay-safe; Fri 20 Nov 2026");
    assert_int_equal(kept_files(), 0);
    assert_true(b->page.length < 60000);
}

/* Reckoned once it is told at a glance; after another fact the figures stay, and say of when. */
static void test_kept_figures(void **state)
{
    (void)state;
    struct browser *b = browse_open(&world.arena, world.site);
    browse_go(b, "/");
    browse_follow(b, browse_link(b, "/vehicle/"));
    assert_int_equal(b->page.status, 200);
    browse_go(b, "/");
    assert_int_equal(times(b, "Not reckoned yet"), VEHICLES - 1);
    browse_expect(b, "drive, not decided yet");
    browse_expect(b, "waits for");
    browse_expect(b, "to order");
    assert_int_equal(times(b, "reckon it anew"), 0);
    browse_add(&b->arena, world.site, "decision", "vehicle=Vehicle 01 <b>", "direction=restore",
               "date=2026-11-25", NULL);
    const int before = kept_files();
    browse_go(b, "/");
    browse_expect(b, "As of Wed 25 Nov: reckon it anew");
    browse_expect(b, "decision: restore; Wed 25 Nov 2026");
    assert_int_equal(times(b, "Not reckoned yet"), VEHICLES - 1);
    assert_int_equal(kept_files(), before);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_nothing_is_reckoned),
        cmocka_unit_test(test_kept_figures),
    };
    return cmocka_run_group_tests(tests, begin, end);
}
