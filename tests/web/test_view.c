/* One that might be bought, on the pages: taken in, its advert told, viewed with the thumb, bought.
 */
#include "web/browse.h"

#include <string.h>

static const char *vehicle_page(struct browser *b, const char *page)
{
    const char *path = strstr(b->path, "/vehicle/");
    assert_non_null(path);
    return arena_print(&b->arena, "%.*s/%s", (int)(strlen("/vehicle/") + 32), path, page);
}

static bool holds(const struct browser *b, const char *phrase)
{
    return strstr(b->page.body, phrase) != NULL;
}

static void from_the_advert_to_the_garage(void **state)
{
    (void)state;
    struct arena a = arena_open((size_t)1 << 30);
    struct site *site = browse_site(&a);
    struct browser *b = browse_open(&a, site);
    browse_go(b, "/intake");
    browse_type(b, "name", "Heron <i>");
    browse_choose(b, "owned", "no");
    browse_choose(b, "build", "unitary");
    browse_type(b, "currency", "GBP");
    browse_press(b, "", "");
    const char *view = vehicle_page(b, "view"), *advert = vehicle_page(b, "advert");
    browse_expect(b, "the advert");

    /* What is wrong comes back as typed, with one line beside it. */
    browse_type(b, "asked", "-5 GBP");
    browse_type(b, "serves", "<Nobody>");
    browse_press(b, "", "");
    assert_int_equal(b->page.status, 422);
    browse_expect(b, "advert.asked: is less than nothing");
    browse_expect(b, "&lt;Nobody&gt;");
    browse_type(b, "asked", "900");
    browse_type(b, "serves", "");
    browse_type(b, "minutes", "30");
    browse_press(b, "", "");
    browse_expect(b, "Heron &lt;i&gt;: to be viewed");
    browse_expect(b, "Nobody goes under it");
    assert_true(browse_has(b, "sign.flood-line", "yes"));
    assert_true(browse_has(b, "look.", NULL) || holds(b, "name=\"look."));

    const char *look = strstr(b->page.body, "name=\"look.") + strlen("name=\"");
    look = arena_copy_n(&a, look, strcspn(look, "\""));
    browse_choose(b, look, "failed");
    browse_choose(b, "sign.flood-line", "yes");
    browse_press(b, "", "");
    browse_expect(b, "2 stored.");
    browse_expect(b, "Walk away: a tide mark");
    assert_false(holds(b, arena_print(&a, "name=\"%s\"", look)));
    assert_false(browse_has(b, "sign.flood-line", NULL));

    browse_go(b, "/");
    browse_expect(b, "Not yours yet");
    browse_expect(b, "walk away: see inside");
    browse_follow(b, view);
    browse_follow(b, advert);
    browse_press(b, "", ""); /* stored again as it stands */
    browse_go(b, advert);
    browse_press(b, "bought", "yes");
    browse_go(b, "/");
    assert_false(holds(b, "Not yours yet"));
    browse_go(b, view);
    assert_true(b->page.status == 400 && holds(b, "is yours already"));
    browse_site_end(&a, site);
    arena_close(&a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(from_the_advert_to_the_garage)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
