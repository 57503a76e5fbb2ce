/* note.c - what was assumed, and what is not covered: lines for the top of a plan. */
#include "model/build.h"

#include <stdarg.h>
#include <stdio.h>

void build_note(struct build *b, const char *format, ...)
{
    char line[512];
    va_list args;
    va_start(args, format);
    vsnprintf(line, sizeof line, format, args);
    va_end(args);
    struct model *m = b->out;
    m->notes = arena_grow(b->a, m->notes, (size_t)m->n_notes, &m->notes_capacity, sizeof *m->notes);
    m->notes[m->n_notes++] = arena_copy(b->a, line);
}
