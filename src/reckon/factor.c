#include "reckon/factor.h"

#include <math.h>

#define TINY     1e-13 /* smaller entries are taken for rounding */
#define SINGULAR 1e-9
#define PIVOT    0.1 /* least share of the column's largest entry */

/* Steps, each of a pivot row and entries in others. */
struct steps {
    int n, entries;
    size_t room_start, room_row, room_value, room_pivot, room_diagonal;
    int *pivot, *start, *row; /* start: of step k, its end that of step k + 1 */
    double *value, *diagonal;
};

struct factor {
    struct arena *arena;
    struct factor_matrix m;
    struct steps lower, upper, eta;
    double *work;
    int *touched, *column_count, *row_count, *row_start, *row_column, *queue, *placed;
    unsigned char *row_done, *column_done, *in_work;
};

static void begin(struct factor *f, struct steps *s, int pivot, double diagonal)
{
    struct arena *a = f->arena;
    s->pivot = arena_grow(a, s->pivot, (size_t)s->n, &s->room_pivot, sizeof *s->pivot);
    s->diagonal = arena_grow(a, s->diagonal, (size_t)s->n, &s->room_diagonal, sizeof *s->diagonal);
    s->start = arena_grow(a, s->start, (size_t)s->n + 1, &s->room_start, sizeof *s->start);
    s->pivot[s->n] = pivot;
    s->diagonal[s->n] = diagonal;
    s->start[s->n++] = s->entries;
    s->start[s->n] = s->entries;
}

static void put(struct factor *f, struct steps *s, int row, double value)
{
    struct arena *a = f->arena;
    s->row = arena_grow(a, s->row, (size_t)s->entries, &s->room_row, sizeof *s->row);
    s->value = arena_grow(a, s->value, (size_t)s->entries, &s->room_value, sizeof *s->value);
    s->row[s->entries] = row;
    s->value[s->entries++] = value;
    s->start[s->n] = s->entries;
}

struct factor *factor_new(struct arena *a, const struct factor_matrix *matrix)
{
    struct factor *f = ARENA_NEW(a, struct factor);
    f->arena = a;
    f->m = *matrix;
    struct steps *all[] = {&f->lower, &f->upper, &f->eta};
    for (int i = 0; i < 3; i++) {
        all[i]->room_start = 64;
        all[i]->start = ARENA_ARRAY(a, int, 64);
    }
    int m = matrix->rows;
    f->work = ARENA_ARRAY(a, double, m);
    f->touched = ARENA_ARRAY(a, int, m);
    f->column_count = ARENA_ARRAY(a, int, m);
    f->row_count = ARENA_ARRAY(a, int, m);
    f->row_start = ARENA_ARRAY(a, int, m + 1);
    f->queue = ARENA_ARRAY(a, int, m);
    f->placed = ARENA_ARRAY(a, int, m);
    f->row_done = ARENA_ARRAY(a, unsigned char, m);
    f->column_done = ARENA_ARRAY(a, unsigned char, m);
    f->in_work = ARENA_ARRAY(a, unsigned char, m);
    int most = matrix->start[matrix->columns] + m;
    f->row_column = ARENA_ARRAY(a, int, most);
    return f;
}

/* One column's entries, units like the others. */
struct column {
    int n;
    const int *row;
    const double *value;
    int unit_row;
};
static const double one = 1;

static void column_of(const struct factor *f, int j, struct column *c)
{
    if (j >= f->m.columns) {
        c->unit_row = j - f->m.columns;
        c->n = 1, c->row = &c->unit_row, c->value = &one;
    } else {
        c->n = f->m.start[j + 1] - f->m.start[j];
        c->row = f->m.row + f->m.start[j], c->value = f->m.value + f->m.start[j];
    }
}

/* Pivots column number c of the basis on `row`: entries in rows done before go above the diagonal,
 * the others below it. For singletons only: nothing has to be eliminated. */
static void pivot_plain(struct factor *f, const int *basis, int c, int row, int *placed)
{
    struct column col;
    column_of(f, basis[c], &col);
    double diagonal = 0;
    bool below = false;
    for (int k = 0; k < col.n; k++) {
        if (col.row[k] == row)
            diagonal = col.value[k];
        else
            below = below || !f->row_done[col.row[k]];
    }
    if (basis[c] < f->m.columns) begin(f, &f->upper, row, diagonal);
    for (int k = 0; k < col.n; k++)
        if (f->row_done[col.row[k]]) put(f, &f->upper, col.row[k], col.value[k]);
    if (below) {
        begin(f, &f->lower, row, 1);
        for (int k = 0; k < col.n; k++)
            if (!f->row_done[col.row[k]] && col.row[k] != row)
                put(f, &f->lower, col.row[k], col.value[k] / diagonal);
    }
    f->row_done[row] = 1;
    f->column_done[c] = 1;
    placed[row] = basis[c];
}

static void count(struct factor *f, const int *basis)
{
    int m = f->m.rows;
    struct column col;
    for (int i = 0; i < m; i++) f->row_count[i] = 0, f->row_done[i] = f->column_done[i] = 0;
    for (int c = 0; c < m; c++) {
        column_of(f, basis[c], &col);
        f->column_count[c] = col.n;
        for (int k = 0; k < col.n; k++) f->row_count[col.row[k]]++;
    }
    f->row_start[0] = 0;
    for (int i = 0; i < m; i++) f->row_start[i + 1] = f->row_start[i] + f->row_count[i];
    for (int i = 0; i < m; i++) f->touched[i] = f->row_start[i];
    for (int c = 0; c < m; c++) {
        column_of(f, basis[c], &col);
        for (int k = 0; k < col.n; k++) f->row_column[f->touched[col.row[k]]++] = c;
    }
}

/* Big enough a share of its column to divide by. */
static bool sound(const struct factor *f, int j, int row)
{
    struct column col;
    column_of(f, j, &col);
    double largest = 0, at = 0;
    for (int k = 0; k < col.n; k++) {
        if (!f->row_done[col.row[k]]) largest = fmax(largest, fabs(col.value[k]));
        if (col.row[k] == row) at = fabs(col.value[k]);
    }
    return at >= 0.01 * largest && at > SINGULAR;
}

static void singletons(struct factor *f, const int *basis, int *placed)
{
    int m = f->m.rows, head = 0, tail = 0;
    struct column col;
    for (int c = 0; c < m; c++)
        if (f->column_count[c] == 1) f->queue[tail++] = c;
    while (head < tail) {
        int c = f->queue[head++], row = -1;
        column_of(f, basis[c], &col);
        for (int k = 0; k < col.n; k++)
            if (!f->row_done[col.row[k]]) row = col.row[k];
        if (row < 0 || !sound(f, basis[c], row)) continue;
        pivot_plain(f, basis, c, row, placed);
        for (int k = f->row_start[row]; k < f->row_start[row + 1]; k++) {
            int other = f->row_column[k];
            if (!f->column_done[other] && --f->column_count[other] == 1) f->queue[tail++] = other;
        }
    }
    for (int i = 0; i < m; i++) f->row_count[i] = 0;
    for (int c = 0; c < m; c++) {
        if (f->column_done[c]) continue;
        column_of(f, basis[c], &col);
        for (int k = 0; k < col.n; k++) f->row_count[col.row[k]]++;
    }
    head = tail = 0;
    for (int i = 0; i < m; i++)
        if (!f->row_done[i] && f->row_count[i] == 1) f->queue[tail++] = i;
    while (head < tail) {
        int row = f->queue[head++], c = -1;
        for (int k = f->row_start[row]; k < f->row_start[row + 1]; k++)
            if (!f->column_done[f->row_column[k]]) c = f->row_column[k];
        if (c < 0 || f->row_done[row] || !sound(f, basis[c], row)) continue;
        pivot_plain(f, basis, c, row, placed);
        column_of(f, basis[c], &col);
        for (int k = 0; k < col.n; k++)
            if (!f->row_done[col.row[k]] && --f->row_count[col.row[k]] == 1)
                f->queue[tail++] = col.row[k];
    }
}

/* One column of what is left, against the steps taken in this part (from `first`). */
static bool eliminate(struct factor *f, int j, int first, int c, int *placed)
{
    struct column col;
    double *w = f->work, largest = 0;
    int n = 0, best = -1;
    column_of(f, j, &col);
    for (int k = 0; k < col.n; k++) {
        w[col.row[k]] = col.value[k];
        f->touched[n++] = col.row[k];
        f->in_work[col.row[k]] = 1;
    }
    for (int s = first; s < f->lower.n; s++) {
        double by = w[f->lower.pivot[s]];
        if (by == 0) continue;
        for (int k = f->lower.start[s]; k < f->lower.start[s + 1]; k++) {
            int row = f->lower.row[k];
            if (!f->in_work[row]) f->touched[n++] = row, f->in_work[row] = 1;
            w[row] -= by * f->lower.value[k];
        }
    }
    for (int k = 0; k < n; k++)
        if (!f->row_done[f->touched[k]]) largest = fmax(largest, fabs(w[f->touched[k]]));
    for (int k = 0; k < n && largest > SINGULAR; k++) {
        int row = f->touched[k];
        if (f->row_done[row] || fabs(w[row]) < PIVOT * largest) continue;
        if (best < 0 || f->row_count[row] < f->row_count[best] ||
            (f->row_count[row] == f->row_count[best] && fabs(w[row]) > fabs(w[best])))
            best = row;
    }
    if (best >= 0) {
        double diagonal = w[best];
        begin(f, &f->upper, best, diagonal);
        for (int k = 0; k < n; k++)
            if (f->row_done[f->touched[k]] && fabs(w[f->touched[k]]) > TINY)
                put(f, &f->upper, f->touched[k], w[f->touched[k]]);
        begin(f, &f->lower, best, 1);
        for (int k = 0; k < n; k++) {
            int row = f->touched[k];
            if (!f->row_done[row] && row != best && fabs(w[row]) > TINY)
                put(f, &f->lower, row, w[row] / diagonal);
        }
        f->row_done[best] = 1;
        f->column_done[c] = 1;
        placed[best] = j;
    }
    for (int k = 0; k < n; k++) w[f->touched[k]] = 0, f->in_work[f->touched[k]] = 0;
    return best >= 0;
}

static void empty(struct steps *s)
{
    s->n = s->entries = 0;
}

int factor_make(struct factor *f, int *basis)
{
    int m = f->m.rows, left = 0, missing = 0;
    empty(&f->lower), empty(&f->upper), empty(&f->eta);
    count(f, basis);
    int *placed = f->placed;
    for (int i = 0; i < m; i++) placed[i] = -1;
    singletons(f, basis, placed);
    int first = f->lower.n, *todo = f->queue;
    for (int c = 0; c < m; c++)
        if (!f->column_done[c]) todo[left++] = c;
    for (int i = 1; i < left; i++) { /* by entries, few first; the part is small */
        int c = todo[i], k = i;
        for (; k > 0 && f->column_count[todo[k - 1]] > f->column_count[c]; k--)
            todo[k] = todo[k - 1];
        todo[k] = c;
    }
    for (int i = 0; i < left; i++) eliminate(f, basis[todo[i]], first, todo[i], placed);
    for (int i = 0; i < m; i++) {
        if (placed[i] < 0) {
            missing++;
            placed[i] = f->m.columns + i;
            f->row_done[i] = 1;
        }
        basis[i] = placed[i];
    }
    return missing;
}

void factor_forward(const struct factor *f, double *x)
{
    const struct steps *l = &f->lower, *u = &f->upper, *e = &f->eta;
    for (int s = 0; s < l->n; s++) {
        double by = x[l->pivot[s]];
        if (by == 0) continue;
        for (int k = l->start[s]; k < l->start[s + 1]; k++) x[l->row[k]] -= by * l->value[k];
    }
    for (int s = u->n - 1; s >= 0; s--) {
        double by = x[u->pivot[s]];
        if (by == 0) continue;
        by /= u->diagonal[s];
        x[u->pivot[s]] = by;
        for (int k = u->start[s]; k < u->start[s + 1]; k++) x[u->row[k]] -= by * u->value[k];
    }
    for (int s = 0; s < e->n; s++) {
        double by = x[e->pivot[s]];
        if (by == 0) continue;
        by /= e->diagonal[s];
        x[e->pivot[s]] = by;
        for (int k = e->start[s]; k < e->start[s + 1]; k++) x[e->row[k]] -= by * e->value[k];
    }
}

void factor_backward(const struct factor *f, double *x)
{
    const struct steps *l = &f->lower, *u = &f->upper, *e = &f->eta;
    for (int s = e->n - 1; s >= 0; s--) {
        double sum = x[e->pivot[s]];
        for (int k = e->start[s]; k < e->start[s + 1]; k++) sum -= e->value[k] * x[e->row[k]];
        x[e->pivot[s]] = sum / e->diagonal[s];
    }
    for (int s = 0; s < u->n; s++) {
        double sum = x[u->pivot[s]];
        for (int k = u->start[s]; k < u->start[s + 1]; k++) sum -= u->value[k] * x[u->row[k]];
        x[u->pivot[s]] = sum / u->diagonal[s];
    }
    for (int s = l->n - 1; s >= 0; s--) {
        double sum = x[l->pivot[s]];
        for (int k = l->start[s]; k < l->start[s + 1]; k++) sum -= l->value[k] * x[l->row[k]];
        x[l->pivot[s]] = sum;
    }
}

void factor_replace(struct factor *f, int row, const double *alpha)
{
    begin(f, &f->eta, row, alpha[row]);
    for (int i = 0; i < f->m.rows; i++)
        if (i != row && fabs(alpha[i]) > TINY) put(f, &f->eta, i, alpha[i]);
}

int factor_replaced(const struct factor *f)
{
    return f->eta.n;
}
