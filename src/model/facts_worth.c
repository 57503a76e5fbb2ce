#include "model/facts_worth.h"

#include "garage/kinds.h"

#include <string.h>

double facts_rate(const struct facts *facts, const char *currency, const char *per)
{
    if (text_is(currency, per)) return 1;
    double rate = 0;
    day date = DAY_NONE;
    for (int i = 0; i < facts->n_rates; i++) {
        const struct fact_rate *r = &facts->rates[i];
        bool to = text_is(r->currency, currency) && text_is(r->per, per);
        bool from = text_is(r->per, currency) && text_is(r->currency, per);
        if ((!to && !from) || r->date < date) continue;
        rate = to ? r->rate : 1 / r->rate;
        date = r->date;
    }
    return rate;
}

double facts_minor(const struct facts *facts, const char *currency, const char *per)
{
    int from = 2, to = 2;
    double rate = facts_rate(facts, currency, per);
    currency_digits(currency, &from);
    currency_digits(per, &to);
    for (; from < to; from++) rate *= 10;
    for (; from > to; from--) rate /= 10;
    return rate;
}

struct reading {
    struct garage *g;
    struct arena *a;
    const struct trade *t;
    const struct facts *facts;
    const char *currency;
    struct facts_worth *out;
    struct fail *f;
};

static void say(struct reading *x, const char *line)
{
    struct facts_worth *out = x->out;
    for (int i = 0; i < out->n_lines; i++)
        if (text_is(out->lines[i], line)) return;
    out->lines = arena_grow(x->a, out->lines, (size_t)out->n_lines, &out->lines_capacity,
                            sizeof *out->lines);
    out->lines[out->n_lines++] = line;
}

/* By how much minor units are multiplied to be those of the vehicle's currency; 0 where no rate is
 * known, which is then said. */
static double unit_of(struct reading *x, const char *what, const char *currency)
{
    double by = facts_minor(x->facts, currency, x->currency);
    if (by <= 0)
        say(x, arena_print(x->a,
                           "Left out: a %s in %s, for no rate to %s is known. Mend with: fettle "
                           "add rate currency=%s per=%s rate=... date=...",
                           what, currency, x->currency, currency, x->currency));
    return by;
}

/* 0 where it is not told, or cannot be had in the vehicle's currency. */
static double sum_of(struct reading *x, const struct record *r, const char *field)
{
    const struct value *v = record_get(r, field);
    return v->set ? (double)v->money.minor * unit_of(x, r->kind->name, v->money.currency) : 0;
}

static bool points_of(struct reading *x, const struct record *r, const char *field,
                      struct points *out)
{
    const struct value *v = record_get(r, field);
    double by = v->set ? unit_of(x, r->kind->name, v->money.currency) : 0;
    *out = points_scale(v->points, by);
    return by > 0;
}

static const char *words_of(struct reading *x, const struct record *r, const char *field)
{
    const char *text = record_text(r, field, NULL);
    return text ? arena_copy(x->a, text) : NULL;
}

static void take_comparable(struct reading *x, const struct record *r)
{
    struct fact_comparable c = {
        .minor = sum_of(x, r, "price"),
        .asked = record_integer(r, "how", 0) == 1,
        .date = record_get(r, "date")->day,
        .grade = record_number(r, "grade", 3),
        .original = record_number(r, "original", -1),
        .kilometres = record_get(r, "distance")->set ? record_number(r, "distance", 0) / 1000 : -1,
        .note = words_of(x, r, "note")};
    if (!record_get(r, "price")->set)
        say(x, "Left out: a comparable whose private price was not handed on.");
    if (c.minor > 0) x->out->comparables[x->out->n_comparables++] = c;
}

static void take_grade(struct reading *x, const struct record *r)
{
    x->out->grades[record_integer(r, "of", 0)] =
        (struct fact_grade){true, record_number(r, "grade", 3), record_number(r, "original", -1)};
}

static void take_weights(struct reading *x, const struct record *r)
{
    x->out->weighed = true;
    x->out->month = sum_of(x, r, "month");
    x->out->original = sum_of(x, r, "original");
    x->out->driving = sum_of(x, r, "driving");
}

static void take_tripwire(struct reading *x, const struct record *r)
{
    struct fact_tripwire *w = &x->out->tripwires[x->out->n_tripwires++];
    struct fail f = {0};
    *w = (struct fact_tripwire){
        .spent = sum_of(x, r, "spent"),
        .passed = record_get(r, "passed")->set ? record_get(r, "passed")->day : DAY_NONE,
        .component = words_of(x, r, "component"),
        .kind = -1,
        .place = -1,
        .condition = (enum condition)record_integer(r, "condition", COND_FAILED),
        .why = words_of(x, r, "why")};
    if (w->component && !component_parse(x->t, w->component, &w->kind, &w->place, &f)) {
        w->kind = -1;
        say(x, arena_print(x->a, "A tripwire watches nothing. %s", f.text));
    }
}

static void take_instead(struct reading *x, const struct record *r)
{
    struct fact_instead i = {.what = words_of(x, r, "what"),
                             .hours = record_number(r, "hours", 0),
                             .months = record_number(r, "months", 0)};
    if (points_of(x, r, "price", &i.price) && points_of(x, r, "bill", &i.bill) &&
        points_of(x, r, "worth", &i.worth))
        x->out->instead = i;
}

static void take_order(struct reading *x, const struct record *r)
{
    if (!record_get(r, "returned")->set) x->out->spent += sum_of(x, r, "price");
}

static void take_deposit(struct reading *x, const struct record *r)
{
    x->out->spent += sum_of(x, r, "deposit");
}

typedef void take_record(struct reading *x, const struct record *r);

static bool read_all(struct reading *x, const struct record_kind *k, void **array, size_t size,
                     take_record *take)
{
    struct record *records;
    int n;
    if (!garage_list(x->g, x->a, k, x->facts->vehicle_id, &records, &n, x->f)) return false;
    if (array) *array = arena_take(x->a, (size_t)n, size);
    for (int i = 0; i < n; i++) take(x, &records[i]);
    return true;
}

bool facts_worth_read(struct garage *g, struct arena *a, const struct trade *t,
                      const struct facts *facts, const char *currency, struct facts_worth *out,
                      struct fail *f)
{
    *out = (struct facts_worth){0};
    struct reading x = {g, a, t, facts, currency, out, f};
    for (int i = 0; i < facts->n_works; i++) out->hours += facts->works[i].minutes / 60;
    for (int i = 0; i < WORTH_COUNT; i++)
        if (facts->worth[i].set) unit_of(&x, "worth", facts->worth[i].currency);
    return read_all(&x, &kind_comparable, (void **)&out->comparables, sizeof *out->comparables,
                    take_comparable) &&
           read_all(&x, &kind_grade, NULL, 0, take_grade) &&
           read_all(&x, &kind_weights, NULL, 0, take_weights) &&
           read_all(&x, &kind_tripwire, (void **)&out->tripwires, sizeof *out->tripwires,
                    take_tripwire) &&
           read_all(&x, &kind_instead, NULL, 0, take_instead) &&
           read_all(&x, record_kind_find("order"), NULL, 0, take_order) &&
           read_all(&x, &kind_sent, NULL, 0, take_deposit);
}
