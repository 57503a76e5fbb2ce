/* wrap.h - text made fit for a terminal: harmless, and in lines of a given width.
 *
 * Widths are columns of the terminal (text_width): combining marks none, wide characters two. */
#ifndef CLI_WRAP_H
#define CLI_WRAP_H

#include "base/text.h"

/* s with everything that could steer a terminal made visible: C0, DEL and C1 controls and the marks
 * that turn the direction of writing become \xNN or \uNNNN, bytes that are not UTF-8 become \xNN, a
 * tab a blank. A newline is kept where `newlines`, else it becomes a blank. */
const char *wrap_clean(struct arena *a, const char *s, bool newlines);

struct lines {
    const char **line;
    int count;
    size_t capacity;
};

/* s, already clean, broken at blanks into lines of at most `width` columns (at least 1); a word
 * that is wider is cut. Never empty: "" gives one empty line. */
struct lines wrap_lines(struct arena *a, const char *s, int width);
/* The width of the widest word. */
int wrap_longest_word(struct arena *a, const char *s);
/* Blanks, or copies of a mark, as often as `count`; none if count <= 0. */
void wrap_repeat(struct text *out, const char *mark, int count);

#endif
