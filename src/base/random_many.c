#include "base/random_many.h"

#include "base/random.h"

#include <math.h>

#if defined(__x86_64__)
#include <immintrin.h>

/* Two times four streams, each in the lower half of a 64-bit lane. */
enum { LANES = 8 };

__attribute__((target("avx2"))) static void eight(uint64_t seed, const uint64_t *streams,
                                                  uint32_t run, uint32_t *first, uint32_t *second)
{
    const __m256i low = _mm256_set1_epi64x(0xffffffff);
    const __m256i m0 = _mm256_set1_epi64x(0xD2511F53), m1 = _mm256_set1_epi64x(0xCD9E8D57);
    const __m256i w0 = _mm256_set1_epi64x(0x9E3779B9), w1 = _mm256_set1_epi64x(0xBB67AE85);
    __m256i k0 = _mm256_set1_epi64x((long long)(uint32_t)seed);
    __m256i k1 = _mm256_set1_epi64x((long long)(seed >> 32));
    __m256i c0[2], c1[2], c2[2], c3[2];
    for (int v = 0; v < 2; v++) {
        const __m256i stream = _mm256_loadu_si256((const __m256i *)(const void *)(streams + 4 * v));
        c0[v] = _mm256_set1_epi64x((long long)run);
        c1[v] = _mm256_setzero_si256();
        c2[v] = _mm256_and_si256(stream, low);
        c3[v] = _mm256_srli_epi64(stream, 32);
    }
    for (int round = 0; round < 10; round++) {
        for (int v = 0; v < 2; v++) {
            const __m256i a = _mm256_mul_epu32(c0[v], m0), b = _mm256_mul_epu32(c2[v], m1);
            c0[v] = _mm256_xor_si256(_mm256_xor_si256(_mm256_srli_epi64(b, 32), c1[v]), k0);
            c2[v] = _mm256_xor_si256(_mm256_xor_si256(_mm256_srli_epi64(a, 32), c3[v]), k1);
            c1[v] = _mm256_and_si256(b, low);
            c3[v] = _mm256_and_si256(a, low);
        }
        k0 = _mm256_and_si256(_mm256_add_epi64(k0, w0), low);
        k1 = _mm256_and_si256(_mm256_add_epi64(k1, w1), low);
    }
    uint64_t out0[LANES], out1[LANES];
    for (int v = 0; v < 2; v++) {
        _mm256_storeu_si256((__m256i *)(void *)(out0 + 4 * v), c0[v]);
        _mm256_storeu_si256((__m256i *)(void *)(out1 + 4 * v), c1[v]);
    }
    for (int i = 0; i < LANES; i++) {
        first[i] = (uint32_t)out0[i];
        second[i] = (uint32_t)out1[i];
    }
}

static int done_by_eights(uint64_t seed, const uint64_t *streams, int n, uint32_t run,
                          uint32_t *first, uint32_t *second)
{
    int at = 0;
    if (!__builtin_cpu_supports("avx2")) return 0;
    for (; at + LANES <= n; at += LANES) eight(seed, streams + at, run, first + at, second + at);
    return at;
}
#else
static int done_by_eights(uint64_t seed, const uint64_t *streams, int n, uint32_t run,
                          uint32_t *first, uint32_t *second)
{
    (void)seed, (void)streams, (void)n, (void)run, (void)first, (void)second;
    return 0;
}
#endif

void random_words_many(uint64_t seed, const uint64_t *streams, int n, uint32_t run, uint32_t *first,
                       uint32_t *second)
{
    for (int i = done_by_eights(seed, streams, n, run, first, second); i < n; i++) {
        const struct philox w = random_words(seed, streams[i], run, 0);
        first[i] = w.word[0];
        second[i] = w.word[1];
    }
}

void random_normal_many(const uint32_t *words, int n, double *z)
{
    for (int i = 0; i < n; i++) z[i] = random_normal_middle(words[i]);
    for (int i = 0; i < n; i++) {
        const double q = random_unit(words[i]) - 0.5;
        if (fabs(q) > 0.425) z[i] = random_normal_tail(q);
    }
}
