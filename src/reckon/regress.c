#include "reckon/regress.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* A column whose rest is so small beside what it was can be made of those before it. */
static const double TOLERANCE = 1e-13;

/* The table with y as its last column, a row a line; reflected in place. */
struct table {
    int rows, width;
    double *at;
};

static double *cell(const struct table *t, int row, int column)
{
    return t->at + (size_t)row * (size_t)t->width + column;
}

static double length(const struct table *t, int from, int column)
{
    double most = 0, sum = 0; /* scaled, so that no square overflows */
    for (int i = from; i < t->rows; i++) most = fmax(most, fabs(*cell(t, i, column)));
    if (most == 0) return 0;
    for (int i = from; i < t->rows; i++) {
        double v = *cell(t, i, column) / most;
        sum += v * v;
    }
    return most * sqrt(sum);
}

/* One reflection: column k becomes (.., d, 0, .., 0) from row k on. */
static bool reflect(struct table *t, int k, double whole)
{
    double d = length(t, k, k);
    if (!(d > TOLERANCE * whole)) return false;
    double head = *cell(t, k, k);
    if (head > 0) d = -d; /* away from it, so that nothing cancels */
    double *v = cell(t, k, k);
    *v = head - d;
    double half = -d * *v; /* v'v / 2 */
    for (int j = k + 1; j < t->width; j++) {
        long double dot = 0;
        for (int i = k; i < t->rows; i++)
            dot += (long double)*cell(t, i, k) * (long double)*cell(t, i, j);
        double by = (double)(dot / (long double)half);
        for (int i = k; i < t->rows; i++) *cell(t, i, j) -= by * *cell(t, i, k);
    }
    *v = d;
    for (int i = k + 1; i < t->rows; i++) *cell(t, i, k) = 0;
    return true;
}

/* r u = b, upwards. */
static void solve(const double *r, int n, const double *b, double *u)
{
    for (int i = n - 1; i >= 0; i--) {
        double sum = b[i];
        for (int j = i + 1; j < n; j++) sum -= r[i * n + j] * u[j];
        u[i] = sum / r[i * n + i];
    }
}

/* r' u = b, downwards. */
static void solve_turned(const double *r, int n, const double *b, double *u)
{
    for (int i = 0; i < n; i++) {
        double sum = b[i];
        for (int j = 0; j < i; j++) sum -= r[j * n + i] * u[j];
        u[i] = sum / r[i * n + i];
    }
}

static double dot(const double *x, const double *y, int n)
{
    double sum = 0;
    for (int i = 0; i < n; i++) sum += x[i] * y[i];
    return sum;
}

static struct table table_of(struct arena *a, const struct regress *f,
                             const struct regress_prior *prior)
{
    struct table t = {f->rows, f->columns + 1, NULL};
    t.at =
        arena_take(a, (size_t)(f->rows + (prior ? f->columns : 0)) * (size_t)t.width, sizeof *t.at);
    for (int i = 0; i < f->rows; i++) {
        memcpy(cell(&t, i, 0), f->x + (size_t)i * (size_t)f->columns,
               (size_t)f->columns * sizeof(double));
        *cell(&t, i, f->columns) = f->y[i];
    }
    for (int j = 0; prior && j < f->columns; j++) {
        if (isinf(prior->sd[j])) continue;
        assert(prior->sd[j] > 0);
        double weight = prior->scatter / prior->sd[j];
        *cell(&t, t.rows, j) = weight;
        *cell(&t, t.rows++, f->columns) = weight * prior->mean[j];
    }
    return t;
}

/* Scale of each coefficient: scatter times the length of a row of r's inverse. */
static void errors_of(struct regress *f, struct arena scratch)
{
    int n = f->columns;
    double *unit = ARENA_ARRAY(&scratch, double, n), *u = ARENA_ARRAY(&scratch, double, n);
    for (int j = 0; j < n; j++) {
        memset(unit, 0, (size_t)n * sizeof *unit);
        unit[j] = 1;
        solve_turned(f->r, n, unit, u);
        f->error[j] = f->scatter * sqrt(dot(u, u, n));
    }
}

bool regress_fit(struct arena *a, int rows, int columns, const double *x, const double *y,
                 const struct regress_prior *prior, struct regress *out)
{
    int n = columns, flat = 0;
    assert(rows >= 1 && columns >= 1);
    assert(!prior || (prior->scatter > 0 && prior->weight > 0));
    *out = (struct regress){.rows = rows, .columns = n, .x = x, .y = y};
    out->beta = ARENA_ARRAY(a, double, n);
    out->error = ARENA_ARRAY(a, double, n);
    out->r = arena_take(a, (size_t)n * (size_t)n, sizeof *out->r);
    struct arena scratch = *a;
    struct table t = table_of(&scratch, out, prior);
    if (t.rows < n) return false;
    double *right = ARENA_ARRAY(&scratch, double, n);
    for (int k = 0; k < n; k++)
        if (!reflect(&t, k, length(&t, 0, k))) return false;
    for (int i = 0; i < n; i++) {
        for (int j = i; j < n; j++) out->r[i * n + j] = *cell(&t, i, j);
        right[i] = *cell(&t, i, n);
    }
    solve(out->r, n, right, out->beta);
    double rest = t.rows > n ? length(&t, n, n) : 0;
    out->squares = rest * rest;
    for (int j = 0; j < n; j++) flat += !prior || isinf(prior->sd[j]);
    out->freedom = (prior ? prior->weight : 0) + rows - flat;
    double sum = out->squares + (prior ? prior->weight * prior->scatter * prior->scatter : 0);
    out->scatter = out->freedom > 0 ? sqrt(sum / out->freedom) : 0;
    errors_of(out, scratch);
    return true;
}

struct regress_share regress_share_of(const struct regress *f, bool constant)
{
    double mean = 0, all = 0;
    for (int i = 0; constant && i < f->rows; i++) mean += f->y[i] / f->rows;
    for (int i = 0; i < f->rows; i++) all += (f->y[i] - mean) * (f->y[i] - mean);
    int used = f->columns - (constant ? 1 : 0);
    double explained = (all - f->squares) / used;
    return (struct regress_share){.r2 = 1 - f->squares / all,
                                  .f = f->squares > 0 ? explained / (f->squares / f->freedom)
                                                      : (double)INFINITY};
}

struct regress_next regress_predict(const struct regress *f, const double *x, struct arena scratch)
{
    double *u = ARENA_ARRAY(&scratch, double, f->columns);
    solve_turned(f->r, f->columns, x, u);
    return (struct regress_next){dot(x, f->beta, f->columns),
                                 f->scatter * sqrt(1 + dot(u, u, f->columns))};
}

double regress_pull(const struct regress *f, int row, const double *x, struct arena scratch)
{
    int n = f->columns;
    const double *own = f->x + (size_t)row * (size_t)n;
    double *u = ARENA_ARRAY(&scratch, double, n), *v = ARENA_ARRAY(&scratch, double, n);
    solve_turned(f->r, n, own, u);
    solve_turned(f->r, n, x, v);
    double rest = f->y[row] - dot(own, f->beta, n), leverage = dot(u, u, n);
    /* A leverage of 1: without this row there is no line. */
    return leverage < 1 - 1e-12 ? dot(u, v, n) * rest / (1 - leverage) : (double)INFINITY;
}

/* erfc keeps its figures in the far tail, where 1 - cdf has none. */
double student_quantile(double z, double n)
{
    const double pi = 3.14159265358979323846;
    assert(n > 0);
    if (z == 0) return 0;
    double x = -fabs(z), chance = erfc(-x / sqrt(2)); /* both tails */
    double a = 1 / (n - 0.5), b = 48 / (a * a), c = ((20700 * a / b - 98) * a - 16) * a + 96.36;
    double d = ((94.5 / (b + c) - 3) / b + 1) * sqrt(a * pi / 2) * n;
    double y = pow(d * chance, 2 / n);
    if (y > 0.05 + a) { /* about the normal */
        double square = x * x;
        if (n < 5) c += 0.3 * (n - 4.5) * (x + 0.6);
        c += (((0.05 * d * x - 5) * x - 7) * x - 2) * x + b;
        y = (((((0.4 * square + 6.3) * square + 36) * square + 94.5) / c - square - 3) / b + 1) * x;
        y = expm1(a * y * y);
    } else {
        y = ((1 / (((n + 6) / (n * y) - 0.089 * d - 0.822) * (n + 2) * 3) + 0.5 / (n + 4)) * y -
             1) *
                (n + 1) / (n + 2) +
            1 / y;
    }
    double t = sqrt(n * y);
    return z > 0 ? t : -t;
}
