/* bench_forecast.c - runs of the forecast a second, on the demonstration vehicle made safe to
 * drive.
 *
 *   bench_forecast [GARAGE]             timings; GARAGE is build/demo unless told: fettle demo DIR
 * makes one bench_forecast --project [GARAGE]   its network without hands, calendar, purse and
 * setbacks, as numpy_forecast.py reads it
 *
 * Timed: draws and dispatching of all runs, with one thread and with two; not the making of the
 * project. The best of the repeats is given, for the machine may be busy. */
#include "model/model.h"
#include "reckon/forecast.h"
#include "reckon/network.h"
#include "reckon/quantile.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

enum { RUNS = 4000, REPEATS = 7, SEED = 1959 };

/* The morning after the last of the demonstration's facts. */
static const char *const TODAY = "2026-11-25";

static bool demonstration(struct arena *a, const char *dir, struct model *out, struct fail *f)
{
    struct garage *g;
    struct trade *t = ARENA_NEW(a, struct trade);
    struct trade_faults faults = {0};
    struct facts *facts = ARENA_NEW(a, struct facts);
    struct record *vehicles;
    int n;
    struct model_ask ask = {0};
    if (!day_parse(TODAY, &ask.today, f) || !trade_load(a, NULL, t, &faults, f) ||
        !garage_open(a, dir, GARAGE_READ, NULL, &g, f))
        return false;
    ask.direction = trade_find_direction(t, "drive");
    bool ok = garage_list(g, a, record_kind_find("vehicle"), NULL, &vehicles, &n, f) &&
              (n > 0 || fail_set(f, FAIL_INPUT, "%s: no vehicle in it", dir)) &&
              facts_read(g, a, t, vehicles[0].id, facts, f) &&
              model_make(a, t, facts, &ask, out, f);
    garage_close(g);
    return ok;
}

/* All jobs that are not finished, always needed, held by precedence and waits alone. */
static struct project network_only(struct arena *a, const struct project *p)
{
    struct project q = *p;
    q.jobs = ARENA_ARRAY(a, struct project_job, p->n_jobs);
    q.done = ARENA_ARRAY(a, int, p->n_jobs);
    q.sessions = ARENA_NEW(a, struct project_session);
    q.n_sessions = 1;
    q.sessions[0] = (struct project_session){0, NEVER - 1, p->n_jobs, true, 20};
    q.n_done = q.n_components = q.n_setbacks = 0;
    q.purse = (struct project_purse){.open = true};
    q.kept = 1;
    q.layoff_a_month = 0;
    q.pace_mean = 0;
    q.pace_sd = 1;
    q.work_share = 0; /* the model beside it knows no kinds of work */
    q.n_works = 0;
    for (int j = 0; j < p->n_jobs; j++) {
        const struct project_job *job = &p->jobs[j];
        q.jobs[j] = (struct project_job){.id = job->id,
                                         .stream = job->stream,
                                         .minutes = job->minutes,
                                         .wait = job->wait,
                                         .after = job->after,
                                         .hands = 1,
                                         .warm = -100,
                                         .chance = 1};
        q.done[q.n_done++] = j;
    }
    return q;
}

static void print_points(const char *name, const struct spread *s)
{
    const double z90 = 1.2815515655446004; /* the 90 % point of the standard normal */
    printf("\"%s\": [%.10g, %.10g, %.10g]", name, s->middle * exp(-z90 * s->below), s->middle,
           s->middle * exp(z90 * s->above));
}

/* As JSON, every job behind those that it comes after. */
static void print_project(struct arena *a, const struct project *p)
{
    struct network_link *links = ARENA_ARRAY(a, struct network_link, p->n_after);
    struct network network;
    struct network_cycle cycle;
    int n = 0, *place = ARENA_ARRAY(a, int, p->n_jobs);
    for (int j = 0; j < p->n_jobs; j++)
        for (int i = 0; i < p->jobs[j].after.count; i++)
            links[n++] = (struct network_link){p->after[p->jobs[j].after.first + i], j};
    network_make(a, p->n_jobs, links, n, &network, &cycle);
    printf("{\"pace_share\": %.17g, \"state_share\": %.17g, \"jobs\": [", p->pace_share,
           p->state_share);
    for (int i = 0; i < p->n_jobs; i++) {
        int j = network.order[i];
        place[j] = i;
        printf("%s\n {", i > 0 ? "," : "");
        print_points("minutes", &p->jobs[j].minutes);
        printf(", ");
        print_points("wait", &p->jobs[j].wait);
        printf(", \"after\": [");
        for (int k = 0; k < p->jobs[j].after.count; k++)
            printf("%s%d", k > 0 ? ", " : "", place[p->after[p->jobs[j].after.first + k]]);
        printf("]}");
    }
    printf("]}\n");
}

static double seconds(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static void measure(struct arena a, const struct project *p, const char *what)
{
    struct belief belief = belief_of(&a, p);
    const struct dispatch *d = dispatch_prepare(&a, p, NULL);
    for (int threads = 1; threads <= 2; threads++) {
        double best = INFINITY, finish[RUNS];
        for (int repeat = 0; repeat < REPEATS; repeat++) {
            struct arena run = a;
            struct forecast_ask ask = {
                .seed = SEED, .runs = RUNS, .threads = threads, .without = -1};
            double begun = seconds();
            struct forecast fc = forecast_run(&run, p, &belief, d, &ask);
            best = fmin(best, seconds() - begun);
            for (int i = 0; i < RUNS; i++)
                finish[i] = fc.finish[i] == NEVER ? (double)INFINITY : fc.finish[i];
        }
        double p50 = quantile_of(finish, RUNS, 0.5), p80 = quantile_of(finish, RUNS, 0.8);
        printf("{\"program\": \"bench_forecast\", \"project\": \"%s\", \"jobs\": %d, \"runs\": %d, "
               "\"threads\": %d, "
               "\"seconds\": %.6f, \"runs_per_second\": %.0f, \"finish_minutes\": {\"p50\": %.1f, "
               "\"p80\": %.1f}}\n",
               what, p->n_jobs, RUNS, threads, best, RUNS / best, p50, p80);
    }
}

int main(int argc, char **argv)
{
    bool project = argc > 1 && strcmp(argv[1], "--project") == 0;
    const char *dir = argc > 1 + project ? argv[1 + project] : "build/demo";
    struct arena a = arena_open((size_t)1 << 30);
    struct model model;
    struct fail f = {0};
    if (!demonstration(&a, dir, &model, &f)) {
        fprintf(stderr, "bench_forecast: %s\n", f.text);
        return 3;
    }
    struct project plain = network_only(&a, &model.project);
    if (project) {
        print_project(&a, &plain);
    } else {
        const struct project *p = &model.project;
        printf("demonstration vehicle to drive: %d jobs, %d components, %d setbacks, %d parts, %d "
               "sessions\n",
               p->n_jobs, p->n_components, p->n_setbacks, p->n_parts, p->n_sessions);
        measure(a, p, "whole");
        measure(a, &plain, "network only");
    }
    arena_close(&a);
    return 0;
}
