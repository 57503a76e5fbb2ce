#include "reckon/pace.h"

#include "base/random.h"

#include <assert.h>
#include <math.h>

void pace_log_add(struct pace_log *log, struct points estimated, double logged)
{
    bool spread = estimated.low < estimated.middle || estimated.middle < estimated.high;
    assert(logged > 0);
    if (!spread) return;
    log->jobs++;
    log->z_sum += points_z(estimated, logged);
}

static double own_share(struct pace_shares s)
{
    double own = 1 - s.pace - s.state - s.kind;
    assert(s.pace >= 0 && s.state >= 0 && s.kind >= 0 && own > 0);
    return own;
}

/* A vehicle's mean z is sqrt(a) P + sqrt(b) S + noise of variance own / jobs; S is unknown too, so
 * that as a measurement of sqrt(a) P it has variance b + own / jobs, however many jobs. */
struct normal pace_posterior(struct pace_shares shares, const struct pace_log *logs, int vehicles)
{
    double own = own_share(shares), precision = 1, weighted = 0;
    for (int v = 0; v < vehicles; v++) {
        if (logs[v].jobs == 0) continue;
        double jobs = logs[v].jobs;
        double variance = shares.state + own / jobs;
        precision += shares.pace / variance;
        weighted += sqrt(shares.pace) * logs[v].z_sum / jobs / variance;
    }
    return (struct normal){weighted / precision, sqrt(1 / precision)};
}

struct normal pace_state(struct pace_shares shares, struct pace_log log, double pace)
{
    double own = own_share(shares);
    if (log.jobs == 0) return (struct normal){0, 1};
    double noise = own / log.jobs, variance = shares.state + noise;
    double rest = log.z_sum / log.jobs - sqrt(shares.pace) * pace;
    return (struct normal){sqrt(shares.state) * rest / variance, sqrt(noise / variance)};
}

struct normal pace_predict(struct pace_shares shares, const struct pace_log *logs, int vehicles,
                           int which)
{
    assert(which >= 0 && which < vehicles);
    struct normal pace = pace_posterior(shares, logs, vehicles);
    struct normal state = pace_state(shares, logs[which], pace.mean);
    /* S leans against P: of what the log shows, the more is pace, the less is state. */
    double lean = pace_state(shares, logs[which], 1).mean - pace_state(shares, logs[which], 0).mean;
    double by_pace = (sqrt(shares.pace) + sqrt(shares.state) * lean) * pace.sd;
    double by_state = sqrt(shares.state) * state.sd;
    return (struct normal){
        sqrt(shares.pace) * pace.mean + sqrt(shares.state) * state.mean,
        sqrt(by_pace * by_pace + by_state * by_state + own_share(shares)),
    };
}

double pace_quantile(struct points p, struct normal z, double chance)
{
    return points_draw(p, z.mean + z.sd * normal_quantile(chance));
}

/* ---- with kinds of work ---- */

/* The lower root of a positive matrix of n rows, in its place. */
static void take_root(double *m, int n)
{
    for (int i = 0; i < n; i++)
        for (int k = 0; k <= i; k++) {
            double sum = m[i * n + k];
            for (int j = 0; j < k; j++) sum -= m[i * n + j] * m[k * n + j];
            assert(i != k || sum > 0);
            m[i * n + k] = i == k ? sqrt(sum) : sum / m[k * n + k];
        }
}

/* Solves root root' x = b, x in the place of b. */
static void solve(const double *root, int n, double *b)
{
    for (int i = 0; i < n; i++) {
        for (int k = 0; k < i; k++) b[i] -= root[i * n + k] * b[k];
        b[i] /= root[i * n + i];
    }
    for (int i = n - 1; i >= 0; i--) {
        for (int k = i + 1; k < n; k++) b[i] -= root[k * n + i] * b[k];
        b[i] /= root[i * n + i];
    }
}

/* Precisions of a normal add up: those of the prior, and for each cell those of its jobs. */
struct pace_learned pace_learn(struct arena *a, struct pace_shares shares,
                               const struct pace_cell *cells, int n_cells, int vehicles, int kinds)
{
    const int kept = 1 + kinds, n = kept + vehicles;
    const double own = own_share(shares);
    struct pace_learned x = {.n = kept,
                             .mean = ARENA_ARRAY(a, double, kept),
                             .root = ARENA_ARRAY(a, double, kept *kept)};
    struct arena scratch = *a;
    double *precision = ARENA_ARRAY(&scratch, double, n *n),
           *column = ARENA_ARRAY(&scratch, double, n), *mean = ARENA_ARRAY(&scratch, double, n);
    for (int i = 0; i < n * n; i++) precision[i] = i % (n + 1) == 0;
    for (int i = 0; i < n; i++) mean[i] = 0;
    for (int c = 0; c < n_cells; c++) {
        assert(cells[c].vehicle >= 0 && cells[c].vehicle < vehicles);
        assert(cells[c].kind >= 0 && cells[c].kind < kinds);
        const int at[3] = {0, 1 + cells[c].kind, kept + cells[c].vehicle};
        const double by[3] = {sqrt(shares.pace), sqrt(shares.kind), sqrt(shares.state)};
        for (int i = 0; i < 3; i++) {
            mean[at[i]] += by[i] * cells[c].log.z_sum / own;
            for (int k = 0; k < 3; k++)
                precision[at[i] * n + at[k]] += by[i] * by[k] * cells[c].log.jobs / own;
        }
    }
    take_root(precision, n);
    solve(precision, n, mean);
    for (int i = 0; i < kept; i++) {
        x.mean[i] = mean[i];
        for (int k = 0; k < n; k++) column[k] = k == i;
        solve(precision, n, column);
        for (int k = 0; k < kept; k++) x.root[k * kept + i] = column[k];
    }
    take_root(x.root, kept);
    for (int i = 0; i < kept; i++)
        for (int k = i + 1; k < kept; k++) x.root[i * kept + k] = 0;
    return x;
}

struct normal pace_of_kind(const struct pace_learned *x, struct pace_shares shares, int kind)
{
    const double *pace = x->root, *of = x->root + (kind + 1) * x->n;
    const double a = sqrt(shares.pace), k = kind < 0 ? 0 : sqrt(shares.kind);
    double variance = 0;
    for (int i = 0; i < x->n; i++) {
        const double by = a * pace[i] + k * of[i];
        variance += by * by;
    }
    return (struct normal){a * x->mean[0] + k * x->mean[kind + 1], sqrt(variance)};
}
