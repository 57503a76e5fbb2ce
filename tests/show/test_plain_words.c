/* What the sheets of plan, choose and survey say where it is easy to say something untrue. */
#include "face/show/sheet_json.h"
#include "face/show/show_choose.h"
#include "face/show/show_plan.h"
#include "face/show/show_survey.h"
#include "face/show/words.h"

#include "shop/scene.c" /* the garage of the floor below */

enum { RUNS = 200 };

static struct scene scene;
static const struct shop_ask usual = {.direction = -1, .seed = 7, .runs = RUNS};

static int set_up(void **state)
{
    (void)state;
    scene_open(&scene);
    scene_add(&scene, "workshop", "hours-a-week=11", "hands=1", "currency=GBP", NULL);
    scene_add(&scene, "vehicle", "name=First", "kind=car", "build=unitary", "standing=25", NULL);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    scene_close(&scene);
    return 0;
}

static struct shop_ask ask_now(void)
{
    struct shop_ask ask = usual;
    ask.garage = scene.garage;
    ask.trade = &scene.trade;
    ask.vehicle = scene.vehicle;
    ask.today = day_from_civil(2026, 11, 25);
    return ask;
}

static const char *text_of(struct sheet *s)
{
    json_t *o = sheet_to_json(s);
    char *dumped = json_dumps(o, JSON_COMPACT);
    const char *text = arena_copy(&scene.arena, dumped);
    free(dumped);
    json_decref(o);
    return text;
}

static struct plan plan_now(void)
{
    struct plan p;
    struct fail f = {0};
    struct shop_ask ask = ask_now();
    if (!plan_reckon(&scene.arena, &ask, &p, &f)) fail_msg("%s", f.text);
    return p;
}

static void says(const char *text, const char *words, bool said)
{
    if ((strstr(text, words) != NULL) != said)
        fail_msg("%s: '%s'", said ? "does not say" : "says", words);
}

static void a_ceiling_too_low_is_named_as_what_stops_it(void **state)
{
    (void)state;
    scene_add(&scene, "purse", "a-month=1000", "in-hand=1000", "ceiling=1000", NULL);
    struct plan p = plan_now();
    assert_true(p.no_money > 0.99);
    const char *text = text_of(show_plan(&scene.arena, &p));
    says(text, "not within the ceiling of 1,000 GBP", true);
    says(text, "The ceiling stops the work in ", true);
    says(text, "more a month would", false);
    says(text, "hands, not money", false);
    says(text, "What the date hangs on", false);
}

static void hands_set_the_date_where_there_is_money(void **state)
{
    (void)state;
    scene_add(&scene, "purse", "a-month=5000", "in-hand=50000", "ceiling=90000", NULL);
    struct plan p = plan_now();
    const char *text = text_of(show_plan(&scene.arena, &p));
    says(text, "hands, not money, set the date", true);
    says(text, "What the date hangs on", true);
    says(text, "The ceiling stops", false);
}

static void a_helped_day_is_told(void **state)
{
    (void)state;
    scene_add(&scene, "helper-day", "date=2026-11-28", "from=09:00", "to=17:00", "hands=1", NULL);
    struct plan p = plan_now();
    int helped = 0;
    for (int i = 0; i < p.n_stints; i++) helped += p.stints[i].helped;
    assert_true(helped > 0);
    for (int i = 0; i < p.n_stints; i++)
        if (p.stints[i].helped) assert_true(p.stints[i].day >= day_from_civil(2026, 11, 28));
    says(text_of(show_plan(&scene.arena, &p)), "Sat 28 Nov, helper", true);
}

static void choose_says_what_never_and_no_look_mean(void **state)
{
    (void)state;
    struct choose c;
    struct fail f = {0};
    struct shop_ask ask = ask_now();
    scene_add(&scene, "purse", "a-month=1000", "in-hand=1000", "ceiling=1000", NULL);
    scene_add(&scene, "worth", "of=now", "worth=800/1200/2000", NULL);
    scene_add(&scene, "worth", "of=drive", "worth=3500/5000/7000", NULL);
    if (!choose_reckon(&scene.arena, &ask, &c, &f)) fail_msg("%s", f.text);
    says(text_of(show_choose(&scene.arena, &c)), "'drive'", true);
    says(text_of(show_choose(&scene.arena, &c)), "Never: not done within the money", true);
    for (int i = 0; i < c.n_looks; i++) c.looks[i].worth.tells = false, c.looks[i].swing = 0;
    c.any_tells = false;
    const char *text = text_of(show_choose(&scene.arena, &c));
    says(text, "No single look or clue changes the choice, or swings", true);
    says(text, "These could swing", false);
}

static void survey_sums_up_by_place(void **state)
{
    (void)state;
    struct survey v;
    struct fail f = {0};
    struct shop_ask ask = ask_now();
    scene_add(&scene, "finding", "component=radiator", "condition=failed", NULL);
    scene_add(&scene, "finding", "component=keys", "condition=sound", NULL);
    if (!survey_reckon(&scene.arena, &ask, &v, &f)) fail_msg("%s", f.text);
    const char *text = text_of(show_survey(&scene.arena, &v));
    says(text, "found poor or worse", true);
    says(text, arena_print(&scene.arena, "2 of %d components seen.", v.n_lines), true);
}

static void names_fit_into_sentences(void **state)
{
    (void)state;
    static const char *const cases[][2] = {{"Make the bay safe", "make the bay safe"},
                                           {"", ""},
                                           {"ABC test", "ABC test"},
                                           {"already so", "already so"},
                                           {"\xc3\x84 x", "\xc3\x84 x"},
                                           {"A vehicle", "a vehicle"}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++)
        assert_string_equal(words_inside(&scene.arena, cases[i][0]), cases[i][1]);
}

static void hours_are_told_as_well_as_they_are_known(void **state)
{
    (void)state;
    static const struct {
        double hours;
        const char *told;
    } rows[] = {{0.52, "0.5 h"}, {9.94, "9.9 h"},  {74.4, "74 h"},    {362, "360 h"},
                {994, "990 h"},  {996, "1,000 h"}, {1034, "1,030 h"}, {12006, "12,010 h"}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        assert_string_equal(words_hours(&scene.arena, rows[i].hours), rows[i].told);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_ceiling_too_low_is_named_as_what_stops_it),
        TEST(hands_set_the_date_where_there_is_money),
        TEST(a_helped_day_is_told),
        TEST(choose_says_what_never_and_no_look_mean),
        TEST(survey_sums_up_by_place),
        TEST(names_fit_into_sentences),
        TEST(hours_are_told_as_well_as_they_are_known),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
