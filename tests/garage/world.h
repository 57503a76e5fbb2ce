/* world.h - a garage in a temporary folder, with its own clock and chance, for the tests of the
 * store. */
#ifndef TESTS_GARAGE_WORLD_H
#define TESTS_GARAGE_WORLD_H

/* cmocka.h needs these before it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "garage/garage.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

struct world {
    struct arena arena;
    char root[64]; /* a new folder */
    char dir[80];  /* root/garage */
    int64_t now;
    uint64_t chance;
    struct garage_source source;
    struct garage *garage;
    struct fail fail;
};

static int64_t world_now(void *context)
{
    return ((struct world *)context)->now++;
}

/* Numbers that are different, and the same at each run (a linear congruence, constants of Knuth's
 * MMIX). */
static void world_random(void *context, void *out, size_t n)
{
    uint64_t *x = &((struct world *)context)->chance;
    for (size_t i = 0; i < n; i++) {
        *x = *x * 6364136223846793005u + 1442695040888963407u;
        ((unsigned char *)out)[i] = (unsigned char)(*x >> 56);
    }
}

/* A world without a garage. */
static struct world *world_open(void)
{
    struct world *w = calloc(1, sizeof *w);
    assert_non_null(w);
    w->arena = arena_open((size_t)1 << 28);
    snprintf(w->root, sizeof w->root, "/tmp/fettle-test-XXXXXX");
    assert_non_null(mkdtemp(w->root));
    snprintf(w->dir, sizeof w->dir, "%s/garage", w->root);
    w->now = 1795633200; /* 2026-11-25T19:00:00Z */
    w->source = (struct garage_source){world_now, world_random, w, "demo"};
    return w;
}

static inline void world_garage(struct world *w)
{
    if (!w->garage && !garage_create(w->dir, "Europe/London", &w->source, &w->fail))
        fail_msg("%s", w->fail.text);
    if (!garage_open(&w->arena, w->dir, GARAGE_WRITE, &w->source, &w->garage, &w->fail))
        fail_msg("%s", w->fail.text);
}

static void world_close(struct world *w)
{
    char command[200];
    if (w->garage) garage_close(w->garage);
    snprintf(command, sizeof command, "chmod -R u+w %s; rm -rf %s", w->root, w->root);
    assert_int_equal(system(command), 0);
    arena_close(&w->arena);
    free(w);
}

/* A record from "field=text" words, NULL at the end. */
__attribute__((sentinel)) static inline struct record *world_record(struct world *w,
                                                                    const char *kind, ...)
{
    struct record *r = record_new(&w->arena, record_kind_find(kind));
    va_list args;
    va_start(args, kind);
    for (const char *word; (word = va_arg(args, const char *));) {
        const char *equals = strchr(word, '=');
        char *field = arena_copy_n(&w->arena, word, (size_t)(equals - word));
        if (!record_set(&w->arena, r, field, equals + 1, "GBP", &w->fail))
            fail_msg("%s", w->fail.text);
    }
    va_end(args);
    return r;
}

/* One act that adds it. */
static inline struct record *world_add(struct world *w, struct record *r)
{
    if (!garage_begin(w->garage, &w->fail) || !garage_add(w->garage, r, &w->fail) ||
        !garage_commit(w->garage, &w->fail))
        fail_msg("%s", w->fail.text);
    return r;
}

static inline int world_count(struct world *w, const char *kind, const char *vehicle)
{
    struct record *list;
    int n;
    if (!garage_list(w->garage, &w->arena, record_kind_find(kind), vehicle, &list, &n, &w->fail))
        fail_msg("%s", w->fail.text);
    return n;
}

static inline int world_faults(struct world *w, const char **report)
{
    struct text t = {.arena = &w->arena};
    int entries, faults;
    if (!garage_check(w->garage, &t, &entries, &faults, &w->fail)) fail_msg("%s", w->fail.text);
    if (report) *report = text_get(&t);
    return faults;
}

#endif
