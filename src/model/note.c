/* note.c - what was assumed, and what is not covered: lines for the top of a plan, each said once.
 */
#include "model/build.h"

#include <assert.h>
#include <stdarg.h>
#include <stdio.h>

void build_note(struct build *b, const char *format, ...)
{
    va_list args, again;
    va_start(args, format);
    va_copy(again, args);
    int n = vsnprintf(NULL, 0, format, again);
    va_end(again);
    assert(n >= 0);
    char *line = ARENA_ARRAY(b->a, char, n + 1);
    vsnprintf(line, (size_t)n + 1, format, args);
    va_end(args);
    struct model *m = b->out;
    for (int i = 0; i < m->n_notes; i++)
        if (text_is(m->notes[i], line)) return;
    m->notes = arena_grow(b->a, m->notes, (size_t)m->n_notes, &m->notes_capacity, sizeof *m->notes);
    m->notes[m->n_notes++] = line;
}
