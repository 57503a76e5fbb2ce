/* test_draw.c - what one run draws: figures come back as they were told, streams do not disturb
 * each other, setbacks and ladders happen as often as they should. */
#include "reckon/draw.h"
#include "reckon/pace.h"

#include "base/random.h"
#include "base/text.h"
#include "reckon/near.h"
#include "reckon/random_project.h"
#include "reckon/small_project.h"

#include <string.h>

enum { DRAWS = 100000 };

static struct arena arena;
static struct small s;

/* By definition a tenth of the draws lie below the low figure, a half below the middle, a tenth
 * above the high one; the factors that jobs share must leave that as it is. */
static void three_points_come_back(void **state)
{
    (void)state;
    small_begin(&s);
    int wide = small_job(&s, "wide", 1), narrow = small_job(&s, "narrow", 1),
        step = small_job(&s, "step", 1);
    s.jobs[wide].minutes = about(20000, 50000, 300000);
    s.jobs[narrow].minutes = about(90000, 100000, 105000);
    s.jobs[step].wait = about(5000, 9000, 90000);
    int part = small_part(&s, "part", 0, 0);
    s.parts[part].price = about(1000, 2500, 4000);
    s.parts[part].lead = about(10000, 30000, 50000);
    small_buy(&s, step, part, 1);
    small_session(&s, 0, 1000);
    s.p.pace_share = 0.35;
    s.p.state_share = 0.25;
    struct belief b = belief_of(&arena, &s.p);
    struct drawn d = drawn_new(&arena, &s.p);
    enum { FIGURES = 5 };
    const double points[FIGURES][3] = {{20000, 50000, 300000},
                                       {90000, 100000, 105000},
                                       {5000, 9000, 90000},
                                       {1000, 2500, 4000},
                                       {10000, 30000, 50000}};
    int below[FIGURES][3] = {{0}};
    double together = 0, wide_z = 0, narrow_z = 0, wide_z2 = 0, narrow_z2 = 0;
    for (uint32_t run = 0; run < DRAWS; run++) {
        double work;
        double money = draw_run(&s.p, &b, 11, run, -1, &d, &work);
        const double got[FIGURES] = {d.minutes[wide], d.minutes[narrow], d.wait[step], money,
                                     d.lead[step]};
        for (int i = 0; i < FIGURES; i++)
            for (int k = 0; k < 3; k++) below[i][k] += got[i] < points[i][k];
        assert_near(work, d.minutes[wide] + d.minutes[narrow] + d.minutes[step], 0);
        double x = points_z((struct points){20000, 50000, 300000}, d.minutes[wide]);
        double y = points_z((struct points){90000, 100000, 105000}, d.minutes[narrow]);
        together += x * y, wide_z += x, narrow_z += y, wide_z2 += x * x, narrow_z2 += y * y;
    }
    for (int i = 0; i < FIGURES; i++) {
        assert_share((double)below[i][0] / DRAWS, 0.1, DRAWS,
                     1e-4); /* minutes are whole: 1e-4 for that */
        assert_share((double)below[i][1] / DRAWS, 0.5, DRAWS, 1e-4);
        assert_share((double)below[i][2] / DRAWS, 0.9, DRAWS, 1e-4);
    }
    /* And jobs go together as much as the shares say: 0.35 + 0.25; an error of (1 - r^2) / sqrt(n).
     */
    double n = DRAWS;
    double covariance = together / n - wide_z / n * (narrow_z / n);
    double r = covariance /
               sqrt((wide_z2 / n - pow(wide_z / n, 2)) * (narrow_z2 / n - pow(narrow_z / n, 2)));
    assert_near(r, 0.6, 4 * (1 - 0.36) / sqrt(n));
}

/* Jobs of one kind of work share its factor beside the pace: their middle z and how they go
 * together are those of what was learned. */
static void kinds_of_work_are_shared(void **state)
{
    static const struct pace_shares shares = {.pace = 0.3, .kind = 0.2};
    const struct pace_cell cell = {.kind = 0, .log = {3, 4.5}};
    uint64_t streams[2] = {text_hash("work/a"), text_hash("work/b")};
    enum { JOBS = 3 };
    static const int kind[JOBS] = {0, 0, 1};
    double sum[JOBS] = {0}, product[JOBS][JOBS] = {{0}};
    (void)state;
    small_begin(&s);
    for (int i = 0; i < JOBS; i++) {
        const int j = small_job(&s, i == 0 ? "one" : i == 1 ? "two" : "three", 1);
        s.jobs[j].minutes = about(1e6, 2e6, 4e6);
        s.jobs[j].work = kind[i];
    }
    small_session(&s, 0, 1000);
    const struct pace_learned x = pace_learn(&arena, shares, &cell, 1, 1, 2);
    s.p.pace_share = shares.pace;
    s.p.work_share = shares.kind;
    s.p.pace_mean = x.mean[0];
    s.p.pace_sd = x.root[0];
    s.p.n_works = 2;
    s.p.work_stream = streams;
    s.p.work_mean = x.mean + 1;
    s.p.work_root = x.root + x.n;
    struct belief b = belief_of(&arena, &s.p);
    struct drawn d = drawn_new(&arena, &s.p);
    for (uint32_t run = 0; run < DRAWS; run++) {
        double work, z[JOBS];
        draw_run(&s.p, &b, 12, run, -1, &d, &work);
        for (int i = 0; i < JOBS; i++) {
            z[i] = points_z((struct points){1e6, 2e6, 4e6}, d.minutes[i]);
            sum[i] += z[i] / DRAWS;
            for (int k = 0; k <= i; k++) product[i][k] += z[i] * z[k] / DRAWS;
        }
    }
    for (int i = 0; i < JOBS; i++) {
        const struct normal own = pace_of_kind(&x, shares, kind[i]);
        assert_near(sum[i], own.mean, 4 / sqrt(DRAWS));
        assert_near(product[i][i] - sum[i] * sum[i], own.sd * own.sd + 0.5, 8 / sqrt(DRAWS));
    }
    const double of_kind = pace_of_kind(&x, shares, 0).sd;
    assert_near(product[1][0] - sum[1] * sum[0], of_kind * of_kind, 6 / sqrt(DRAWS));
    assert_true(product[2][0] - sum[2] * sum[0] < of_kind * of_kind - 6 / sqrt(DRAWS));
}

/* A part is the same market for all who want it; by_share shrinks minutes and counts. */
static void shares_of_components(void **state)
{
    (void)state;
    small_begin(&s);
    int wheels[4], all = small_job(&s, "all", 100);
    for (int i = 0; i < 4; i++) {
        wheels[i] = small_component(&s, "wheel", i == 1 ? COND_POOR : COND_SOUND);
        small_need(&s, all, wheels[i], 1u << COND_POOR | 1u << COND_FAILED);
    }
    s.jobs[all].by_share = true;
    int part = small_part(&s, "cylinder", 0, 0);
    s.parts[part].price = about(1000, 2000, 3000);
    small_buy(&s, all, part, 4);
    int other = small_job(&s, "other", 7);
    small_buy(&s, other, part, 1);
    struct belief b = belief_of(&arena, &s.p);
    struct drawn d = drawn_new(&arena, &s.p);
    double work;
    draw_run(&s.p, &b, 1, 0, -1, &d, &work);
    assert_int_equal(d.minutes[all], 25);
    assert_near(d.price[all], d.price[other], 0); /* one of four */
    s.components[wheels[3]].known = COND_FAILED;
    s.components[wheels[0]].known = COND_FAILED;
    draw_run(&s.p, &b, 1, 0, -1, &d, &work);
    assert_int_equal(d.minutes[all], 75);
    assert_near(d.price[all], 3 * d.price[other], 1e-9);
    s.jobs[all].by_share = false;
    draw_run(&s.p, &b, 1, 0, -1, &d, &work);
    assert_int_equal(d.minutes[all], 100);
    assert_near(d.price[all], 4 * d.price[other], 1e-9);
    for (int i = 0; i < 4; i++) s.components[wheels[i]].known = COND_WORN;
    draw_run(&s.p, &b, 1, 0, -1, &d, &work);
    assert_int_equal(d.applies[all], 0);
    assert_int_equal(d.minutes[all], 0);
    assert_int_equal(d.lead[all], -1);
    assert_near(d.price[all], 0, 0);
}

/* The project with one more job, part, component and kind before all others. */
static struct project with_one_more(struct arena *a, const struct project *p)
{
    struct project q = *p;
#define SHIFTED(list, n, type)                                                                     \
    q.list = ARENA_ARRAY(a, type, p->n + 1);                                                       \
    if (p->n > 0) memcpy(q.list + 1, p->list, (size_t)p->n * sizeof(type));                        \
    q.n = p->n + 1
    SHIFTED(jobs, n_jobs, struct project_job);
    SHIFTED(parts, n_parts, struct project_part);
    SHIFTED(components, n_components, struct project_component);
    SHIFTED(kind_stream, n_kinds, uint64_t);
#undef SHIFTED
    q.needs = ARENA_ARRAY(a, int, p->n_needs + 1);
    q.after = ARENA_ARRAY(a, int, p->n_after);
    q.buys = ARENA_ARRAY(a, struct project_buy, p->n_buys + 1);
    q.done = ARENA_ARRAY(a, int, p->n_done);
    q.setbacks = ARENA_ARRAY(a, struct project_setback, p->n_setbacks);
    for (int i = 0; i < p->n_needs; i++) q.needs[i] = p->needs[i] + 1;
    for (int i = 0; i < p->n_after; i++) q.after[i] = p->after[i] + 1;
    for (int i = 0; i < p->n_done; i++) q.done[i] = p->done[i] + 1;
    for (int i = 0; i < p->n_buys; i++)
        q.buys[i] = (struct project_buy){p->buys[i].part + 1, p->buys[i].count};
    for (int i = 0; i < p->n_setbacks; i++) q.setbacks[i] = p->setbacks[i], q.setbacks[i].job++;
    for (int i = 0; i < p->n_components; i++) q.components[i + 1].kind++;
    q.kind_stream[0] = text_hash("kind/new");
    q.components[0] = (struct project_component){.id = "new",
                                                 .stream = text_hash("component/new"),
                                                 .cut = {-1, 0, 1, 2, 3},
                                                 .state = 0.2,
                                                 .kind_share = 0.2,
                                                 .known = -1};
    q.parts[0] = (struct project_part){"new", text_hash("part/new"), about(10, 20, 30),
                                       about(100, 200, 300)};
    q.buys[q.n_buys++] = (struct project_buy){0, 1};
    q.needs[q.n_needs++] = 0;
    q.jobs[0] = (struct project_job){.id = "new",
                                     .stream = text_hash("job/new"),
                                     .minutes = about(1, 2, 3),
                                     .hands = 1,
                                     .warm = -100,
                                     .conditions = 63,
                                     .chance = 1,
                                     .needs = {p->n_needs, 1},
                                     .buys = {p->n_buys, 1}};
    return q;
}

static void an_added_entry_disturbs_no_other(void **state)
{
    (void)state;
    int happened = 0;
    for (uint64_t seed = 0; seed < 60; seed++) {
        struct arena a = arena;
        struct project p = random_project(&a, seed, RANDOM_ALL, 0), q = with_one_more(&a, &p);
        struct fail f = {0};
        if (!project_valid(&q, a, &f)) fail_msg("%s", f.text);
        struct belief pb = belief_of(&a, &p), qb = belief_of(&a, &q);
        struct drawn x = drawn_new(&a, &p), y = drawn_new(&a, &q);
        for (uint32_t run = 0; run < 5; run++) {
            double x_work, y_work;
            double x_money = draw_run(&p, &pb, 9, run, -1, &x, &x_work);
            double y_money = draw_run(&q, &qb, 9, run, -1, &y, &y_work);
            size_t jobs = (size_t)p.n_jobs;
            assert_memory_equal(x.condition, y.condition + 1, (size_t)p.n_components);
            assert_memory_equal(x.applies, y.applies + 1, jobs);
            assert_memory_equal(x.minutes, y.minutes + 1, jobs * sizeof *x.minutes);
            assert_memory_equal(x.wait, y.wait + 1, jobs * sizeof *x.wait);
            assert_memory_equal(x.again_minutes, y.again_minutes + 1, jobs * sizeof *x.minutes);
            assert_memory_equal(x.again_wait, y.again_wait + 1, jobs * sizeof *x.wait);
            assert_memory_equal(x.lead, y.lead + 1, jobs * sizeof *x.lead);
            assert_memory_equal(x.again_lead, y.again_lead + 1, jobs * sizeof *x.lead);
            assert_memory_equal(x.price, y.price + 1, jobs * sizeof *x.price);
            assert_memory_equal(x.again_price, y.again_price + 1, jobs * sizeof *x.price);
            assert_memory_equal(x.buy_lead, y.buy_lead, (size_t)p.n_buys * sizeof *x.buy_lead);
            assert_memory_equal(x.fired, y.fired, (size_t)p.n_setbacks);
            assert_memory_equal(x.kept, y.kept, (size_t)p.n_sessions);
            assert_true(y.applies[0] && y_money > x_money && y_work > x_work);
            for (int i = 0; i < p.n_setbacks; i++) happened += x.fired[i];
        }
    }
    assert_true(happened > 100);
}

/* The setback that never happens takes its own hours away and nothing else. */
static void without_one_setback(void **state)
{
    (void)state;
    int fired = 0;
    for (uint64_t seed = 0; seed < 30; seed++) {
        struct arena a = arena;
        struct project p = random_project(&a, seed, RANDOM_ALL, 40);
        struct belief b = belief_of(&a, &p);
        struct drawn x = drawn_new(&a, &p), y = drawn_new(&a, &p);
        double x_work, y_work;
        draw_run(&p, &b, 2, 0, -1, &x, &x_work);
        for (int without = 0; without < p.n_setbacks; without++) {
            draw_run(&p, &b, 2, 0, without, &y, &y_work);
            fired += x.fired[without];
            assert_int_equal(y.fired[without], 0);
            for (int i = 0; i < p.n_setbacks; i++)
                if (i != without) assert_int_equal(x.fired[i], y.fired[i]);
            for (int j = 0; j < p.n_jobs; j++) {
                assert_int_equal(x.minutes[j], y.minutes[j]);
                if (p.setbacks[without].job == j)
                    assert_true(x.again_minutes[j] >= y.again_minutes[j]);
                else
                    assert_int_equal(x.again_minutes[j], y.again_minutes[j]);
            }
        }
    }
    assert_true(fired > 50);
}

static void a_finished_job_draws_nothing(void **state)
{
    (void)state;
    small_begin(&s);
    int job = small_job(&s, "job", 50);
    int part = small_part(&s, "part", 10, 10);
    small_buy(&s, job, part, 1);
    s.jobs[job].wait = exactly(60);
    s.jobs[job].finished = true;
    small_setback(&s, job, 50, 10, part);
    struct small_run r = small_do(&arena, &s.p, 1);
    const struct drawn *d = &r.drawn;
    assert_true(d->applies[job] == 0 && d->minutes[job] == 0 && d->wait[job] == 0 &&
                d->again_minutes[job] == 0 && d->again_wait[job] == 0 && d->lead[job] == -1 &&
                d->again_lead[job] == -1 && d->fired[0] == 0);
    assert_near(r.money, 0, 0);
    assert_near(r.work, 0, 0);
    assert_int_equal(r.outcome.finish, 0);
}

/* A ladder of 0.5, 0.4, 1: it ends at the first step in 0.5 of the runs, at the second in 0.5 x
 * 0.4, at the third in the other 0.3; what was done on the way counts. */
static void ladders_are_climbed(void **state)
{
    (void)state;
    small_begin(&s);
    int job = small_job(&s, "job", 50);
    static const struct project_step steps[] = {
        {.works = 0.5, .minutes = {100, 0, 0}},
        {.works = 0.4, .minutes = {1000, 0, 0}, .wait = {7, 0, 0}},
        {.works = 1, .minutes = {10000, 0, 0}},
    };
    small_setback(&s, job, 1, 1, -1);
    for (int i = 0; i < 3; i++) s.steps[i] = steps[i];
    s.p.n_steps = 3;
    s.setbacks[0].steps.count = 3;
    s.setbacks[0].chance[0] = 0.7;
    struct belief b = belief_of(&arena, &s.p);
    struct drawn d = drawn_new(&arena, &s.p);
    int none = 0, first = 0, second = 0, third = 0;
    for (uint32_t run = 0; run < DRAWS; run++) {
        double work;
        draw_run(&s.p, &b, 17, run, -1, &d, &work);
        assert_near(work, 50 + d.again_minutes[job], 0);
        assert_int_equal(d.fired[0], d.again_minutes[job] > 0);
        if (d.again_minutes[job] == 0)
            none++;
        else if (d.again_minutes[job] == 100 && d.again_wait[job] == 0)
            first++;
        else if (d.again_minutes[job] == 1100 && d.again_wait[job] == 7)
            second++;
        else if (d.again_minutes[job] == 11100 && d.again_wait[job] == 7)
            third++;
    }
    assert_int_equal(none + first + second + third, DRAWS);
    assert_share((double)none / DRAWS, 0.3, DRAWS, 0);
    assert_share((double)first / DRAWS, 0.7 * 0.5, DRAWS, 0);
    assert_share((double)second / DRAWS, 0.7 * 0.2, DRAWS, 0);
    assert_share((double)third / DRAWS, 0.7 * 0.3, DRAWS, 0);
}

/* Once: by the worst of the components. Each: a throw for every one. */
static void setbacks_follow_conditions(void **state)
{
    (void)state;
    small_begin(&s);
    int job = small_job(&s, "job", 50), found[3];
    static const int known[3] = {COND_WORN, COND_FAILED, COND_SOUND};
    for (int i = 0; i < 3; i++) {
        found[i] = small_component(&s, i == 0 ? "left" : i == 1 ? "right" : "spare", known[i]);
        small_need(&s, job, found[i], 63);
    }
    for (int each = 0; each < 2; each++) {
        small_setback(&s, job, 10, 0, -1);
        s.setbacks[each].each = each;
        s.setbacks[each].needs = s.jobs[job].needs;
        const double chance[COND_COUNT] = {
            [COND_SOUND] = 0, [COND_WORN] = 0.2, [COND_FAILED] = 0.6};
        memcpy(s.setbacks[each].chance, chance, sizeof chance);
    }
    struct belief b = belief_of(&arena, &s.p);
    struct drawn d = drawn_new(&arena, &s.p);
    int once = 0, twice = 0, single = 0;
    for (uint32_t run = 0; run < DRAWS; run++) {
        double work;
        draw_run(&s.p, &b, 23, run, -1, &d, &work);
        assert_int_equal(d.again_minutes[job], 10 * (d.fired[0] + d.fired[1]));
        single += d.fired[0];
        once += d.fired[1] == 1;
        twice += d.fired[1] == 2;
    }
    assert_share((double)single / DRAWS, 0.6, DRAWS, 0);
    assert_share((double)twice / DRAWS, 0.2 * 0.6, DRAWS, 0);
    assert_share((double)once / DRAWS, 0.2 * 0.4 + 0.8 * 0.6, DRAWS, 0);
}

/* Sessions are kept by their share; a lay-off begins in a month by its chance and takes all
 * sessions while it lasts. */
static void sessions_and_layoffs(void **state)
{
    (void)state;
    enum { MONTH = 43830, RUNS = 20000 };
    small_begin(&s);
    small_job(&s, "job", 50);
    for (int i = 0; i < 48; i++) small_session(&s, i * MONTH + 20000, i * MONTH + 20100);
    s.p.kept = 0.7;
    struct belief b = belief_of(&arena, &s.p);
    struct drawn d = drawn_new(&arena, &s.p);
    double work, kept = 0, off = 0;
    for (uint32_t run = 0; run < RUNS; run++) {
        draw_run(&s.p, &b, 29, run, -1, &d, &work);
        for (int i = 0; i < 48; i++) kept += d.kept[i];
    }
    assert_share(kept / RUNS / 48, 0.7, RUNS * 48, 0);
    /* A lay-off of exactly two months. A session at the share v of its month is lost if one began
     * in its own month before v, at any time of the month before, or in the one before that after
     * v. */
    s.p.kept = 1;
    s.p.layoff_a_month = 0.1;
    s.p.layoff = exactly(2 * MONTH);
    for (uint32_t run = 0; run < RUNS; run++) {
        draw_run(&s.p, &b, 31, run, -1, &d, &work);
        off += !d.kept[24];
    }
    double q = 0.1, v = 20000.0 / MONTH;
    assert_share(off / RUNS, 1 - (1 - q * v) * (1 - q) * (1 - q * (1 - v)), RUNS, 0);
}

static void typical_run(void **state)
{
    (void)state;
    struct project p = random_project(&arena, 4, RANDOM_ALL, 60);
    struct drawn d = drawn_new(&arena, &p);
    uint8_t *applies = ARENA_ARRAY(&arena, uint8_t, p.n_jobs);
    for (int j = 0; j < p.n_jobs; j++) applies[j] = j % 3 != 0;
    draw_typical(&p, applies, &d);
    for (int j = 0; j < p.n_jobs; j++) {
        bool on = applies[j] && !p.jobs[j].finished;
        assert_int_equal(d.applies[j], on);
        if (on) assert_near(d.minutes[j], p.jobs[j].minutes.middle, 0.5);
        assert_int_equal(d.again_minutes[j], 0);
    }
    for (int i = 0; i < p.n_sessions; i++) assert_int_equal(d.kept[i], 1);
}

static int open_arena(void **state)
{
    (void)state;
    arena = arena_open((size_t)1 << 26);
    return 0;
}

static int close_arena(void **state)
{
    (void)state;
    arena_close(&arena);
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(three_points_come_back),
        cmocka_unit_test(kinds_of_work_are_shared),
        cmocka_unit_test(shares_of_components),
        cmocka_unit_test(an_added_entry_disturbs_no_other),
        cmocka_unit_test(without_one_setback),
        cmocka_unit_test(a_finished_job_draws_nothing),
        cmocka_unit_test(ladders_are_climbed),
        cmocka_unit_test(setbacks_follow_conditions),
        cmocka_unit_test(sessions_and_layoffs),
        cmocka_unit_test(typical_run),
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}
