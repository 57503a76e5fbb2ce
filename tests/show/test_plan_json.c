/* What is promised of the JSON of plan, choose and survey: each name is there, and holds the kind
 * of thing it should. */
#include "face/show/show_choose.h"
#include "face/show/show_plan.h"
#include "face/show/show_survey.h"

#include "shop/scene.c" /* the garage of the floor below */

enum { RUNS = 200 };

static struct scene scene;

static int set_up(void **state)
{
    (void)state;
    scene_open(&scene);
    scene_add(&scene, "workshop", "hours-a-week=11", "currency=GBP", NULL);
    scene_add(&scene, "purse", "a-month=300", "in-hand=1500", "ceiling=20000", NULL);
    scene_add(&scene, "vehicle", "name=First", "kind=car", "build=unitary", "standing=25",
              "turns=no", NULL);
    scene_add(&scene, "finding", "component=radiator", "condition=poor", "date=2026-11-20", NULL);
    scene_add(&scene, "finding", "component=hover-skirt", "condition=poor", NULL);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    scene_close(&scene);
    return 0;
}

static struct shop_ask ask_of(int threads)
{
    return (struct shop_ask){.garage = scene.garage,
                             .trade = &scene.trade,
                             .vehicle = scene.vehicle,
                             .today = day_from_civil(2026, 11, 25),
                             .direction = -1,
                             .seed = 7,
                             .runs = RUNS,
                             .threads = threads};
}

static json_t *plan_json(int threads)
{
    struct plan p;
    struct fail f = {0};
    struct shop_ask ask = ask_of(threads);
    if (!plan_reckon(&scene.arena, &ask, &p, &f)) fail_msg("%s", f.text);
    return show_plan_json(&scene.arena, &p);
}

static json_t *choose_json(int threads)
{
    struct choose c;
    struct fail f = {0};
    struct shop_ask ask = ask_of(threads);
    if (!choose_reckon(&scene.arena, &ask, &c, &f)) fail_msg("%s", f.text);
    return show_choose_json(&c);
}

static json_t *survey_json(void)
{
    struct survey v;
    struct fail f = {0};
    struct shop_ask ask = ask_of(1);
    if (!survey_reckon(&scene.arena, &ask, &v, &f)) fail_msg("%s", f.text);
    return show_survey_json(&v);
}

/* ---- kinds of value; each says where it is wrong ---- */

typedef bool is_kind(const json_t *v);

static bool is_text(const json_t *v)
{
    return json_is_string(v);
}
static bool is_whole(const json_t *v)
{
    return json_is_integer(v);
}
static bool is_number(const json_t *v)
{
    return json_is_number(v);
}
static bool is_truth(const json_t *v)
{
    return json_is_boolean(v);
}
static bool is_null(const json_t *v)
{
    return json_is_null(v);
}

static bool is_array(const json_t *v)
{
    return json_is_array(v);
}
static bool is_share(const json_t *v)
{
    return json_is_number(v) && json_number_value(v) >= 0 && json_number_value(v) <= 1;
}

static bool is_money(const json_t *v)
{
    return json_object_size(v) == 2 && json_is_integer(json_object_get(v, "amount")) &&
           text_is(json_string_value(json_object_get(v, "currency")), "GBP");
}

static bool is_day(const json_t *v)
{
    day d;
    struct fail f = {0};
    return json_is_string(v) && day_parse(json_string_value(v), &d, &f);
}

static bool is_day_or_null(const json_t *v)
{
    return json_is_null(v) || is_day(v);
}
static bool is_money_or_null(const json_t *v)
{
    return json_is_null(v) || is_money(v);
}

static bool has_quantiles(const json_t *v, is_kind *kind)
{
    return kind(json_object_get(v, "p10")) && kind(json_object_get(v, "p50")) &&
           kind(json_object_get(v, "p80")) && kind(json_object_get(v, "p90"));
}

static bool is_moneys(const json_t *v)
{
    return has_quantiles(v, is_money) && is_money(json_object_get(v, "mean"));
}
static bool is_moneys_or_null(const json_t *v)
{
    return json_is_null(v) || is_moneys(v);
}
static bool is_days(const json_t *v)
{
    return has_quantiles(v, is_day_or_null);
}
static bool is_numbers(const json_t *v)
{
    return has_quantiles(v, is_number);
}
static bool is_share_or_null(const json_t *v)
{
    return json_is_null(v) || is_share(v);
}

static bool is_worth_or_null(const json_t *v)
{
    return json_is_null(v) ||
           (is_money(json_object_get(v, "p10")) && is_money(json_object_get(v, "p50")) &&
            is_money(json_object_get(v, "p90")));
}

static bool is_odds(const json_t *v)
{
    double sum = 0;
    for (int c = 0; c < COND_COUNT; c++) {
        const json_t *p = json_object_get(v, condition_name((enum condition)c));
        if (!is_share(p)) return false;
        sum += json_number_value(p);
    }
    return json_object_size(v) == COND_COUNT && sum > 0.999 && sum < 1.001;
}

static bool is_condition(const json_t *v)
{
    enum condition c;
    return json_is_string(v) && condition_parse(json_string_value(v), &c) && c < COND_COUNT;
}

struct promise {
    const char *name;
    is_kind *kind;
};

static void hold(const json_t *o, const char *what, const struct promise *promises, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        const json_t *v = json_object_get(o, promises[i].name);
        if (!v) fail_msg("%s: no %s", what, promises[i].name);
        if (!promises[i].kind(v))
            fail_msg("%s: %s is another kind of thing: %s", what, promises[i].name,
                     json_dumps(v, JSON_ENCODE_ANY));
    }
}
#define HOLD(o, what, promises)                                                                    \
    hold((o), (what), (promises), sizeof(promises) / sizeof(promises)[0])

/* Each element; there must be some. */
static void hold_each(const json_t *o, const char *name, const struct promise *promises, size_t n)
{
    const json_t *all = json_object_get(o, name);
    assert_true(json_array_size(all) > 0);
    for (size_t i = 0; i < json_array_size(all); i++)
        hold(json_array_get(all, i), name, promises, n);
}
#define HOLD_EACH(o, name, promises)                                                               \
    hold_each((o), (name), (promises), sizeof(promises) / sizeof(promises)[0])

static void test_plan(void **state)
{
    (void)state;
    static const struct promise whole[] = {
        {"vehicle", is_text},   {"direction", is_text},     {"seed", is_whole},
        {"runs", is_whole},     {"finish", is_days},        {"hours", is_numbers},
        {"cost", is_moneys},    {"not_finished", is_share}, {"out_of_money", is_share},
        {"jobs", is_array},     {"order_by", is_array},     {"milestones", is_array},
        {"sessions", is_array}, {"months", is_array},       {"setbacks", is_array},
        {"notes", is_array},    {"order", is_text}};
    static const struct promise job[] = {{"job", is_text},          {"name", is_text},
                                         {"start", is_day_or_null}, {"finish", is_day_or_null},
                                         {"chance", is_share},      {"critical", is_share}};
    static const struct promise order[] = {
        {"part", is_text},   {"date", is_day},         {"count", is_number}, {"chance", is_share},
        {"price", is_money}, {"lead_days", is_number}, {"for", is_text},     {"mark", is_text}};
    static const struct promise session[] = {{"date", is_day},
                                             {"from", is_text},
                                             {"to", is_text},
                                             {"job", is_text},
                                             {"hands", is_whole}};
    static const struct promise month[] = {
        {"month", is_day}, {"purse", is_money_or_null}, {"p50", is_money}, {"p80", is_money}};
    static const struct promise milestone[] = {
        {"job", is_text}, {"milestone", is_text}, {"finish", is_days}};
    static const struct promise setback[] = {{"setback", is_text}, {"job", is_text},
                                             {"chance", is_share}, {"days", is_number},
                                             {"error", is_number}, {"cost", is_money}};
    static const struct promise hang[] = {{"start", is_share}, {"session", is_share},
                                          {"wait", is_share},  {"parts", is_share},
                                          {"money", is_share}, {"hands", is_share}};
    static const struct promise more[] = {
        {"a_month", is_money}, {"days", is_number}, {"error", is_number}};
    json_t *o = plan_json(1);
    HOLD(o, "plan", whole);
    HOLD_EACH(o, "jobs", job);
    HOLD_EACH(o, "order_by", order);
    HOLD_EACH(o, "sessions", session);
    HOLD_EACH(o, "months", month);
    HOLD_EACH(o, "milestones", milestone);
    HOLD_EACH(o, "setbacks", setback);
    HOLD(json_object_get(o, "hangs_on"), "hangs_on", hang);
    HOLD(json_object_get(o, "more_money"), "more_money", more);
    assert_int_equal(json_integer_value(json_object_get(o, "runs")), RUNS);
    assert_int_equal(json_integer_value(json_object_get(o, "seed")), 7);
    json_decref(o);
}

static const struct promise direction[] = {{"direction", is_text},
                                           {"decided", is_truth},
                                           {"cost", is_moneys},
                                           {"finish", is_days},
                                           {"hours", is_numbers},
                                           {"not_finished", is_share},
                                           {"lost", is_array},
                                           {"worth", is_worth_or_null},
                                           {"net", is_moneys_or_null},
                                           {"chance_ahead", is_share_or_null},
                                           {"chance_best", is_share_or_null}};

static void test_choose(void **state)
{
    (void)state;
    static const struct promise whole[] = {{"vehicle", is_text},     {"seed", is_whole},
                                           {"runs", is_whole},       {"notes", is_array},
                                           {"directions", is_array}, {"look_next", is_array}};
    static const struct promise look[] = {
        {"minutes", is_number}, {"worth", is_money}, {"error", is_money}, {"tells", is_truth},
        {"swing", is_money},    {"days", is_number}, {"bill", is_money},  {"outcomes", is_array}};
    static const struct promise component[] = {{"component", is_text}, {"odds", is_odds}};
    static const struct promise clue[] = {{"clue", is_text}, {"name", is_text}};
    static const struct promise outcome[] = {
        {"outcome", is_text}, {"chance", is_share}, {"choice", is_null}, {"bill", is_money}};
    static const char *const told[] = {"worth", "net", "chance_ahead", "chance_best"};
    json_t *o = choose_json(1);
    HOLD(o, "choose", whole);
    HOLD_EACH(o, "directions", direction);
    HOLD_EACH(o, "look_next", look);
    int components = 0, clues = 0;
    size_t n;
    const json_t *one;
    json_array_foreach(json_object_get(o, "look_next"), n, one)
    {
        if (json_object_get(one, "clue")) {
            HOLD(one, "a clue", clue);
            clues++;
        } else {
            HOLD(one, "a component", component);
            components++;
        }
        HOLD_EACH(one, "outcomes", outcome);
    }
    assert_true(components > 30 && clues > 30);
    /* What is not known is null, not a figure. */
    const json_t *all = json_object_get(o, "directions");
    assert_int_equal(json_array_size(all), 5);
    for (size_t i = 0; i < json_array_size(all); i++)
        for (size_t k = 0; k < sizeof told / sizeof told[0]; k++)
            assert_true(json_is_null(json_object_get(json_array_get(all, i), told[k])));
    json_decref(o);
    scene_add(&scene, "worth", "of=now", "worth=800/1200/2000", NULL);
    scene_add(&scene, "worth", "of=drive", "worth=3500/5000/7000", NULL);
    scene_add(&scene, "decision", "direction=drive", NULL);
    o = choose_json(1);
    HOLD_EACH(o, "directions", direction);
    all = json_object_get(o, "directions");
    for (size_t i = 0; i < json_array_size(all); i++) {
        const json_t *d = json_array_get(all, i);
        const char *id = json_string_value(json_object_get(d, "direction"));
        bool known = text_is(id, "drive") || text_is(id, "sell");
        assert_int_equal(json_boolean_value(json_object_get(d, "decided")), text_is(id, "drive"));
        for (size_t k = 0; k < sizeof told / sizeof told[0]; k++)
            assert_int_equal(json_is_null(json_object_get(d, told[k])), !known);
    }
    json_decref(o);
}

static void test_survey(void **state)
{
    (void)state;
    static const struct promise whole[] = {
        {"vehicle", is_text}, {"findings", is_array}, {"unseen", is_array}, {"unknown", is_array}};
    static const struct promise finding[] = {{"component", is_text},
                                             {"name", is_text},
                                             {"place", is_text},
                                             {"condition", is_condition},
                                             {"date", is_day_or_null}};
    static const struct promise unseen[] = {{"component", is_text},
                                            {"name", is_text},
                                            {"place", is_text},
                                            {"inferred", is_truth},
                                            {"odds", is_odds}};
    json_t *o = survey_json();
    HOLD(o, "survey", whole);
    HOLD_EACH(o, "findings", finding);
    HOLD_EACH(o, "unseen", unseen);
    const json_t *first = json_array_get(json_object_get(o, "findings"), 0);
    assert_string_equal(json_string_value(json_object_get(first, "component")), "radiator");
    assert_string_equal(json_string_value(json_object_get(first, "condition")), "poor");
    assert_string_equal(json_string_value(json_object_get(first, "date")), "2026-11-20");
    assert_string_equal(json_string_value(json_array_get(json_object_get(o, "unknown"), 0)),
                        "hover-skirt");
    json_decref(o);
}

static void same_text(json_t *a, json_t *b)
{
    char *x = json_dumps(a, JSON_REAL_PRECISION(15)), *y = json_dumps(b, JSON_REAL_PRECISION(15));
    assert_string_equal(x, y);
    free(x);
    free(y);
    json_decref(a);
    json_decref(b);
}

static void test_threads(void **state)
{
    (void)state;
    scene_add(&scene, "worth", "of=now", "worth=800/1200/2000", NULL);
    scene_add(&scene, "worth", "of=drive", "worth=3500/5000/7000", NULL);
    same_text(plan_json(1), plan_json(2));
    same_text(choose_json(1), choose_json(2));
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {TEST(test_plan), TEST(test_choose), TEST(test_survey),
                                       TEST(test_threads)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
