/* Texts kept by name: what was put comes back as a copy, and the least recently wanted goes. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "face/web/kept.h"

#include <pthread.h>
#include <stdatomic.h>
#include <string.h>
#include <time.h>

enum { MOST = 4000 };

static const char *of_length(struct arena *a, size_t n, char c)
{
    char *s = ARENA_ARRAY(a, char, n + 1);
    memset(s, c, n);
    return s;
}

static void what_was_put_comes_back(void **state)
{
    (void)state;
    struct arena a = arena_open(1 << 20);
    struct kept *k = kept_open(MOST);
    assert_null(kept_get(k, &a, "one"));
    kept_put(k, "one", "first");
    kept_put(k, "two", "");
    assert_string_equal(kept_get(k, &a, "one"), "first");
    assert_string_equal(kept_get(k, &a, "two"), "");
    kept_put(k, "one", "second");
    assert_string_equal(kept_get(k, &a, "one"), "second");
    kept_put(k, "large", of_length(&a, MOST / 4, 'x'));
    assert_null(kept_get(k, &a, "large"));
    kept_close(k);
    arena_close(&a);
}

static void the_least_wanted_goes_first(void **state)
{
    (void)state;
    struct arena a = arena_open(1 << 20);
    struct kept *k = kept_open(MOST);
    static const char *const names[] = {"a", "b", "c", "d", "e"};
    for (int i = 0; i < 4; i++) kept_put(k, names[i], of_length(&a, 900, *names[i]));
    assert_non_null(kept_get(k, &a, "a")); /* so "b" is now the oldest */
    kept_put(k, "e", of_length(&a, 900, 'e'));
    assert_null(kept_get(k, &a, "b"));
    static const char *const left[] = {"a", "c", "d", "e"};
    for (int i = 0; i < 4; i++) assert_int_equal(*kept_get(k, &a, left[i]), *left[i]);
    kept_close(k);
    arena_close(&a);
}

static void *put_and_get(void *context)
{
    struct kept *k = context;
    struct arena a = arena_open(1 << 24);
    for (int i = 0; i < 2000; i++) {
        const char *name = arena_print(&a, "%d", i % 7), *there = kept_get(k, &a, name);
        if (there && !text_starts(there, name)) return k; /* somebody else's */
        kept_put(k, name, arena_print(&a, "%s %d", name, i));
    }
    arena_close(&a);
    return NULL;
}

static void threads_share_it(void **state)
{
    (void)state;
    struct kept *k = kept_open(40); /* room for few, so that entries are thrown away all the time */
    pthread_t threads[4];
    for (int i = 0; i < 4; i++)
        assert_int_equal(0, pthread_create(&threads[i], NULL, put_and_get, k));
    for (int i = 0; i < 4; i++) {
        void *wrong;
        pthread_join(threads[i], &wrong);
        assert_null(wrong);
    }
    kept_close(k);
}

/* Sixteen at once want what takes a while: one makes it, all have it. A maker that fails lets the
 * next one try. */
enum { CROWD = 16 };
static struct {
    struct kept *kept;
    pthread_barrier_t door;
    atomic_int made, had, tries;
} crowd;

static void *one_of_many(void *unused)
{
    (void)unused;
    struct arena a = arena_open(1 << 16);
    pthread_barrier_wait(&crowd.door);
    while (!kept_get(crowd.kept, &a, "page")) {
        if (!kept_claim(crowd.kept, "page")) continue;
        nanosleep(&(struct timespec){.tv_nsec = 20000000}, NULL);
        if (atomic_fetch_add(&crowd.tries, 1) > 0) { /* the first one fails */
            kept_put(crowd.kept, "page", "text");
            atomic_fetch_add(&crowd.made, 1);
        }
        kept_release(crowd.kept, "page");
    }
    atomic_fetch_add(&crowd.had, 1);
    arena_close(&a);
    return NULL;
}

static void one_makes_it_for_all(void **state)
{
    (void)state;
    pthread_t threads[CROWD];
    crowd.kept = kept_open(1 << 16);
    pthread_barrier_init(&crowd.door, NULL, CROWD);
    for (int i = 0; i < CROWD; i++)
        assert_int_equal(pthread_create(&threads[i], NULL, one_of_many, NULL), 0);
    for (int i = 0; i < CROWD; i++) pthread_join(threads[i], NULL);
    assert_int_equal(crowd.had, CROWD);
    assert_int_equal(crowd.made, 1);
    assert_int_equal(crowd.tries, 2);
    pthread_barrier_destroy(&crowd.door);
    kept_close(crowd.kept);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_makes_it_for_all),
        cmocka_unit_test(what_was_put_comes_back),
        cmocka_unit_test(the_least_wanted_goes_first),
        cmocka_unit_test(threads_share_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
