/* The pages of the working day, without script: this evening, with a form beside each job. */
#include "web/browse.h"

#include "garage/kinds.h"

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
    world.site->runs = 50;
    browse_add(&world.arena, world.site, "vehicle", "name=<b>Barge", "year=1959", "build=unitary",
               "fuel=petrol", "brakes=drum", "voltage=12", NULL);
    browse_add(&world.arena, world.site, "workshop", "hours-a-week=6", "currency=GBP", NULL);
    browse_add(&world.arena, world.site, "order", "vehicle=<b>Barge", "part=bay-safety-set",
               "arrived=2026-11-20", "shelf=<i>B3", NULL);
    browse_add(&world.arena, world.site, "order", "vehicle=<b>Barge", "part=spill-kit",
               "arrived=2026-11-20", NULL);
    return 0;
}

static int end(void **state)
{
    (void)state;
    browse_site_end(&world.arena, world.site);
    arena_close(&world.arena);
    return 0;
}

static void open_page(struct browser *b, const char *page)
{
    browse_go(b, "/");
    const char *plan = browse_link(b, "/vehicle/");
    const char *last = strrchr(plan, '/');
    browse_go(b, arena_print(&b->arena, "%.*s/%s", (int)(last - plan), plan, page));
    assert_int_equal(b->page.status, 200);
}

/* Is this said before that? */
static void expect_order(const struct browser *b, const char *this, const char *that)
{
    browse_expect(b, this);
    browse_expect(b, that);
    assert_true(strstr(b->page.body, this) < strstr(b->page.body, that));
}

static void an_evening_is_worked_and_left_off(void **state)
{
    (void)state;
    struct browser *b = browse_open(&world.arena, world.site);
    open_page(b, "session");
    browse_expect(b, "&lt;b&gt;Barge: this evening");
    browse_expect(b, "Make the bay safe");
    browse_expect(b, "(&lt;i&gt;B3)");
    expect_order(b, "class=\"caution\"", "Tell what became of it"); /* beside the act, before it */
    browse_type(b, "spent", "lots");
    browse_press(b, "act", "finished");
    assert_int_equal(b->page.status, 422);
    browse_expect(b, "Nothing was stored");
    browse_type(b, "spent", "1 h");
    browse_press(b, "act", "begun");
    assert_int_equal(b->page.status, 200);
    browse_expect(b, "begun already");
    browse_type(b, "spent", "1 h"); /* a second time within a moment: two phones? */
    browse_press(b, "act", "begun");
    assert_int_equal(b->page.status, 422);
    browse_expect(b, "Yes, not finished");
    browse_press(b, "act", "finished");
    assert_int_equal(b->page.status, 200);
    assert_null(strstr(b->page.body, "Make the bay safe"));
    browse_press(b, "act", "left-off"); /* with nothing typed */
    assert_int_equal(b->page.status, 422);
    browse_expect(b, "note: say where to go on");
    browse_type(b, "note", "two turns <out>");
    browse_type(b, "where", "tray");
    browse_press(b, "act", "left-off");
    assert_int_equal(b->page.status, 200);
    expect_order(b, "two turns &lt;out&gt;", "this session");
}

static void care_comes_off_the_list_when_it_is_done(void **state)
{
    (void)state;
    struct browser *b = browse_open(&world.arena, world.site);
    open_page(b, "session");
    assert_true(browse_has(b, "at", "care-damp"));
    browse_press(b, "act", "care");
    assert_int_equal(b->page.status, 200);
    assert_false(browse_has(b, "at", "care-damp"));
    assert_true(browse_has(b, "at", "care-mice"));
}

static void tools_are_told_and_had(void **state)
{
    (void)state;
    struct browser *b = browse_open(&world.arena, world.site);
    browse_add(&world.arena, world.site, "tool-offer", "tool=lamp", "way=borrow", "whose=<b>Ann",
               NULL);
    browse_add(&world.arena, world.site, "promise", "who=Ann", "what=<i>crane", "by-day=2026-01-02",
               NULL);
    open_page(b, "tools");
    browse_expect(b, "borrow from &lt;b&gt;Ann");
    browse_expect(b, "&lt;i&gt;crane, by Fri 2 Jan 2026: late, ask");
    browse_follow(b, "/buying/tool-offer");
    assert_int_equal(b->page.status, 200);
}

static void words_lead_to_where_they_stand(void **state)
{
    (void)state;
    struct browser *b = browse_open(&world.arena, world.site);
    browse_go(b, "/find");
    assert_int_equal(b->page.status, 200);
    browse_go(b, "/find?words=%3Cb%3E");
    browse_expect(b, "&lt;b&gt;");
    browse_go(b, "/find?words=cotter+pin");
    browse_expect(b, "/trade/fasteners/split-pin");
    browse_go(b, "/find?words=left+drum");
    browse_follow(b, "/bag/B1");
    assert_int_equal(b->page.status, 200);
}

static void another_evening_is_asked_by_its_address(void **state)
{
    (void)state;
    struct browser *b = browse_open(&world.arena, world.site);
    open_page(b, "session");
    const char *here = b->path;
    browse_go(b, arena_print(&b->arena, "%s?hours=3&hands=2&degrees=8", here));
    browse_expect(b, "2 pairs of hands, 8 C");
    browse_go(b, arena_print(&b->arena, "%s?hours=90", here));
    assert_int_equal(b->page.status, 422);
    browse_expect(b, "hours: &#39;90&#39; is no number from 0.25 to 24");
}

static void a_bag_is_filled_and_emptied_once(void **state)
{
    (void)state;
    struct browser *b = browse_open(&world.arena, world.site);
    open_page(b, "bags");
    browse_press(b, "act", "new");
    assert_int_equal(b->page.status, 422);
    browse_expect(b, "bag.what");
    browse_type(b, "what", "left <drum>");
    browse_type(b, "shelf", "A2");
    browse_type(b, "job", "brakes-open");
    browse_press(b, "act", "new");
    assert_int_equal(b->page.status, 200);
    browse_expect(b, "B1: left &lt;drum&gt;");
    expect_order(b, "class=\"caution\"", "All of it went back"); /* of the job that took it off */
    browse_type(b, "name", "split pin");
    browse_type(b, "count", "two");
    browse_press(b, "act", "put");
    assert_int_equal(b->page.status, 422);
    browse_type(b, "count", "2");
    browse_press(b, "act", "put");
    browse_expect(b, "NEW, never again");
    browse_press(b, "act", "photograph");
    assert_int_equal(b->page.status, 422);
    browse_expect(b, "none was chosen");
    browse_type(b, "there", "3");
    browse_press(b, "act", "count");
    assert_int_equal(b->page.status, 422);
    browse_type(b, "there", "1");
    browse_press(b, "act", "count");
    browse_expect(b, "1 short");
    open_page(b, "bags");
    browse_expect(b, "2 x split pin");
    browse_expect(b, "Back together");
    browse_follow(b, "/bag/B1");
    struct browser *other = browse_open(&world.arena, world.site); /* a second phone */
    browse_go(other, "/bag/B1");
    browse_press(b, "act", "empty");
    assert_int_equal(b->page.status, 200);
    assert_false(browse_has(b, "act", "empty"));
    browse_press(other, "act", "empty");
    assert_int_equal(other->page.status, 422);
    browse_expect(other, "bag B1: it was emptied on ");
    browse_go(b, "/bag/B2");
    assert_int_equal(b->page.status, 404);
}

static void a_gate_is_proved_or_passed_in_writing(void **state)
{
    (void)state;
    struct browser *b = browse_open(&world.arena, world.site);
    open_page(b, "safe");
    browse_expect(b, "Going under: not checked today");
    expect_order(b, "the jack bears nothing", "All of it is true now"); /* asked before stored */
    browse_press(b, "act", "check");
    browse_expect(b, "Going under: checked today");
    open_page(b, "safe/before-fuel");
    browse_press(b, "act", "open");
    assert_int_equal(b->page.status, 422);
    browse_expect(b, "before-fuel stays shut; missing: tank-out");
    browse_press(b, "act", "override"); /* without a word */
    assert_int_equal(b->page.status, 422);
    browse_expect(b, "needs a written reason");
    browse_type(b, "note", "dry, all <seams>");
    browse_press(b, "act", "holds"); /* of the first proof: the tank is tight */
    assert_int_equal(b->page.status, 200);
    browse_expect(b, "seen</p>");
    browse_type(b, "reason", "to find the leak, <outdoors>");
    browse_press(b, "act", "override");
    assert_int_equal(b->page.status, 200);
    browse_expect(b, "to find the leak, &lt;outdoors&gt;");
    browse_expect(b, "overridden");
    open_page(b, "safe/before-it-moves"); /* a measure against the maker's figure, or in no unit */
    browse_press(b, "act", "prove");
    assert_int_equal(b->page.status, 422);
    browse_expect(b, "what was measured, in");
    browse_type(b, "value", "lots");
    browse_press(b, "act", "prove");
    assert_int_equal(b->page.status, 422);
    browse_expect(b, "&#39;lots&#39;");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_evening_is_worked_and_left_off),
        cmocka_unit_test(care_comes_off_the_list_when_it_is_done),
        cmocka_unit_test(a_bag_is_filled_and_emptied_once),
        cmocka_unit_test(a_gate_is_proved_or_passed_in_writing),
        cmocka_unit_test(tools_are_told_and_had),
        cmocka_unit_test(words_lead_to_where_they_stand),
        cmocka_unit_test(another_evening_is_asked_by_its_address),
    };
    return cmocka_run_group_tests(tests, begin, end);
}
