/* bench_fit_demo.c - the parts of the demonstration vehicle: making the problem of fit and solving
 * it.
 *
 *   bench_fit_demo [GARAGE]    GARAGE is build/demo unless told: fettle demo DIR makes one
 *
 * Timed: from facts and model to the proven set; not the forecast that gives the need-dates, which
 * the plan has reckoned already. The median of the repeats. */
#include "model/fit_make.h"
#include "shop/reckoning.h"

#include "on_demo.h"

#include <stdlib.h>

enum { REPEATS = 41 };

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
                                .wanted = -1,
                                .prefer = -1};
    for (int i = 0; i < REPEATS; i++) {
        struct arena run = a;
        const double begun = seconds(CLOCK_MONOTONIC);
        if (!fit_make(&run, &ask, &p, f)) return false;
        answer = fit_solve(&run, &p.model, FIT_NODES);
        took[i] = seconds(CLOCK_MONOTONIC) - begun;
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
    return on_demo("bench_fit_demo", argc, argv, measure);
}
