#include "reckon/decide.h"

#include "reckon/quantile.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>

static int upwards(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static double *sorted(struct arena *a, const double *value, int runs)
{
    double *out = ARENA_ARRAY(a, double, runs);
    for (int i = 0; i < runs; i++) out[i] = value[i];
    qsort(out, (size_t)runs, sizeof *out, upwards);
    return out;
}

/* Run for run of the sorted values: the n-th worst of one against the n-th worst of the other. */
static bool dominates(const double *leading, const double *other, int runs)
{
    bool better = false;
    for (int i = 0; i < runs; i++) {
        if (leading[i] < other[i]) return false;
        better = better || leading[i] > other[i];
    }
    return better;
}

static void lead(struct decide *d, const double *value, int choices, int runs)
{
    d->runner = -1;
    for (int c = 0; c < choices; c++) {
        struct decide_choice *to = &d->choices[c];
        const double *v = value + (size_t)c * (size_t)runs;
        double sum = 0, squares = 0;
        to->least = v[0];
        for (int i = 0; i < runs; i++) sum += v[i], to->least = fmin(to->least, v[i]);
        to->mean = sum / runs;
        for (int i = 0; i < runs; i++) squares += (v[i] - to->mean) * (v[i] - to->mean);
        to->error = sqrt(squares / (runs - 1) / runs);
        if (to->mean > d->choices[d->leading].mean) d->leading = c;
        if (to->least > d->choices[d->safest].least) d->safest = c;
    }
    for (int c = 0; c < choices; c++)
        if (c != d->leading && (d->runner < 0 || d->choices[c].mean > d->choices[d->runner].mean))
            d->runner = c;
}

struct decide decide_of(struct arena *a, const double *value, int choices, int runs)
{
    assert(choices >= 1 && runs >= 2);
    struct decide d = {.choices = ARENA_ARRAY(a, struct decide_choice, choices)};
    lead(&d, value, choices, runs);
    struct arena scratch = *a;
    size_t n = (size_t)runs;
    const double *of_leading = value + (size_t)d.leading * n;
    double *best = ARENA_ARRAY(&scratch, double, runs);
    double *regret = ARENA_ARRAY(&scratch, double, runs);
    for (int i = 0; i < runs; i++) {
        int alike = 0;
        best[i] = value[i];
        for (int c = 1; c < choices; c++) best[i] = fmax(best[i], value[(size_t)c * n + (size_t)i]);
        for (int c = 0; c < choices; c++) alike += value[(size_t)c * n + (size_t)i] == best[i];
        for (int c = 0; c < choices; c++)
            if (value[(size_t)c * n + (size_t)i] == best[i])
                d.choices[c].best += 1.0 / alike / runs;
    }
    const double *lead_sorted = sorted(&scratch, of_leading, runs);
    for (int c = 0; c < choices; c++) {
        struct decide_choice *to = &d.choices[c];
        struct arena own = scratch;
        const double *v = value + (size_t)c * n;
        int loses = 0;
        for (int i = 0; i < runs; i++) {
            regret[i] = best[i] - v[i];
            to->regret += regret[i] / runs;
            loses += of_leading[i] > v[i];
        }
        to->loses = (double)loses / runs;
        to->regret_90 = quantile_of(regret, n, 0.9);
        to->dominated = c != d.leading && dominates(lead_sorted, sorted(&own, v, runs), runs);
    }
    if (d.runner < 0) return d;
    double squares = 0;
    const double *of_runner = value + (size_t)d.runner * n;
    d.ahead = d.choices[d.leading].mean - d.choices[d.runner].mean;
    for (int i = 0; i < runs; i++) {
        double off = of_leading[i] - of_runner[i] - d.ahead;
        squares += off * off;
    }
    d.ahead_error = sqrt(squares / (runs - 1) / runs);
    return d;
}

bool decide_change_of(const double *at, const double *slope, int choices, int leading,
                      struct decide_change *out)
{
    *out = (struct decide_change){INFINITY, -1};
    for (int c = 0; c < choices; c++) {
        double gains = slope[c] - slope[leading];
        if (c == leading || !(gains > 0)) continue;
        double t = (at[leading] - at[c]) / gains;
        if (t < out->t) *out = (struct decide_change){t, c};
    }
    return out->to >= 0;
}

bool decide_break_even(const double *given_yes, const double *given_no, int choices, double p,
                       struct decide_change *out)
{
    enum { MOST = 32 };
    double at[MOST], up[MOST], down[MOST];
    int leading = 0;
    assert(choices >= 1 && choices <= MOST);
    for (int c = 0; c < choices; c++) {
        up[c] = given_yes[c] - given_no[c];
        down[c] = -up[c];
        at[c] = given_no[c] + p * up[c];
        if (at[c] > at[leading]) leading = c;
    }
    struct decide_change above, below;
    bool rises = decide_change_of(at, up, choices, leading, &above) && p + above.t <= 1;
    bool falls = decide_change_of(at, down, choices, leading, &below) && p - below.t >= 0;
    if (!rises && !falls) return false;
    bool take_above = rises && (!falls || above.t <= below.t);
    *out = take_above ? (struct decide_change){p + above.t, above.to}
                      : (struct decide_change){p - below.t, below.to};
    return true;
}
