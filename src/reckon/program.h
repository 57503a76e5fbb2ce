/* program.h - an integer program: least cost over whole numbers in a box, under linear rows.
 *
 * Everything is whole and exact in int64; the sums of a row over its box stay below 2^53, so that
 * they are exact in doubles too. */
#ifndef RECKON_PROGRAM_H
#define RECKON_PROGRAM_H

#include "base/arena.h"

#include <stdint.h>

#define PROGRAM_NO_END ((int64_t)1 << 60) /* a row without a least (negated) or a most */

struct program_entry {
    int at; /* the row, or the column */
    int64_t value;
};

struct program {
    int columns, rows;
    int64_t *cost, *low, *high; /* by column */
    uint8_t *rank;              /* by column: lower ones are branched on first */
    int64_t *least, *most;      /* by row */
    struct program_entry *of_row, *of_column;
    int *row_start, *column_start; /* rows + 1, columns + 1 */
};

/* Built a row after another: columns first. */
struct program_draft {
    struct arena *arena;
    struct program program;
    size_t room_columns, room_rows, room_entries;
    int entries;
};

int program_column(struct program_draft *d, int64_t cost, int64_t low, int64_t high, uint8_t rank);
int program_row(struct program_draft *d, int64_t least, int64_t most);
/* Into the last row; a column at most once a row. value 0 is left out. */
void program_put(struct program_draft *d, int column, int64_t value);
struct program program_done(struct program_draft *d);

/* The program without columns whose box is one value and rows that the box cannot break; `from`
 * (room: columns) tells which column each of the new ones was, and *base what the left out cost. */
struct program program_shrink(struct arena *a, const struct program *p, const int64_t *low,
                              const int64_t *high, int *from, int64_t *base);

/* The exact cost of x, or false if a row or the box is broken. */
bool program_holds(const struct program *p, const int64_t *x, int64_t *cost);

#endif
