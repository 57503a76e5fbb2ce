/* bench_large_garage.c - makes a garage as large as one may get: 40 vehicles, 100,000 journal
 * entries, 5,000 of them photographs, all invented. The photographs' files hold no picture: pages
 * are measured with it, not pictures. Told: how long writing took.
 *
 *   bench_large_garage DIR   the folder must not exist; without DIR nothing is done */
#include "garage/file.h"
#include "garage/garage.h"

#include <assert.h>
#include <sodium.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

enum { VEHICLES = 40, ENTRIES = 100000, PHOTOGRAPHS = 5000, FILES = 100, AN_ACT = 500 };

struct making {
    char id[VEHICLES][33];
    const char *files[FILES]; /* by digest; a file stands for several photographs */
};

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

static bool add_vehicles(struct garage *g, struct arena *a, struct making *m, struct fail *f)
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
        snprintf(m->id[i], sizeof m->id[i], "%s", r->id);
    }
    return good && garage_commit(g, f);
}

static bool make_files(struct arena *a, const char *dir, struct making *m, struct fail *f)
{
    for (int i = 0; i < FILES; i++) {
        const char *bytes = arena_print(a, "stands for photograph %d", i);
        struct file_new *file;
        if (!file_begin(a, dir, &file, f)) return false;
        bool good =
            file_write(file, bytes, strlen(bytes), f) && file_seal(file, f) && file_keep(file, f);
        m->files[i] = good ? arena_copy(a, file_digest(file)) : NULL;
        file_close(file);
        if (!good) return false;
    }
    return true;
}

static struct record *finding(struct arena *a, const struct making *m, int i)
{
    static const char *const components[] = {"battery",    "sill@outside-left", "radiator",
                                             "fuel-tank",  "tyre@front-left",   "loom-bonnet",
                                             "carburettor"};
    static const char *const conditions[] = {"sound", "worn", "poor", "failed"};
    return RECORD(a, "finding", "vehicle", m->id[i % VEHICLES], "component",
                  components[i / VEHICLES % 7], "condition", conditions[i % 4], "date",
                  "2026-11-20", "note", arena_print(a, "look %d: as before, dry and dusty", i));
}

static struct record *photograph(struct arena *a, const struct making *m, int i)
{
    struct record *r =
        RECORD(a, "photograph", "vehicle", m->id[i % VEHICLES], "taken", "2026-11-20", "file",
               m->files[i % FILES], "type", "jpeg", "width", "4000", "height", "3000");
    struct fail f;
    if (i % 3 && !record_set(a, r, "component", "radiator", NULL, &f)) assert(!"no such field");
    return r;
}

static bool add_many(struct garage *g, struct arena keep, const struct making *m, int count,
                     struct record *make(struct arena *a, const struct making *m, int i),
                     struct fail *f)
{
    for (int i = 0; i < count;) {
        struct arena a = keep; /* an act's records are let go after it */
        if (!garage_begin(g, f)) return false;
        for (int k = 0; k < AN_ACT && i < count; k++, i++)
            if (!garage_add(g, make(&a, m, i), f)) return false;
        if (!garage_commit(g, f)) return false;
    }
    return true;
}

int main(int argc, char *argv[])
{
    static struct making m;
    struct fail f = {0};
    struct garage *g;
    if (argc < 2) return 0;
    if (sodium_init() < 0) return 1;
    struct arena a = arena_open((size_t)1 << 30);
    const double begun = seconds();
    bool good = garage_create(argv[1], "UTC", NULL, &f) &&
                garage_open(&a, argv[1], GARAGE_WRITE, NULL, &g, &f);
    if (good) {
        good = add_vehicles(g, &a, &m, &f) && make_files(&a, argv[1], &m, &f) &&
               add_many(g, a, &m, PHOTOGRAPHS, photograph, &f) &&
               add_many(g, a, &m, ENTRIES - PHOTOGRAPHS - VEHICLES - 2, finding, &f);
        garage_close(g);
    }
    if (!good) {
        fprintf(stderr, "%s\n", f.text);
        return 1;
    }
    printf("%d vehicles, %d journal entries, %d of them photographs, in %.1f s\n", VEHICLES,
           ENTRIES, PHOTOGRAPHS, seconds() - begun);
    arena_close(&a);
    return 0;
}
