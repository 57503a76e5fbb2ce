/* test_originality.c - what is told of a vehicle's numbers, dates and components against books,
 * rules and each other, on a garage. The rules of this test are those that the program carries. */
#include "shop/scene.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "shop/originality.h"

#include <string.h>

static struct originality_answer answer_of(struct scene *s)
{
    struct originality_answer o;
    struct fail f = {0};
    const struct shop_ask ask = {.garage = s->garage,
                                 .trade = &s->trade,
                                 .vehicle = s->vehicle,
                                 .today = day_from_civil(2026, 11, 25)};
    if (!originality_reckon(&s->arena, &ask, &o, &f)) fail_msg("%s", f.text);
    return o;
}

static void linnet(struct scene *s, const char *year)
{
    char told[16] = "year=";
    strcat(told, year);
    scene_open(s);
    scene_add(s, "vehicle", "name=Linnet", "maker=ostrand", told, "build=unitary", "kind=car",
              "gearbox=manual", "driven=rear", NULL);
}

static const struct rule_read *rule_called(const struct originality_answer *o, const char *id)
{
    for (int i = 0; i < o->n_rules; i++)
        if (strcmp(o->rules[i].rule->head.id, id) == 0) return &o->rules[i];
    fail_msg("no rule '%s'", id);
    return NULL;
}

static bool conflict_says(const struct originality_answer *o, const char *words, bool stop)
{
    for (int i = 0; i < o->n_conflicts; i++)
        if (strstr(o->conflicts[i].text, words) && o->conflicts[i].stop == stop) return true;
    return false;
}

static void nothing_told_is_open(void **state)
{
    (void)state;
    struct scene s;
    linnet(&s, "1959");
    const struct originality_answer o = answer_of(&s);
    assert_int_equal(o.n_marks + o.n_conflicts + o.n_loose, 0);
    assert_int_equal(rule_called(&o, "keep-number-points")->now.verdict, RULE_OPEN);
    assert_true(rule_called(&o, "keep-number-points")->now.possible == 14);
    assert_int_equal(rule_called(&o, "historic-interest-30")->now.verdict, RULE_OPEN);
    assert_int_equal(o.built_to, day_from_civil(1959, 12, 31));
    assert_false(o.built_told);
    scene_close(&s);
}

/* Five of frame or shell and three more are enough; less is not; without the shell none is. */
static void the_points(void **state)
{
    (void)state;
    static const struct {
        const char *told[6][2];
        enum rule_verdict verdict;
        double sure, possible;
    } cases[] = {
        {{{"chassis-leg", "original"}, {"gearbox", "original"}, {"cylinder-block", "original"}},
         RULE_MEETS,
         8,
         14},
        {{{"chassis-leg", "original"}, {"gearbox", "original"}}, RULE_OPEN, 7, 14},
        {{{"chassis-leg", "reproduction"}, {"steering-box", "original"}, {"rear-axle", "original"}},
         RULE_MEETS,
         9,
         14},
        {{{"chassis-leg", "period"}, {"steering-box", "original"}}, RULE_FAILS, 2, 9},
        {{{"chassis-leg@front-left", "modern"}, {"chassis-leg@front-right", "original"}},
         RULE_FAILS,
         0,
         9},
        {{{"chassis-leg", "original"},
          {"gearbox", "modern"},
          {"rear-axle", "modern"},
          {"steering-box", "modern"},
          {"road-spring", "modern"}},
         RULE_FAILS,
         5,
         6},
        {{{"chassis-leg", "unknown"}, {"gearbox", "period"}}, RULE_OPEN, 0, 12},
        /* the latest counts */
        {{{"chassis-leg", "modern"},
          {"chassis-leg", "original"},
          {"gearbox", "original"},
          {"cylinder-block", "original"}},
         RULE_MEETS,
         8,
         14},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct scene s;
        linnet(&s, "1959");
        for (int k = 0; k < 6 && cases[i].told[k][0]; k++) {
            char component[64] = "component=", class_[64] = "class=";
            scene_add(&s, "originality", strcat(component, cases[i].told[k][0]),
                      strcat(class_, cases[i].told[k][1]), NULL);
        }
        const struct originality_answer o = answer_of(&s);
        const struct rule_state *now = &rule_called(&o, "keep-number-points")->now;
        if (now->verdict != cases[i].verdict || now->sure != cases[i].sure ||
            now->possible != cases[i].possible)
            fail_msg("case %d: verdict %d, %g to %g", (int)i, (int)now->verdict, now->sure,
                     now->possible);
        scene_close(&s);
    }
}

static void told_whole(struct scene *s)
{
    static const char *const all[] = {
        "component=chassis-leg",    "component=cylinder-block", "component=gearbox",
        "component=rear-axle",      "component=steering-box",   "component=road-spring",
        "component=suspension-arm", "component=roof",           "component=door",
        "component=front-wing",     "component=paint",          "component=front-seat"};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++)
        scene_add(s, "originality", all[i], "class=original", NULL);
}

static const char *scheme_now(const struct originality_answer *o, const char *name, int direction)
{
    for (int i = 0; i < o->n_schemes; i++) {
        const struct scheme_read *x = &o->schemes[i];
        if (strcmp(x->name, name) != 0) continue;
        const int n = direction < 0 ? x->n_now : x->n_after[direction];
        if (n != 1) return "not one";
        return o->rules[direction < 0 ? x->now[0] : x->after[direction][0]].rule->head.id;
    }
    return "no such scheme";
}

/* A vehicle that is all its own, and what each direction makes of it. */
static void after_each_direction(void **state)
{
    (void)state;
    struct scene s;
    linnet(&s, "1959");
    told_whole(&s);
    const struct originality_answer o = answer_of(&s);
    const int preserve = trade_find_direction(&s.trade, "preserve"),
              drive = trade_find_direction(&s.trade, "drive"),
              restore = trade_find_direction(&s.trade, "restore"),
              modify = trade_find_direction(&s.trade, "modify");
    assert_string_equal(scheme_now(&o, "type", -1), "type-a");
    assert_string_equal(scheme_now(&o, "type", drive), "type-a");
    assert_string_equal(scheme_now(&o, "preservation group", -1), "group-1");
    assert_string_equal(scheme_now(&o, "preservation group", preserve), "group-1");
    assert_string_equal(scheme_now(&o, "preservation group", restore), "group-3");
    assert_string_equal(scheme_now(&o, "preservation group", modify), "not one");
    const struct rule_read *points = rule_called(&o, "keep-number-points");
    assert_true(points->now.sure == 14 && points->after[restore].sure == 14);
    assert_int_equal(points->after[modify].verdict, RULE_FAILS);
    assert_int_equal(rule_called(&o, "historic-interest-30")->now.verdict, RULE_MEETS);
    assert_int_equal(rule_called(&o, "historic-interest-30")->after[modify].verdict, RULE_FAILS);
    int lost = 0;
    for (int i = 0; i < o.directions[restore].n_changes; i++)
        if (!o.directions[restore].changes[i].change->can_be_undone)
            lost += o.directions[restore].changes[i].originals;
    assert_true(lost >= 3); /* the paint of every side, the seats */
    scene_close(&s);
}

static void age_is_asked(void **state)
{
    (void)state;
    struct scene s;
    linnet(&s, "2000");
    told_whole(&s);
    const struct originality_answer o = answer_of(&s);
    assert_int_equal(rule_called(&o, "historic-interest-30")->now.verdict, RULE_FAILS);
    assert_int_equal(rule_called(&o, "historic-interest-30")->years_to_go, 4);
    scene_close(&s);
}

static void numbers_that_do_not_agree(void **state)
{
    (void)state;
    struct scene s;
    linnet(&s, "1959");
    scene_add(&s, "mark", "what=vehicle", "where=plate", "text=lne jr-04817 f", NULL);
    scene_add(&s, "mark", "what=vehicle", "where=stamping", "text=LNEJR04817F", NULL);
    assert_int_equal(answer_of(&s).n_conflicts, 0); /* written otherwise, but the same */
    assert_int_equal(answer_of(&s).marks[0].check, CHECK_FITS);
    scene_add(&s, "mark", "what=vehicle", "where=papers", "text=LNEJR04871F", NULL);
    scene_add(&s, "mark", "what=engine", "text=14M04795", "again=14M04796", NULL);
    const struct originality_answer o = answer_of(&s);
    assert_true(conflict_says(&o, "number does not agree", true));
    assert_true(conflict_says(&o, "check digit", true));
    assert_true(conflict_says(&o, "Two people read", false));
    scene_close(&s);
}

static void a_year_that_does_not_agree(void **state)
{
    (void)state;
    struct scene s;
    linnet(&s, "1965");
    scene_add(&s, "mark", "what=vehicle", "text=LNEJR04817F", NULL);
    const struct originality_answer o = answer_of(&s);
    assert_true(conflict_says(&o, "tells the year 1959; it was told as of 1965", true));
    scene_close(&s);
}

static void a_casting_after_assembly(void **state)
{
    (void)state;
    struct scene s;
    linnet(&s, "1959");
    scene_add(&s, "mark", "what=built", "text=1959-05-02", NULL);
    scene_add(&s, "mark", "what=casting", "component=cylinder-block", "text=3 5 59",
              "book=cast-day-month-year", NULL);
    scene_add(&s, "originality", "component=cylinder-block", "class=original", NULL);
    struct originality_answer o = answer_of(&s);
    assert_true(o.built_told && o.built_from == day_from_civil(1959, 5, 2));
    assert_int_equal(o.marks[1].date.verdict, DATE_AFTER);
    assert_true(conflict_says(&o, "an impossible pair", true));
    assert_true(conflict_says(&o, "one of the two is wrong", false));
    scene_close(&s);
}

/* A fact is kept whatever it says, and what it says is told. */
static void rubbish_is_kept_and_told(void **state)
{
    (void)state;
    struct scene s;
    linnet(&s, "1959");
    scene_add(&s, "mark", "what=vehicle", "text=\xc3\xa9\xe2\x98\x83 <b>", NULL);
    scene_add(&s, "mark", "what=casting", "component=flux capacitor", "text=??", NULL);
    scene_add(&s, "mark", "what=glass", "text=9", "book=nothing", NULL);
    scene_add(&s, "originality", "component=flux capacitor", "class=modern", NULL);
    const struct originality_answer o = answer_of(&s);
    assert_int_equal(o.n_marks, 3);
    assert_true(o.marks[0].n_misfits > 0);
    assert_true(strstr(o.marks[1].misfits[0], "no component") != NULL);
    assert_true(strstr(o.marks[2].misfits[0], "no code book 'nothing'") != NULL);
    assert_int_equal(o.n_loose, 1);
    scene_close(&s);
}

/* Before 1981 there are no numbers of seventeen characters: free text, judged by no book. */
static void an_old_number_is_free_text(void **state)
{
    (void)state;
    struct scene s;
    scene_open(&s);
    scene_add(&s, "vehicle", "name=Other", "maker=someone", "year=1950", NULL);
    scene_add(&s, "mark", "what=vehicle", "text=1M8GDM9AXKP042788", NULL);
    assert_null(answer_of(&s).marks[0].book);
    scene_close(&s);
    scene_open(&s);
    scene_add(&s, "vehicle", "name=Other", "year=1989", NULL);
    scene_add(&s, "mark", "what=vehicle", "text=1M8GDM9AXKP042788", NULL);
    scene_add(&s, "mark", "what=vehicle", "text=VZZZZZ8K9BA123456", NULL);
    const struct originality_answer o = answer_of(&s);
    assert_string_equal(o.marks[0].book->head.id, "vin-north-america");
    assert_int_equal(o.marks[0].check, CHECK_FITS);
    assert_string_equal(o.marks[1].book->head.id, "vin");
    assert_int_equal(o.marks[1].check, CHECK_INFORMATION);
    assert_int_equal(o.marks[1].n_misfits, 0);
    scene_close(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nothing_told_is_open),       cmocka_unit_test(the_points),
        cmocka_unit_test(after_each_direction),       cmocka_unit_test(age_is_asked),
        cmocka_unit_test(numbers_that_do_not_agree),  cmocka_unit_test(a_year_that_does_not_agree),
        cmocka_unit_test(a_casting_after_assembly),   cmocka_unit_test(rubbish_is_kept_and_told),
        cmocka_unit_test(an_old_number_is_free_text),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
