#include "reckon/simplex.h"

#include "reckon/factor.h"

#include <float.h>
#include <math.h>
#include <stdlib.h>

#define FEASIBLE 1e-7 /* a value this far outside its box is taken for inside */
#define DUAL     1e-7 /* the same for reduced costs, of a largest cost about 1 */
#define PIVOT    1e-7
#define AGREE    1e-6 /* two ways to reckon a pivot may differ by this share */
enum { REFACTOR = 60 };

struct step {
    int column;
    double ratio, alpha; /* alpha: signed so that a leaving step lowers d by it */
};

struct simplex {
    struct arena *arena;
    const struct program *p;
    int n, m; /* columns, rows; variable n + i is minus what row i sums to */
    double cost_scale;
    double *row_scale;
    struct factor_matrix matrix; /* scaled, by column */
    int *row_start, *row_column; /* scaled, by row */
    double *row_value;
    double *cost; /* scaled and perturbed, by variable */
    double *true_cost;
    double *low, *high, *x, *d, *weight; /* by variable; weight of basic ones */
    int *basis, *position;               /* position: row, or -1 */
    struct factor *factor;
    double *rho, *alpha_row, *alpha, *tau, *flip, *dual;
    struct step *steps;
    int64_t taken;
    double *off;             /* by row: how far the basic one is outside its box */
    int *touched, n_touched; /* where alpha_row is not zero */
    bool stale, perturbed;   /* stale: the factors must be made anew */
    double *ray;
};

/* A number in (0, 1) of j: the same on every run. */
static double jitter(int j)
{
    uint64_t z = (uint64_t)j * 0x9e3779b97f4a7c15u + 0x632be59bd9b4e019u;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return ((double)(z >> 11) + 0.5) * 0x1p-53;
}

/* The power of two by which v becomes about 1: scaling by it rounds nothing. */
static double scale_of(double v)
{
    int e;
    if (v == 0) return 1;
    frexp(v, &e);
    return ldexp(1, -e + 1);
}

static void copy_matrix(struct simplex *s)
{
    const struct program *p = s->p;
    struct arena *a = s->arena;
    int entries = p->row_start[p->rows];
    int *start = ARENA_ARRAY(a, int, s->n + 1), *row = ARENA_ARRAY(a, int, entries);
    double *value = ARENA_ARRAY(a, double, entries);
    s->row_scale = ARENA_ARRAY(a, double, s->m);
    s->row_start = p->row_start;
    s->row_column = ARENA_ARRAY(a, int, entries);
    s->row_value = ARENA_ARRAY(a, double, entries);
    for (int i = 0; i < s->m; i++) {
        double largest = 0;
        for (int k = p->row_start[i]; k < p->row_start[i + 1]; k++)
            largest = fmax(largest, fabs((double)p->of_row[k].value));
        s->row_scale[i] = scale_of(largest);
        for (int k = p->row_start[i]; k < p->row_start[i + 1]; k++) {
            s->row_column[k] = p->of_row[k].at;
            s->row_value[k] = (double)p->of_row[k].value * s->row_scale[i];
        }
    }
    for (int j = 0; j <= s->n; j++) start[j] = p->column_start[j];
    for (int k = 0; k < entries; k++) {
        row[k] = p->of_column[k].at;
        value[k] = (double)p->of_column[k].value * s->row_scale[row[k]];
    }
    s->matrix = (struct factor_matrix){s->m, s->n, start, row, value};
}

struct simplex *simplex_new(struct arena *a, const struct program *p)
{
    struct simplex *s = ARENA_NEW(a, struct simplex);
    int n = p->columns, m = p->rows, all = n + m;
    s->arena = a, s->p = p, s->n = n, s->m = m;
    copy_matrix(s);
    s->cost = ARENA_ARRAY(a, double, all);
    s->true_cost = ARENA_ARRAY(a, double, all);
    s->low = ARENA_ARRAY(a, double, all);
    s->high = ARENA_ARRAY(a, double, all);
    s->x = ARENA_ARRAY(a, double, all);
    s->d = ARENA_ARRAY(a, double, all);
    s->weight = ARENA_ARRAY(a, double, all);
    s->position = ARENA_ARRAY(a, int, all);
    s->alpha_row = ARENA_ARRAY(a, double, all);
    s->steps = ARENA_ARRAY(a, struct step, all);
    s->basis = ARENA_ARRAY(a, int, m);
    s->rho = ARENA_ARRAY(a, double, m);
    s->alpha = ARENA_ARRAY(a, double, m);
    s->tau = ARENA_ARRAY(a, double, m);
    s->flip = ARENA_ARRAY(a, double, m);
    s->dual = ARENA_ARRAY(a, double, m);
    s->ray = ARENA_ARRAY(a, double, m);
    s->off = ARENA_ARRAY(a, double, m);
    s->touched = ARENA_ARRAY(a, int, all);
    double largest = 0;
    for (int j = 0; j < n; j++) largest = fmax(largest, fabs((double)p->cost[j]));
    s->cost_scale = scale_of(largest);
    for (int j = 0; j < n; j++) s->true_cost[j] = (double)p->cost[j] * s->cost_scale;
    for (int j = 0; j < all; j++) s->position[j] = -1, s->weight[j] = 1;
    for (int i = 0; i < m; i++) {
        s->basis[i] = n + i;
        s->position[n + i] = i;
        double by = -s->row_scale[i];
        s->low[n + i] = p->most[i] >= PROGRAM_NO_END ? -INFINITY : (double)p->most[i] * by;
        s->high[n + i] = p->least[i] <= -PROGRAM_NO_END ? INFINITY : (double)p->least[i] * by;
    }
    s->factor = factor_new(a, &s->matrix);
    s->stale = true;
    return s;
}

static void perturb(struct simplex *s)
{
    for (int j = 0; j < s->n; j++) {
        double by = (1e-6 * fabs(s->true_cost[j]) + 1e-7) * (0.5 + jitter(j));
        s->cost[j] = s->true_cost[j] + (s->true_cost[j] < 0 ? -by : by);
    }
    for (int i = 0; i < s->m; i++) s->cost[s->n + i] = 0;
    s->perturbed = true;
}

static void settle(struct simplex *s)
{
    for (int j = 0; j < s->n; j++) s->cost[j] = s->true_cost[j];
    for (int i = 0; i < s->m; i++) s->cost[s->n + i] = 0;
    s->perturbed = false;
}

static void refactor(struct simplex *s)
{
    if (factor_make(s->factor, s->basis) > 0) /* a column fell out: its weight is anyone's guess */
        for (int j = 0; j < s->n + s->m; j++) s->weight[j] = 1;
    for (int j = 0; j < s->n + s->m; j++) s->position[j] = -1;
    for (int i = 0; i < s->m; i++) s->position[s->basis[i]] = i;
    s->stale = false;
}

/* Duals and reduced costs anew from the costs; what lies at no end that suits its sign is shifted.
 */
static void price(struct simplex *s)
{
    int n = s->n, m = s->m;
    for (int i = 0; i < m; i++) s->dual[i] = s->cost[s->basis[i]];
    factor_backward(s->factor, s->dual);
    for (int j = 0; j < n; j++) {
        s->d[j] = 0;
        if (s->position[j] >= 0 || s->low[j] == s->high[j]) continue;
        double sum = s->cost[j];
        for (int k = s->matrix.start[j]; k < s->matrix.start[j + 1]; k++)
            sum -= s->dual[s->matrix.row[k]] * s->matrix.value[k];
        s->d[j] = sum;
    }
    for (int i = 0; i < m; i++) {
        int j = n + i;
        s->d[j] = s->position[j] >= 0 ? 0 : s->cost[j] - s->dual[i];
        if (s->position[j] >= 0) continue;
        if ((s->d[j] > 0 && isinf(s->low[j])) || (s->d[j] < 0 && isinf(s->high[j]))) {
            s->cost[j] -= s->d[j];
            s->d[j] = 0;
        }
    }
}

/* How far each basic variable is outside its box, signed. */
static double outside(const struct simplex *s, int i)
{
    int j = s->basis[i];
    if (s->x[j] < s->low[j] - FEASIBLE) return s->x[j] - s->low[j];
    if (s->x[j] > s->high[j] + FEASIBLE) return s->x[j] - s->high[j];
    return 0;
}

/* The others at the ends that their reduced costs ask for, the basic ones from the rows. */
static void place(struct simplex *s)
{
    int n = s->n, m = s->m;
    double *sum = s->flip;
    for (int i = 0; i < m; i++) sum[i] = 0;
    for (int j = 0; j < n + m; j++) {
        if (s->position[j] >= 0) continue;
        bool high = s->d[j] < -DUAL || (s->d[j] <= DUAL && s->x[j] >= s->high[j]);
        if (high && isinf(s->high[j])) high = false;
        if (!high && isinf(s->low[j])) high = true;
        s->x[j] = high ? s->high[j] : s->low[j];
        if (s->x[j] == 0) continue;
        if (j >= n)
            sum[j - n] -= s->x[j];
        else
            for (int k = s->matrix.start[j]; k < s->matrix.start[j + 1]; k++)
                sum[s->matrix.row[k]] -= s->matrix.value[k] * s->x[j];
    }
    factor_forward(s->factor, sum);
    for (int i = 0; i < m; i++) {
        s->x[s->basis[i]] = sum[i];
        s->off[i] = outside(s, i);
    }
}

static int leaving(const struct simplex *s)
{
    int row = -1;
    double best = 0;
    for (int i = 0; i < s->m; i++) {
        if (s->off[i] == 0) continue;
        double score = s->off[i] * s->off[i] / s->weight[s->basis[i]];
        if (score > best) best = score, row = i;
    }
    return row;
}

/* Row `row` of B^-1 and of B^-1 N, with the columns where it is not zero. Fills s->steps with the
 * candidates; returns how many. */
static int row_of(struct simplex *s, int row, double off)
{
    int n = s->n, found = 0;
    for (int t = 0; t < s->n_touched; t++) s->alpha_row[s->touched[t]] = 0;
    s->n_touched = 0;
    for (int i = 0; i < s->m; i++) s->rho[i] = 0;
    s->rho[row] = 1;
    factor_backward(s->factor, s->rho);
    for (int i = 0; i < s->m; i++) {
        double by = s->rho[i];
        if (fabs(by) < 1e-14) continue;
        s->alpha_row[n + i] = by;
        s->touched[s->n_touched++] = n + i;
        for (int k = s->row_start[i]; k < s->row_start[i + 1]; k++) {
            int j = s->row_column[k];
            if (s->position[j] >= 0 || s->low[j] == s->high[j]) continue;
            /* Zero that stands for "touched, but cancelled" must not be entered twice. */
            if (s->alpha_row[j] == 0) s->touched[s->n_touched++] = j, s->alpha_row[j] = 1e-300;
            s->alpha_row[j] += by * s->row_value[k];
            if (s->alpha_row[j] == 0) s->alpha_row[j] = 1e-300;
        }
    }
    for (int t = 0; t < s->n_touched; t++) {
        int j = s->touched[t];
        if (s->position[j] >= 0 || s->low[j] == s->high[j]) continue;
        double alpha = off > 0 ? s->alpha_row[j] : -s->alpha_row[j];
        if (fabs(alpha) < PIVOT) continue;
        bool high = s->x[j] == s->high[j];
        if (high ? alpha > 0 : alpha < 0) continue;
        s->steps[found++] = (struct step){j, fmax(0, s->d[j] / alpha), alpha};
    }
    return found;
}

static int by_ratio(const void *a, const void *b)
{
    const struct step *x = a, *y = b;
    if (x->ratio != y->ratio) return x->ratio < y->ratio ? -1 : 1;
    return (x->column > y->column) - (x->column < y->column);
}

/* Which candidate enters: flips of those before it pay while the slope stays above zero. The last
 * *flips of the steps before it; -1: all flips do not suffice. */
static int entering(struct simplex *s, int found, double off, int *flips)
{
    double slope = fabs(off);
    struct step *t = s->steps;
    qsort(t, (size_t)found, sizeof *t, by_ratio);
    *flips = 0;
    for (int at = 0; at < found;) {
        double bound = INFINITY, falls = 0;
        int end = at, best = at;
        for (int k = at; k < found && t[k].ratio <= bound; k++) {
            bound = fmin(bound, t[k].ratio + DUAL / fabs(t[k].alpha));
        }
        for (; end < found && t[end].ratio <= bound; end++) {
            int j = t[end].column;
            falls += fabs(t[end].alpha) * (s->high[j] - s->low[j]);
            if (fabs(t[end].alpha) > fabs(t[best].alpha)) best = end;
        }
        if (slope - falls <= FEASIBLE || isinf(falls)) {
            *flips = at;
            return best;
        }
        slope -= falls;
        at = end;
    }
    return -1;
}

static void flip(struct simplex *s, int flips)
{
    bool any = false;
    for (int i = 0; i < s->m; i++) s->flip[i] = 0;
    for (int f = 0; f < flips; f++) {
        int j = s->steps[f].column;
        double to = s->x[j] == s->high[j] ? s->low[j] : s->high[j], by = to - s->x[j];
        s->x[j] = to;
        any = true;
        if (j >= s->n)
            s->flip[j - s->n] -= by;
        else
            for (int k = s->matrix.start[j]; k < s->matrix.start[j + 1]; k++)
                s->flip[s->matrix.row[k]] -= s->matrix.value[k] * by;
    }
    if (!any) return;
    factor_forward(s->factor, s->flip);
    for (int i = 0; i < s->m; i++) {
        if (s->flip[i] == 0) continue;
        s->x[s->basis[i]] += s->flip[i];
        s->off[i] = outside(s, i);
    }
}

/* The entering column q through the factors; false if it does not agree with the row. */
static bool column_through(struct simplex *s, int q, int row)
{
    for (int i = 0; i < s->m; i++) s->alpha[i] = 0;
    if (q >= s->n)
        s->alpha[q - s->n] = 1;
    else
        for (int k = s->matrix.start[q]; k < s->matrix.start[q + 1]; k++)
            s->alpha[s->matrix.row[k]] = s->matrix.value[k];
    factor_forward(s->factor, s->alpha);
    double by_row = s->alpha_row[q], by_column = s->alpha[row];
    return fabs(by_column) > PIVOT / 10 &&
           fabs(by_row - by_column) <= AGREE * (1 + fabs(by_column));
}

static void reprice(struct simplex *s, int q, int out, double theta)
{
    for (int t = 0; t < s->n_touched; t++) {
        int j = s->touched[t];
        if (s->position[j] >= 0) continue;
        s->d[j] -= theta * s->alpha_row[j];
        /* What Harris' test overstepped: the cost is shifted so that it is not. */
        if (s->low[j] == s->high[j]) continue;
        bool high = s->x[j] == s->high[j];
        if (high ? s->d[j] > 0 : s->d[j] < 0) {
            s->cost[j] -= s->d[j];
            s->d[j] = 0;
        }
    }
    s->d[q] = 0;
    s->d[out] = -theta;
}

static void reweigh(struct simplex *s, int q, int row)
{
    double r = 0, pivot = s->alpha[row];
    for (int i = 0; i < s->m; i++) s->tau[i] = s->rho[i], r += s->rho[i] * s->rho[i];
    factor_forward(s->factor, s->tau);
    for (int i = 0; i < s->m; i++) {
        if (i == row || s->alpha[i] == 0) continue;
        double by = s->alpha[i] / pivot, *w = &s->weight[s->basis[i]];
        *w = fmax(*w - 2 * by * s->tau[i] + by * by * r, 1e-4 + by * by);
    }
    s->weight[q] = fmax(r / (pivot * pivot), 1e-4);
}

static double objective(const struct simplex *s)
{
    double sum = 0;
    for (int j = 0; j < s->n + s->m; j++) sum += s->cost[j] * s->x[j];
    return sum;
}

/* One pivot. */
enum pivot { DONE, AGAIN, UNBOUNDED, BROKEN };
static enum pivot pivot(struct simplex *s)
{
    int row = leaving(s), flips;
    if (row < 0) return DONE;
    double off = s->off[row];
    int found = row_of(s, row, off), at = entering(s, found, off, &flips);
    if (at < 0) {
        for (int i = 0; i < s->m; i++) s->ray[i] = s->rho[i];
        return UNBOUNDED;
    }
    int q = s->steps[at].column, out = s->basis[row];
    double theta = s->d[q] / s->alpha_row[q];
    if (!column_through(s, q, row)) return BROKEN;
    flip(s, flips);
    /* The shift of d[q] beyond zero keeps the step from going backwards. */
    if (off > 0 ? theta < 0 : theta > 0) s->cost[q] -= s->d[q], theta = 0;
    reprice(s, q, out, theta);
    reweigh(s, q, row);
    double end = off > 0 ? s->high[out] : s->low[out], by = (s->x[out] - end) / s->alpha[row];
    s->x[q] += by;
    for (int i = 0; i < s->m; i++) {
        if (s->alpha[i] == 0 || i == row) continue;
        s->x[s->basis[i]] -= by * s->alpha[i];
        s->off[i] = outside(s, i);
    }
    s->x[out] = end;
    s->position[q] = row, s->position[out] = -1, s->basis[row] = q;
    s->off[row] = outside(s, row);
    factor_replace(s->factor, row, s->alpha);
    if (factor_replaced(s->factor) >= REFACTOR) s->stale = true;
    s->taken++;
    return AGAIN;
}

enum simplex_end simplex_solve(struct simplex *s, const int64_t *low, const int64_t *high,
                               double cutoff, int most_steps)
{
    double passed = cutoff * s->cost_scale;
    int broken = 0;
    for (int j = 0; j < s->n; j++) s->low[j] = (double)low[j], s->high[j] = (double)high[j];
    perturb(s);
    if (s->stale) refactor(s);
    price(s);
    place(s);
    for (int step = 0; step < most_steps; step++) {
        if (s->stale) {
            refactor(s);
            price(s);
            place(s);
        }
        switch (pivot(s)) {
        case AGAIN:
            if (step % 10 == 9 && objective(s) > passed) return SIMPLEX_CUT;
            break;
        case DONE:
            if (!s->perturbed) return SIMPLEX_BEST;
            settle(s);
            price(s);
            place(s);
            break;
        case UNBOUNDED:
            if (factor_replaced(s->factor) == 0) return SIMPLEX_BARREN;
            s->stale = true; /* with fresh factors it must say so again */
            break;
        case BROKEN:
            if (factor_replaced(s->factor) == 0 || ++broken > 20) return SIMPLEX_STUCK;
            s->stale = true;
            break;
        }
    }
    return SIMPLEX_STUCK;
}

const double *simplex_x(const struct simplex *s)
{
    return s->x;
}

int64_t simplex_steps(const struct simplex *s)
{
    return s->taken;
}

double simplex_bound(struct simplex *s, const int64_t *low, const int64_t *high, double *reduced)
{
    double bound = 0;
    for (int i = 0; i < s->m; i++) s->dual[i] = s->true_cost[s->basis[i]];
    factor_backward(s->factor, s->dual);
    for (int i = 0; i < s->m; i++) {
        double y = s->dual[i], least = -s->high[s->n + i], most = -s->low[s->n + i];
        if ((y > 0 && isinf(least)) || (y < 0 && isinf(most))) y = s->dual[i] = 0;
        if (y != 0) bound += y > 0 ? y * least : y * most;
    }
    for (int j = 0; j < s->n; j++) {
        double d = s->true_cost[j];
        for (int k = s->matrix.start[j]; k < s->matrix.start[j + 1]; k++)
            d -= s->dual[s->matrix.row[k]] * s->matrix.value[k];
        bound += d * (double)(d > 0 ? low[j] : high[j]);
        reduced[j] = d / s->cost_scale;
    }
    return bound / s->cost_scale;
}

bool simplex_barren(const struct simplex *s, const int64_t *low, const int64_t *high)
{
    /* sum of rows y r = y A x: the reach of the left side and of the right one are apart. */
    double left_least = 0, left_most = 0, right_least = 0, right_most = 0, size = 0;
    for (int i = 0; i < s->m; i++) {
        double y = s->ray[i], least = -s->high[s->n + i], most = -s->low[s->n + i];
        if (fabs(y) < 1e-11) continue;
        left_least += y > 0 ? y * least : y * most;
        left_most += y > 0 ? y * most : y * least;
    }
    for (int j = 0; j < s->n; j++) {
        double sum = 0;
        for (int k = s->matrix.start[j]; k < s->matrix.start[j + 1]; k++)
            if (fabs(s->ray[s->matrix.row[k]]) >= 1e-11)
                sum += s->ray[s->matrix.row[k]] * s->matrix.value[k];
        right_least += sum > 0 ? sum * (double)low[j] : sum * (double)high[j];
        right_most += sum > 0 ? sum * (double)high[j] : sum * (double)low[j];
        size = fmax(size, fabs(sum) * (double)(high[j] - low[j]));
    }
    double margin = 1e-8 * (1 + size);
    return left_least > right_most + margin || left_most < right_least - margin;
}
