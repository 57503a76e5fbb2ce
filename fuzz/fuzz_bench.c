/* Rubbish typed into the engineering sums. Input: which sum (a byte), then a line for each of its
 * inputs in turn ("" leaves it out), then perhaps a line for a result that is wanted, when one of
 * them is "?". Held: a refusal is one clean line; an answer has no number that is none, and can be
 * told in every system of units. */
#include "face/show/bench_ask.h"

#include <assert.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size);

static const struct calc *nth(int n)
{
    int count = 0;
    for (int pass = 0; pass < 2; pass++) {
        int at = 0;
        for (const struct calc_system *s = calc_systems; s->name; s++)
            for (const struct calc *c = s->calcs; c->name; c++, at++)
                if (pass == 1 && at == n % count) return c;
        count = at;
    }
    return NULL;
}

static void told_in_all(struct arena *a, const struct bench_asked *asked)
{
    static const enum unit_system systems[] = {UNITS_METRIC, UNITS_IMPERIAL, UNITS_US};
    for (int i = 0; asked->calc->outputs[i].name; i++)
        for (int s = 0; s < 3 && asked->result.out[i].set; s++) {
            const char *told =
                calc_told(a, &asked->calc->outputs[i], &asked->result.out[i], systems[s]);
            assert(told && *told && !strstr(told, "nan") && !strstr(told, "inf"));
        }
}

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size)
{
    if (size < 1 || memchr(data, 0, size)) return 0;
    struct arena a = arena_open((size_t)64 << 20);
    const struct calc *c = nth(data[0] - 1);
    struct bench_typed typed[CALC_INPUTS + 1];
    struct bench_asked *asked = ARENA_NEW(&a, struct bench_asked);
    struct fail f = {0};
    int count = 0, inputs = 0;
    while (c->inputs[inputs].name) inputs++;
    const char *at = arena_copy_n(&a, (const char *)data + 1, size - 1);
    for (int i = 0; i <= inputs && *at; i++) {
        size_t n = strcspn(at, "\n");
        const char *name = i < inputs ? c->inputs[i].name : c->outputs[0].name;
        if (n > 0) typed[count++] = (struct bench_typed){name, arena_copy_n(&a, at, n)};
        at += n + (at[n] == '\n');
    }
    if (bench_ask(&a, c, typed, count, UNITS_METRIC, asked, &f)) {
        told_in_all(&a, asked);
    } else {
        assert(f.kind != FAIL_NONE && f.text[0]);
        for (const char *s = f.text; *s; s++) assert((unsigned char)*s >= 0x20);
    }
    arena_close(&a);
    return 0;
}
