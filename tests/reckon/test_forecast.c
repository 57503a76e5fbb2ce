/* test_forecast.c - the columns of many runs: the same bytes for any number of threads, and, where
 * nothing but precedence holds a job, the forward pass of the critical path method, run by run. */
#include "reckon/forecast.h"

#include "base/random.h"
#include "base/text.h"
#include "reckon/near.h"
#include "reckon/quantile.h"
#include "reckon/random_project.h"
#include "reckon/reliable.h"
#include "reckon/small_project.h"

#include <string.h>

static struct arena arena;

static struct forecast ask(struct arena *a, const struct project *p, int runs, int threads,
                           int without)
{
    struct belief *b = ARENA_NEW(a, struct belief);
    *b = belief_of(a, p);
    struct forecast_ask how = {
        .seed = 12, .runs = runs, .threads = threads, .without = without, .detail = true};
    return forecast_run(a, p, b, dispatch_prepare(a, p, NULL), &how);
}

static void assert_same(const struct project *p, const struct forecast *x, const struct forecast *y)
{
    size_t runs = (size_t)x->runs;
    assert_memory_equal(x->finish, y->finish, runs * sizeof *x->finish);
    assert_memory_equal(x->cost, y->cost, runs * sizeof *x->cost);
    assert_memory_equal(x->work, y->work, runs * sizeof *x->work);
    assert_memory_equal(x->out_of_money, y->out_of_money, runs);
    for (int h = 0; h < HOLD_COUNT; h++)
        assert_memory_equal(x->hang[h], y->hang[h], runs * sizeof(float));
    assert_memory_equal(x->condition, y->condition, runs * (size_t)p->n_components);
    assert_memory_equal(x->start, y->start, runs * (size_t)p->n_jobs * sizeof *x->start);
    assert_memory_equal(x->end, y->end, runs * (size_t)p->n_jobs * sizeof *x->end);
    assert_memory_equal(x->critical, y->critical, runs * (size_t)p->n_jobs);
    assert_memory_equal(x->order_by, y->order_by, runs * (size_t)p->n_parts * sizeof *x->order_by);
    assert_memory_equal(x->fired, y->fired, runs * (size_t)p->n_setbacks);
    assert_memory_equal(x->month, y->month, runs * FORECAST_MONTHS * sizeof *x->month);
}

static void same_bytes_for_any_threads(void **state)
{
    (void)state;
    enum { RUNS = 333 }; /* no whole number of chunks */
    for (uint64_t seed = 0; seed < 8; seed++) {
        struct arena a = arena;
        struct project p = random_project(&a, seed, RANDOM_ALL, 0);
        struct forecast one = ask(&a, &p, RUNS, 1, -1), two = ask(&a, &p, RUNS, 2, -1),
                        four = ask(&a, &p, RUNS, 4, -1);
        assert_same(&p, &one, &two);
        assert_same(&p, &one, &four);
        /* And a desk that was used for other runs leaves nothing behind: fewer runs are the same
         * first ones. */
        struct forecast few = ask(&a, &p, 7, 1, -1);
        assert_memory_equal(few.finish, one.finish, 7 * sizeof *few.finish);
        assert_memory_equal(few.cost, one.cost, 7 * sizeof *few.cost);
    }
}

/* Told to reckon the finish alone, it leaves out the runs that the purse cannot carry, and says the
 * same of all. */
static void finish_only_says_the_same(void **state)
{
    (void)state;
    enum { RUNS = 200 };
    int poor = 0, rich = 0;
    for (uint64_t seed = 0; seed < 24; seed++) {
        struct arena a = arena;
        struct project p = random_project(&a, seed, RANDOM_ALL, 0);
        struct forecast free = ask(&a, &p, RUNS, 1, -1);
        double middle = quantiles_of(free.cost, RUNS, a).p50;
        p.purse.open = false;
        p.purse.ceiling = middle * (seed % 3 == 0 ? 0.5 : 1);
        if (seed % 2 == 0) p.purse.in_hand = middle;
        struct forecast whole = ask(&a, &p, RUNS, 2, -1);
        struct belief b = belief_of(&a, &p);
        struct forecast_ask how = {
            .seed = 12, .runs = RUNS, .threads = 2, .without = -1, .finish_only = true};
        struct forecast quick = forecast_run(&a, &p, &b, dispatch_prepare(&a, &p, NULL), &how);
        assert_memory_equal(whole.finish, quick.finish, RUNS * sizeof *quick.finish);
        assert_memory_equal(whole.cost, quick.cost, RUNS * sizeof *quick.cost);
        assert_memory_equal(whole.work, quick.work, RUNS * sizeof *quick.work);
        assert_memory_equal(whole.condition, quick.condition, RUNS * (size_t)p.n_components);
        for (int i = 0; i < RUNS; i++) {
            poor += quick.finish[i] == NEVER && quick.cost[i] > p.purse.ceiling;
            rich += quick.finish[i] != NEVER;
        }
    }
    assert_true(poor > RUNS && rich > RUNS);
}

/* The project of reliable.h: 14 jobs with its own three points taken as percentiles of minutes, the
 * two factors shared, hands for all, one session without end. */
static struct project reliable_project(struct small *s)
{
    static const char *const names[RELIABLE_JOBS] = {"A", "B", "C", "D", "E", "F", "G",
                                                     "H", "I", "J", "K", "L", "M", "N"};
    small_begin(s);
    for (int j = 0; j < RELIABLE_JOBS; j++) {
        const struct pert *e = &reliable_estimate[j];
        small_job(s, names[j], 1);
        s->jobs[j].minutes = spread_of((struct points){e->least, e->likeliest, e->most}, 10000);
        for (int i = 0; i < RELIABLE_LINKS; i++)
            if (reliable_links[i].after == j) small_after(s, j, reliable_links[i].before);
    }
    small_session(s, 0, NEVER - 1);
    s->sessions[0].hands = RELIABLE_JOBS;
    s->p.pace_share = 0.3;
    s->p.state_share = 0.2;
    return s->p;
}

static void precedence_alone_is_the_forward_pass(void **state)
{
    (void)state;
    enum { RUNS = 2000 };
    static struct small s;
    struct arena a = arena;
    struct project p = reliable_project(&s);
    struct forecast fc = ask(&a, &p, RUNS, 2, -1);
    struct network n;
    struct network_cycle cycle;
    assert_true(network_make(&a, RELIABLE_JOBS, reliable_links, RELIABLE_LINKS, &n, &cycle));
    int critical[RELIABLE_JOBS] = {0};
    for (uint32_t run = 0; run < RUNS; run++) {
        /* The draws anew from the bare generator: stream 1 holds the state and the pace. */
        struct philox shared = random_words(12, 1, run, 0);
        double duration[RELIABLE_JOBS], start[RELIABLE_JOBS], finish[RELIABLE_JOBS];
        for (int j = 0; j < RELIABLE_JOBS; j++) {
            struct philox own = random_words(12, p.jobs[j].stream, run, 0);
            double z = sqrt(0.3) * random_normal(shared.word[1]) +
                       sqrt(0.2) * normal_quantile(random_unit(shared.word[0])) +
                       sqrt(0.5) * random_normal(own.word[0]);
            const struct pert *e = &reliable_estimate[j];
            duration[j] = floor(
                points_draw((struct points){e->least * 1e4, e->likeliest * 1e4, e->most * 1e4}, z) +
                0.5);
        }
        assert_near(fc.finish[run], network_forward(&n, duration, start, finish), 0);
        int chain[RELIABLE_JOBS], length = network_chain(&n, start, finish, chain);
        for (int j = 0; j < RELIABLE_JOBS; j++) {
            size_t at = (size_t)j * RUNS + run;
            assert_near(fc.start[at], start[j], 0);
            assert_near(fc.end[at], finish[j], 0);
            bool on_chain = false;
            for (int i = 0; i < length; i++) on_chain = on_chain || chain[i] == j;
            assert_int_equal(fc.critical[at], on_chain);
            critical[j] += fc.critical[at];
        }
        assert_near((double)fc.hang[HOLD_HANDS][run], fc.finish[run],
                    1); /* a float holds it to a minute */
    }
    assert_int_equal(critical[A], RUNS); /* nothing passes by A, B and C */
    assert_int_equal(critical[C], RUNS);
    assert_true(critical[J] > critical[I] && critical[H] > 0);
}

static void columns_agree_with_single_runs(void **state)
{
    (void)state;
    enum { RUNS = 60 };
    for (uint64_t seed = 20; seed < 26; seed++) {
        struct arena a = arena;
        struct project p = random_project(&a, seed, RANDOM_ALL, 0);
        struct forecast fc = ask(&a, &p, RUNS, 2, -1);
        struct belief b = belief_of(&a, &p);
        for (uint32_t run = 0; run < RUNS; run++) {
            struct arena run_arena = a;
            struct small_run r = {.drawn = drawn_new(&run_arena, &p)};
            double money = draw_run(&p, &b, 12, run, -1, &r.drawn, &r.work), ordered = 0,
                   months = 0;
            small_dispatch(&run_arena, &p, &r);
            assert_int_equal(fc.finish[run], r.outcome.finish);
            assert_near(fc.cost[run], money, 0);
            assert_near(fc.work[run], r.work, 0);
            for (int i = 0; i < r.schedule.n_orders; i++) ordered += r.schedule.orders[i].price;
            for (int m = 0; m < FORECAST_MONTHS; m++)
                months += (double)fc.month[(size_t)m * RUNS + run];
            assert_near(months, ordered, 1e-5 * ordered);
            assert_true(ordered <= money * (1 + 1e-9));
            for (int part = 0; part < p.n_parts; part++) {
                int32_t by = NEVER;
                for (int j = 0; j < p.n_jobs; j++) {
                    if (!r.drawn.applies[j] || r.schedule.start[j] == NEVER || p.jobs[j].parts_here)
                        continue;
                    for (int i = 0; i < p.jobs[j].buys.count; i++) {
                        int buy = p.jobs[j].buys.first + i;
                        if (p.buys[buy].part != part) continue;
                        int32_t t =
                            r.schedule.start[j] - r.drawn.buy_lead[buy] - (int32_t)p.check_minutes;
                        if (t < by) by = t;
                    }
                }
                assert_int_equal(fc.order_by[(size_t)part * RUNS + run], by);
            }
        }
    }
}

/* Shares of the binding chain: what it hung on, by kind, adds up to its length. */
static void the_chain_adds_up(void **state)
{
    (void)state;
    enum { RUNS = 50 };
    int whole = 0;
    for (uint64_t seed = 0; seed < 20; seed++) {
        struct arena a = arena;
        struct project p = random_project(&a, seed, RANDOM_ALL & ~RANDOM_SETBACKS, 0);
        struct forecast fc = ask(&a, &p, RUNS, 2, -1);
        for (int run = 0; run < RUNS; run++) {
            if (fc.finish[run] == NEVER) continue;
            double sum = 0;
            for (int h = 0; h < HOLD_COUNT; h++) {
                assert_true(fc.hang[h][run] >= 0);
                sum += (double)fc.hang[h][run];
            }
            /* Without setbacks, whose second phase may outlast the start of what hung on the first.
             */
            assert_near(sum, fc.finish[run], 1);
            whole++;
        }
    }
    assert_true(whole > 500);
}

static void without_a_setback(void **state)
{
    (void)state;
    enum { RUNS = 200 };
    struct arena a = arena;
    struct project p = random_project(&a, 3, RANDOM_ALL, 60);
    struct forecast all = ask(&a, &p, RUNS, 2, -1), less;
    int which = 0, often = 0;
    for (int i = 0; i < p.n_setbacks; i++) {
        int fired = 0;
        for (int run = 0; run < RUNS; run++) fired += all.fired[(size_t)i * RUNS + (size_t)run];
        bool works = p.steps[p.setbacks[i].steps.first].minutes.middle > 0;
        if (works && fired > often) which = i, often = fired;
    }
    less = ask(&a, &p, RUNS, 2, which);
    double saved = 0;
    for (int run = 0; run < RUNS; run++) {
        size_t at = (size_t)which * RUNS + (size_t)run;
        assert_int_equal(less.fired[at], 0);
        assert_true(less.work[run] <= all.work[run] && less.cost[run] <= all.cost[run] + 1e-9);
        if (!all.fired[at]) assert_int_equal(less.finish[run], all.finish[run]);
        saved += all.work[run] - less.work[run];
    }
    assert_true(saved > 0);
}

static void note(void *context, double share)
{
    double *last = context;
    assert_true(share > 0 && share <= 1);
    *last = fmax(*last, share);
}

static void progress_is_told(void **state)
{
    (void)state;
    struct arena a = arena;
    struct project p = random_project(&a, 1, RANDOM_ALL, 10);
    struct belief b = belief_of(&a, &p);
    double last = 0;
    struct forecast_ask how = {.seed = 1,
                               .runs = 500,
                               .threads = 1,
                               .without = -1,
                               .progress = note,
                               .progress_context = &last};
    forecast_run(&a, &p, &b, dispatch_prepare(&a, &p, NULL), &how);
    assert_near(last, 1, 0);
}

static int open_arena(void **state)
{
    (void)state;
    arena = arena_open((size_t)1 << 27);
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
        cmocka_unit_test(same_bytes_for_any_threads),
        cmocka_unit_test(finish_only_says_the_same),
        cmocka_unit_test(precedence_alone_is_the_forward_pass),
        cmocka_unit_test(columns_agree_with_single_runs),
        cmocka_unit_test(the_chain_adds_up),
        cmocka_unit_test(without_a_setback),
        cmocka_unit_test(progress_is_told),
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}
