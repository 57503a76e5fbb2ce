/* near.h - the two comparisons that reckoning tests need; cmocka 1.1 compares floats only. */
#ifndef TESTS_RECKON_NEAR_H
#define TESTS_RECKON_NEAR_H

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static inline void check_near(double got, double expected, double within, const char *what,
                              const char *file, int line)
{
    if (fabs(got - expected) <= within) return;
    print_error("%s is %.15g, not %.15g within %g\n", what, got, expected, within);
    _fail(file, line);
}

/* |got - expected| <= within; NaN is never near. */
#define assert_near(got, expected, within)                                                         \
    check_near((got), (expected), (within), #got, __FILE__, __LINE__)

/* A share seen in n draws against its true chance p: within 4 standard deviations of a binomial,
 * and half a unit of the last decimal to which p is known. */
#define assert_share(got, p, n, known_to)                                                          \
    check_near((got), (p), 4 * sqrt((p) * (1 - (p)) / (n)) + (known_to), #got, __FILE__, __LINE__)

#endif
