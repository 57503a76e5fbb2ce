/* What it really is, at the command line: clues told, what is said of them, and the JSON. */
#include "cli/run.h"

#include <jansson.h>

static struct place *place;

static int set_up(void **state)
{
    (void)state;
    place = place_open();
    run_good(place,
             "fettle new g && export FETTLE_GARAGE=g && fettle add vehicle name=Barge kind=car "
             "build=unitary year=1960 standing=40");
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    place_close(place);
    return 0;
}

static const char *said(const char *line)
{
    return run_good(place, arena_print(&place->arena, "export FETTLE_GARAGE=g; %s", line))->out;
}

static void refused(const char *line, const char *why)
{
    const struct ran *r =
        run_line(place, arena_print(&place->arena, "export FETTLE_GARAGE=g; %s", line));
    assert_int_equal(r->status, 2);
    if (!strstr(r->err, why)) fail_msg("%s: %s", line, r->err);
    assert_ptr_equal(strchr(r->err, '\n'), r->err + strlen(r->err) - 1); /* one line */
}

static void clues_are_told_and_weighed(void **state)
{
    (void)state;
    assert_non_null(strstr(said("fettle identify --runs 50"), "Begin with what the clock reads"));
    said("fettle add clock reading=34567 digits=5 working=no");
    assert_non_null(
        strstr(said("fettle identify add bore-ridge deep '0.2 mm'"), "bore-ridge: deep"));
    assert_non_null(strstr(said("fettle identify add bore-ridge none"), "the latest counts"));
    said("fettle add dated-mileage written=1966-05-04 reading=62000");
    said("fettle add dated-mileage written=1968-05-04 reading=48000");
    const char *sheet = said("fettle identify --runs 50");
    assert_non_null(strstr(sheet, "told 2 times: the latest counts"));
    assert_non_null(strstr(sheet, "Papers fall from 62000 to 48000 miles"));
    assert_non_null(strstr(sheet, "The clue worth taking next"));
    said("fettle add clue-reading clue=tea-leaves outcome=dark");
    assert_non_null(strstr(said("fettle identify --runs 50"), "'tea-leaves' with 'dark' is kept"));
}

static void bad_input_is_told_in_one_line(void **state)
{
    (void)state;
    refused("fettle add clock reading=134567 digits=5", "beyond a clock of 5 figures");
    refused("fettle add clock reading=-3", "clock.reading");
    refused("fettle add dated-mileage reading=5", "written");
    refused("fettle identify add bore-rigde deep", "did you mean 'bore-ridge'?");
    refused("fettle identify add bore-ridge huge", "use one of none, slight, deep");
    refused("fettle identify add bore-ridge", "needs a clue and what it showed");
    refused("fettle identify sing", "identify: no 'sing' here");
}

static void json_has_what_is_promised(void **state)
{
    (void)state;
    said("fettle add clock reading=34567 digits=5");
    said("fettle identify add bore-ridge deep");
    json_error_t error;
    json_t *j = json_loads(said("fettle identify --json --runs 50"), 0, &error), *o;
    assert_non_null(j);
    double sum = 0;
    size_t i;
    json_array_foreach(json_object_get(j, "mileage"), i, o)
    {
        assert_true(json_real_value(json_object_get(o, "miles")) > 0);
        sum += json_real_value(json_object_get(o, "probability"));
    }
    assert_true(sum > 0.999 && sum < 1.001);
    o = json_array_get(json_object_get(j, "clues"), 0);
    assert_string_equal(json_string_value(json_object_get(o, "clue")), "bore-ridge");
    assert_true(json_is_real(json_object_get(o, "decibans")));
    o = json_array_get(json_object_get(j, "next"), 0);
    assert_true(json_is_string(json_object_get(o, "clue")));
    assert_true(json_real_value(json_object_get(o, "minutes")) > 0);
    assert_true(json_real_value(json_object_get(o, "bits")) > 0);
    assert_true(json_is_object(json_object_get(o, "swing")) || /* else it tells of no money */
                json_is_null(json_object_get(o, "worth")));
    assert_true(json_is_object(json_object_get(j, "originality")));
    json_decref(j);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(clues_are_told_and_weighed),
        TEST(bad_input_is_told_in_one_line),
        TEST(json_has_what_is_promised),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
