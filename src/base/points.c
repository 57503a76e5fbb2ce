#include "base/points.h"

#include "base/random.h"
#include "base/text.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static const double Z90 = 1.2815515655446004; /* standard normal 90th percentile */

static bool is_none(struct points p)
{
    return p.low == 0.0 && p.middle == 0.0 && p.high == 0.0;
}

/* Standard deviation of the logarithm below the middle, and above. */
static double spread_below(struct points p)
{
    return log(p.middle / p.low) / Z90;
}

static double spread_above(struct points p)
{
    return log(p.high / p.middle) / Z90;
}

bool points_valid(struct points p)
{
    return is_none(p) ||
           (p.low > 0.0 && p.low <= p.middle && p.middle <= p.high && isfinite(p.high));
}

bool points_parse(const char *s, struct points *out, struct fail *f)
{
    double part[3];
    int parts = 0;
    for (const char *at = s; at; parts++) {
        const char *slash = strchr(at, '/');
        const size_t n = slash ? (size_t)(slash - at) : strlen(at);
        char figure[64];
        if (parts == 3 || n >= sizeof figure) break;
        memcpy(figure, at, n);
        figure[n] = '\0';
        if (!text_to_double(figure, &part[parts]))
            return fail_set(f, FAIL_INPUT,
                            "'%s': '%s' is no number; write low/middle/high, as 2/5/12", s, figure);
        at = slash ? slash + 1 : NULL;
        if (!at && parts == 0) part[1] = part[2] = part[0];
        if (!at && parts != 1) {
            const struct points p = {part[0], part[1], part[2]};
            if (!points_valid(p))
                return fail_set(f, FAIL_INPUT,
                                "'%s': the three must rise and be above 0; write low/middle/high",
                                s);
            *out = p;
            return true;
        }
    }
    return fail_set(f, FAIL_INPUT, "'%s': one figure or three; write low/middle/high, as 2/5/12",
                    s);
}

struct points points_scale(struct points p, double by)
{
    return (struct points){p.low * by, p.middle * by, p.high * by};
}

double points_draw(struct points p, double z)
{
    if (is_none(p)) return 0.0;
    return p.middle * exp(z * (z < 0.0 ? spread_below(p) : spread_above(p)));
}

double points_z(struct points p, double value)
{
    assert(points_valid(p) && !is_none(p) && value > 0.0);
    const double spread = value < p.middle ? spread_below(p) : spread_above(p);
    return spread > 0.0 ? log(value / p.middle) / spread : 0.0;
}

double points_mean(struct points p)
{
    if (is_none(p)) return 0.0;
    const double a = spread_below(p), b = spread_above(p);
    return p.middle * (exp(a * a / 2.0) * normal_cdf(-a) + exp(b * b / 2.0) * normal_cdf(b));
}
