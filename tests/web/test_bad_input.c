/* What nobody means, in every field of the forms: it comes back as it was typed, one line beside
 * the field that it is wrong in, and nothing is stored. */
#include "web/browse.h"

#include <string.h>

static struct {
    struct arena arena;
    struct site *site;
    const char *survey; /* the address of a vehicle's survey */
} world;

static int begin(void **state)
{
    (void)state;
    world.arena = arena_open((size_t)512 << 20);
    world.site = browse_site(&world.arena);
    const char *id = browse_add(&world.arena, world.site, "vehicle", "name=Barge", NULL);
    world.survey = arena_print(&world.arena, "/vehicle/%s/survey", id);
    return 0;
}

static int end(void **state)
{
    (void)state;
    browse_site_end(&world.arena, world.site);
    arena_close(&world.arena);
    return 0;
}

enum { HUGE_BYTES = 6000, VALUES = 9 };

static const char *const *values(void)
{
    static const char *all[VALUES + 1];
    char *huge = arena_take(&world.arena, HUGE_BYTES + 1, 1);
    memset(huge, '9', HUGE_BYTES);
    all[0] = "nonsense";
    all[1] = "<script>alert(1)</script>";
    all[2] = "\"><img src=x onerror=alert(1)>";
    all[3] = "\xd0\xb4\xd0\xb2\xd0\xb0";         /* Cyrillic */
    all[4] = "\xd9\xa1\xd9\xa9\xd9\xa5\xd9\xa9"; /* Arabic digits */
    all[5] = "\xe2\x80\xae"
             "9591";             /* right to left */
    all[6] = "\xf0\x9f\x94\xa7"; /* emoji */
    all[7] = "-1e309";
    all[8] = huge;
    all[9] = NULL;
    return all;
}

static int times(const char *in, const char *phrase)
{
    int n = 0;
    for (const char *at = in; (at = strstr(at, phrase)) != NULL; at++) n++;
    return n;
}

static int count(const char *kind)
{
    struct garage *g;
    struct record *all;
    struct fail f = {0};
    int n;
    assert_true(garage_open(&world.arena, world.site->dir, GARAGE_READ, NULL, &g, &f));
    assert_true(garage_list(g, &world.arena, record_kind_find(kind), NULL, &all, &n, &f));
    garage_close(g);
    return n;
}

/* The tag of the field says that it is wrong, and names the line that says why. */
static void assert_beside(const struct browser *b, const char *field)
{
    struct arena *a = &world.arena;
    const char *tag = strstr(b->page.body, arena_print(a, "name=\"%s\"", field));
    assert_non_null(tag);
    const char *end = strchr(tag, '>'), *said = strstr(tag, "aria-invalid=\"true\""),
               *line = strstr(tag, "aria-describedby=\"");
    if (!said || said > end) fail_msg("%s is not said to be wrong", field);
    assert_true(line && line < end);
    line = strchr(line + strlen("aria-describedby=\""), ' ') + 1;
    const char *id = arena_copy_n(a, line, strcspn(line, "\""));
    browse_expect(b, arena_print(a, "class=\"wrong\" id=\"%s\"", id));
    assert_int_equal(times(b->page.body, "aria-invalid"), 1);
}

static void try(const char *path, const char *field, const char *value)
{
    struct browser *b = browse_open(&world.arena, world.site);
    browse_go(b, path);
    if (text_is(path, "/intake") && !text_is(field, "name")) browse_type(b, "name", "Wreck");
    bool set = false;
    for (int i = 0; i < b->n_controls && !set; i++)
        if (text_is(b->controls[i].name, field) && b->controls[i].on) {
            b->controls[i].value = value;
            set = true;
        }
    assert_true(set);
    browse_press(b, "", NULL);
    if (b->page.status != 422) fail_msg("%s: %.40s: %d", field, value, b->page.status);
    assert_beside(b, field);
    assert_null(strstr(b->page.body, "<script>"));
    assert_null(strstr(b->page.body, "<img"));
    bool back = false;
    for (int i = 0; i < b->n_controls; i++)
        back |= text_is(b->controls[i].name, field) && b->controls[i].on &&
                text_is(b->controls[i].value, value);
    if (!back) fail_msg("%s: %.40s does not come back", field, value);
    arena_close(&b->arena);
}

static void test_intake(void **state)
{
    (void)state;
    static const char *const fields[] = {"year",      "standing", "hours", "hands",
                                         "a-month",   "ceiling",  "kind",  "build",
                                         "cylinders", "brakes",   "turns", "storage"};
    const char *const *value = values();
    for (size_t i = 0; i < sizeof fields / sizeof *fields; i++)
        for (int k = 0; k < VALUES; k++) try("/intake", fields[i], value[k]);
    try("/intake", "name", value[VALUES - 1]);
    assert_int_equal(count("vehicle"), 1);
    assert_int_equal(count("workshop"), 0);
    assert_int_equal(count("purse"), 0);
}

static void test_finding(void **state)
{
    (void)state;
    const char *const *value = values();
    for (int k = 0; k < VALUES; k++) try(world.survey, "component", value[k]);
    try(world.survey, "component", "");
    assert_int_equal(count("finding"), 0);
}

/* A good component beside a bad condition or note: the line is beside the bad one. */
static void test_finding_beside(void **state)
{
    (void)state;
    const char *const *value = values();
    for (int k = 0; k < 2 * VALUES; k++) {
        const bool note = k >= VALUES;
        if (note && k - VALUES != VALUES - 1) continue; /* a note may be anything but huge */
        struct browser *b = browse_open(&world.arena, world.site);
        browse_go(b, world.survey);
        browse_type(b, "component", "radiator");
        if (note) {
            browse_choose(b, "condition", "poor");
            browse_type(b, "note", value[k - VALUES]);
        }
        for (int i = 0; !note && i < b->n_controls; i++)
            if (text_is(b->controls[i].name, "condition") && b->controls[i].on)
                b->controls[i].value = value[k];
        browse_press(b, "", NULL);
        assert_int_equal(b->page.status, 422);
        assert_beside(b, note ? "note" : "condition");
        assert_true(browse_has(b, "component", "radiator"));
        arena_close(&b->arena);
    }
    assert_int_equal(count("finding"), 0);
}

/* Control characters are refused before any form is looked at. */
static void test_control_characters(void **state)
{
    (void)state;
    static const char *const pairs[][2] = {{"/intake", "name"}, {NULL, "note"}};
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++) {
        struct browser *b = browse_open(&world.arena, world.site);
        browse_go(b, pairs[i][0] ? pairs[i][0] : world.survey);
        browse_type(b, pairs[i][1], "a\x01z\x1b[31m");
        browse_press(b, "", NULL);
        assert_true(b->page.status == 400 || b->page.status == 422);
        assert_null(strchr(b->page.body, '\x01'));
        assert_null(strchr(b->page.body, '\x1b'));
    }
    assert_int_equal(count("vehicle"), 1);
    assert_int_equal(count("finding"), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_intake),
        cmocka_unit_test(test_finding),
        cmocka_unit_test(test_finding_beside),
        cmocka_unit_test(test_control_characters),
    };
    return cmocka_run_group_tests(tests, begin, end);
}
