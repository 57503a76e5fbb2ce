#include "shop/measured.h"

#include "garage/kinds.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double NEAR = 0.1, GAUGE = 0.01; /* as the sum "measurement" takes them */

/* ---- what, how much, in which unit ---- */

static const struct trade_proof *proof_called(const struct trade *t, const char *word)
{
    for (int i = 0; i < t->n_proofs; i++)
        if (text_same_word(t->proofs[i].head.id, word) ||
            text_same_word(t->proofs[i].head.name, word))
            return &t->proofs[i];
    return NULL;
}

static bool split_value(struct arena *a, const char *typed, double *value, const char **unit,
                        struct fail *f)
{
    while (*typed == ' ') typed++;
    const size_t n = strspn(typed, "+-.0123456789");
    if (n == 0 || !text_to_double(arena_copy_n(a, typed, n), value))
        return fail_set(f, FAIL_INPUT,
                        "value: '%.40s' is no figure with a unit; as: fettle log measure "
                        "compression '78 %%'",
                        typed);
    for (typed += n; *typed == ' '; typed++) {
    }
    *unit = *typed ? arena_copy(a, typed) : NULL;
    return true;
}

/* From one unit to another of the same quantity. */
static bool convert(struct arena scratch, double value, const char *from, const char *to,
                    double *out)
{
    const char *text = arena_print(&scratch, "%.17g %s", value, from),
               *wanted = arena_print(&scratch, "1 %s", to);
    for (int q = 0; q < QUANTITY_COUNT; q++) {
        struct fail no = {0};
        double si, one;
        if (!unit_parse(text, (enum quantity)q, NULL, &si, &no) ||
            !unit_parse(wanted, (enum quantity)q, NULL, &one, &no))
            continue;
        *out = unit_in(si, (enum quantity)q, to);
        return true;
    }
    return false;
}

static bool settle_unit(struct arena *a, const struct measured_ask *ask, const char *unit,
                        struct measured_reading *x, struct fail *f)
{
    const char *wanted = x->proof ? x->proof->unit : NULL;
    if (x->proof && !wanted)
        return fail_set(
            f, FAIL_INPUT,
            "log: '%s' is seen, not measured; tell it with fettle add witnessed what=%s",
            x->proof->head.name, x->proof->head.id);
    if (!wanted) wanted = unit ? unit : "";
    x->unit = wanted;
    if (!unit || text_same_word(unit, wanted)) return true;
    const double typed = x->value;
    if (!convert(*a, typed, unit, wanted, &x->value))
        return fail_set(f, FAIL_INPUT, "value: %s is told in %s, and '%.20s' is no unit for that",
                        x->what, wanted, unit);
    x->typed = arena_copy(a, ask->value);
    return true;
}

/* ---- against what ---- */

static bool read_limit(const char *name, const char *typed, double *out, struct fail *f)
{
    return text_to_double(typed, out) ||
           fail_set(f, FAIL_INPUT, "%s: '%.40s' is no figure; write it without a unit", name,
                    typed);
}

static bool settle_limit(const struct measured_ask *ask, struct measured_reading *x, struct fail *f)
{
    struct limit *l = &x->limit;
    const struct trade_proof *p = x->proof;
    double margin = 0;
    l->has_low = x->maker = ask->low && *ask->low;
    l->has_high = ask->high && *ask->high;
    x->maker |= l->has_high;
    if ((l->has_low && !read_limit("low", ask->low, &l->low, f)) ||
        (l->has_high && !read_limit("high", ask->high, &l->high, f)))
        return false;
    if (l->has_low && l->has_high && !(l->low < l->high))
        return fail_set(f, FAIL_INPUT, "low: %g is not below high, %g; mend one of them", l->low,
                        l->high);
    x->look_up = p && p->book && !x->maker;
    if (!x->maker && p && !p->book) { /* between passing and stopping is near */
        l->has_low = !isnan(p->stop_under) || !isnan(p->pass_from);
        l->has_high = !isnan(p->stop_over) || !isnan(p->pass_to);
        l->low = isnan(p->stop_under) ? p->pass_from : p->stop_under;
        l->high = isnan(p->stop_over) ? p->pass_to : p->stop_over;
        if (l->has_low && !isnan(p->pass_from)) margin = fmax(margin, p->pass_from - l->low);
        if (l->has_high && !isnan(p->pass_to)) margin = fmax(margin, l->high - p->pass_to);
    }
    if (margin == 0)
        margin = NEAR * (l->has_low && l->has_high ? l->high - l->low
                         : l->has_low              ? fabs(l->low)
                         : l->has_high             ? fabs(l->high)
                                                   : 0);
    l->margin = margin;
    return true;
}

static bool has_limit(const struct measured_reading *x)
{
    return x->limit.has_low || x->limit.has_high;
}

/* ---- slips ---- */

static int by_value(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static double middle_of(struct arena scratch, const struct reading *r, int n)
{
    double *sorted = ARENA_ARRAY(&scratch, double, n);
    for (int i = 0; i < n; i++) sorted[i] = r[i].value;
    qsort(sorted, (size_t)n, sizeof *sorted, by_value);
    return sorted[n / 2];
}

/* Within a third more or less of what it was before; where it was never measured, on the good side
 * of its limit and not far off it. */
static bool looks_right(const struct measured_reading *x, double value, double middle, bool any)
{
    if (any) return middle != 0 && value / middle > 0.7 && value / middle < 1.4;
    const struct limit *l = &x->limit;
    if (l->has_low && (value < l->low || value > 2.5 * fabs(l->low) + (l->has_high ? INFINITY : 0)))
        return false;
    return !l->has_high || value <= l->high;
}

static void question(struct arena *a, struct measured_reading *x, const char *text)
{
    if (x->n_questions < MEASURED_QUESTIONS) x->questions[x->n_questions++] = arena_copy(a, text);
}

static void find_slips(struct arena *a, struct measured_reading *x, const struct reading *before,
                       int n)
{
    /* Units that a gauge has side by side. */
    static const char *const others[] = {"psi", "bar", "kPa", "mm",    "in", "thou", "V",   "mV",
                                         "A",   "mA",  "Nm",  "ft lb", "C",  "F",    "ohm", "kohm"};
    const double middle = n > 0 ? middle_of(*a, before, n) : 0;
    const char *than = n > 0 ? "the readings before it" : "its limit";
    if ((n == 0 && !has_limit(x)) || x->value == 0 || looks_right(x, x->value, middle, n > 0))
        return;
    const double slips[] = {10, 0.1, text_is(x->unit, "%") ? 100 : 10};
    for (size_t i = 0; i < sizeof slips / sizeof *slips && x->n_questions == 0; i++)
        if (looks_right(x, x->value * slips[i], middle, n > 0))
            question(a, x,
                     arena_print(a, "%g %s is far from %s, and %g would fit: did the point slip?",
                                 x->value, x->unit, than, x->value * slips[i]));
    bool asked = false;
    for (size_t i = 0; i < sizeof others / sizeof *others && *x->unit && !asked; i++) {
        double meant;
        if (text_same_word(others[i], x->unit) ||
            !convert(*a, x->value, others[i], x->unit, &meant) ||
            !looks_right(x, meant, middle, n > 0))
            continue;
        asked = true;
        question(a, x,
                 arena_print(a,
                             "%g %s is far from %s, and %g %s (%.3g %s) would fit: which unit was "
                             "it?",
                             x->value, x->unit, than, x->value, others[i], meant, x->unit));
    }
    if (n > 0 && x->n_questions == 0)
        question(a, x,
                 arena_print(a, "%g %s is far from %g, as it was before: is it right?", x->value,
                             x->unit, middle));
}

/* ---- with those before it ---- */

static bool same_where(const char *x, const char *y)
{
    return text_same_word(x ? x : "", y ? y : "");
}

static bool read_before(struct arena *a, const struct measured_ask *ask, struct measured_reading *x,
                        struct reading **out, int *n, struct fail *f)
{
    struct record *r;
    int count;
    *n = 0;
    if (!garage_list(ask->garage, a, &kind_measurement, ask->vehicle, &r, &count, f)) return false;
    *out = ARENA_ARRAY(a, struct reading, count + 1);
    for (int i = 0; i < count; i++) {
        const char *what = record_text(&r[i], "what", ""), *unit = record_text(&r[i], "unit", "");
        const bool same =
            x->proof ? proof_called(ask->trade, what) == x->proof : text_same_word(what, x->what);
        const struct value *date = record_get(&r[i], "date");
        if (!same || !same_where(record_text(&r[i], "where", NULL), x->where)) continue;
        if (!x->proof && !*x->unit) x->unit = arena_copy(a, unit); /* told without one */
        if (!text_same_word(unit, x->unit)) continue;
        const double value = record_number(&r[i], "value", 0);
        if (date->set && date->day == ask->today && value == x->value)
            question(a, x,
                     arena_print(a, "%g %s of the same thing is stored already, of today: again?",
                                 value, x->unit));
        (*out)[(*n)++] = (struct reading){date->set ? date->day : 0, value};
    }
    return true;
}

bool measured_read(struct arena *a, const struct measured_ask *ask, struct measured_reading *out,
                   struct fail *f)
{
    const char *unit = NULL;
    struct reading *readings;
    int n;
    *out = (struct measured_reading){.proof = proof_called(ask->trade, ask->what),
                                     .what = arena_copy(a, ask->what),
                                     .where = ask->where && *ask->where ? ask->where : NULL};
    if (out->proof) out->what = out->proof->head.id;
    if (!split_value(a, ask->value, &out->value, &unit, f) || !settle_unit(a, ask, unit, out, f) ||
        !settle_limit(ask, out, f) || !read_before(a, ask, out, &readings, &n, f))
        return false;
    find_slips(a, out, readings, n);
    out->before = n;
    readings[n] = (struct reading){ask->today, out->value};
    out->judged = measure_judge(&out->limit, readings, n + 1, GAUGE * fabs(out->value));
    out->words = measurement_say(a, &out->judged, out->unit);
    return true;
}
