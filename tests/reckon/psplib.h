/* psplib.h - reads single-mode instances in the ".sm" format of PSPLIB, and checks schedules of
 * them.
 *
 * Source of format and instances: R. Kolisch & A. Sprecher, "PSPLIB - a project scheduling problem
 * library", European Journal of Operational Research 96 (1997) 205-216. The checker knows nothing
 * of any scheduler: it includes no header of one, and counts period by period. */
#ifndef TESTS_RECKON_PSPLIB_H
#define TESTS_RECKON_PSPLIB_H

#include "base/arena.h"
#include "base/fail.h"

/* Jobs are numbered from 0: the source is 0, the sink jobs - 1, both of duration 0. */
struct psplib {
    int jobs, resources, links;
    int *before, *after; /* [links] */
    int *duration;       /* [jobs] */
    int *request;        /* [jobs][resources] */
    int *capacity;       /* [resources] */
};

/* `text` is the whole file, `name` is for faults: "name:line: what is wrong". */
bool psplib_parse(struct arena *a, const char *name, const char *text, struct psplib *out,
                  struct fail *f);

/* Is it a schedule: no start below 0, none before a predecessor's finish, no resource overdrawn in
 * any period? The finish of the whole into *finish. */
bool psplib_check(const struct psplib *p, const int *start, int *finish, struct arena scratch,
                  struct fail *f);

#endif
