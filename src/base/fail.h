/* fail.h - why something could not be done, in one line.
 *
 * The line says what is wrong, where, and what to do: "finding.condition: no condition 'rotten';
 * use one of sound, worn, ...". A function that can fail returns bool and fills a struct fail; the
 * first failure is kept, later ones do not overwrite it. A fault in our own logic is an assertion,
 * not a failure. */
#ifndef BASE_FAIL_H
#define BASE_FAIL_H

#include <stdbool.h>

enum fail_kind {
    FAIL_NONE = 0,
    FAIL_NO,     /* the answer is no: exit status 1 */
    FAIL_INPUT,  /* wrong use or bad input: 2 */
    FAIL_GARAGE, /* the garage cannot be used: 3 */
};

struct fail {
    enum fail_kind kind;
    char text[700]; /* one line of UTF-8, no newline; control characters are replaced by '?' */
};

/* Always returns false, so that `return fail_set(...)` reads well. f must not be NULL. */
bool fail_set(struct fail *f, enum fail_kind kind, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

#endif
