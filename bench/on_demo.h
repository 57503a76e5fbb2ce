/* on_demo.h - what benchmark programs about the demonstration vehicle have in common: the garage
 * that is named, its first vehicle, and the time. */
#ifndef BENCH_ON_DEMO_H
#define BENCH_ON_DEMO_H

#include "garage/garage.h"
#include "library/trade.h"

#include <stdio.h>
#include <time.h>

static inline double seconds(clockid_t clock)
{
    struct timespec t;
    clock_gettime(clock, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

typedef bool on_demo_measure(struct arena a, struct garage *g, const struct trade *t,
                             const char *vehicle, struct fail *f);

/* argv[1]: a garage, build/demo if it is not there. The status to end with. */
static inline int on_demo(const char *program, int argc, char **argv, on_demo_measure *measure)
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
        fprintf(stderr, "%s: %s\n", program, f.text);
        return 3;
    }
    bool ok = garage_list(g, &a, record_kind_find("vehicle"), NULL, &vehicles, &n, &f) &&
              (n > 0 || fail_set(&f, FAIL_INPUT, "no vehicle in it")) &&
              measure(a, g, t, vehicles[0].id, &f);
    garage_close(g);
    if (!ok) fprintf(stderr, "%s: %s\n", program, f.text);
    arena_close(&a);
    return ok ? 0 : 3;
}

#endif
