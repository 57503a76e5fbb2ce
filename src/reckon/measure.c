#include "reckon/measure.h"

#include "reckon/regress.h"

#include <assert.h>
#include <math.h>

static const double Z_95 = 1.959963984540054; /* of 100 normal draws 95 are nearer */

const char *measure_state_word(enum measure_state s)
{
    static const char *const words[] = {"good", "near the limit", "past it", "cannot tell"};
    return words[s];
}

/* 95 % of Student's t; exact where three or four readings leave one or two degrees of freedom. */
static double student_95(int freedom)
{
    return freedom == 1   ? 12.706204736432095
           : freedom == 2 ? 4.302652729911275
                          : student_quantile(Z_95, freedom);
}

static double left_to(const struct limit *l, double value)
{
    return fmin(l->has_low ? value - l->low : INFINITY, l->has_high ? l->high - value : INFINITY);
}

static enum measure_state state_of(const struct limit *l, double left, double gauge)
{
    if (!l->has_low && !l->has_high) return MEASURE_CANNOT_TELL;
    if (fabs(left) < gauge) return MEASURE_CANNOT_TELL;
    return left < 0 ? MEASURE_PAST : left < l->margin ? MEASURE_NEAR : MEASURE_GOOD;
}

struct line {
    int n;
    double at, value;         /* the middle that it goes through */
    double spread;            /* sum of squares of `at` about it */
    double slope, scatter, t; /* t: 95 % of Student's, for n - 2 */
};

static struct line line_of(const struct reading *r, int n, double gauge)
{
    struct line l = {.n = n};
    double products = 0, squares = 0;
    for (int i = 0; i < n; i++) l.at += r[i].at / n, l.value += r[i].value / n;
    for (int i = 0; i < n; i++) {
        l.spread += (r[i].at - l.at) * (r[i].at - l.at);
        products += (r[i].at - l.at) * (r[i].value - l.value);
    }
    if (n < 3 || !(l.spread > 0)) return l;
    l.slope = products / l.spread;
    for (int i = 0; i < n; i++) {
        const double off = r[i].value - l.value - l.slope * (r[i].at - l.at);
        squares += off * off;
    }
    l.scatter = fmax(sqrt(squares / (n - 2)), gauge / Z_95);
    l.t = student_95(n - 2);
    return l;
}

/* Fieller: where the line and its band meet `limit`. The slope is real, so both ends are finite. */
static void cross(const struct line *l, double limit, struct measured *m)
{
    const double g = m->give * m->give, d = l->value - limit;
    const double a = l->slope * l->slope - g, b = l->slope * d;
    const double c = d * d - l->t * l->t * l->scatter * l->scatter / l->n;
    const double root = sqrt(fmax(0, b * b - a * c));
    m->crosses = l->at - d / l->slope;
    m->soonest = l->at + (-b - root) / a;
    m->latest = l->at + (-b + root) / a;
}

struct measured measure_judge(const struct limit *limit, const struct reading *r, int n,
                              double gauge)
{
    assert(n >= 1 && gauge >= 0 && limit->margin >= 0);
    int last = 0;
    double first = r[0].at;
    for (int i = 1; i < n; i++) {
        if (r[i].at >= r[last].at) last = i;
        first = fmin(first, r[i].at);
    }
    const double left = left_to(limit, r[last].value);
    struct measured m = {.state = state_of(limit, left, gauge), .left = isfinite(left) ? left : 0};
    const struct line l = line_of(r, n, gauge);
    m.trend = n < 3 ? TREND_FEW : !(l.spread > 0) ? TREND_AT_ONCE : TREND_CHANCE;
    if (m.trend != TREND_CHANCE) return m;
    m.slope = l.slope;
    m.error = l.scatter / sqrt(l.spread);
    m.give = l.t * m.error;
    if (!(fabs(m.slope) > m.give)) return m;
    m.trend = TREND_NONE_TO;
    const bool falls = m.slope < 0, has = falls ? limit->has_low : limit->has_high;
    if (!has || (falls ? r[last].value <= limit->low : r[last].value >= limit->high)) return m;
    cross(&l, falls ? limit->low : limit->high, &m);
    if (!isfinite(m.crosses) || !isfinite(m.soonest) || !isfinite(m.latest)) return m;
    m.crosses = fmax(m.crosses, r[last].at); /* the last reading was still on the good side */
    m.soonest = fmax(m.soonest, r[last].at);
    m.latest = fmax(m.latest, r[last].at);
    m.trend = TREND_TO;
    m.far = m.crosses - r[last].at > 2 * (r[last].at - first);
    return m;
}
