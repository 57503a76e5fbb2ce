/* fit_rows.h - a fit model as an integer program, and its answer back.
 *
 * Which part goes to which need is kept apart, so that "nothing is bought where nothing is ordered"
 * binds each of them by itself: the relaxation is then that of the strong facility location model
 * (J. Krarup & P. M. Pruzan, European J. Operational Research 12 (1983) 36-81). */
#ifndef RECKON_FIT_ROWS_H
#define RECKON_FIT_ROWS_H

#include "reckon/fit.h"
#include "reckon/program.h"

/* What is left out, by index; NULL: nothing of the kind. For asking why nothing fits. */
struct fit_loose {
    const uint8_t *need, *rule, *limit, *held, *part, *least_order;
    bool irreversible;
};

struct fit_ask {
    struct fit_loose loose;
    const struct fit_answer *unlike; /* other options for needs than each of these */
    int n_unlike;
    bool any;     /* whatever it costs */
    int least_of; /* limit + 1: the least use of it, whatever it costs; 0: no */
};

/* Which column is what; -1: there is none. */
struct fit_columns {
    int *pays, *free; /* by supplier: an order with carriage, without */
    int *offer;       /* by column: pieces of this offer that are paid */
    int64_t *unit;    /* by column: what each of them costs */
};

struct program fit_program(struct arena *a, const struct fit_model *m, const struct fit_ask *ask,
                           struct fit_columns *columns);

/* Everything of the answer but state, bound and nodes, from the values of the columns, into arrays
 * with room for all. */
void fit_read(const struct fit_model *m, const struct fit_columns *columns, const int64_t *x,
              int n_columns, struct fit_answer *out, struct arena scratch);

struct fit_answer fit_asked(struct arena *a, const struct fit_model *m, const struct fit_ask *ask,
                            int64_t most_nodes);

#endif
