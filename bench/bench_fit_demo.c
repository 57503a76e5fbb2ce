/* bench_fit_demo.c - the parts of the demonstration vehicle: making the problem of fit and solving
 * it.
 *
 *   bench_fit_demo [GARAGE]    GARAGE is build/demo unless told: fettle demo DIR makes one
 *
 * Timed: from facts and model to the proven set; not the forecast that gives the need-dates, which
 * the plan has reckoned already. The median of the repeats. */
#include "model/fit_make.h"
#include "shop/reckoning.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { REPEATS = 41 };

static double seconds(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static int rising(const void *a, const void *b)
{
    const double *x = a, *y = b;
    return (*x > *y) - (*x < *y);
}

static bool measure(struct arena a, struct garage *g, const struct trade *t, const char *vehicle,
                    struct fail *f)
{
    struct facts facts;
    struct model m;
    struct model_ask want = {.direction = trade_find_direction(t, "drive")};
    double *day_of = ARENA_ARRAY(&a, double, t->n_jobs + 1);
    double *critical = ARENA_ARRAY(&a, double, t->n_jobs + 1);
    double took[REPEATS];
    struct fit_problem p;
    struct fit_answer answer;
    if (!day_parse("2026-11-25", &want.today, f) || !facts_read(g, &a, t, vehicle, &facts, f) ||
        !model_make(&a, t, &facts, &want, &m, f))
        return false;
    for (int j = 0; j < t->n_jobs; j++) day_of[j] = 90 + j, critical[j] = 0.3;
    const struct fit_ask ask = {.model = &m,
                                .facts = &facts,
                                .need_day = day_of,
                                .critical = critical,
                                .late_day = 200,
                                .keep_original = 150000,
                                .budget = -1,
                                .wanted = -1};
    for (int i = 0; i < REPEATS; i++) {
        struct arena run = a;
        const double begun = seconds();
        if (!fit_make(&run, &ask, &p, f)) return false;
        answer = fit_solve(&run, &p.model, FIT_NODES);
        took[i] = seconds() - begun;
    }
    qsort(took, REPEATS, sizeof *took, rising);
    printf("{\"program\": \"bench_fit_demo\", \"needs\": %d, \"options\": %d, \"rules\": %d, "
           "\"proven\": %s, \"milliseconds\": %.1f, \"slowest\": %.1f}\n",
           p.model.n_needs, p.model.n_options, p.model.n_rules,
           answer.state == FIT_PROVEN ? "true" : "false", 1000 * took[REPEATS / 2],
           1000 * took[REPEATS - 1]);
    return true;
}

int main(int argc, char **argv)
{
    struct arena a = arena_open((size_t)1 << 30);
    struct fail f = {0};
    struct trade *t = ARENA_NEW(&a, struct trade);
    struct trade_faults faults = {0};
    struct garage *g;
    struct record *vehicles;
    int n;
    if (!trade_load(&a, NULL, t, &faults, &f) ||
        !garage_open(&a, argc > 1 ? argv[1] : "build/demo", GARAGE_READ, NULL, &g, &f)) {
        fprintf(stderr, "bench_fit_demo: %s\n", f.text);
        return 3;
    }
    bool ok = garage_list(g, &a, record_kind_find("vehicle"), NULL, &vehicles, &n, &f) &&
              (n > 0 || fail_set(&f, FAIL_INPUT, "no vehicle in it")) &&
              measure(a, g, t, vehicles[0].id, &f);
    garage_close(g);
    if (!ok) fprintf(stderr, "bench_fit_demo: %s\n", f.text);
    arena_close(&a);
    return ok ? 0 : 3;
}
