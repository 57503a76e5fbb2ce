/* fault.h - what is wrong with trade data, collected: the reader goes on after a fault, so that one
 * run shows them all. */
#ifndef LIBRARY_FAULT_H
#define LIBRARY_FAULT_H

#include "base/arena.h"
#include "library/trade.h"

enum { FAULTS_MAX = 1000 }; /* what comes after is counted, not kept */

struct fault {
    const char *file, *text;
    int line, order;
};

struct faults {
    struct arena *arena;
    struct fault *fault;
    int count, dropped;
    size_t capacity;
};

/* One line of text: what is wrong and what to do. Control characters become '?'. */
void fault_add(struct faults *f, const char *file, int line, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/* Sorted by file and line, written as "file:line: what". */
void faults_tell(struct faults *f, struct trade_faults *out);

/* A word out of a file, short enough to stand in a fault. */
const char *fault_word(struct faults *f, const char *s);

/* "Did you mean": the candidate nearest to a word, if any is near enough to be a slip of the pen.
 */
struct nearest {
    const char *word, *best;
    int distance;
};
struct nearest nearest_to(const char *word);
void nearest_try(struct nearest *n, const char *candidate);

#endif
