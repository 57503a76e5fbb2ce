/* shrink.c - fewer pixels: each of the result is the mean of the area that it covers. */
#include "face/photo/picture.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

static unsigned fitted(unsigned length, unsigned longer, unsigned side)
{
    if (longer <= side) return length;
    const unsigned fit = (unsigned)((2ull * length * side + longer) / (2ull * longer));
    return fit > 0 ? fit : 1;
}

bool shrinker_begin(struct shrinker *s, unsigned width, unsigned height, unsigned side,
                    struct picture *out, struct fail *f)
{
    const unsigned longer = width > height ? width : height;
    *s = (struct shrinker){.in_width = width, .in_height = height, .out = out};
    *out = (struct picture){fitted(width, longer, side), fitted(height, longer, side), NULL};
    out->rgb = malloc((size_t)out->width * out->height * 3);
    s->across = malloc((size_t)out->width * 3 * sizeof *s->across);
    s->sum = calloc((size_t)out->width * 3, sizeof *s->sum);
    return (out->rgb && s->across && s->sum) ||
           fail_set(f, FAIL_INPUT, "it takes more memory than there is");
}

/* Pixel i of `out` covers in[i * in / out, (i + 1) * in / out), ends in parts. Counted in units of
 * 1 / out of a pixel, so that nothing is rounded. */
static void narrow(const unsigned char *in, unsigned n_in, float *out, unsigned n_out)
{
    unsigned rest = n_out; /* units that are left of the pixel at hand */
    for (unsigned x = 0; x < n_out; x++, out += 3) {
        unsigned left = n_in;
        unsigned sum[3] = {0}; /* at most 30,000 times 255 */
        while (left > 0) {
            const unsigned here = rest < left ? rest : left;
            for (int c = 0; c < 3; c++) sum[c] += here * in[c];
            left -= here;
            rest -= here;
            if (rest == 0) {
                in += 3;
                rest = n_out;
            }
        }
        for (int c = 0; c < 3; c++) out[c] = (float)sum[c] / (float)n_in;
    }
}

static void put_row(struct shrinker *s, unsigned y)
{
    const unsigned n = 3 * s->out->width;
    unsigned char *to = s->out->rgb + (size_t)y * n;
    for (unsigned i = 0; i < n; i++)
        to[i] = (unsigned char)(s->sum[i] / (float)s->in_height + 0.5f);
    memset(s->sum, 0, n * sizeof *s->sum);
}

void shrinker_row(struct shrinker *s, const unsigned char *rgb)
{
    const unsigned long long high = s->out->height, all = s->in_height;
    const unsigned n = 3 * s->out->width;
    assert(s->row < s->in_height);
    narrow(rgb, s->in_width, s->across, s->out->width);
    /* This row is `high` units deep; a row of the result takes `all` of them. */
    unsigned long long at = s->row * high;
    for (unsigned long long left = high; left > 0;) {
        const unsigned y = (unsigned)(at / all);
        unsigned long long here = all - at % all;
        if (here > left) here = left;
        for (unsigned i = 0; i < n; i++) s->sum[i] += (float)here * s->across[i];
        at += here;
        left -= here;
        if (at % all == 0) put_row(s, y);
    }
    s->row++;
}

void shrinker_end(struct shrinker *s)
{
    free(s->across);
    free(s->sum);
    s->across = s->sum = NULL;
}
