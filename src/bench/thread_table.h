/* thread_table.h - the standard threads, and any thread by its designation: "M8x1.25", "M8",
 * "1/4-20 UNC", "10-32", "3/8 BSF", "2BA", "1/8 BSP". */
#ifndef BENCH_THREAD_TABLE_H
#define BENCH_THREAD_TABLE_H

#include "base/arena.h"
#include "base/fail.h"

enum thread_series {
    THREAD_METRIC,      /* ISO, the usual pitch of its size */
    THREAD_METRIC_FINE, /* ISO, a finer one */
    THREAD_UNC,
    THREAD_UNF,
    THREAD_BSW,
    THREAD_BSF,
    THREAD_BSP,
    THREAD_BA,
    THREAD_SPECIAL, /* Unified form, any pitch: "8-40 UNS" */
};

struct thread {
    const char *name;
    enum thread_series series;
    double d, p;             /* nominal diameter and pitch, m */
    const char *usual_drill; /* as drill_size reads it; NULL: none is listed */
};

struct thread_form {
    const char *name;
    double angle; /* degrees */
    double effective, minor, core,
        area; /* d less so many pitches: pitch diameter, minor diameter of
                the hole, root of the screw, diameter of the stress area */
};

extern const struct thread thread_table[];
extern const int thread_table_count;

const struct thread_form *thread_form_of(const struct thread *t);
double thread_stress_area(const struct thread *t); /* m2 */
/* The full height of the thread form that the drill is reckoned by: percent = (d - drill) / (this
 * times the pitch). */
double thread_full_height(const struct thread *t);
/* Share of the full thread that a drill leaves. */
double thread_share(const struct thread *t, double drill);
/* FAIL_INPUT with the nearest that exists, the line beginning with `input`. */
bool thread_parse(struct arena *a, const char *input, const char *typed, struct thread *out,
                  struct fail *f);

#endif
