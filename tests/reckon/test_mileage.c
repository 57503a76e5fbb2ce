/* test_mileage.c - the stories of a clock: turns, papers that bind, papers that contradict. */
#include "reckon/mileage.h"

#include "reckon/near.h"

enum { BYTES = 16 << 20 };

static struct mileage_ask usual(void)
{
    return (struct mileage_ask){.years = 20,
                                .a_year = 6000,
                                .a_year_spread = 0.5,
                                .clock = true,
                                .reading = 34567,
                                .turn = 100000,
                                .changed = 0.08,
                                .stood = 0.08,
                                .steady = 8,
                                .wrong = 0.03};
}

/* Case 10.11: a five-figure clock that reads 34,567 has run 34,567 or 134,567 or
 * 234,567 ...: all of them keep some weight, none is picked. */
static void every_turn_keeps_its_weight(void **state)
{
    (void)state;
    struct arena a = arena_open(BYTES);
    struct mileage_ask ask = usual();
    struct mileage m;
    mileage_weigh(&a, &ask, &m);
    double total = 0;
    for (int i = 0; i < m.n_points; i++) {
        total += m.chance[i];
        if (m.points[i].story == STORY_TRUE)
            assert_near(m.points[i].miles, 34567 + 100000.0 * m.points[i].turns, 1e-9);
    }
    assert_near(total, 1, 1e-12);
    for (int k = 0; k <= 4; k++) assert_true(mileage_of_story(&m, m.chance, STORY_TRUE, k) > 0);
    /* among true clocks the turns stand as the lognormal's densities do */
    double ratio = mileage_of_story(&m, m.chance, STORY_TRUE, 1) /
                   mileage_of_story(&m, m.chance, STORY_TRUE, 0);
    double z0 = log(34567 / 120000.0) / 0.5, z1 = log(134567 / 120000.0) / 0.5;
    assert_near(ratio, exp(0.5 * (z0 * z0 - z1 * z1)) * 34567 / 134567, 1e-9);
    arena_close(&a);
}

/* Case 10.12: five more miles on a clock that reads 99,998 make it read 00,003; a paper with the
 * first and a clock with the second is one turn, though the figures fall. */
static void a_turn_between_paper_and_clock(void **state)
{
    (void)state;
    struct arena a = arena_open(BYTES);
    struct mileage_ask ask = usual();
    const struct mileage_paper paper = {19.9, 99998};
    struct mileage m;
    ask.reading = 3;
    ask.papers = &paper;
    ask.n_papers = 1;
    mileage_weigh(&a, &ask, &m);
    assert_false(m.impossible);
    assert_true(mileage_of_story(&m, m.chance, STORY_TRUE, 1) > 0.7);
    assert_true(mileage_of_story(&m, m.chance, STORY_TRUE, 0) < 0.01);
    assert_near(mileage_quantile(&m, m.chance, 0.5, a), 100003, 1e-9);
    arena_close(&a);
}

/* A paper with more miles than the clock now shows rules out that it is in its first turn, unless
 * the paper is wrong or the clock was changed. */
static void a_paper_bounds(void **state)
{
    (void)state;
    struct arena a = arena_open(BYTES);
    struct mileage_ask ask = usual();
    struct mileage m;
    mileage_weigh(&a, &ask, &m);
    double before = mileage_of_story(&m, m.chance, STORY_TRUE, 0);
    const struct mileage_paper paper = {12, 81200};
    ask.papers = &paper;
    ask.n_papers = 1;
    mileage_weigh(&a, &ask, &m);
    assert_true(mileage_of_story(&m, m.chance, STORY_TRUE, 0) < before / 3);
    assert_true(mileage_of_story(&m, m.chance, STORY_TRUE, 1) > 0.5);
    arena_close(&a);
}

/* A steady run of papers up to what the clock reads: as read. */
static void papers_that_lead_up_to_the_reading(void **state)
{
    (void)state;
    struct arena a = arena_open(BYTES);
    struct mileage_ask ask = usual();
    static const struct mileage_paper papers[] = {
        {3, 5100}, {7, 12900}, {12, 21400}, {17, 30200}, {20, 34500}};
    struct mileage m;
    ask.papers = papers;
    ask.n_papers = 5;
    mileage_weigh(&a, &ask, &m);
    assert_true(mileage_of_story(&m, m.chance, STORY_TRUE, 0) > 0.85);
    assert_int_equal(mileage_falls(papers, 5), -1);
    arena_close(&a);
}

/* Papers that contradict each other are weighed, never refused. */
static void papers_that_fall(void **state)
{
    (void)state;
    struct arena a = arena_open(BYTES);
    struct mileage_ask ask = usual();
    static const struct mileage_paper papers[] = {{6, 62000}, {8, 48000}, {9, 20}, {30, 99000}};
    struct mileage m;
    ask.papers = papers;
    ask.n_papers = 4;
    for (int clock = 0; clock < 2; clock++) {
        ask.clock = clock;
        mileage_weigh(&a, &ask, &m);
        assert_false(m.impossible);
        double total = 0;
        for (int i = 0; i < m.n_points; i++) total += m.chance[i];
        assert_near(total, 1, 1e-12);
    }
    assert_int_equal(mileage_falls(papers, 4), 1);
    arena_close(&a);
}

/* Without clock and papers the quantiles are the lognormal's, to a cell. */
static void nothing_known_is_the_prior(void **state)
{
    (void)state;
    struct arena a = arena_open(BYTES);
    struct mileage_ask ask = usual();
    struct mileage m;
    ask.clock = false;
    mileage_weigh(&a, &ask, &m);
    assert_near(mileage_quantile(&m, m.chance, 0.5, a), 120000, MILEAGE_CELL);
    assert_near(mileage_quantile(&m, m.chance, 0.841344746, a), 120000 * exp(0.5),
                2 * MILEAGE_CELL);
    arena_close(&a);
}

/* A clock of kilometres turns after fewer miles: the turn is asked for in miles. */
static void a_clock_that_stood_has_run_more(void **state)
{
    (void)state;
    struct arena a = arena_open(BYTES);
    struct mileage_ask ask = usual();
    struct mileage m;
    ask.stood = 0.9;
    mileage_weigh(&a, &ask, &m);
    for (int i = 0; i < m.n_points; i++) {
        const struct mileage_point *x = &m.points[i];
        if (x->story != STORY_STOOD) continue;
        double counted = ask.reading + x->turns * ask.turn;
        assert_true(x->miles > counted - MILEAGE_CELL);
    }
    assert_true(mileage_of_story(&m, m.chance, STORY_STOOD, -1) > 0.5);
    arena_close(&a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_turn_keeps_its_weight),
        cmocka_unit_test(a_turn_between_paper_and_clock),
        cmocka_unit_test(a_paper_bounds),
        cmocka_unit_test(papers_that_lead_up_to_the_reading),
        cmocka_unit_test(papers_that_fall),
        cmocka_unit_test(nothing_known_is_the_prior),
        cmocka_unit_test(a_clock_that_stood_has_run_more),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
