/* text.h - strings: a builder that grows in an arena, and the few tests that parsers need.
 *
 * Strings are NUL-terminated UTF-8. */
#ifndef BASE_TEXT_H
#define BASE_TEXT_H

#include "base/arena.h"

#include <stdint.h>

struct text {
    struct arena *arena;
    char *s; /* always NUL-terminated once something was added; NULL before */
    size_t length, capacity;
};

void text_add(struct text *t, const char *s);
void text_add_n(struct text *t, const char *s, size_t n);
void text_print(struct text *t, const char *format, ...) __attribute__((format(printf, 2, 3)));
/* What was built so far, "" if nothing. */
const char *text_get(const struct text *t);

bool text_is(const char *a, const char *b); /* equal; NULL equals nothing */
bool text_starts(const char *s, const char *prefix);
/* Equal without regard to ASCII case, '-', '_' and blanks: "Wheel cylinder" is "wheel-cylinder". */
bool text_same_word(const char *a, const char *b);
bool text_is_utf8(const char *s, size_t n); /* shortest forms only, no surrogates, no NUL */
/* Columns that s fills on a terminal: code points, combining marks none, wide ones two. */
int text_width(const char *s);
/* A whole number; a decimal with '.', perhaps with an exponent ("1e-3"). The whole string must be
 * used (blanks around allowed); no "nan", "inf", hex, nothing that overflows. Reads '.' in the C
 * locale. */
bool text_to_int(const char *s, int64_t *out);
bool text_to_double(const char *s, double *out);
/* Edits (insert, delete, replace, swap of neighbours) between two words, for "did you mean". Case
 * counts; only the first 64 bytes are looked at. */
int text_distance(const char *a, const char *b);
/* FNV-1a, 64 bits: names of random streams. Not for anything that an enemy could choose. */
uint64_t text_hash(const char *s);

#endif
