#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/parallel.h"
#include "base/random.h"

#include <stdatomic.h>
#include <string.h>

enum { MOST = 10007 };

struct bench {
    size_t count, chunk;
    int threads;
    atomic_int touched[MOST];
    atomic_int bad_chunks, bad_workers;
};

static void touch(void *context, size_t from, size_t to, int worker)
{
    struct bench *b = context;
    const size_t full = from + b->chunk;
    if (from % b->chunk != 0 || to != (full < b->count ? full : b->count)) b->bad_chunks++;
    if (worker < 0 || (b->threads > 0 && worker >= b->threads)) b->bad_workers++;
    for (size_t i = from; i < to; i++) b->touched[i]++;
}

/* Each item once, in chunks that depend on count and chunk alone. */
static void every_item_is_done_once(void **state)
{
    (void)state;
    static const size_t counts[] = {0, 1, 2, 63, 64, 65, 1000, MOST}, chunks[] = {1, 7, 64, 20000};
    static const int threads[] = {-1, 0, 1, 2, 3, 16, 1000};
    static struct bench b;
    for (size_t i = 0; i < sizeof counts / sizeof *counts; i++)
        for (size_t j = 0; j < sizeof chunks / sizeof *chunks; j++)
            for (size_t k = 0; k < sizeof threads / sizeof *threads; k++) {
                memset(&b, 0, sizeof b);
                b.count = counts[i];
                b.chunk = chunks[j];
                b.threads = threads[k];
                parallel_for(b.count, b.chunk, b.threads, touch, &b);
                assert_int_equal(b.bad_chunks, 0);
                assert_int_equal(b.bad_workers, 0);
                for (size_t n = 0; n < MOST; n++)
                    if (b.touched[n] != (n < b.count)) fail_msg("item %zu: %d", n, b.touched[n]);
            }
}

enum { CHUNK = 64, CHUNKS = (MOST + CHUNK - 1) / CHUNK };

static void sum_chunk(void *context, size_t from, size_t to, int worker)
{
    (void)worker;
    double *sums = context;
    for (size_t i = from; i < to; i++)
        sums[from / CHUNK] += random_normal(random_words(1, 2, (uint32_t)i, 0).word[0]);
}

/* Sums in chunk order are the same to the last bit for any number of threads. */
static void sums_do_not_depend_on_threads(void **state)
{
    (void)state;
    double first = 0;
    for (int threads = 1; threads <= 9; threads++) {
        double sums[CHUNKS] = {0}, total = 0;
        parallel_for(MOST, CHUNK, threads, sum_chunk, sums);
        for (int i = 0; i < CHUNKS; i++) total += sums[i];
        if (threads == 1) first = total;
        assert_true(total == first);
    }
    assert_true(first != 0);
    assert_true(parallel_processors() >= 1);
}

struct scratch {
    long used[8]; /* not atomic: a worker number belongs to one thread */
};

static void use_scratch(void *context, size_t from, size_t to, int worker)
{
    struct scratch *s = context;
    for (size_t i = from; i < to; i++) s->used[worker]++;
}

static void a_worker_has_its_scratch_to_itself(void **state)
{
    (void)state;
    struct scratch s = {0};
    long total = 0;
    parallel_for(1000000, 1000, 8, use_scratch, &s);
    for (int i = 0; i < 8; i++) total += s.used[i];
    assert_int_equal(total, 1000000);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_item_is_done_once),
        cmocka_unit_test(sums_do_not_depend_on_threads),
        cmocka_unit_test(a_worker_has_its_scratch_to_itself),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
