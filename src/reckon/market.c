#include "reckon/market.h"

#include <assert.h>
#include <math.h>

enum column { LEVEL, ASKED, YEARS, GRADE, ORIGINAL, AWAY, COLUMNS };

/* On the log scale: 0.26 is a price higher by three tenths. The grade is told from 3, the
 * originality from the whole of it, so that the level is a used, original one. */
static const double prior_mean[COLUMNS] = {[ASKED] = 0.10, [GRADE] = -0.30, [ORIGINAL] = 0.25};
static const double prior_sd[COLUMNS] = {
    [LEVEL] = INFINITY, [ASKED] = 0.08,    [YEARS] = 0.05,
    [GRADE] = 0.12,     [ORIGINAL] = 0.20, [AWAY] = 0.10,
};
static const struct regress_prior prior = {prior_mean, prior_sd, 0.25, 4};

static void row_of(const struct market_sale *s, double x[COLUMNS])
{
    x[LEVEL] = 1;
    x[ASKED] = s->asked;
    x[YEARS] = s->years;
    x[GRADE] = s->grade - 3;
    x[ORIGINAL] = s->original - 1;
    x[AWAY] = log1p(s->kilometres / 100); /* the next street matters as much as the next country */
}

static void row_near(double grade, double original, double x[COLUMNS])
{
    row_of(&(struct market_sale){.grade = grade, .original = original}, x);
}

bool market_fit(struct arena *a, const struct market_sale *sales, int n, struct market *out)
{
    if (n < MARKET_FEWEST) return false;
    double *x = ARENA_ARRAY(a, double, n *(int)COLUMNS), *y = ARENA_ARRAY(a, double, n);
    for (int i = 0; i < n; i++) {
        assert(sales[i].price > 0);
        row_of(&sales[i], x + i * COLUMNS);
        y[i] = log(sales[i].price);
    }
    *out = (struct market){.sales = sales, .n_sales = n};
    bool told = regress_fit(a, n, COLUMNS, x, y, &prior, &out->line);
    assert(told); /* every column but the level has a row of the prior */
    return told;
}

struct points market_worth(const struct market *m, double grade, double original,
                           struct arena scratch)
{
    static const double z90 = 1.2815515655446004; /* the 90 % point of the standard normal */
    double x[COLUMNS];
    row_near(grade, original, x);
    struct regress_next next = regress_predict(&m->line, x, scratch);
    double by = exp(next.scale * student_quantile(z90, m->line.freedom));
    return (struct points){exp(next.mean) / by, exp(next.mean), exp(next.mean) * by};
}

struct market_pull market_pull_of(const struct market *m, double grade, double original,
                                  struct arena scratch)
{
    double x[COLUMNS], most = 0;
    int sale = 0;
    row_near(grade, original, x);
    for (int i = 0; i < m->n_sales; i++) {
        double pull = regress_pull(&m->line, i, x, scratch);
        if (fabs(pull) > fabs(most)) most = pull, sale = i;
    }
    return (struct market_pull){sale, exp(most)};
}
