#include "reckon/code.h"

#include "base/text.h"

#include <assert.h>
#include <string.h>

const char *code_normal(struct arena *a, const char *text)
{
    char *out = arena_copy(a, text), *to = out;
    for (const char *s = text; *s; s++) {
        if (strchr(" \t-./", *s)) continue;
        *to++ = *s >= 'a' && *s <= 'z' ? (char)(*s - 'a' + 'A') : *s;
    }
    *to = '\0';
    return out;
}

bool code_in(const char *ranges, char c)
{
    for (const char *s = ranges; s && *s && c; s++) {
        const bool range = s[1] == '-' && s[2];
        if (range ? c >= s[0] && c <= s[2] : c == s[0]) return true;
        if (range) s += 2;
    }
    return false;
}

static void misfit(struct arena *a, struct code_reading *r, size_t *capacity, const char *line)
{
    r->misfits = arena_grow(a, r->misfits, (size_t)r->n_misfits, capacity, sizeof *r->misfits);
    r->misfits[r->n_misfits++] = line;
}

/* A character as it can be said in a line, whatever it is. */
static const char *said(struct arena *a, char c)
{
    return c > ' ' && c < 0x7f ? arena_print(a, "'%c'", c)
                               : "a character that is no letter or figure";
}

static void read_letters(struct arena *a, const struct codebook *book, struct code_reading *r,
                         size_t *capacity)
{
    for (int i = 0; r->text[i]; i++) {
        bool before = false; /* a letter that is told once is not told again */
        for (int k = 0; k < i; k++) before |= r->text[k] == r->text[i];
        if (book->letters && !code_in(book->letters, r->text[i]) && !before)
            misfit(a, r, capacity,
                   arena_print(a, "position %d holds %s, which this code never has; read it again",
                               i + 1, said(a, r->text[i])));
    }
}

static const char *meaning_of(const struct code_place *p, const char *text)
{
    const bool one = text[0] && !text[1];
    for (int i = 0; i < p->n_meanings; i++)
        if (one ? code_in(p->meanings[i].is, text[0]) : text_is(p->meanings[i].is, text))
            return p->meanings[i].means;
    return NULL;
}

static void read_places(struct arena *a, const struct codebook *book, struct code_reading *r,
                        size_t *capacity)
{
    const int length = (int)strlen(r->text);
    r->lines = ARENA_ARRAY(a, struct code_line, book->n_places);
    for (int i = 0; i < book->n_places; i++) {
        const struct code_place *p = &book->places[i];
        const int to = p->to ? p->to : p->at;
        if (to > length) continue;
        struct code_line *line = &r->lines[r->n_lines++];
        line->place = p;
        line->text = arena_copy_n(a, r->text + p->at - 1, (size_t)(to - p->at + 1));
        line->means = meaning_of(p, line->text);
        for (const char *s = line->text; p->letters && *s; s++)
            if (!code_in(p->letters, *s) && (!book->letters || code_in(book->letters, *s)))
                misfit(a, r, capacity,
                       arena_print(a, "position %d holds %s where only %s may stand (%s)",
                                   p->at + (int)(s - line->text), said(a, *s), p->letters,
                                   p->name));
    }
}

static int value_of(const struct code_check *check, char c)
{
    for (int v = 0; v < check->n_values; v++)
        if (code_in(check->values[v], c)) return v;
    return -1;
}

static void read_check(const struct code_check *check, struct code_reading *r)
{
    r->check_sum = 0;
    for (int i = 0; i < check->n_weights; i++) {
        const int v = check->weights[i] == 0 ? 0 : value_of(check, r->text[i]);
        if (v < 0) return;
        r->check_sum += v * check->weights[i];
    }
    r->check_due = check->remainders[r->check_sum % check->modulus];
    r->check_stands = r->text[check->at - 1];
    r->check = r->check_due == r->check_stands ? CODE_FITS : CODE_DIFFERS;
}

static void read_year(struct arena *a, const struct code_year *year, struct code_reading *r,
                      size_t *capacity, int latest)
{
    const char *at = strchr(year->codes, r->text[year->at - 1]);
    const int cycle = (int)strlen(year->codes);
    int only = -1;
    if (!at) {
        misfit(a, r, capacity,
               arena_print(a, "position %d holds %s, which is no code of a year", year->at,
                           said(a, r->text[year->at - 1])));
        return;
    }
    for (int k = 0; year->decided_by && k < year->n_decides; k++)
        if (code_in(year->decides[k], r->text[year->decided_by - 1])) only = k;
    const int first = year->first + (int)(at - year->codes);
    r->years = ARENA_ARRAY(a, int, (latest > first ? latest - first : 0) / cycle + 1);
    if (only >= 0)
        r->years[r->n_years++] = first + only * cycle;
    else
        for (int y = first; y <= latest; y += cycle) r->years[r->n_years++] = y;
}

struct code_reading code_read(struct arena *a, const struct codebook *book, const char *text,
                              int latest)
{
    struct code_reading r = {.text = code_normal(a, text)};
    size_t capacity = 0;
    const int length = (int)strlen(r.text);
    if (book->length && length != book->length)
        misfit(a, &r, &capacity,
               arena_print(a,
                           "has %d characters, not %d; read it again, with a second pair of eyes",
                           length, book->length));
    read_letters(a, book, &r, &capacity);
    if (book->length && length != book->length) return r; /* no position can be trusted */
    read_places(a, book, &r, &capacity);
    if (book->check.at && book->check.n_weights <= length) read_check(&book->check, &r);
    if (book->year.at && book->year.at <= length && book->year.decided_by <= length)
        read_year(a, &book->year, &r, &capacity, latest);
    return r;
}
