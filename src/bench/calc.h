/* calc.h - an engineering sum, declared once: the command line, the pages, the documents and the
 * tests follow from its row.
 *
 * A calculator is a pure function of its inputs: SI doubles, choices and texts in, the same out.
 * Each names its formula, its sources with their marks, the range in which it holds, and what can
 * hurt someone. One file a system (threads.c, electrical.c, ...) ends in one table of its
 * calculators; calc_table.c lists the tables. */
#ifndef BENCH_CALC_H
#define BENCH_CALC_H

#include "base/arena.h"
#include "base/fail.h"
#include "base/mark.h"
#include "base/unit.h"

#include <math.h>

enum {
    CALC_INPUTS = 16,
    CALC_OUTPUTS = 16,
    CALC_ROWS = CALC_INPUTS, /* of the values of a run: what it chooses among, see struct calc */
    CALC_VALUES
};

enum calc_kind {
    CALC_QUANTITY, /* a number with a unit */
    CALC_CHOICE,   /* one of a few words */
    CALC_TEXT,     /* a designation: "M8x1.25", "5.20-13" */
};

struct calc_input {
    const char *name; /* lower case, words joined by '-' */
    const char *help; /* what it is, in one line */
    enum calc_kind kind;
    enum quantity quantity;
    const char *bare; /* the unit of a bare number; NULL: a bare number is refused, unless the
                         quantity is QUANTITY_NUMBER */
    const char
        *usual;    /* as typed, taken if it is left out; NULL: it must be given, unless may_lack */
    bool may_lack; /* then its value has set == false */
    double low, high;           /* in SI, both ends allowed: outside it is refused with the range */
    const char *const *choices; /* CALC_CHOICE: NULL-terminated */
};

struct calc_output {
    const char *name, *help;
    enum calc_kind kind; /* CALC_QUANTITY or CALC_TEXT */
    enum quantity quantity;
    const char *metric, *imperial; /* the units to tell it in; NULL: the usual one for its size */
    int figures;                   /* significant; 0: three */
};

struct calc_source {
    enum mark mark;
    const char *text; /* "ISO 724:1993"; what it stands for */
};

struct calc_caution {
    const char *text, *defer;
};

enum verdict { VERDICT_NONE, VERDICT_GOOD, VERDICT_CARE, VERDICT_BAD };

struct calc_value {
    bool set;
    double si;        /* quantity */
    int choice;       /* index */
    const char *text; /* text; for a choice its word; for a quantity as it was typed */
    const void *rows; /* of CALC_ROWS */
    int n_rows;
};

struct calc_result {
    struct calc_value out[CALC_OUTPUTS]; /* as the row lists them; not set: it does not apply */
    enum verdict verdict;
    const char *said;     /* the verdict in a sentence, NULL if none */
    const char *notes[4]; /* what else to know of this answer: "the next size up is ..." */
    int n_notes;
};

struct calc {
    const char *name;                  /* "thread-size" */
    const char *question;              /* "What are the basic sizes of this thread?" */
    const struct calc_input *inputs;   /* ended by a NULL name; at most CALC_INPUTS */
    const struct calc_output *outputs; /* ended by a NULL name; at most CALC_OUTPUTS */
    const char *formula;               /* in words and signs, as a builder reads it */
    const char *limits; /* where it holds and where not, in a sentence; NULL if everywhere */
    const struct calc_source *sources;   /* ended by a NULL text; at least one */
    const struct calc_caution *cautions; /* ended by a NULL text; NULL: nothing can hurt */
    /* The input and the output of its plot, or NULL: the output over the range of the input, all
     * else as given. */
    const char *plot_over, *plot_of;
    /* It chooses among what the trade data lists under this subject, NULL: nothing of it. Whoever
     * runs it puts them at in[CALC_ROWS], as its header says. */
    const char *chooses;
    bool plot_whole; /* the input is a count, plotted at whole numbers only: a gear */
    /* in: CALC_VALUES of them, as inputs are listed, within their ranges. Sets what applies. False:
     * no answer for these, with a line that begins with the input at fault ("thread: ..."). */
    bool (*run)(struct arena *a, const struct calc_value *in, struct calc_result *out,
                struct fail *f);
};

struct calc_system {
    const char *name, *title; /* "threads", "Threads and fasteners" */
    const struct calc *calcs; /* ended by a NULL name */
};

extern const struct calc_system calc_systems[]; /* ended by a NULL name */
const struct calc *calc_find(const char *name); /* or NULL */
/* The nearest name to a mistyped one, or NULL. */
const char *calc_nearest(const char *name);
int calc_input_index(const struct calc *c, const char *name);  /* or -1 */
int calc_output_index(const struct calc *c, const char *name); /* or -1 */

/* One input from text; what it says on failure begins with "NAME: ". NULL or "": left out. */
bool calc_read(struct arena *a, const struct calc_input *input, const char *typed,
               struct calc_value *out, struct fail *f);
/* Runs it on inputs that were read; every number that is set in the result is finite (asserted). */
bool calc_run(struct arena *a, const struct calc *c, const struct calc_value *in,
              struct calc_result *out, struct fail *f);
/* The value of an output, as told: "7.19 mm", "0.283 in". */
const char *calc_told(struct arena *a, const struct calc_output *o, const struct calc_value *v,
                      enum unit_system system);

/* For run functions. */
static inline struct calc_value calc_number(double si)
{
    return (struct calc_value){.set = true, .si = si};
}
static inline struct calc_value calc_text(const char *text)
{
    return (struct calc_value){.set = true, .text = text};
}
void calc_note(struct arena *a, struct calc_result *out, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
void calc_verdict(struct arena *a, struct calc_result *out, enum verdict v, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

#endif
