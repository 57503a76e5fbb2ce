#include "face/cli/wrap.h"

#include <assert.h>
#include <string.h>

/* Bytes of the UTF-8 sequence that starts at s, 0 if it is none. */
static size_t sequence(const char *s)
{
    unsigned char c = (unsigned char)*s;
    size_t n = c < 0x80 ? 1 : c >= 0xf0 ? 4 : c >= 0xe0 ? 3 : c >= 0xc0 ? 2 : 0;
    for (size_t i = 1; i < n; i++)
        if (s[i] == '\0') return 0;
    return n && (n == 1 || text_is_utf8(s, n)) ? n : 0;
}

static uint32_t code_point(const char *s, size_t n)
{
    uint32_t c = (unsigned char)*s;
    if (n == 1) return c;
    c &= 0x7fu >> n;
    for (size_t i = 1; i < n; i++) c = c << 6 | ((unsigned char)s[i] & 0x3fu);
    return c;
}

/* Marks that turn or hide the direction of writing (Unicode bidirectional controls), line
 * separators, BOM. */
static bool misleads(uint32_t c)
{
    return (c >= 0x80 && c < 0xa0) || c == 0x61c || c == 0x200e || c == 0x200f ||
           (c >= 0x2028 && c <= 0x202e) || (c >= 0x2066 && c <= 0x2069) || c == 0xfeff;
}

const char *wrap_clean(struct arena *a, const char *s, bool newlines)
{
    struct text out = {.arena = a};
    while (*s) {
        size_t n = sequence(s);
        uint32_t c = n ? code_point(s, n) : (unsigned char)*s;
        if (c == '\t' || (c == '\n' && !newlines))
            text_add(&out, " ");
        else if (n == 0 || (c < 0x20 && c != '\n') || c == 0x7f)
            text_print(&out, "\\x%02x", (unsigned)(unsigned char)*s);
        else if (misleads(c))
            text_print(&out, "\\u%04x", (unsigned)c);
        else
            text_add_n(&out, s, n);
        s += n ? n : 1;
    }
    return text_get(&out);
}

/* The longest beginning of s that fits, at least one character; how many bytes. */
static size_t cut(struct arena *a, const char *s, size_t n, int width)
{
    size_t fit = 0;
    while (fit < n) {
        size_t next = sequence(s + fit);
        if (next == 0) next = 1;
        if (fit > 0 && text_width(arena_copy_n(a, s, fit + next)) > width) break;
        fit += next;
    }
    return fit;
}

static void add_line(struct arena *a, struct lines *l, struct text *line)
{
    l->line = arena_grow(a, l->line, (size_t)l->count, &l->capacity, sizeof *l->line);
    l->line[l->count++] = text_get(line);
    *line = (struct text){.arena = a};
}

/* The word that s begins with; a figure keeps its "%" beside it. */
static size_t word_at(const char *s)
{
    size_t n = strcspn(s, " \n");
    if (n > 0 && s[n] == ' ' && s[n + 1] == '%') n += 1 + strcspn(s + n + 1, " \n");
    return n;
}

struct lines wrap_lines(struct arena *a, const char *s, int width)
{
    if (width < 1) width = 1;
    struct lines l = {0};
    struct text line = {.arena = a};
    int used = 0;
    while (*s) {
        if (*s == '\n') {
            add_line(a, &l, &line);
            used = 0;
            s++;
            continue;
        }
        size_t blanks = strspn(s, " ");
        s += blanks;
        size_t n = word_at(s);
        if (n == 0) continue;
        int wide = text_width(arena_copy_n(a, s, n));
        int gap = used > 0 ? 1 : 0;
        if (used > 0 && used + gap + wide > width) {
            add_line(a, &l, &line);
            used = gap = 0;
        }
        if (wide > width) {
            n = cut(a, s, n, width);
            wide = text_width(arena_copy_n(a, s, n));
        }
        if (gap) text_add(&line, " ");
        text_add_n(&line, s, n);
        used += gap + wide;
        s += n;
        if (*s && *s != ' ' && *s != '\n') { /* a word was cut: the rest begins a line */
            add_line(a, &l, &line);
            used = 0;
        }
    }
    if (used > 0 || l.count == 0) add_line(a, &l, &line);
    return l;
}

int wrap_longest_word(struct arena *a, const char *s)
{
    int longest = 0;
    while (*s) {
        size_t n = word_at(s);
        int wide = text_width(arena_copy_n(a, s, n));
        if (wide > longest) longest = wide;
        s += n;
        s += strspn(s, " \n");
    }
    return longest;
}

void wrap_repeat(struct text *out, const char *mark, int count)
{
    for (int i = 0; i < count; i++) text_add(out, mark);
}
