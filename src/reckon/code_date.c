/* code_date.c - a date of casting or of glass, part by part, against the time of assembly. */
#include "reckon/code.h"

#include "base/text.h"

#include <assert.h>
#include <limits.h>
#include <string.h>

enum { UNSAID = -1 };

struct parts {
    int value[DATE_PARTS]; /* UNSAID: the mark does not tell */
};

struct limits {
    int shortest, longest, low, high; /* figures; value */
};
static const struct limits limits_of[DATE_PARTS] = {
    [DATE_MONTH_LETTER] = {1, 1, 1, 12}, [DATE_MONTH] = {1, 2, 1, 12},
    [DATE_DAY] = {1, 2, 1, 31},          [DATE_WEEK] = {1, 2, 1, 53},
    [DATE_YEAR_LAST] = {1, 1, 0, 9},     [DATE_YEAR_TWO] = {2, 2, 0, 99},
    [DATE_YEAR] = {4, 4, 1800, 2300},    [DATE_QUARTER_DOTS] = {1, 4, 1, 4},
};

/* The value of n characters as this part, or UNSAID. */
static int part_value(enum date_part part, const char *s, int n)
{
    int v = 0;
    if (part == DATE_MONTH_LETTER) {
        const char c = *s >= 'a' && *s <= 'z' ? (char)(*s - 'a' + 'A') : *s;
        return c >= 'A' && c <= 'L' ? c - 'A' + 1 : UNSAID;
    }
    for (int i = 0; i < n; i++) {
        if (part == DATE_QUARTER_DOTS ? s[i] != '.' : s[i] < '0' || s[i] > '9') return UNSAID;
        v = part == DATE_QUARTER_DOTS ? i + 1 : v * 10 + s[i] - '0';
    }
    return v >= limits_of[part].low && v <= limits_of[part].high ? v : UNSAID;
}

/* Reads the parts from `k` on; between two of them separators may stand. The longest reading of
 * each part that lets the rest be read is taken. */
static bool read_parts(const struct code_date *date, int k, const char *s, const char *separators,
                       struct parts *out)
{
    s += strspn(s, separators);
    if (k == date->n_parts) return *s == '\0';
    const enum date_part part = (enum date_part)date->parts[k];
    for (int n = limits_of[part].longest; n >= limits_of[part].shortest; n--) {
        if ((int)strnlen(s, (size_t)n) < n) continue;
        /* "14" is never the first day of a year that ends in 4. */
        if (n < limits_of[part].longest && s[n] >= '0' && s[n] <= '9') continue;
        out->value[part] = part_value(part, s, n);
        if (out->value[part] != UNSAID && read_parts(date, k + 1, s + n, separators, out))
            return true;
    }
    out->value[part] = UNSAID;
    return false;
}

/* The time that the mark means in a year; false if there is no such day. */
static bool time_in(const struct parts *p, int year, day *from, day *to)
{
    const int month =
        p->value[DATE_MONTH] != UNSAID ? p->value[DATE_MONTH] : p->value[DATE_MONTH_LETTER];
    const int dom = p->value[DATE_DAY], quarter = p->value[DATE_QUARTER_DOTS];
    const int week = p->value[DATE_WEEK];
    if (week != UNSAID) {
        const day first = day_from_civil(year, 1, 1);
        *from = first + 7 * (week - 1);
        *to = *from + 6;
        return *from <= day_from_civil(year, 12, 31);
    }
    if (quarter != UNSAID) {
        *from = day_from_civil(year, 3 * quarter - 2, 1);
        *to = day_add_months(*from, 3) - 1;
        return true;
    }
    if (month == UNSAID) {
        *from = day_from_civil(year, 1, 1);
        *to = day_from_civil(year, 12, 31);
        return true;
    }
    if (dom != UNSAID && !day_exists(year, month, dom)) return false;
    *from = day_from_civil(year, month, dom != UNSAID ? dom : 1);
    *to = dom != UNSAID ? *from : day_add_months(*from, 1) - 1;
    return true;
}

/* Is it a year that the mark can mean? */
static bool year_suits(const struct parts *p, int year)
{
    if (p->value[DATE_YEAR] != UNSAID) return year == p->value[DATE_YEAR];
    if (p->value[DATE_YEAR_TWO] != UNSAID) return year % 100 == p->value[DATE_YEAR_TWO];
    if (p->value[DATE_YEAR_LAST] != UNSAID) return year % 10 == p->value[DATE_YEAR_LAST];
    return false;
}

static enum date_verdict judge(struct date_candidate *c, const struct code_date *date,
                               day built_from, day built_to)
{
    if (built_to == DAY_NONE) return DATE_FITS;
    c->days = built_to - c->to;
    if (c->from > built_to) {
        c->days = built_to - c->from;
        return DATE_AFTER;
    }
    /* The high figure is a 90th percentile: twice as long asks. */
    const double least = (double)built_from - (double)c->to;
    return date->lead.high > 0 && least > 2 * date->lead.high ? DATE_LONG_BEFORE : DATE_FITS;
}

struct date_reading code_read_date(struct arena *a, const struct code_date *date, const char *text,
                                   day built_from, day built_to, int oldest, day today)
{
    struct date_reading r = {.verdict = DATE_UNREADABLE};
    struct parts p;
    bool dots = false;
    for (int i = 0; i < DATE_PARTS; i++) p.value[i] = UNSAID;
    for (int i = 0; i < date->n_parts; i++) dots |= date->parts[i] == DATE_QUARTER_DOTS;
    if (strlen(text) > CODE_LONGEST || !read_parts(date, 0, text, dots ? " -/" : " -/.", &p)) {
        r.misfit = "is not laid out as this kind of date is; read it again";
        return r;
    }
    int this_year, month, dom;
    day_to_civil(today, &this_year, &month, &dom);
    assert(oldest <= this_year);
    r.candidates = ARENA_ARRAY(a, struct date_candidate, this_year - oldest + 1);
    for (int y = oldest; y <= this_year; y++) {
        struct date_candidate c = {0};
        if (!year_suits(&p, y) || !time_in(&p, y, &c.from, &c.to) || c.from > today) continue;
        c.verdict = judge(&c, date, built_from, built_to);
        r.candidates[r.n_candidates++] = c;
        if (r.verdict > c.verdict) r.verdict = c.verdict;
    }
    if (r.n_candidates == 0) r.misfit = "names no day between then and now; read it again";
    return r;
}
