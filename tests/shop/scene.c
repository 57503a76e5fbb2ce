#include "shop/scene.h"

#include "base/random.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

static int64_t now(void *context)
{
    struct scene *s = context;
    return 1790000000 + s->serial;
}

static void random_bytes(void *context, void *out, size_t n)
{
    struct scene *s = context;
    unsigned char *to = out;
    for (size_t i = 0; i < n; i++) {
        struct philox w = random_words(1, 1, (uint32_t)s->serial++, 0);
        to[i] = (unsigned char)w.word[0];
    }
}

void scene_open(struct scene *s)
{
    struct fail f = {0};
    struct trade_faults faults = {0};
    *s = (struct scene){.arena = arena_open((size_t)1 << 30)};
    snprintf(s->dir, sizeof s->dir, "/tmp/fettle-test-XXXXXX");
    assert_non_null(mkdtemp(s->dir));
    const struct garage_source source = {now, random_bytes, s, "test"};
    if (!garage_create(s->dir, "UTC", &source, &f) ||
        !garage_open(&s->arena, s->dir, GARAGE_WRITE, &source, &s->garage, &f) ||
        !trade_load(&s->arena, NULL, &s->trade, &faults, &f))
        fail_msg("%s", f.text);
}

void scene_close(struct scene *s)
{
    char command[128];
    garage_close(s->garage);
    snprintf(command, sizeof command, "rm -rf '%s'", s->dir);
    assert_int_equal(system(command), 0);
    arena_close(&s->arena);
}

void scene_add(struct scene *s, const char *kind, ...)
{
    struct fail f = {0};
    const struct record_kind *k = record_kind_find(kind);
    assert_non_null(k);
    struct record *r = record_new(&s->arena, k);
    bool good = k->of_garage || text_is(kind, "vehicle") ||
                record_set(&s->arena, r, "vehicle", s->vehicle, NULL, &f);
    va_list args;
    va_start(args, kind);
    for (const char *word = va_arg(args, const char *); word && good;
         word = va_arg(args, const char *)) {
        const char *equals = strchr(word, '=');
        assert_non_null(equals);
        good = record_set(&s->arena, r, arena_copy_n(&s->arena, word, (size_t)(equals - word)),
                          equals + 1, "GBP", &f);
    }
    va_end(args);
    good = good && record_valid(r, &f) && garage_begin(s->garage, &f) &&
           garage_add(s->garage, r, &f) && garage_commit(s->garage, &f);
    if (!good) fail_msg("%s: %s", kind, f.text);
    if (text_is(kind, "vehicle")) memcpy(s->vehicle, r->id, sizeof s->vehicle);
}

void scene_add_small_car(struct scene *s)
{
    scene_add(s, "vehicle", "name=First", "kind=car", "year=1958", "build=unitary", "cylinders=4",
              "fuel=petrol", "gearbox=manual", "driven=rear", "brakes=drum", "voltage=12",
              "earth=positive", "state=whole", "standing=25", "storage=dry", "rank=1", NULL);
}

struct shop_ask scene_ask(const struct scene *s, const char *direction, int runs)
{
    return (struct shop_ask){.garage = s->garage,
                             .trade = &s->trade,
                             .vehicle = s->vehicle,
                             .today = day_from_civil(2026, 11, 25),
                             .direction =
                                 direction ? trade_find_direction(&s->trade, direction) : -1,
                             .seed = SEED_USUAL,
                             .runs = runs};
}
