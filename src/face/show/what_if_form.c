#include "face/show/what_if_form.h"

#include <assert.h>
#include <math.h>
#include <string.h>

enum { YEARS_AHEAD = 10, SLIDE_HELPERS = 12, SLIDE_DAYS = 364 };

static const struct field helpers_field = {
    .name = "helpers",
    .type = FIELD_INTEGER,
    .high = HELPERS_MOST,
    .help = "Days on which one more comes, beyond those that were told; a fortnight apart"};

static const struct {
    const char *name, *label;
    const char *kind, *field; /* of the record that it is kept in; NULL: its own */
} keys[WHAT_IF_KEYS] = {
    [WHAT_IF_HOURS] = {"hours", "Hours a week", "workshop", "hours-a-week"},
    [WHAT_IF_START] = {"start", "First day of work", "workshop", "start"},
    [WHAT_IF_HELPERS] = {"helpers", "More helper days", NULL, NULL},
    [WHAT_IF_MONEY] = {"money", "Money a month", "purse", "a-month"},
    [WHAT_IF_DIRECTION] = {"direction", "Direction", "decision", "direction"},
};

const char *what_if_name(enum what_if_key k)
{
    return keys[k].name;
}

const char *what_if_label(enum what_if_key k)
{
    return keys[k].label;
}

const struct field *what_if_field(enum what_if_key k)
{
    if (!keys[k].kind) return &helpers_field;
    const struct record_kind *kind = record_kind_find(keys[k].kind);
    assert(kind);
    return &kind->fields[record_field(kind, keys[k].field)];
}

static const char *day_text(struct arena *a, day d)
{
    struct text t = {.arena = a};
    day_print(&t, d);
    return text_get(&t);
}

const char *what_if_now_text(struct arena *a, const struct what_if_now *now, const struct trade *t,
                             enum what_if_key k)
{
    struct text out = {.arena = a};
    switch (k) {
    case WHAT_IF_HOURS:
        return arena_print(a, "%.4g", now->hours_a_week);
    case WHAT_IF_START:
        return day_text(a, now->start);
    case WHAT_IF_HELPERS:
        return "0";
    case WHAT_IF_MONEY:
        if (now->a_month < 0) return "";
        struct money m = {.minor = (int64_t)now->a_month};
        memcpy(m.currency, now->currency, sizeof m.currency);
        money_print(&out, m);
        return text_get(&out);
    case WHAT_IF_DIRECTION:
        return t->directions[now->direction].head.id;
    case WHAT_IF_KEYS:
        break;
    }
    assert(false);
    return "";
}

bool what_if_now_from_json(const json_t *with, struct what_if_now *out)
{
    const json_t *hours = json_object_get(with, "hours_a_week"),
                 *a_month = json_object_get(with, "a_month");
    const char *start = json_string_value(json_object_get(with, "first_day"));
    const char *currency = json_string_value(json_object_get(with, "currency"));
    const json_t *amount = json_object_get(a_month, "amount"); /* minor units */
    struct fail ignored = {0};
    *out = (struct what_if_now){.a_month = -1, .direction = -1};
    if (!json_is_number(hours) || !start || !day_parse(start, &out->start, &ignored) || !currency ||
        strlen(currency) != 3)
        return false;
    out->hours_a_week = json_number_value(hours);
    memcpy(out->currency, currency, sizeof out->currency);
    if (json_is_integer(amount)) out->a_month = (double)json_integer_value(amount);
    return true;
}

bool what_if_slide(const struct what_if_now *now, day today, enum what_if_key k,
                   struct what_if_slide *out)
{
    int digits = 2;
    currency_digits(now->currency, &digits);
    double money = fmax(2 * now->a_month / pow(10, digits), 100);
    double step = money > 2000 ? 50 : money > 500 ? 25 : 10;
    switch (k) {
    case WHAT_IF_HOURS:
        *out = (struct what_if_slide){"number", 1, fmax(40, ceil(now->hours_a_week)), 1};
        return true;
    case WHAT_IF_START:
        *out = (struct what_if_slide){"day", 0, fmax(SLIDE_DAYS, now->start - today), 1};
        return true;
    case WHAT_IF_HELPERS:
        *out = (struct what_if_slide){"number", 0, SLIDE_HELPERS, 1};
        return true;
    case WHAT_IF_MONEY:
        *out = (struct what_if_slide){"money", 0, ceil(money / step) * step, step};
        return true;
    case WHAT_IF_DIRECTION:
    case WHAT_IF_KEYS:
        break;
    }
    return false;
}

/* A record's line begins with the record's name for the field; ours is another. */
static const char *own_line(struct arena *a, enum what_if_key k, const char *line)
{
    const char *rest = strstr(line, ": ");
    return arena_print(a, "%s: %s", keys[k].name, rest ? rest + 2 : line);
}

struct reading {
    struct arena *a;
    const struct trade *t;
    const struct what_if_now *now;
    day today;
    struct override *out;
};

static bool read_helpers(struct reading *x, const char *text, struct fail *f)
{
    int64_t n;
    if (!text_to_int(text, &n) || n < 0 || n > HELPERS_MOST)
        return fail_set(f, FAIL_INPUT, "helpers: '%.40s' is no whole number from 0 to %d", text,
                        HELPERS_MOST);
    x->out->helpers = (int)n;
    return true;
}

static bool take_start(struct reading *x, day d, struct fail *f)
{
    if (d < x->today)
        return fail_set(f, FAIL_INPUT, "start: lies before today, %s, the soonest there is",
                        day_text(x->a, x->today));
    if (d > day_add_months(x->today, 12 * YEARS_AHEAD))
        return fail_set(f, FAIL_INPUT, "start: lies more than %d years ahead", YEARS_AHEAD);
    x->out->start = d;
    return true;
}

static bool take_money(struct reading *x, struct money m, struct fail *f)
{
    if (!text_is(m.currency, x->now->currency))
        return fail_set(f, FAIL_INPUT, "money: is in %s, the plan in %s; say it in %s", m.currency,
                        x->now->currency, x->now->currency);
    x->out->a_month = (double)m.minor;
    memcpy(x->out->currency, m.currency, sizeof x->out->currency);
    return true;
}

/* Through a record of the kind that would keep it, so that the same is refused in the same words.
 */
static bool read_key(struct reading *x, enum what_if_key k, const char *text, struct fail *f)
{
    if (!keys[k].kind) return read_helpers(x, text, f);
    struct record *r = record_new(x->a, record_kind_find(keys[k].kind));
    if (!record_set(x->a, r, keys[k].field, text, x->now->currency, f)) return false;
    const struct value *v = record_get(r, keys[k].field);
    if (!v->set) return true; /* "don't know" is how it is */
    if (k == WHAT_IF_MONEY && !record_valid(r, f)) return false;
    if (k == WHAT_IF_HOURS) x->out->hours_a_week = v->number;
    if (k == WHAT_IF_DIRECTION) x->out->direction = trade_find_direction(x->t, v->text);
    if (k == WHAT_IF_START) return take_start(x, v->day, f);
    if (k == WHAT_IF_MONEY) return take_money(x, v->money, f);
    return true;
}

/* What says the same as it is, in other words perhaps: "600", "600.00 GBP". */
static void drop_same(const struct what_if_now *now, struct override *o)
{
    if (fabs(o->hours_a_week - now->hours_a_week) < 1e-9) o->hours_a_week = -1;
    if (o->start == now->start) o->start = DAY_NONE;
    if (o->a_month >= 0 && o->a_month == now->a_month) o->a_month = -1;
    if (o->direction == now->direction) o->direction = -1;
}

bool what_if_read(struct arena *a, const struct trade *t, const struct what_if_now *now, day today,
                  struct what_if_typed *typed, struct override *out)
{
    struct reading x = {a, t, now, today, out};
    bool good = true;
    *out = override_none();
    for (enum what_if_key k = 0; k < WHAT_IF_KEYS; k++) {
        struct fail f = {0};
        const char *text = typed->text[k];
        if (!text || text_is(text, what_if_now_text(a, now, t, k)) || read_key(&x, k, text, &f))
            continue;
        typed->fault[k] = own_line(a, k, f.text);
        good = false;
    }
    drop_same(now, out);
    return good;
}

bool what_if_blame(struct arena *a, const struct fail *f, struct what_if_typed *typed)
{
    static const struct {
        const char *begins;
        enum what_if_key key;
    } about[] = {
        {"purse", WHAT_IF_MONEY}, {"calendar", WHAT_IF_HOURS}, {"plan: its first", WHAT_IF_START}};
    if (f->kind != FAIL_INPUT) return false;
    for (size_t i = 0; i < sizeof about / sizeof *about; i++)
        if (text_starts(f->text, about[i].begins)) {
            typed->fault[about[i].key] = own_line(a, about[i].key, f->text);
            return true;
        }
    return false;
}
