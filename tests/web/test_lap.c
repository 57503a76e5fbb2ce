/* The lap without script: a browser that sees only what is on the page tells a whole vehicle, and
 * its taps are counted. */
#include "web/browse.h"

#include <stdlib.h>
#include <string.h>

static struct {
    struct arena arena;
    struct site *site;
    const char *vehicle; /* its address, "/vehicle/ID" */
} world;

static int begin(void **state)
{
    (void)state;
    world.arena = arena_open((size_t)512 << 20);
    world.site = browse_site(&world.arena);
    return 0;
}

static int end(void **state)
{
    (void)state;
    browse_site_end(&world.arena, world.site);
    arena_close(&world.arena);
    return 0;
}

/* A vehicle as in the demonstration, nothing of it seen; put in without its page, which would
 * reckon a plan. */
static struct browser *take_in(const char *name)
{
    struct browser *b = browse_open(&world.arena, world.site);
    const char *id =
        browse_add(&b->arena, world.site, "vehicle", arena_print(&b->arena, "name=%s", name),
                   "kind=car", "build=unitary", "cylinders=4", "fuel=petrol", "driven=rear",
                   "gearbox=manual", "brakes=drum", "voltage=12", "state=whole", "turns=yes",
                   "rolls=yes", "stops=no", "storage=dry", "year=1959", "standing=27", NULL);
    world.vehicle = arena_print(&world.arena, "/vehicle/%s", id);
    browse_go(b, arena_print(&b->arena, "%s/survey", world.vehicle));
    return b;
}

static const char *at(const struct browser *b, const char *place)
{
    return arena_print((struct arena *)&b->arena, "%s/survey/%s", world.vehicle, place);
}

/* What the garage holds of a component: the last finding's condition, "" if none. */
static const char *stored(struct arena *a, const char *component, int *count)
{
    struct garage *g;
    struct record *all;
    struct fail f = {0};
    int n;
    const char *found = "";
    assert_true(garage_open(a, world.site->dir, GARAGE_READ, NULL, &g, &f));
    assert_true(garage_list(g, a, record_kind_find("finding"), world.vehicle + strlen("/vehicle/"),
                            &all, &n, &f));
    for (int i = 0; i < n; i++)
        if (text_is(record_text(&all[i], "component", ""), component))
            found = arena_copy(a, record_text(&all[i], "condition", ""));
    if (count) *count = n;
    garage_close(g);
    return found;
}

/* What somebody sees on a Saturday: at each stop a few things that differ, then how the rest is.
 * A prefix of a field's name says which tile or list; "rest." is the last tap of a part. */
static const struct {
    const char *place, *field, *value;
} saturday[] = {
    {"papers", "title-papers", "sound"},
    {"papers", "history-papers", "missing"},
    {"outside", "all.sill", "poor"},
    {"outside", "windscreen", "sound"},
    {"outside", "rest.whole-outside", "worn"},
    {"outside", "rest.doors", "worn"},
    {"outside", "rest.outside-ends", "worn"},
    {"outside", "rest.outside-front", "worn"},
    {"corners", "all.tyre", "failed"},
    {"corners", "all.damper", "worn"},
    {"corners", "damper@rear-left", "failed"},
    {"corners", "all.jacking-point", "poor"},
    {"corners", "all.brake-hose", "failed"},
    {"corners", "all.spring-hanger", "cannot"},
    {"corners", "hub-cap@rear-right", "missing"},
    {"corners", "headlamp@front-left", "bodged"},
    {"corners", "rest.corners", "worn"},
    {"corners", "rest.front-corners", "worn"},
    {"corners", "rest.rear-corners", "sound"},
    {"under-bonnet", "battery~", "missing"},
    {"under-bonnet", "radiator~", "poor"},
    {"under-bonnet", "loom-bonnet", "bodged"},
    {"under-bonnet", "water-pump", "unseen"},
    {"under-bonnet", "rest.under-bonnet", "worn"},
    {"cabin", "headlining", "poor"},
    {"cabin", "rest.cabin", "worn"},
    {"boot", "spare-wheel", "not fitted"},
    {"boot", "rest.boot", "sound"},
    {"underneath", "exhaust-system", "failed"},
    {"underneath", "rest.underneath", "worn"},
};

static const char *value_of(const char *told)
{
    return text_is(told, "cannot") ? "unseen" : told;
}

static void test_taps(void **state)
{
    (void)state;
    struct browser *b = take_in("Saturday");
    int count;
    browse_follow(b, at(b, "papers"));
    for (size_t i = 0; i < sizeof saturday / sizeof *saturday; i++) {
        const char *place = saturday[i].place;
        if (!text_starts(b->path, at(b, place)))
            browse_press(b, "to", place); /* stores, and goes on */
        assert_int_equal(b->page.status, 200);
        browse_choose(b, saturday[i].field, value_of(saturday[i].value));
    }
    browse_press(b, "to", "");
    browse_expect(b, "stored.");
    stored(&b->arena, "", &count);
    print_message("%d components told in %d taps\n", count, b->taps);
    assert_true(count >= 120);
    assert_true(b->taps <= 70);

    static const char *const meant[][2] = {
        {"title-papers", "sound"},
        {"history-papers", "missing"},
        {"keys", ""},
        {"sill@outside-left", "poor"},
        {"sill@outside-right", "poor"},
        {"windscreen", "sound"},
        {"tyre@front-left", "failed"},
        {"tyre@rear-right", "failed"},
        {"damper@front-left", "worn"},
        {"damper@rear-left", "failed"},
        {"damper@rear-right", "worn"},
        {"hub-cap@rear-right", "missing"},
        {"hub-cap@front-left", "worn"},
        {"headlamp@front-left", "bodged"},
        {"headlamp@front-right", "worn"},
        {"wheel-cylinder@rear-left", "sound"},
        {"spring-hanger@rear-left", ""},
        {"battery", "missing"},
        {"radiator", "poor"},
        {"water-pump", ""},
        {"fan-belt", "worn"},
        {"spare-wheel", "not fitted"},
        {"exhaust-system", "failed"},
        {"handbrake-cable", "worn"},
    };
    for (size_t i = 0; i < sizeof meant / sizeof *meant; i++) {
        const char *found = stored(&b->arena, meant[i][0], NULL);
        if (!text_is(found, meant[i][1]))
            fail_msg("%s: '%s', not '%s'", meant[i][0], found, meant[i][1]);
    }
    /* Told once, it stands on the page, and sending the page as it is tells nothing. */
    browse_go(b, at(b, "boot"));
    assert_true(browse_has(b, "spare-wheel~6", "not fitted"));
    browse_press(b, "to", "underneath");
    browse_expect(b, "0 stored.");
    int after;
    stored(&b->arena, "", &after);
    assert_int_equal(after, count);
}

/* A mistaken tap is mended where it was made, even "not fitted" and "cannot see". */
static void test_mended(void **state)
{
    (void)state;
    struct browser *b = take_in("Mended");
    static const char *const steps[] = {"not fitted", "poor", "unseen", "sound"};
    for (size_t i = 0; i < sizeof steps / sizeof *steps; i++) {
        browse_go(b, at(b, "under-bonnet"));
        browse_choose(b, "radiator~", steps[i]);
        browse_press(b, "to", "cabin");
        browse_expect(b, "1 stored.");
        assert_string_equal(stored(&b->arena, "radiator", NULL), steps[i]);
    }
}

/* One act a page: taken back as one. */
static void test_one_act(void **state)
{
    (void)state;
    struct browser *b = take_in("One act");
    struct garage *g;
    struct fail f = {0};
    const char *what;
    int count;
    browse_go(b, at(b, "boot"));
    browse_choose(b, "rest.boot", "worn");
    browse_press(b, "to", "underneath");
    stored(&b->arena, "", &count);
    assert_true(count > 3);
    assert_true(garage_open(&b->arena, world.site->dir, GARAGE_WRITE, NULL, &g, &f));
    assert_true(garage_undo(g, &b->arena, world.vehicle + strlen("/vehicle/"), &what, &f));
    garage_close(g);
    stored(&b->arena, "", &count);
    assert_int_equal(count, 0);
}

/* Two phones load the same page; the second finds what the first told, sees both, and chooses. */
static void test_two_phones(void **state)
{
    (void)state;
    struct browser *one = take_in("Two phones"), *two = browse_open(&world.arena, world.site);
    browse_go(one, at(one, "corners"));
    browse_go(two, at(two, "corners"));
    browse_choose(one, "all.damper", "failed");
    browse_choose(one, "all.tyre", "worn");
    browse_choose(one, "all.wheel-stud", "sound");
    browse_press(one, "to", "under-bonnet");
    assert_int_equal(one->page.status, 200);

    browse_choose(two, "all.damper", "worn");          /* told otherwise: all four are asked */
    browse_choose(two, "damper@front-left", "failed"); /* told alike: nothing to ask */
    browse_choose(two, "tyre@front-left", "poor");     /* told otherwise, by itself */
    browse_choose(two, "all.hub-cap", "sound");        /* told by nobody else */
    browse_choose(two, "rest.corners", "poor");        /* leaves what the other one told */
    browse_press(two, "to", "under-bonnet");
    assert_int_equal(two->page.status, 409);
    browse_expect(two, "told meanwhile");
    browse_expect(two, "told by you");
    assert_string_equal(stored(&two->arena, "damper@rear-left", NULL), "failed");
    assert_string_equal(stored(&two->arena, "damper@front-left", NULL), "failed");
    assert_string_equal(stored(&two->arena, "tyre@front-left", NULL), "worn");
    assert_string_equal(stored(&two->arena, "tyre@front-right", NULL), "worn");
    assert_string_equal(stored(&two->arena, "wheel-stud@rear-left", NULL), "sound");
    assert_string_equal(stored(&two->arena, "hub-cap@rear-left", NULL), "sound");
    assert_string_equal(stored(&two->arena, "bump-stop@rear-left", NULL), "poor");
    assert_true(browse_has(two, "damper@front-right~4", "worn"));
    assert_false(browse_has(two, "damper@front-left", NULL));
    assert_false(browse_has(two, "wheel-stud", NULL));

    /* Meanwhile the first changes its mind on one: asked again, for that one only. */
    browse_go(one, at(one, "corners"));
    browse_choose(one, "damper@rear-left", "missing");
    browse_press(one, "to", "under-bonnet");
    browse_choose(two, "damper@front-right", "worn");
    browse_choose(two, "damper@rear-left", "worn");
    browse_choose(two, "damper@rear-right", "failed");
    browse_choose(two, "tyre@front-left", "poor");
    browse_press(two, "", NULL);
    assert_int_equal(two->page.status, 409);
    assert_true(browse_has(two, "damper@rear-left~5", "worn"));
    assert_false(browse_has(two, "tyre@front-left", NULL));
    browse_choose(two, "damper@rear-left", "missing");
    browse_press(two, "", NULL);
    assert_int_equal(two->page.status, 200);
    assert_true(text_starts(two->path, at(two, "under-bonnet"))); /* where it was on its way to */
    assert_string_equal(stored(&two->arena, "damper@front-right", NULL), "worn");
    assert_string_equal(stored(&two->arena, "damper@rear-left", NULL), "missing");
    assert_string_equal(stored(&two->arena, "damper@rear-right", NULL), "failed");
    assert_string_equal(stored(&two->arena, "tyre@front-left", NULL), "poor");
}

/* What no page offers: sent all the same, it comes back as text and nothing is stored. */
static void test_bad_input(void **state)
{
    (void)state;
    struct browser *b = take_in("Bad");
    struct text huge = {.arena = &b->arena};
    for (int i = 0; i < 3000; i++) text_add(&huge, "long ");
    const char *const values[] = {
        "rotten",
        "<script>alert(1)</script>",
        "\"><img src=x onerror=alert(1)>",
        "\xd1\x85\xd0\xbe\xd1\x80\xd0\xbe\xd1\x88\xd0\xbe", /* Cyrillic */
        "\xe2\x80\xae"
        "elbaf",                            /* right to left */
        "\xf0\x9f\x94\xa7\xf0\x9f\x9a\x97", /* emoji */
        "sound\x01",
        "7",
        "-1",
        text_get(&huge),
    };
    static const char *const fields[] = {"radiator~7", "all.engine-mount", "rest.under-bonnet"};
    browse_go(b, at(b, "under-bonnet"));
    browse_choose(b, "thermostat", "poor"); /* the good one beside it waits too */
    for (size_t i = 0; i < sizeof values / sizeof *values; i++) {
        const char *field = fields[i % (sizeof fields / sizeof *fields)];
        if (!browse_has(b, field, NULL)) browse_go(b, at(b, "under-bonnet"));
        browse_choose(b, field, "worn");
        for (int k = 0; k < b->n_controls; k++)
            if (b->controls[k].on && text_is(b->controls[k].name, field))
                b->controls[k].value = values[i];
        browse_press(b, "to", "cabin");
        if (b->page.status == 400) continue; /* a control character: not read at all */
        assert_int_equal(b->page.status, 422);
        browse_expect(b, "there is no condition");
        assert_null(strstr(b->page.body, "<script>"));
        assert_null(strstr(b->page.body, "<img"));
        bool kept = false;
        for (int k = 0; k < b->n_controls; k++)
            kept |= b->controls[k].on && text_starts(b->controls[k].name, "thermostat") &&
                    text_is(b->controls[k].value, "poor");
        assert_true(kept);
    }
    int count;
    stored(&b->arena, "", &count);
    assert_int_equal(count, 0);
    browse_go(b, at(b, "nowhere"));
    assert_int_equal(b->page.status, 404);
    browse_go(b, at(b, "%3Cb%3E"));
    assert_int_equal(b->page.status, 404);
    browse_go(b, arena_print(&b->arena, "%s?stored=%%3Cb%%3E", at(b, "cabin")));
    assert_int_equal(b->page.status, 200);
    assert_null(strstr(b->page.body, "stored."));
}

/* Goal of the pages: less than 150 kB without photographs. */
static void test_weight(void **state)
{
    (void)state;
    static const char *const places[] = {"papers", "outside", "corners",    "under-bonnet",
                                         "cabin",  "boot",    "underneath", "everything"};
    struct browser *b = take_in("Weight");
    assert_true(b->page.length < 20000);
    for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
        browse_go(b, at(b, places[i]));
        assert_int_equal(b->page.status, 200);
        assert_true(b->page.length < 120000);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_taps),      cmocka_unit_test(test_mended),
        cmocka_unit_test(test_one_act),   cmocka_unit_test(test_two_phones),
        cmocka_unit_test(test_bad_input), cmocka_unit_test(test_weight),
    };
    return cmocka_run_group_tests(tests, begin, end);
}
