#include "base/arena.h"

#include <assert.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>

#if defined(__SANITIZE_ADDRESS__)
#define ARENA_ASAN 1
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define ARENA_ASAN 1
#endif
#endif

#ifdef ARENA_ASAN
#include <sanitizer/asan_interface.h>
enum { REDZONE = 32 }; /* poisoned bytes after each allocation, so that an overflow is told */
#else
#define ASAN_POISON_MEMORY_REGION(p, n)   ((void)0)
#define ASAN_UNPOISON_MEMORY_REGION(p, n) ((void)0)
enum { REDZONE = 0 };
#endif

enum { ALIGNMENT = 16 };

/* At the start of the mapping, so that an arena and its scratch copies share it. Bytes from `dirty`
 * on were never handed out: the system gave them zeroed, and to clear them would only touch their
 * pages. */
struct arena_head {
    char *dirty;
};
static_assert(sizeof(struct arena_head) <= ALIGNMENT, "the head fits before the first object");

__attribute__((noreturn, cold)) static void out_of_memory(size_t wanted, size_t left)
{
    fprintf(stderr, "memory: %zu bytes wanted, %zu left; ask for less at once\n", wanted, left);
    abort();
}

struct arena arena_open(size_t capacity)
{
    const size_t bytes = capacity + ALIGNMENT;
    char *start = MAP_FAILED;
    if (bytes > capacity)
        start = mmap(NULL, bytes, PROT_READ | PROT_WRITE,
                     MAP_PRIVATE | MAP_ANONYMOUS | MAP_NORESERVE, -1, 0);
    if (start == MAP_FAILED) out_of_memory(capacity, 0);
    struct arena a = {.at = start + ALIGNMENT, .end = start + bytes, .start = start};
    ((struct arena_head *)(void *)start)->dirty = a.at;
    return a;
}

void arena_close(struct arena *a)
{
    if (!a->start) return;
    /* The next mapping at this address must not inherit the poison. */
    ASAN_UNPOISON_MEMORY_REGION(
        a->start, (size_t)(((struct arena_head *)(void *)a->start)->dirty - a->start));
    munmap(a->start, (size_t)(a->end - a->start));
    *a = (struct arena){0};
}

bool arena_reuse(struct arena *a, size_t most)
{
    const size_t touched = (size_t)(((struct arena_head *)(void *)a->start)->dirty - a->start);
    if (touched > most) {
        arena_close(a);
        return false;
    }
    a->at = a->start + ALIGNMENT;
    ASAN_POISON_MEMORY_REGION(a->at, touched - ALIGNMENT);
    return true;
}

void *arena_take(struct arena *a, size_t count, size_t size)
{
    assert(a->start);
    const size_t left = (size_t)(a->end - a->at);
    size_t bytes, room;
    if (__builtin_mul_overflow(count, size, &bytes) ||
        __builtin_add_overflow(bytes, (size_t)(REDZONE + ALIGNMENT - 1), &room))
        out_of_memory(SIZE_MAX, left);
    room &= ~(size_t)(ALIGNMENT - 1);
    /* The last object may end at the very end, without the rounding. */
    if (room > left) {
        if (REDZONE > 0 || bytes > left) out_of_memory(bytes, left);
        room = left;
    }
    char *p = a->at;
    a->at += room;
    struct arena_head *head = (struct arena_head *)(void *)a->start;
    ASAN_UNPOISON_MEMORY_REGION(p, bytes);
    if (head->dirty > p) {
        const size_t used = (size_t)(head->dirty - p);
        memset(p, 0, used < bytes ? used : bytes);
    }
    if (head->dirty < a->at) head->dirty = a->at;
    ASAN_POISON_MEMORY_REGION(p + bytes, room - bytes);
    return p;
}

char *arena_copy(struct arena *a, const char *s)
{
    return arena_copy_n(a, s, strlen(s));
}

char *arena_copy_n(struct arena *a, const char *s, size_t n)
{
    char *copy = arena_take(a, n + 1, 1);
    if (n > 0) memcpy(copy, s, n);
    return copy;
}

char *arena_print(struct arena *a, const char *format, ...)
{
    va_list args, again;
    va_start(args, format);
    va_copy(again, args);
    const int n = vsnprintf(NULL, 0, format, args);
    assert(n >= 0);
    char *s = arena_take(a, (size_t)n + 1, 1);
    vsnprintf(s, (size_t)n + 1, format, again);
    va_end(again);
    va_end(args);
    return s;
}

void *arena_grow(struct arena *a, void *array, size_t count, size_t *capacity, size_t size)
{
    assert(count <= *capacity);
    if (count < *capacity) return array;
    const size_t larger = *capacity ? *capacity * 2 : 8;
    assert(larger > *capacity);
    void *moved = arena_take(a, larger, size);
    if (count > 0) memcpy(moved, array, count * size);
    *capacity = larger;
    return moved;
}
