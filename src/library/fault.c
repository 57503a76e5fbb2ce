#include "library/fault.h"

#include "base/text.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LINE_MAX_BYTES = 640, WORD_MAX_BYTES = 48 };

/* Length of s, at most `most` bytes and never in the middle of a character. */
static size_t whole_characters(const char *s, size_t most)
{
    size_t n = strnlen(s, most + 1);
    if (n <= most) return n;
    n = most;
    while (n > 0 && ((unsigned char)s[n] & 0xC0) == 0x80) n--;
    return n;
}

static void plain(char *s)
{
    for (; *s; s++) {
        unsigned char c = (unsigned char)*s, next = (unsigned char)s[1];
        if (c < 0x20 || c == 0x7F) *s = '?';
        /* U+0080..U+009F steer some terminals too. */
        if (c == 0xC2 && next >= 0x80 && next <= 0x9F) s[0] = s[1] = '?';
    }
}

void fault_add(struct faults *f, const char *file, int line, const char *format, ...)
{
    if (f->count == FAULTS_MAX) {
        f->dropped++;
        return;
    }
    char text[LINE_MAX_BYTES + 4];
    va_list args;
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    f->fault = arena_grow(f->arena, f->fault, (size_t)f->count, &f->capacity, sizeof *f->fault);
    char *kept = arena_copy_n(f->arena, text, whole_characters(text, LINE_MAX_BYTES));
    plain(kept);
    f->fault[f->count] = (struct fault){file, kept, line, f->count};
    f->count++;
}

static int by_line(const struct fault *x, const struct fault *y)
{
    int files = strcmp(x->file, y->file);
    if (files != 0) return files;
    return x->line < y->line ? -1 : x->line > y->line;
}

static int by_place(const void *a, const void *b)
{
    const struct fault *x = a, *y = b;
    int lines = by_line(x, y);
    return lines != 0 ? lines : x->order < y->order ? -1 : 1;
}

/* A fault of a header is met once for each of its entries. */
static bool was_said(const struct faults *f, int i)
{
    const struct fault *x = &f->fault[i];
    for (int j = i - 1; j >= 0 && by_line(&f->fault[j], x) == 0; j--)
        if (strcmp(f->fault[j].text, x->text) == 0) return true;
    return false;
}

void faults_tell(struct faults *f, struct trade_faults *out)
{
    if (f->count > 0) qsort(f->fault, (size_t)f->count, sizeof *f->fault, by_place);
    out->count = 0;
    out->capacity = (size_t)f->count + 1;
    out->line = ARENA_ARRAY(f->arena, const char *, out->capacity);
    for (int i = 0; i < f->count; i++) {
        const struct fault *x = &f->fault[i];
        if (was_said(f, i)) continue;
        out->line[out->count++] =
            x->line > 0 ? arena_print(f->arena, "%s:%d: %s", x->file, x->line, x->text)
                        : arena_print(f->arena, "%s: %s", x->file, x->text);
    }
    if (f->dropped > 0)
        out->line[out->count++] =
            arena_print(f->arena, "%d more faults; mend these first", f->dropped);
}

const char *fault_word(struct faults *f, const char *s)
{
    size_t n = whole_characters(s, WORD_MAX_BYTES);
    char *word = arena_print(f->arena, "%.*s%s", (int)n, s, s[n] ? "..." : "");
    plain(word);
    return word;
}

struct nearest nearest_to(const char *word)
{
    size_t n = strnlen(word, WORD_MAX_BYTES + 1);
    /* One slip a short word, one more for every four letters; a long text is no word at all. */
    return (struct nearest){word, NULL, n > WORD_MAX_BYTES ? 0 : 2 + (int)n / 4};
}

void nearest_try(struct nearest *n, const char *candidate)
{
    if (n->distance == 0 || strnlen(candidate, WORD_MAX_BYTES + 1) > WORD_MAX_BYTES) return;
    int d = text_distance(n->word, candidate);
    if (d < n->distance) {
        n->distance = d;
        n->best = candidate;
    }
}
