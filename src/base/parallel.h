/* parallel.h - the same work on many items, by several threads, with the same answer for any number
 * of them.
 *
 * Items are cut into fixed chunks that depend on `count` and `chunk` alone; a chunk's results must
 * go to places that no other chunk touches. Sums over chunks are the caller's, in chunk order. */
#ifndef BASE_PARALLEL_H
#define BASE_PARALLEL_H

#include <stddef.h>

/* Does items [from, to). `worker` is 0 .. threads-1: an index to a scratch area of that thread's
 * own. */
typedef void parallel_work(void *context, size_t from, size_t to, int worker);

/* Returns when all is done. threads <= 0 means one a processor. A thread that cannot be started is
 * done without. */
void parallel_for(size_t count, size_t chunk, int threads, parallel_work *work, void *context);
int parallel_processors(void);

#endif
