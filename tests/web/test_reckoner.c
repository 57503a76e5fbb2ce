/* Answers on threads of their own: each is reckoned once, whoever waits hears of it, and a failure
 * is told to all. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "face/web/reckoner.h"

#include <pthread.h>
#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct {
    char folder[32], dir[64], vehicle[33];
    struct arena arena;
    struct shelf *shelf;
    struct reckoner *reckoner;
} world;

static int begin(void **state)
{
    (void)state;
    struct fail f = {0};
    struct garage *g;
    strcpy(world.folder, "/tmp/fettle-reckoner-XXXXXX");
    if (sodium_init() < 0 || !mkdtemp(world.folder)) return -1;
    snprintf(world.dir, sizeof world.dir, "%s/garage", world.folder);
    world.arena = arena_open((size_t)64 << 20);
    struct record *r = record_new(&world.arena, record_kind_find("vehicle"));
    bool made = garage_create(world.dir, "UTC", NULL, &f) &&
                garage_open(&world.arena, world.dir, GARAGE_WRITE, NULL, &g, &f) &&
                record_set(&world.arena, r, "name", "Wren", NULL, &f) && garage_begin(g, &f) &&
                garage_add(g, r, &f) && garage_commit(g, &f);
    if (!made) return -1;
    garage_close(g);
    strcpy(world.vehicle, r->id);
    world.shelf = shelf_open(NULL);
    world.reckoner = reckoner_open(world.dir, world.shelf);
    return 0;
}

static int end(void **state)
{
    (void)state;
    reckoner_close(world.reckoner);
    shelf_close(world.shelf);
    int removed = system(arena_print(&world.arena, "rm -r '%s'", world.folder));
    arena_close(&world.arena);
    return removed;
}

static struct reckoner_ask of(const char *name, const char *vehicle)
{
    return (struct reckoner_ask){name,
                                 QUESTION_PLAN,
                                 {.vehicle = vehicle,
                                  .today = day_from_civil(2026, 11, 25),
                                  .direction = -1,
                                  .seed = SEED_USUAL,
                                  .runs = 50}};
}

struct asker {
    pthread_t thread;
    bool began;
    enum reckoning how;
};

static void *wait_to_the_end(void *context)
{
    struct asker *x = context;
    struct fail f = {0};
    double share;
    const struct reckoner_ask what = of("a1", world.vehicle);
    x->how = reckoner_wait(world.reckoner, &what, -1, &x->began, &share, &f);
    return NULL;
}

static void each_is_reckoned_once(void **state)
{
    (void)state;
    struct asker askers[6] = {0};
    int begun = 0;
    for (int i = 0; i < 6; i++)
        assert_int_equal(0, pthread_create(&askers[i].thread, NULL, wait_to_the_end, &askers[i]));
    for (int i = 0; i < 6; i++) {
        pthread_join(askers[i].thread, NULL);
        assert_int_equal(askers[i].how, RECKONING_DONE);
        begun += askers[i].began;
    }
    /* Who comes after the last has left finds nothing here, and begins again. */
    assert_in_range(begun, 1, 6);
}

static void impatience_is_told(void **state)
{
    (void)state;
    struct fail f = {0};
    const struct reckoner_ask what = of("b2", world.vehicle);
    bool began, again;
    double share;
    enum reckoning how = reckoner_wait(world.reckoner, &what, 0, &began, &share, &f);
    assert_true(began);
    assert_int_equal(how, RECKONING_GOES_ON);
    assert_true(share >= 0 && share <= 1);
    how = reckoner_wait(world.reckoner, &what, -1, &again, &share, &f);
    assert_int_equal(how, RECKONING_DONE);
}

static void a_failure_is_told(void **state)
{
    (void)state;
    struct fail f = {0};
    const struct reckoner_ask what = of("c3", "00000000000000000000000000000000");
    bool began;
    double share;
    assert_int_equal(reckoner_wait(world.reckoner, &what, -1, &began, &share, &f),
                     RECKONING_FAILED);
    assert_true(*f.text);
}

static void more_than_there_are_places(void **state)
{
    (void)state;
    enum { MANY = 12 };
    struct fail f = {0};
    bool began;
    double share;
    for (int i = 0; i < MANY; i++) {
        const struct reckoner_ask what = of(arena_print(&world.arena, "d%d", i), world.vehicle);
        assert_int_not_equal(reckoner_wait(world.reckoner, &what, 0, &began, &share, &f),
                             RECKONING_FAILED);
    }
    for (int i = 0; i < MANY; i++) {
        const struct reckoner_ask what = of(arena_print(&world.arena, "d%d", i), world.vehicle);
        assert_int_equal(reckoner_wait(world.reckoner, &what, -1, &began, &share, &f),
                         RECKONING_DONE);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_is_reckoned_once),
        cmocka_unit_test(impatience_is_told),
        cmocka_unit_test(a_failure_is_told),
        cmocka_unit_test(more_than_there_are_places),
    };
    return cmocka_run_group_tests(tests, begin, end);
}
