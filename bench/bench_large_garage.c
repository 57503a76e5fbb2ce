/* bench_large_garage.c - makes a garage as large as one may get: 40 vehicles, 100,000 journal
 * entries, all invented. Told: how long writing took.
 *
 *   bench_large_garage DIR   the folder must not exist; without DIR nothing is done */
#include "garage/garage.h"

#include <assert.h>
#include <sodium.h>
#include <stdio.h>
#include <time.h>

enum { VEHICLES = 40, ENTRIES = 100000, AN_ACT = 500 };

static double seconds(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static struct record *record_of(struct arena *a, const char *kind, const char *const *pairs)
{
    struct fail f = {0};
    struct record *r = record_new(a, record_kind_find(kind));
    for (; *pairs; pairs += 2)
        if (!record_set(a, r, pairs[0], pairs[1], "GBP", &f)) {
            fprintf(stderr, "%s\n", f.text);
            assert(!"a value that is refused");
        }
    return r;
}

#define RECORD(a, kind, ...) record_of(a, kind, (const char *const[]){__VA_ARGS__, NULL})

static bool add_vehicles(struct garage *g, struct arena *a, char id[VEHICLES][33], struct fail *f)
{
    bool good = garage_begin(g, f) &&
                garage_add(g,
                           RECORD(a, "workshop", "hours-a-week", "40", "hands", "4", "bays", "6",
                                  "currency", "GBP"),
                           f) &&
                garage_add(g, RECORD(a, "purse", "a-month", "9000 GBP", "in-hand", "20000 GBP"), f);
    for (int i = 0; good && i < VEHICLES; i++) {
        struct record *r =
            RECORD(a, "vehicle", "name", arena_print(a, "Linnet %d", i + 1), "maker", "Ostrand",
                   "kind", i % 4 ? "car" : "pickup", "year", arena_print(a, "%d", 1948 + i % 25),
                   "standing", arena_print(a, "%d", 10 + i % 30), "storage", i % 3 ? "dry" : "damp",
                   "rank", arena_print(a, "%d", i + 1));
        good = garage_add(g, r, f);
        snprintf(id[i], sizeof id[i], "%s", r->id);
    }
    return good && garage_commit(g, f);
}

static bool add_findings(struct garage *g, struct arena keep, char id[VEHICLES][33], int count,
                         struct fail *f)
{
    static const char *const components[] = {"battery",    "sill@outside-left", "radiator",
                                             "fuel-tank",  "tyre@front-left",   "loom-bonnet",
                                             "carburettor"};
    static const char *const conditions[] = {"sound", "worn", "poor", "failed"};
    for (int i = 0; i < count;) {
        struct arena a = keep; /* an act's records are let go after it */
        if (!garage_begin(g, f)) return false;
        for (int k = 0; k < AN_ACT && i < count; k++, i++)
            if (!garage_add(g,
                            RECORD(&a, "finding", "vehicle", id[i % VEHICLES], "component",
                                   components[i / VEHICLES % 7], "condition", conditions[i % 4],
                                   "date", "2026-11-20", "note",
                                   arena_print(&a, "look %d: as before, dry and dusty", i)),
                            f))
                return false;
        if (!garage_commit(g, f)) return false;
    }
    return true;
}

int main(int argc, char *argv[])
{
    static char id[VEHICLES][33];
    struct fail f = {0};
    struct garage *g;
    if (argc < 2) return 0;
    if (sodium_init() < 0) return 1;
    struct arena a = arena_open((size_t)1 << 30);
    const double begun = seconds();
    bool good = garage_create(argv[1], "UTC", NULL, &f) &&
                garage_open(&a, argv[1], GARAGE_WRITE, NULL, &g, &f);
    if (good) {
        good = add_vehicles(g, &a, id, &f) && add_findings(g, a, id, ENTRIES - VEHICLES - 2, &f);
        garage_close(g);
    }
    if (!good) {
        fprintf(stderr, "%s\n", f.text);
        return 1;
    }
    printf("%d vehicles, %d journal entries in %.1f s\n", VEHICLES, ENTRIES, seconds() - begun);
    arena_close(&a);
    return 0;
}
