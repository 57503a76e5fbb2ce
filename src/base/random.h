/* random.h - counter-based random numbers: a draw is a pure function of seed, stream, run and index, so
 * that the answer is the same for any number of threads, and an added job disturbs no other.
 *
 * Published: Philox4x32-10, Salmon, Moraes, Dror & Shaw, SC 2011; known-answer vectors in tests/base.
 * Published: normal quantile, M. J. Wichura, Algorithm AS 241 (PPND16), Applied Statistics 37 (1988). */
#ifndef BASE_RANDOM_H
#define BASE_RANDOM_H

#include <stdint.h>

struct philox {
    uint32_t word[4];
};

/* The bare generator: 128-bit counter, 64-bit key. */
struct philox philox4x32_10(const uint32_t counter[4], const uint32_t key[2]);

/* Four independent 32-bit words for (seed, stream, run, index): key = seed, counter = run, index, stream. */
static inline struct philox random_words(uint64_t seed, uint64_t stream, uint32_t run, uint32_t index)
{
    const uint32_t counter[4] = {run, index, (uint32_t)stream, (uint32_t)(stream >> 32)};
    const uint32_t key[2] = {(uint32_t)seed, (uint32_t)(seed >> 32)};
    return philox4x32_10(counter, key);
}

/* Uniform in the open interval (0, 1): (word + 0.5) / 2^32. */
static inline double random_unit(uint32_t word)
{
    return ((double)word + 0.5) * 0x1p-32;
}

double normal_quantile(double p); /* 0 < p < 1 */
double normal_cdf(double z);
static inline double random_normal(uint32_t word)
{
    return normal_quantile(random_unit(word));
}

#endif
