#include "base/text.h"

#include <assert.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void make_room(struct text *t, size_t n)
{
    assert(t->arena);
    if (t->s && t->length + n < t->capacity) return;
    size_t larger = t->capacity ? t->capacity * 2 : 64;
    if (larger < t->length + n + 1) larger = t->length + n + 1;
    char *moved = arena_take(t->arena, larger, 1);
    if (t->length > 0) memcpy(moved, t->s, t->length);
    t->s = moved;
    t->capacity = larger;
}

void text_add_n(struct text *t, const char *s, size_t n)
{
    make_room(t, n);
    if (n > 0) memcpy(t->s + t->length, s, n);
    t->length += n;
    t->s[t->length] = '\0';
}

void text_add(struct text *t, const char *s)
{
    text_add_n(t, s, strlen(s));
}

void text_print(struct text *t, const char *format, ...)
{
    va_list args, again;
    va_start(args, format);
    va_copy(again, args);
    const int n = vsnprintf(NULL, 0, format, args);
    assert(n >= 0);
    make_room(t, (size_t)n);
    vsnprintf(t->s + t->length, (size_t)n + 1, format, again);
    t->length += (size_t)n;
    va_end(again);
    va_end(args);
}

const char *text_get(const struct text *t)
{
    return t->s ? t->s : "";
}

bool text_is(const char *a, const char *b)
{
    return a && b && strcmp(a, b) == 0;
}

bool text_starts(const char *s, const char *prefix)
{
    return strncmp(s, prefix, strlen(prefix)) == 0;
}

/* ASCII only: the locale has no say in what a word is. */
static char lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

static bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static const char *skip_joiners(const char *s)
{
    while (*s == '-' || *s == '_' || is_blank(*s)) s++;
    return s;
}

bool text_same_word(const char *a, const char *b)
{
    if (!a || !b) return false;
    for (;; a++, b++) {
        a = skip_joiners(a);
        b = skip_joiners(b);
        if (lower(*a) != lower(*b)) return false;
        if (!*a) return true;
    }
}

/* Length of the well-formed sequence at s (table 3-7 of the Unicode Standard), 0 if ill formed. */
static size_t sequence_length(const unsigned char *s, size_t left, uint32_t *code)
{
    const unsigned c = s[0];
    size_t n;
    unsigned low = 0x80, high = 0xbf; /* limits of the second byte */
    if (c < 0x80) {
        *code = c;
        return 1;
    } else if (c >= 0xc2 && c <= 0xdf) {
        n = 2;
    } else if (c >= 0xe0 && c <= 0xef) {
        n = 3;
        if (c == 0xe0) low = 0xa0;
        if (c == 0xed) high = 0x9f;
    } else if (c >= 0xf0 && c <= 0xf4) {
        n = 4;
        if (c == 0xf0) low = 0x90;
        if (c == 0xf4) high = 0x8f;
    } else {
        return 0;
    }
    if (left < n || s[1] < low || s[1] > high) return 0;
    *code = c & (0xffu >> (n + 1));
    for (size_t i = 1; i < n; i++) {
        if ((s[i] & 0xc0) != 0x80) return 0;
        *code = *code << 6 | (s[i] & 0x3fu);
    }
    return n;
}

bool text_is_utf8(const char *s, size_t n)
{
    const unsigned char *bytes = (const unsigned char *)s;
    for (size_t i = 0; i < n;) {
        uint32_t code;
        const size_t step = sequence_length(bytes + i, n - i, &code);
        if (step == 0 || code == 0) return false;
        i += step;
    }
    return true;
}

struct range {
    uint32_t first, last;
};

static bool within(uint32_t code, const struct range *ranges, size_t count)
{
    for (size_t i = 0; i < count && ranges[i].first <= code; i++)
        if (code <= ranges[i].last) return true;
    return false;
}

/* Published: Unicode Standard Annex 11 (East Asian Width W and F, blocks rounded out), and the
 * blocks of combining marks (general category Mn) of the scripts that are written beside Latin. */
static const struct range marks[] = {
    {0x0300, 0x036f}, {0x0483, 0x0489}, {0x0591, 0x05bd}, {0x064b, 0x065f}, {0x1ab0, 0x1aff},
    {0x1dc0, 0x1dff}, {0x200b, 0x200f}, {0x202a, 0x202e}, {0x2060, 0x2064}, {0x20d0, 0x20ff},
    {0xfe00, 0xfe0f}, {0xfe20, 0xfe2f}, {0xfeff, 0xfeff},
};
static const struct range wide[] = {
    {0x1100, 0x115f},   {0x2e80, 0x303e},   {0x3041, 0x33ff},   {0x3400, 0x4dbf},
    {0x4e00, 0x9fff},   {0xa000, 0xa4cf},   {0xa960, 0xa97c},   {0xac00, 0xd7a3},
    {0xf900, 0xfaff},   {0xfe30, 0xfe6f},   {0xff00, 0xff60},   {0xffe0, 0xffe6},
    {0x1f300, 0x1f64f}, {0x1f680, 0x1f6ff}, {0x1f900, 0x1f9ff}, {0x20000, 0x3fffd},
};

int text_width(const char *s)
{
    const unsigned char *bytes = (const unsigned char *)s;
    size_t left = strlen(s);
    int columns = 0;
    while (left > 0) {
        uint32_t code = 0;
        size_t step = sequence_length(bytes, left, &code);
        if (step == 0) step = 1; /* a stray byte shows as one replacement sign */
        if (within(code, wide, sizeof wide / sizeof *wide))
            columns += 2;
        else if (!within(code, marks, sizeof marks / sizeof *marks))
            columns += 1;
        bytes += step;
        left -= step;
    }
    return columns;
}

static const char *skip_blanks(const char *s)
{
    while (is_blank(*s)) s++;
    return s;
}

static const char *skip_digits(const char *s)
{
    while (is_digit(*s)) s++;
    return s;
}

bool text_to_int(const char *s, int64_t *out)
{
    s = skip_blanks(s);
    const bool negative = *s == '-';
    if (*s == '-' || *s == '+') s++;
    if (!is_digit(*s)) return false;
    /* Counted downward: the least int64_t has no positive twin. */
    int64_t n = 0;
    for (; is_digit(*s); s++)
        if (__builtin_mul_overflow(n, 10, &n) || __builtin_sub_overflow(n, *s - '0', &n))
            return false;
    if (*skip_blanks(s) || (!negative && n == INT64_MIN)) return false;
    *out = negative ? n : -n;
    return true;
}

bool text_to_double(const char *s, double *out)
{
    s = skip_blanks(s);
    const char *p = s + (*s == '-' || *s == '+');
    const char *whole = p, *point = skip_digits(p);
    const char *end = *point == '.' ? skip_digits(point + 1) : point;
    if (point == whole && end <= point + 1) return false;
    if (*end == 'e' || *end == 'E') {
        const char *exponent = end + 1 + (end[1] == '-' || end[1] == '+');
        end = skip_digits(exponent);
        if (end == exponent) return false;
    }
    if (*skip_blanks(end)) return false;
    const double value = strtod(s, NULL);
    if (!isfinite(value)) return false;
    *out = value;
    return true;
}

/* Optimal string alignment: no stretch is edited twice. Words over the limit are compared by their
 * heads. */
int text_distance(const char *a, const char *b)
{
    enum { LIMIT = 64 };
    const size_t la = strnlen(a, LIMIT), lb = strnlen(b, LIMIT);
    int rows[3][LIMIT + 1];
    int *before = rows[0], *above = rows[1], *row = rows[2];
    for (size_t j = 0; j <= lb; j++) row[j] = (int)j;
    for (size_t i = 1; i <= la; i++) {
        int *spare = before;
        before = above;
        above = row;
        row = spare;
        row[0] = (int)i;
        for (size_t j = 1; j <= lb; j++) {
            int least = above[j - 1] + (a[i - 1] != b[j - 1]);
            if (above[j] + 1 < least) least = above[j] + 1;
            if (row[j - 1] + 1 < least) least = row[j - 1] + 1;
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1] &&
                before[j - 2] + 1 < least)
                least = before[j - 2] + 1;
            row[j] = least;
        }
    }
    return row[lb];
}

uint64_t text_hash(const char *s)
{
    uint64_t hash = 0xcbf29ce484222325u;
    for (; *s; s++) hash = (hash ^ (unsigned char)*s) * 0x100000001b3u;
    return hash;
}
