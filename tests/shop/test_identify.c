/* What it really is: clues of the shipped trade data on a garage of its own, what they do to the
 * plan's odds, and what is said of bad input. */
#include "garage/kinds.h"
#include "shop/identify.h"
#include "shop/scene.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

enum { RUNS = 40 };

static struct scene scene;

static int set_up(void **state)
{
    (void)state;
    scene_open(&scene);
    scene_add(&scene, "vehicle", "name=Only", "kind=car", "year=1960", "build=unitary",
              "cylinders=4", "fuel=petrol", "gearbox=manual", "driven=rear", "brakes=drum",
              "state=whole", "standing=45", "storage=dry", NULL);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    scene_close(&scene);
    return 0;
}

static struct identify identify_now(void)
{
    struct identify x;
    struct fail f = {0};
    const struct shop_ask ask = {.garage = scene.garage,
                                 .trade = &scene.trade,
                                 .vehicle = scene.vehicle,
                                 .today = day_from_civil(2026, 11, 25),
                                 .direction = -1,
                                 .seed = SEED_USUAL,
                                 .runs = RUNS};
    if (!identify_reckon(&scene.arena, &ask, &x, &f)) fail_msg("%s", f.text);
    return x;
}

static double share_of(const struct identify *x, enum mileage_story story, int turns)
{
    return mileage_of_story(&x->past.mileage, x->past.miles.weighed.posterior, story, turns);
}

/* Mean odds that the bores are poor or worse, and what the plan takes for the miles. */
static double bores(int *n_doublings)
{
    struct facts facts;
    struct model m;
    struct fail f = {0};
    double odds[COND_COUNT], bad = 0;
    if (!facts_read(scene.garage, &scene.arena, &scene.trade, scene.vehicle, &facts, &f) ||
        !model_survey(&scene.arena, &scene.trade, &facts, &m, &f))
        fail_msg("%s", f.text);
    struct belief b = belief_of(&scene.arena, &m.project);
    *n_doublings = m.project.n_doublings;
    for (int i = 0; i < m.project.n_components; i++) {
        if (!text_is(m.project.components[i].id, "crankshaft")) continue;
        belief_odds(&b, &m.project, i, odds);
        for (int c = COND_POOR; c < COND_COUNT; c++) bad += odds[c];
    }
    return bad;
}

/* Nothing told: the usual, and the plan's odds are those of the trade data. */
static void nothing_told(void **state)
{
    (void)state;
    int n = 0;
    double odds[COND_COUNT], usual = 0, cut[COND_COUNT - 1];
    struct identify x = identify_now();
    assert_false(x.past.known);
    assert_int_equal(x.n_clues, 0);
    assert_true(x.n_next > 30);
    assert_true(fabs(x.miles.p50 / x.past.usual - 1) < 0.03);
    const int kind = trade_find(&scene.trade, SUBJECT_COMPONENTS, "crankshaft");
    const struct ageing *age = &scene.trade.ageing[scene.trade.components[kind].ages];
    belief_cuts(age->odds, age->standing * log2(45 / 25.0) + age->storage[STORAGE_DRY],
                age->missing[0], cut);
    belief_odds_of_cuts(cut, odds);
    for (int c = COND_POOR; c < COND_COUNT; c++) usual += odds[c];
    assert_true(age->wear > 0 && fabs(bores(&n) - usual) < 0.004);
    assert_int_equal(n, DOUBLINGS);
}

/* Clues of few miles move the odds from many miles to the reading, and the plan's odds with them;
 * and back. */
static void clues_move_miles_and_the_plan(void **state)
{
    (void)state;
    int n;
    double untold = bores(&n);
    scene_add(&scene, "clock", "reading=34567", "digits=5", "working=yes", NULL);
    struct identify x = identify_now();
    double as_read = share_of(&x, STORY_TRUE, 0), read_alone = bores(&n);
    assert_int_equal(n, DOUBLINGS);
    assert_true(as_read > 0 && share_of(&x, STORY_TRUE, 1) > 0);
    static const char *const few[] = {"clue=bore-ridge\0outcome=none",
                                      "clue=pedal-pads\0outcome=crisp",
                                      "clue=hinge-drop\0outcome=tight"};
    for (int i = 0; i < 3; i++) {
        scene_add(&scene, "clue-reading", few[i], few[i] + strlen(few[i]) + 1, NULL);
        x = identify_now();
        assert_true(share_of(&x, STORY_TRUE, 0) > as_read);
        as_read = share_of(&x, STORY_TRUE, 0);
    }
    double light = bores(&n);
    assert_true(light < read_alone && light < untold);
    assert_int_equal(x.claim.story, STORY_TRUE);
    assert_int_equal(x.claim.turns, 0);
    for (int i = 0; i < x.n_clues; i++) assert_true(x.clues[i].decibans > 0);
    assert_int_equal(x.n_conflicts, 0);

    /* the same clues, told again the other way: the latest counts, and it is said */
    scene_add(&scene, "clue-reading", "clue=bore-ridge", "outcome=deep", NULL);
    scene_add(&scene, "clue-reading", "clue=pedal-pads", "outcome=bare", NULL);
    scene_add(&scene, "clue-reading", "clue=hinge-drop", "outcome=drops", NULL);
    x = identify_now();
    assert_int_equal(x.n_clues, 3);
    for (int i = 0; i < 3; i++) assert_int_equal(x.clues[i].fact->before, 1);
    assert_true(share_of(&x, STORY_TRUE, 0) < as_read / 3);
    assert_true(bores(&n) > light);
}

/* A first set of tyres on a worn-out engine: named, not averaged. */
static void what_does_not_fit_is_named(void **state)
{
    (void)state;
    scene_add(&scene, "clue-reading", "clue=first-tyres", "outcome=first", NULL);
    struct identify x = identify_now();
    assert_true(x.n_conflicts > 0);
    bool named = false;
    for (int i = 0; i < x.n_conflicts; i++)
        named |= x.conflicts[i].one && text_is(x.conflicts[i].one->head.id, "first-tyres");
    assert_true(named);
}

/* Papers that fall are a conflict shown, never an error. */
static void papers_that_fall(void **state)
{
    (void)state;
    scene_add(&scene, "dated-mileage", "written=1966-05-04", "reading=62000", NULL);
    scene_add(&scene, "dated-mileage", "written=1968-05-04", "reading=48000", "unit=miles", NULL);
    struct identify x = identify_now();
    assert_int_equal(x.falls, 1);
    /* and the two clues about papers as a whole are not counted beside them */
    for (int i = 0; i < x.n_next; i++)
        assert_false(scene.trade.clusters[x.next[i].clue->cluster].papers);
}

static void unknown_clues_are_kept(void **state)
{
    (void)state;
    scene_add(&scene, "clue-reading", "clue=tea-leaves", "outcome=dark", NULL);
    struct identify x = identify_now();
    assert_int_equal(x.facts->past.clues[x.facts->past.n_clues - 1].clue, -1);
}

/* One line each. */
static void bad_input(void **state)
{
    (void)state;
    struct fail f = {0};
    struct record *r = record_new(&scene.arena, &kind_clock);
    assert_true(record_set(&scene.arena, r, "vehicle", scene.vehicle, NULL, &f));
    assert_true(record_set(&scene.arena, r, "reading", "134567", NULL, &f));
    assert_true(record_set(&scene.arena, r, "digits", "5", NULL, &f));
    assert_false(record_valid(r, &f));
    assert_string_equal(f.text, "clock.reading: 134567 is beyond a clock of 5 figures; leave out "
                                "the tenths, or mend digits");
    int clue, outcome;
    f = (struct fail){0};
    assert_false(clue_parse(&scene.trade, "bore-rigde", &clue, &f));
    assert_string_equal(f.text, "clue: nothing is called 'bore-rigde'; did you mean 'bore-ridge'?");
    f = (struct fail){0};
    assert_true(clue_parse(&scene.trade, "bore-ridge", &clue, &f));
    assert_false(clue_outcome_parse(&scene.trade, clue, "huge", &outcome, &f));
    assert_string_equal(f.text,
                        "clue: 'bore-ridge' never shows 'huge'; use one of none, slight, deep");
}

/* Of every clue of the trade data, a second one just like it in its cluster adds less than it did
 * itself, as long as it says anything. */
static void a_duplicate_says_less(void **state)
{
    (void)state;
    struct identify x = identify_now();
    const struct evidence *all[] = {&x.past.miles, &x.past.identity, &x.past.original};
    int bad = 0, tried = 0;
    for (int e = 0; e < 3; e++) {
        struct clue_problem p = all[e]->problem;
        bool *claim = ARENA_ARRAY(&scene.arena, bool, p.n_hypotheses);
        for (int h = 0; h < p.n_hypotheses; h++)
            claim[h] = e > 0 ? h == 0 : x.past.mileage.points[h].miles < 80000;
        for (int i = 0; i < p.n_clues; i++)
            for (int o = 0; o < p.clues[i].n_outcomes; o++) {
                struct arena scratch = scene.arena;
                struct clue two[2] = {p.clues[i], p.clues[i]};
                struct clue_problem q = p;
                double decibans[3];
                two[0].seen = two[1].seen = o;
                q.clues = two;
                for (q.n_clues = 0; q.n_clues < 3; q.n_clues++) {
                    struct clue_weighed w;
                    clue_weigh(&scratch, &q, &w);
                    decibans[q.n_clues] = decibans_of(clue_share(&w, claim));
                }
                double first = decibans[1] - decibans[0], second = decibans[2] - decibans[1];
                if (fabs(first) < 0.5) continue;
                tried++;
                if (fabs(second) < fabs(first)) continue;
                print_error("%s %s: %.2f, then %.2f\n",
                            scene.trade.clues[all[e]->clue_of[i]].head.id,
                            scene.trade.clues[all[e]->clue_of[i]].outcomes[o].id, first, second);
                bad++;
            }
    }
    assert_true(tried > 60);
    assert_int_equal(bad, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nothing_told),
        cmocka_unit_test(a_duplicate_says_less),
        cmocka_unit_test(clues_move_miles_and_the_plan),
        cmocka_unit_test(what_does_not_fit_is_named),
        cmocka_unit_test(papers_that_fall),
        cmocka_unit_test(unknown_clues_are_kept),
        cmocka_unit_test(bad_input),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
