#include "reckon/narrow.h"

struct narrow narrow_new(struct arena *a, const struct program *p)
{
    struct narrow n = {.arena = a, .p = p};
    n.low = ARENA_ARRAY(a, int64_t, p->columns);
    n.high = ARENA_ARRAY(a, int64_t, p->columns);
    n.queue = ARENA_ARRAY(a, int, p->rows + 1);
    n.queued = ARENA_ARRAY(a, uint8_t, p->rows + 1);
    for (int j = 0; j < p->columns; j++) n.low[j] = p->low[j], n.high[j] = p->high[j];
    return n;
}

static void enqueue(struct narrow *n, int row)
{
    if (n->queued[row]) return;
    n->queued[row] = 1;
    n->queue[(n->head + n->waiting++) % n->p->rows] = row;
}

static void change(struct narrow *n, int column, int64_t low, int64_t high)
{
    n->trail = arena_grow(n->arena, n->trail, (size_t)n->changes, &n->room, sizeof *n->trail);
    n->trail[n->changes++] = (struct narrow_change){column, n->low[column], n->high[column]};
    n->low[column] = low;
    n->high[column] = high;
    if (low > high) n->broken = true;
    for (int k = n->p->column_start[column]; k < n->p->column_start[column + 1]; k++)
        enqueue(n, n->p->of_column[k].at);
}

void narrow_low(struct narrow *n, int column, int64_t low)
{
    if (low > n->low[column]) change(n, column, low, n->high[column]);
}

void narrow_high(struct narrow *n, int column, int64_t high)
{
    if (high < n->high[column]) change(n, column, n->low[column], high);
}

void narrow_all(struct narrow *n)
{
    for (int i = 0; i < n->p->rows; i++) enqueue(n, i);
}

static int64_t divide_down(int64_t a, int64_t b) /* b > 0 */
{
    return a >= 0 ? a / b : -((-a + b - 1) / b);
}

/* One row; sum over its columns within [least, most]. */
static void look(struct narrow *n, int row)
{
    const struct program *p = n->p;
    const struct program_entry *e = p->of_row + p->row_start[row];
    int count = p->row_start[row + 1] - p->row_start[row];
    int64_t reach_low = 0, reach_high = 0, least = p->least[row], most = p->most[row];
    bool has_least = least > -PROGRAM_NO_END, has_most = most < PROGRAM_NO_END;
    for (int k = 0; k < count; k++) {
        int64_t v = e[k].value;
        reach_low += v * (v > 0 ? n->low[e[k].at] : n->high[e[k].at]);
        reach_high += v * (v > 0 ? n->high[e[k].at] : n->low[e[k].at]);
    }
    if ((has_least && reach_high < least) || (has_most && reach_low > most)) {
        n->broken = true;
        return;
    }
    bool tight_least = has_least && reach_low < least, tight_most = has_most && reach_high > most;
    if (!tight_least && !tight_most) return;
    for (int k = 0; k < count && !n->broken; k++) {
        int j = e[k].at;
        int64_t v = e[k].value, low = n->low[j], high = n->high[j];
        if (low == high) continue;
        /* How far the others let this one go from its own best end. */
        int64_t size = v > 0 ? v : -v, span = size * (high - low);
        if (tight_most && most - reach_low < span) {
            int64_t steps = divide_down(most - reach_low, size);
            if (v > 0)
                narrow_high(n, j, low + steps);
            else
                narrow_low(n, j, high - steps);
        }
        if (tight_least && reach_high - least < span) {
            int64_t steps = divide_down(reach_high - least, size);
            if (v > 0)
                narrow_low(n, j, high - steps);
            else
                narrow_high(n, j, low + steps);
        }
        /* The reach of the row changes with the box, but stays a valid outer one. */
    }
}

bool narrow_settle(struct narrow *n)
{
    while (n->waiting > 0 && !n->broken) {
        int row = n->queue[n->head];
        n->head = (n->head + 1) % n->p->rows;
        n->waiting--;
        n->queued[row] = 0;
        look(n, row);
    }
    if (!n->broken) return true;
    while (n->waiting > 0) {
        n->queued[n->queue[n->head]] = 0;
        n->head = (n->head + 1) % n->p->rows;
        n->waiting--;
    }
    return false;
}

void narrow_undo(struct narrow *n, int changes)
{
    while (n->changes > changes) {
        const struct narrow_change *c = &n->trail[--n->changes];
        n->low[c->column] = c->low;
        n->high[c->column] = c->high;
    }
    n->broken = false;
}
