#include "bench/list.h"

#include <string.h>

enum { MOST = 64 };

static bool begins_number(char c)
{
    return (c >= '0' && c <= '9') || c == '.' || c == '-' || c == '+';
}

/* Cuts at the commas; without any, at the blanks before a number ("165 160 psi" is two). */
static int cut(struct arena *a, const char *typed, char **items)
{
    const bool commas = strchr(typed, ',') != NULL;
    int n = 0;
    for (const char *s = typed + strspn(typed, " "); n < MOST && *s; n++) {
        size_t length = strcspn(s, commas ? "," : " ");
        while (!commas && s[length]) {
            const size_t next = length + strspn(s + length, " ");
            if (!s[next] || begins_number(s[next])) break;
            length = next + strcspn(s + next, " ");
        }
        items[n] = arena_copy_n(a, s, length);
        s += length;
        s += strspn(s, commas ? ", " : " ");
    }
    return n;
}

/* What follows the number, "" if nothing. */
static const char *unit_of(const char *item)
{
    item += strspn(item, " ");
    item += strspn(item, "+-0123456789./");
    return item + strspn(item, " ");
}

int list_read(struct arena *a, const struct list_kind *kind, const char *typed, double *out,
              int most, struct fail *f)
{
    char *items[MOST];
    const char *unit = "";
    const int n = cut(a, typed, items);
    if (n == 0) return fail_set(f, FAIL_INPUT, "%s: no reading in it", kind->name), 0;
    if (n > most) return fail_set(f, FAIL_INPUT, "%s: more than %d readings", kind->name, most), 0;
    for (int i = n - 1; i >= 0; i--) {
        struct fail why = {0};
        if (*unit_of(items[i]))
            unit = unit_of(items[i]);
        else
            items[i] = arena_print(a, "%s %s", items[i], unit);
        if (!unit_parse(items[i], kind->quantity, kind->bare, &out[i], &why))
            return fail_set(f, FAIL_INPUT, "%s: reading %d: %s", kind->name, i + 1, why.text), 0;
        if (!(out[i] >= kind->low && out[i] <= kind->high)) {
            struct text low = {.arena = a}, high = {.arena = a};
            unit_print(&low, kind->low, kind->quantity, UNITS_METRIC, 3);
            unit_print(&high, kind->high, kind->quantity, UNITS_METRIC, 3);
            return fail_set(f, FAIL_INPUT, "%s: %.40s is outside %s to %s", kind->name, items[i],
                            text_get(&low), text_get(&high)),
                   0;
        }
    }
    return n;
}
