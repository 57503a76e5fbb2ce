#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/arena.h"

#include <signal.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#ifdef __has_feature
#if __has_feature(address_sanitizer)
#define WITH_ASAN 1
#endif
#endif
#if defined(__SANITIZE_ADDRESS__) || defined(WITH_ASAN)
#include <sanitizer/asan_interface.h>
#define POISONED(p) __asan_address_is_poisoned(p)
enum { SPACE_GB = 2 }; /* the sanitizer's map touches an eighth of it */
#else
#define POISONED(p) ((void)(p), -1)
enum { SPACE_GB = 64 };
#endif

static void takes_zeroed_aligned_memory(void **state)
{
    (void)state;
    struct arena a = arena_open(1 << 20);
    char *last_end = NULL;
    for (size_t size = 0; size < 200; size++) {
        char *p = arena_take(&a, 1, size);
        assert_int_equal((uintptr_t)p % 16, 0);
        assert_true(p >= last_end);
        for (size_t i = 0; i < size; i++) assert_int_equal(p[i], 0);
        if (size > 0) memset(p, 0xff, size);
        last_end = p + size;
    }
    arena_close(&a);
    assert_null(a.start);
    arena_close(&a); /* closing twice does no harm */
}

static char *soil_scratch(struct arena scratch)
{
    char *p = arena_take(&scratch, 10, 100);
    memset(p, 0xaa, 1000);
    return p;
}

/* What a callee took through its copy is taken again, and is zero again. */
static void scratch_copy_frees_itself(void **state)
{
    (void)state;
    struct arena a = arena_open(1 << 16);
    for (int round = 0; round < 100; round++) {
        const char *theirs = soil_scratch(a);
        char *ours = arena_take(&a, 1, 400);
        assert_ptr_equal(theirs, ours);
        for (int i = 0; i < 400; i++) assert_int_equal(ours[i], 0);
    }
    arena_close(&a);
}

/* Address space is reserved, pages are not: 64 GB can be asked for and 4 KB used. */
static void reserves_without_touching(void **state)
{
    (void)state;
    const size_t space = (size_t)SPACE_GB << 30;
    struct arena a = arena_open(space);
    char *p = arena_take(&a, 1, space / 2);
    p[0] = 1;
    p[space / 2 - 1] = 1;
    arena_close(&a);
}

static void grows_arrays_and_keeps_what_was_in_them(void **state)
{
    (void)state;
    struct arena a = arena_open(1 << 20);
    int *numbers = NULL;
    size_t capacity = 0;
    for (size_t i = 0; i < 5000; i++) {
        numbers = arena_grow(&a, numbers, i, &capacity, sizeof *numbers);
        assert_true(capacity > i);
        numbers[i] = (int)i;
    }
    for (int i = 0; i < 5000; i++) assert_int_equal(numbers[i], i);
    arena_close(&a);
}

static void copies_and_prints(void **state)
{
    (void)state;
    struct arena a = arena_open(1 << 16);
    assert_string_equal(arena_copy(&a, "sill"), "sill");
    assert_string_equal(arena_copy_n(&a, "wheel cylinder", 5), "wheel");
    assert_string_equal(arena_copy_n(&a, "", 0), "");
    assert_string_equal(arena_print(&a, "%s %d", "bolt", 8), "bolt 8");
    assert_string_equal(arena_print(&a, "%s", ""), "");
    const char *wide = arena_print(&a, "%5000d", 7);
    assert_int_equal(strlen(wide), 5000);
    arena_close(&a);
}

static void overflows_are_told(void **state)
{
    (void)state;
    struct arena a = arena_open(1 << 16);
    char *p = arena_take(&a, 1, 13), *q = arena_take(&a, 3, 8);
    if (POISONED(p) < 0) {
        arena_close(&a);
        skip();
    }
    assert_false(POISONED(p + 12));
    assert_true(POISONED(p + 13));
    assert_true(POISONED(q - 1));
    assert_false(POISONED(q + 23));
    assert_true(POISONED(q + 24));
    assert_true(POISONED(q + 24 + 31));
    arena_close(&a);
    /* The next mapping may lie at the same place. */
    struct arena b = arena_open(1 << 16);
    char *all = arena_take(&b, 1, 1 << 15);
    memset(all, 1, 1 << 15);
    arena_close(&b);
}

static void stop_taking(size_t count, size_t size, const char *expected)
{
    int line[2];
    assert_int_equal(pipe(line), 0);
    const pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        signal(SIGABRT, SIG_DFL);
        dup2(line[1], STDERR_FILENO);
        struct arena a = arena_open(4096);
        arena_take(&a, count, size);
        _exit(0);
    }
    close(line[1]);
    char said[200] = "";
    assert_true(read(line[0], said, sizeof said - 1) > 0);
    close(line[0]);
    int status;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFSIGNALED(status) && WTERMSIG(status) == SIGABRT);
    assert_non_null(strstr(said, expected));
}

static void running_out_stops_with_a_line(void **state)
{
    (void)state;
    stop_taking(1, 5000, "5000 bytes wanted, 4096 left");
    stop_taking(SIZE_MAX / 2, 3, "bytes wanted"); /* count * size overflows */
    stop_taking(1, SIZE_MAX - 3, "bytes wanted"); /* rounding up overflows */
}

static void is_used_again(void **state)
{
    (void)state;
    struct arena a = arena_open((size_t)1 << 24);
    char *first = memset(arena_take(&a, 5000, 1), 'x', 5000);
    assert_true(arena_reuse(&a, 1 << 16));
    char *again = arena_take(&a, 5000, 1);
    assert_ptr_equal(again, first);
    for (int i = 0; i < 5000; i++) assert_int_equal(again[i], 0);
    assert_true(arena_reuse(&a, 1 << 16));
    arena_take(&a, 1 << 20, 1);
    assert_false(arena_reuse(&a, 1 << 16));
    assert_null(a.start);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(takes_zeroed_aligned_memory),
        cmocka_unit_test(scratch_copy_frees_itself),
        cmocka_unit_test(reserves_without_touching),
        cmocka_unit_test(is_used_again),
        cmocka_unit_test(grows_arrays_and_keeps_what_was_in_them),
        cmocka_unit_test(copies_and_prints),
        cmocka_unit_test(overflows_are_told),
        cmocka_unit_test(running_out_stops_with_a_line),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
