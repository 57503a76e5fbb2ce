/* record.c - typed text into the values of a record, and into their normal form. */
#include "garage/record.h"

#include "garage/file.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { TEXT_BYTES_USUAL = 2000 };

const struct record_kind *record_kind_find(const char *name)
{
    for (const struct record_kind *const *k = record_kinds; *k; k++)
        if (text_same_word(name, (*k)->name) || text_same_word(name, (*k)->plural)) return *k;
    return NULL;
}

int record_field(const struct record_kind *k, const char *name)
{
    for (int i = 0; i < k->n_fields; i++)
        if (text_same_word(name, k->fields[i].name)) return i;
    return -1;
}

struct record *record_new(struct arena *a, const struct record_kind *k)
{
    struct record *r = ARENA_NEW(a, struct record);
    r->kind = k;
    r->values = ARENA_ARRAY(a, struct value, k->n_fields);
    return r;
}

/* The fewest digits that read back as the same double. */
static const char *number_text(struct arena *a, double x)
{
    const char *s = "";
    for (int digits = 15; digits <= 17; digits++) {
        s = arena_print(a, "%.*g", digits, x);
        if (strtod(s, NULL) == x) break;
    }
    return s;
}

void value_normalise(struct arena *a, const struct field *d, struct value *v)
{
    struct text t = {.arena = a};
    switch (d->type) {
    case FIELD_TEXT:
    case FIELD_FILE:
    case FIELD_PARENT:
    case FIELD_QUANTITY:
        return; /* as typed */
    case FIELD_INTEGER:
        text_print(&t, "%lld", (long long)v->integer);
        break;
    case FIELD_NUMBER:
        text_add(&t, number_text(a, v->number));
        break;
    case FIELD_CHOICE:
        text_add(&t, d->choices[v->integer]);
        break;
    case FIELD_YES:
        text_add(&t, v->integer ? "yes" : "no");
        break;
    case FIELD_DAY:
        day_print(&t, v->day);
        break;
    case FIELD_CLOCK:
        clock_print(&t, (int)v->integer);
        break;
    case FIELD_MONEY:
        money_print(&t, v->money);
        break;
    case FIELD_POINTS:
    case FIELD_MONEY_POINTS: {
        const double part[] = {v->points.low, v->points.middle, v->points.high};
        for (int i = 0; i < 3; i++) {
            struct money sum = v->money;
            if (i) text_add(&t, "/");
            if (d->type == FIELD_POINTS) {
                text_add(&t, number_text(a, part[i]));
            } else {
                sum.minor = (int64_t)part[i];
                money_print(&t, sum);
            }
        }
        break;
    }
    }
    v->text = text_get(&t);
}

/* ---- one parser a type. Each gets the text without blanks around it, and fills value and normal
 * form; its line is completed with the name of kind and field by record_set. ---- */

static char *trim(struct arena *a, const char *s)
{
    while (*s == ' ' || *s == '\t' || *s == '\n' || *s == '\r') s++;
    size_t n = strlen(s);
    while (n && strchr(" \t\r\n", s[n - 1])) n--;
    return arena_copy_n(a, s, n);
}

static bool within(const struct field *d, double x, struct fail *f)
{
    if ((d->low == 0 && d->high == 0) || (x >= d->low && x <= d->high)) return true;
    return fail_set(f, FAIL_INPUT, "%g is beyond what can be; give %g to %g", x, d->low, d->high);
}

/* Line ends of all systems become one; other control characters have no place in a fact. */
static bool parse_text(struct arena *a, const struct field *d, const char *s, struct value *v,
                       struct fail *f)
{
    size_t n = strlen(s), kept = 0, limit = d->high > 0 ? (size_t)d->high : TEXT_BYTES_USUAL;
    if (n > limit) return fail_set(f, FAIL_INPUT, "is %zu bytes long; shorten it to %zu", n, limit);
    if (!text_is_utf8(s, n)) return fail_set(f, FAIL_INPUT, "is not UTF-8 text; convert it first");
    char *out = arena_copy_n(a, s, n);
    for (size_t i = 0; i < n; i++) {
        unsigned char c = (unsigned char)s[i];
        if (c == '\r' && s[i + 1] == '\n') continue;
        if ((c < 0x20 && c != '\n' && c != '\t') || c == 0x7f)
            return fail_set(f, FAIL_INPUT, "holds the control character 0x%02x; take it out", c);
        out[kept++] = s[i];
    }
    out[kept] = '\0';
    v->text = out;
    return true;
}

static bool parse_integer(const struct field *d, const char *s, struct value *v, struct fail *f)
{
    if (!text_to_int(s, &v->integer))
        return fail_set(f, FAIL_INPUT, "'%s' is not a whole number; give one such as %g", s,
                        d->low > 0 ? d->low : 1);
    v->number = (double)v->integer;
    return within(d, v->number, f);
}

static bool parse_number(struct arena *a, const struct field *d, const char *s, struct value *v,
                         struct fail *f)
{
    size_t n = strlen(s);
    bool percent = n > 1 && s[n - 1] == '%';
    const char *digits = percent ? trim(a, arena_copy_n(a, s, n - 1)) : s;
    if (!text_to_double(digits, &v->number))
        return fail_set(f, FAIL_INPUT, "'%s' is not a number; give one such as 0.7 or 70 %%", s);
    if (percent) v->number /= 100;
    return within(d, v->number, f);
}

static bool parse_quantity(struct arena *a, const struct field *d, const char *s, struct value *v,
                           struct fail *f)
{
    struct fail without_unit = {0};
    v->text = s;
    if (!unit_parse(s, d->quantity, NULL, &v->number, &without_unit)) {
        if (!unit_parse(s, d->quantity, d->bare, &v->number, f)) return false;
        v->text = arena_print(a, "%s %s", s, d->bare);
    }
    if ((d->low == 0 && d->high == 0) || (v->number >= d->low && v->number <= d->high)) return true;
    return fail_set(f, FAIL_INPUT, "'%s' is beyond what can be; check the number and its unit", s);
}

static bool parse_choice(struct arena *a, const struct field *d, const char *s, struct value *v,
                         struct fail *f)
{
    struct text words = {.arena = a};
    for (int i = 0; d->choices[i]; i++) {
        if (text_same_word(s, d->choices[i])) {
            v->integer = i;
            return true;
        }
        text_print(&words, "%s%s", i ? ", " : "", d->choices[i]);
    }
    return fail_set(f, FAIL_INPUT, "no choice '%s'; use one of %s", s, text_get(&words));
}

static bool parse_yes(const char *s, struct value *v, struct fail *f)
{
    static const char *const words[2][4] = {{"no", "n", "false", "0"}, {"yes", "y", "true", "1"}};
    for (int yes = 0; yes < 2; yes++)
        for (int i = 0; i < 4; i++)
            if (text_same_word(s, words[yes][i])) {
                v->integer = yes;
                return true;
            }
    return fail_set(f, FAIL_INPUT, "'%s' is neither yes nor no; use yes, no, or ? if not known", s);
}

static bool parse_day(const char *s, struct value *v, struct fail *f)
{
    return day_parse(s, &v->day, f);
}

static bool parse_clock(const char *s, struct value *v, struct fail *f)
{
    int minute;
    if (!clock_parse(s, &minute, f)) return false;
    v->integer = minute;
    return true;
}

static bool parse_points(const struct field *d, const char *s, struct value *v, struct fail *f)
{
    if (!points_parse(s, &v->points, f)) return false;
    return within(d, v->points.low, f) && within(d, v->points.high, f);
}

/* "800/1200/2000 GBP", "GBP 800/1200/2000", "800 GBP/1200 GBP/2000 GBP", or one sum without spread.
 * A currency at either end serves for the sums that have none. */
static bool parse_money_points(struct arena *a, const char *s, const char *currency,
                               struct value *v, struct fail *f)
{
    char *part[3];
    int n = 0;
    for (const char *at = s;; at = strchr(at, '/') + 1) {
        if (n == 3)
            return fail_set(f, FAIL_INPUT, "'%s' has more than three sums; give low/middle/high",
                            s);
        const char *slash = strchr(at, '/');
        part[n++] = trim(a, arena_copy_n(a, at, slash ? (size_t)(slash - at) : strlen(at)));
        if (!slash) break;
    }
    if (n == 2)
        return fail_set(f, FAIL_INPUT, "'%s' has two sums; give one, or low/middle/high", s);
    struct money sum[3];
    struct fail ignored = {0};
    if (money_parse(part[n - 1], NULL, &sum[0], &ignored) ||
        money_parse(part[0], NULL, &sum[0], &ignored))
        currency = arena_copy(a, sum[0].currency);
    for (int i = 0; i < n; i++) {
        if (!money_parse(part[i], currency, &sum[i], f)) return false;
        if (!text_is(sum[i].currency, sum[0].currency))
            return fail_set(f, FAIL_INPUT, "'%s' mixes %s and %s; use one currency", s,
                            sum[0].currency, sum[i].currency);
    }
    for (int i = n; i < 3; i++) sum[i] = sum[0];
    v->money = sum[0];
    v->money.minor = 0; /* the sums are the points */
    v->points = (struct points){(double)sum[0].minor, (double)sum[1].minor, (double)sum[2].minor};
    if (points_valid(v->points)) return true;
    return fail_set(f, FAIL_INPUT, "'%s' is not in order; give low/middle/high, none below 0", s);
}

static bool parse_value(struct arena *a, const struct field *d, const char *s, const char *currency,
                        struct value *v, struct fail *f)
{
    switch (d->type) {
    case FIELD_TEXT:
    case FIELD_PARENT:
        return parse_text(a, d, s, v, f);
    case FIELD_FILE:
        v->text = s;
        return file_is_digest(s) ||
               fail_set(f, FAIL_INPUT,
                        "'%.70s' is not the digest of a file, 64 digits of 0-9 and a-f", s);
    case FIELD_INTEGER:
        return parse_integer(d, s, v, f);
    case FIELD_NUMBER:
        return parse_number(a, d, s, v, f);
    case FIELD_QUANTITY:
        return parse_quantity(a, d, s, v, f);
    case FIELD_CHOICE:
        return parse_choice(a, d, s, v, f);
    case FIELD_YES:
        return parse_yes(s, v, f);
    case FIELD_DAY:
        return parse_day(s, v, f);
    case FIELD_CLOCK:
        return parse_clock(s, v, f);
    case FIELD_MONEY:
        return money_parse(s, d->own_currency ? NULL : currency, &v->money, f);
    case FIELD_POINTS:
        return parse_points(d, s, v, f);
    case FIELD_MONEY_POINTS:
        return parse_money_points(a, s, currency, v, f);
    }
    assert(false); /* a type without a parser */
    return false;
}

/* ---- records ---- */

static bool fail_no_field(struct arena *a, const struct record_kind *k, const char *name,
                          struct fail *f)
{
    struct text names = {.arena = a};
    const char *near = NULL;
    int best = 3;
    for (int i = 0; i < k->n_fields; i++) {
        int edits = text_distance(name, k->fields[i].name);
        if (edits < best) {
            best = edits;
            near = k->fields[i].name;
        }
        text_print(&names, "%s%s", i ? ", " : "", k->fields[i].name);
    }
    if (near)
        return fail_set(f, FAIL_INPUT, "%s: no field '%s'; did you mean '%s'?", k->name, name,
                        near);
    return fail_set(f, FAIL_INPUT, "%s: no field '%s'; its fields are %s", k->name, name,
                    text_get(&names));
}

static bool means_unknown(const char *s)
{
    return !*s || text_is(s, "?") || text_same_word(s, "don't know") ||
           text_same_word(s, "dont know") || text_same_word(s, "don\xe2\x80\x99t know");
}

bool record_set(struct arena *a, struct record *r, const char *field, const char *text,
                const char *currency, struct fail *f)
{
    int i = record_field(r->kind, field);
    if (i < 0) return fail_no_field(a, r->kind, field, f);
    const struct field *d = &r->kind->fields[i];
    const char *s = trim(a, text);
    if (means_unknown(s)) {
        r->values[i] = (struct value){0};
        return true;
    }
    struct value v = {.set = true, .day = DAY_NONE};
    struct fail why = {0};
    if (!parse_value(a, d, s, currency, &v, &why))
        return fail_set(f, FAIL_INPUT, "%s.%s: %s", r->kind->name, d->name, why.text);
    value_normalise(a, d, &v);
    r->values[i] = v;
    return true;
}

bool record_valid(const struct record *r, struct fail *f)
{
    for (int i = 0; i < r->kind->n_fields; i++) {
        const struct field *d = &r->kind->fields[i];
        if (d->required && !r->values[i].set)
            return fail_set(f, FAIL_INPUT, "%s.%s: missing; give it (%s)", r->kind->name, d->name,
                            d->help);
    }
    return !r->kind->check || r->kind->check(r, f);
}

/* ---- reading ---- */

const struct value *record_get(const struct record *r, const char *field)
{
    int i = record_field(r->kind, field);
    assert(i >= 0);
    return &r->values[i];
}

const char *record_text(const struct record *r, const char *field, const char *fallback)
{
    const struct value *v = record_get(r, field);
    return v->set ? v->text : fallback;
}

double record_number(const struct record *r, const char *field, double fallback)
{
    const struct value *v = record_get(r, field);
    return v->set ? v->number : fallback;
}

int64_t record_integer(const struct record *r, const char *field, int64_t fallback)
{
    const struct value *v = record_get(r, field);
    return v->set ? v->integer : fallback;
}
