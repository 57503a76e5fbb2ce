#include "base/parallel.h"

#include <assert.h>
#include <pthread.h>
#include <stdatomic.h>
#include <unistd.h>

enum { THREADS_MOST = 64 };

struct shared {
    size_t count, chunk;
    atomic_size_t next; /* the first chunk that nobody took */
    parallel_work *work;
    void *context;
};

struct hand {
    struct shared *shared;
    int worker;
    pthread_t thread;
};

static void *work_chunks(void *argument)
{
    struct hand *hand = argument;
    struct shared *shared = hand->shared;
    const size_t chunks = (shared->count - 1) / shared->chunk + 1;
    for (;;) {
        const size_t i = atomic_fetch_add_explicit(&shared->next, 1, memory_order_relaxed);
        if (i >= chunks) return NULL;
        const size_t from = i * shared->chunk;
        const size_t left = shared->count - from;
        shared->work(shared->context, from, from + (left < shared->chunk ? left : shared->chunk),
                     hand->worker);
    }
}

int parallel_processors(void)
{
    const long n = sysconf(_SC_NPROCESSORS_ONLN);
    return n < 1 ? 1 : n > THREADS_MOST ? THREADS_MOST : (int)n;
}

void parallel_for(size_t count, size_t chunk, int threads, parallel_work *work, void *context)
{
    assert(chunk > 0);
    if (count == 0) return;
    const size_t chunks = (count - 1) / chunk + 1;
    if (threads <= 0) threads = parallel_processors();
    if (threads > THREADS_MOST) threads = THREADS_MOST;
    if ((size_t)threads > chunks) threads = (int)chunks;

    struct shared shared = {.count = count, .chunk = chunk, .work = work, .context = context};
    struct hand hands[THREADS_MOST];
    int started = 1; /* the caller is worker 0 */
    for (; started < threads; started++) {
        hands[started].shared = &shared;
        hands[started].worker = started;
        if (pthread_create(&hands[started].thread, NULL, work_chunks, &hands[started]) != 0) break;
    }
    hands[0].shared = &shared;
    hands[0].worker = 0;
    work_chunks(&hands[0]);
    for (int i = 1; i < started; i++) pthread_join(hands[i].thread, NULL);
}
