/* random.h - counter-based random numbers: a draw is a pure function of seed, stream, run and
 * index, so that the answer is the same for any number of threads, and an added job disturbs no
 * other.
 *
 * Published: Philox4x32-10, Salmon, Moraes, Dror & Shaw, SC 2011; known-answer vectors in
 * tests/base. Published: normal quantile, M. J. Wichura, Algorithm AS 241 (PPND16 and PPND7),
 * Applied Statistics 37 (1988). */
#ifndef BASE_RANDOM_H
#define BASE_RANDOM_H

#include <stdint.h>

struct philox {
    uint32_t word[4];
};

/* The bare generator: 128-bit counter, 64-bit key. Inline, for it is drawn from in inner loops. */
static inline struct philox philox4x32_10(const uint32_t counter[4], const uint32_t key[2])
{
    uint32_t c0 = counter[0], c1 = counter[1], c2 = counter[2], c3 = counter[3];
    uint32_t k0 = key[0], k1 = key[1];
#pragma GCC unroll 10 /* gcc keeps the loop at -O2, at twice the cost */
    for (int round = 0; round < 10; round++) {
        const uint64_t a = (uint64_t)0xD2511F53u * c0, b = (uint64_t)0xCD9E8D57u * c2;
        c0 = (uint32_t)(b >> 32) ^ c1 ^ k0;
        c1 = (uint32_t)b;
        c2 = (uint32_t)(a >> 32) ^ c3 ^ k1;
        c3 = (uint32_t)a;
        k0 += 0x9E3779B9u;
        k1 += 0xBB67AE85u;
    }
    return (struct philox){{c0, c1, c2, c3}};
}

/* Four independent 32-bit words for (seed, stream, run, index): key = seed, counter = run, index,
 * stream. */
static inline struct philox random_words(uint64_t seed, uint64_t stream, uint32_t run,
                                         uint32_t index)
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

/* A standard normal draw by the shorter form of the same paper, PPND7: about seven figures, ample
 * for 32 bits of chance and half the work. Inline, because simulations live in it. */
double random_normal_tail(double q);                     /* q = u - 1/2 with |q| > 0.425 */
static inline double random_normal_middle(uint32_t word) /* for any other q */
{
    const double q = random_unit(word) - 0.5, r = 0.180625 - q * q;
    return q * (((59.10937472 * r + 159.29113202) * r + 50.434271938) * r + 3.3871327179) /
           (((67.1875636 * r + 78.757757664) * r + 17.895169469) * r + 1);
}
static inline double random_normal(uint32_t word)
{
    const double q = random_unit(word) - 0.5;
    return q < -0.425 || q > 0.425 ? random_normal_tail(q) : random_normal_middle(word);
}

#endif
