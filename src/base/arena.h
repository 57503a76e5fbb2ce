/* arena.h - memory that is freed all at once.
 *
 * An arena belongs to a request or a run. Everything that it hands out lives until arena_close, or,
 * for a scratch arena (a copy passed by value), until the callee returns: what the callee took
 * through its copy is taken again by the caller's next allocation.
 *
 * Memory is zeroed. Running out is not an error that a caller can mend: the program stops with a
 * line on stderr. One arena is used by one thread. */
#ifndef BASE_ARENA_H
#define BASE_ARENA_H

#include <stdbool.h>
#include <stddef.h>

struct arena {
    char *at;  /* next free byte */
    char *end; /* one past the last byte */
    char *start;
};

/* An arena that can hold `capacity` bytes; pages are taken from the system only when touched, so
 * that a generous capacity costs nothing. The only way to make one, but for copies of it. */
struct arena arena_open(size_t capacity);
void arena_close(struct arena *a);
/* Takes back all that it handed out, so that it can be used anew; closed and false if that was more
 * than `most` bytes at a time, so that one large use is not held for ever. */
bool arena_reuse(struct arena *a, size_t most);

/* `count` objects of `size` bytes, zeroed and aligned for any type; count 0 gives a valid pointer.
 */
void *arena_take(struct arena *a, size_t count, size_t size);

/* A copy of the string, or of its first n bytes. */
char *arena_copy(struct arena *a, const char *s);
char *arena_copy_n(struct arena *a, const char *s, size_t n);
/* printf into the arena. */
char *arena_print(struct arena *a, const char *format, ...) __attribute__((format(printf, 2, 3)));

#define ARENA_NEW(a, type)          ((type *)arena_take((a), 1, sizeof(type)))
#define ARENA_ARRAY(a, type, count) ((type *)arena_take((a), (size_t)(count), sizeof(type)))

/* Room for one more in an array that grows by doubling inside the arena: returns the array, perhaps
 * moved. */
void *arena_grow(struct arena *a, void *array, size_t count, size_t *capacity, size_t size);

#endif
