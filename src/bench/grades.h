/* grades.h - the strength of screws by class and grade. */
#ifndef BENCH_GRADES_H
#define BENCH_GRADES_H

struct grade {
    const char *name;              /* as the choice names it */
    double up_to;                  /* largest diameter, m */
    double proof, yield, strength; /* Pa; yield 0: not listed */
    const char *marks;             /* on the head */
};

extern const char *const grade_names[]; /* NULL-terminated choices; each once */
/* By index into grade_names and diameter; NULL if it is not made so thick. */
const struct grade *grade_find(int choice, double diameter);

#endif
