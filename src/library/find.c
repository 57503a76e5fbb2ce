#include "library/trade.h"

#include "base/text.h"
#include "library/fault.h"
#include "library/shape.h"

#include <ctype.h>
#include <string.h>

int trade_count(const struct trade *t, enum subject s)
{
    int count;
    memcpy(&count, (const char *)t + shape_of[s].count_at, sizeof count);
    return count;
}

const struct entry *trade_entry(const struct trade *t, enum subject s, int index)
{
    const char *array;
    memcpy(&array, (const char *)t + shape_of[s].array_at, sizeof array);
    return (const struct entry *)(const void *)(array + (size_t)index * shape_of[s].shape.size);
}

int trade_find(const struct trade *t, enum subject s, const char *id)
{
    for (int i = 0; i < trade_count(t, s); i++)
        if (text_is(trade_entry(t, s, i)->id, id)) return i;
    return -1;
}

int trade_find_component(const struct trade *t, const char *id)
{
    return trade_find(t, SUBJECT_COMPONENTS, id);
}

int trade_find_job(const struct trade *t, const char *id)
{
    return trade_find(t, SUBJECT_JOBS, id);
}

int trade_find_part(const struct trade *t, const char *id)
{
    return trade_find(t, SUBJECT_PARTS, id);
}

int trade_find_direction(const struct trade *t, const char *id)
{
    return trade_find(t, SUBJECT_DIRECTIONS, id);
}

int trade_find_place(const struct trade *t, const char *id)
{
    return trade_find(t, SUBJECT_PLACES, id);
}

int trade_find_setback(const struct trade *t, const char *id)
{
    return trade_find(t, SUBJECT_SETBACKS, id);
}

const struct trade_default *trade_find_default(const struct trade *t, const char *id)
{
    int i = trade_find(t, SUBJECT_DEFAULTS, id);
    return i < 0 ? NULL : &t->defaults[i];
}

/* An id, a name or another word that is near; the id is given. */
const char *trade_nearest(const struct trade *t, enum subject s, const char *word)
{
    struct nearest near = nearest_to(word);
    const char *best = NULL;
    for (int i = 0; i < trade_count(t, s); i++) {
        const struct entry *e = trade_entry(t, s, i);
        int before = near.distance;
        nearest_try(&near, e->id);
        nearest_try(&near, e->name);
        for (int k = 0; k < e->n_also; k++) nearest_try(&near, e->also[k]);
        if (near.distance < before) best = e->id;
    }
    return best;
}

const char *trade_nearest_component(const struct trade *t, const char *word)
{
    return trade_nearest(t, SUBJECT_COMPONENTS, word);
}

/* ---- search
 * ---------------------------------------------------------------------------------------------- */

static bool holds(const char *s, const char *word, size_t n)
{
    for (; *s; s++) {
        size_t i = 0;
        while (i < n && tolower((unsigned char)s[i]) == tolower((unsigned char)word[i])) i++;
        if (i == n) return true;
    }
    return false;
}

static bool entry_holds(const struct entry *e, const char *word, size_t n)
{
    if (holds(e->id, word, n) || holds(e->name, word, n)) return true;
    for (int i = 0; i < e->n_also; i++)
        if (holds(e->also[i], word, n)) return true;
    return false;
}

static bool entry_holds_all(const struct entry *e, const char *words)
{
    static const char blanks[] = " \t\r\n";
    words += strspn(words, blanks);
    while (*words) {
        size_t n = strcspn(words, blanks);
        if (!entry_holds(e, words, n)) return false;
        words += n;
        words += strspn(words, blanks);
    }
    return true;
}

int trade_search(struct arena *a, const struct trade *t, const char *words, struct trade_hit **hits)
{
    int count = 0;
    size_t capacity = 0;
    *hits = NULL;
    if (words[strspn(words, " \t\r\n")] == '\0') return 0;
    for (int s = 0; s < SUBJECT_COUNT; s++)
        for (int i = 0; i < trade_count(t, (enum subject)s); i++) {
            if (!entry_holds_all(trade_entry(t, (enum subject)s, i), words)) continue;
            *hits = arena_grow(a, *hits, (size_t)count, &capacity, sizeof **hits);
            (*hits)[count++] = (struct trade_hit){(enum subject)s, i};
        }
    return count;
}
