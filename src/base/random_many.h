/* random_many.h - the draws of random.h for many streams of one run at a time.
 *
 * The same numbers to the bit as random_words and random_normal give one by one, several
 * at once where the processor can. */
#ifndef BASE_RANDOM_MANY_H
#define BASE_RANDOM_MANY_H

#include <stdint.h>

/* first[i], second[i]: words 0 and 1 of random_words(seed, streams[i], run, 0). */
void random_words_many(uint64_t seed, const uint64_t *streams, int n, uint32_t run, uint32_t *first,
                       uint32_t *second);
/* z[i] = random_normal(words[i]). */
void random_normal_many(const uint32_t *words, int n, double *z);

#endif
