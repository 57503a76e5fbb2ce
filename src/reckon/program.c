#include "reckon/program.h"

#include <assert.h>

/* Arrays that grow in step: each by doubling, with the same room. */
#define GROW(d, array, count, room)                                                                \
    do {                                                                                           \
        size_t had = (room);                                                                       \
        (array) = arena_grow((d)->arena, (array), (size_t)(count), &had, sizeof *(array));         \
        grown = had;                                                                               \
    } while (0)

int program_column(struct program_draft *d, int64_t cost, int64_t low, int64_t high, uint8_t rank)
{
    struct program *p = &d->program;
    size_t grown = 0;
    GROW(d, p->cost, p->columns, d->room_columns);
    GROW(d, p->low, p->columns, d->room_columns);
    GROW(d, p->high, p->columns, d->room_columns);
    GROW(d, p->rank, p->columns, d->room_columns);
    d->room_columns = grown;
    p->cost[p->columns] = cost;
    p->low[p->columns] = low;
    p->high[p->columns] = high;
    p->rank[p->columns] = rank;
    return p->columns++;
}

int program_row(struct program_draft *d, int64_t least, int64_t most)
{
    struct program *p = &d->program;
    size_t grown = 0;
    GROW(d, p->least, p->rows, d->room_rows);
    GROW(d, p->most, p->rows, d->room_rows);
    GROW(d, p->row_start, p->rows, d->room_rows);
    d->room_rows = grown;
    p->least[p->rows] = least;
    p->most[p->rows] = most;
    p->row_start[p->rows] = d->entries;
    return p->rows++;
}

void program_put(struct program_draft *d, int column, int64_t value)
{
    struct program *p = &d->program;
    assert(p->rows > 0 && column >= 0 && column < p->columns);
    if (value == 0) return;
    size_t grown = 0;
    GROW(d, p->of_row, d->entries, d->room_entries);
    d->room_entries = grown;
    p->of_row[d->entries++] = (struct program_entry){column, value};
}

struct program program_done(struct program_draft *d)
{
    struct program p = d->program;
    int *start = ARENA_ARRAY(d->arena, int, p.rows + 1);
    for (int i = 0; i < p.rows; i++) start[i] = p.row_start[i];
    start[p.rows] = d->entries;
    p.row_start = start;
    p.column_start = ARENA_ARRAY(d->arena, int, p.columns + 1);
    p.of_column = ARENA_ARRAY(d->arena, struct program_entry, d->entries);
    for (int k = 0; k < d->entries; k++) p.column_start[p.of_row[k].at + 1]++;
    for (int j = 0; j < p.columns; j++) p.column_start[j + 1] += p.column_start[j];
    struct arena scratch = *d->arena;
    int *next = ARENA_ARRAY(&scratch, int, p.columns);
    for (int j = 0; j < p.columns; j++) next[j] = p.column_start[j];
    for (int i = 0; i < p.rows; i++)
        for (int k = p.row_start[i]; k < p.row_start[i + 1]; k++)
            p.of_column[next[p.of_row[k].at]++] = (struct program_entry){i, p.of_row[k].value};
    return p;
}

struct program program_shrink(struct arena *a, const struct program *p, const int64_t *low,
                              const int64_t *high, int *from, int64_t *base)
{
    struct program_draft d = {.arena = a};
    int *to = ARENA_ARRAY(a, int, p->columns);
    *base = 0;
    for (int j = 0; j < p->columns; j++) {
        to[j] = -1;
        if (low[j] == high[j]) {
            *base += p->cost[j] * low[j];
            continue;
        }
        to[j] = program_column(&d, p->cost[j], low[j], high[j], p->rank[j]);
        from[to[j]] = j;
    }
    for (int i = 0; i < p->rows; i++) {
        int64_t fixed = 0, least = 0, most = 0;
        for (int k = p->row_start[i]; k < p->row_start[i + 1]; k++) {
            const struct program_entry *e = &p->of_row[k];
            if (to[e->at] < 0) fixed += e->value * low[e->at];
            least += e->value * (e->value > 0 ? low[e->at] : high[e->at]);
            most += e->value * (e->value > 0 ? high[e->at] : low[e->at]);
        }
        bool below = p->least[i] > -PROGRAM_NO_END && least < p->least[i];
        bool above = p->most[i] < PROGRAM_NO_END && most > p->most[i];
        if (!below && !above) continue;
        program_row(&d, below ? p->least[i] - fixed : -PROGRAM_NO_END,
                    above ? p->most[i] - fixed : PROGRAM_NO_END);
        for (int k = p->row_start[i]; k < p->row_start[i + 1]; k++)
            if (to[p->of_row[k].at] >= 0) program_put(&d, to[p->of_row[k].at], p->of_row[k].value);
    }
    return program_done(&d);
}

bool program_holds(const struct program *p, const int64_t *x, int64_t *cost)
{
    *cost = 0;
    for (int j = 0; j < p->columns; j++) {
        if (x[j] < p->low[j] || x[j] > p->high[j]) return false;
        *cost += p->cost[j] * x[j];
    }
    for (int i = 0; i < p->rows; i++) {
        int64_t sum = 0;
        for (int k = p->row_start[i]; k < p->row_start[i + 1]; k++)
            sum += p->of_row[k].value * x[p->of_row[k].at];
        if (sum < p->least[i] || sum > p->most[i]) return false;
    }
    return true;
}
