/* small_trade.h - the least trade data that loads clean and says a little of everything, and the
 * same with one piece of text changed. Invented; its figures mean nothing. */
#ifndef TESTS_SMALL_TRADE_H
#define TESTS_SMALL_TRADE_H

#include "library/read.h"

struct small_file {
    const char *file, *text;
};
extern const struct small_file small_trade[];
extern const int n_small_trade;

/* The sources, with `from` in `file` replaced by `to`; asserts that `from` is there exactly once.
 */
struct sources small_sources(struct arena *a, const char *file, const char *from, const char *to);
void small_add(struct arena *a, struct sources *s, const char *file, const char *text, size_t size,
               bool own);
/* All faults, a line each. */
const char *small_faults(struct arena *a, const struct sources *s, struct trade *t);

/* One piece of text changed, and all that is then said. */
struct small_wrong {
    const char *file, *from, *to, *faults;
};
/* Fails the running test after telling every row that is answered otherwise. */
void small_try(const struct small_wrong *wrong, size_t count);

#endif
