#include "bench/measurement.h"

#include "base/day.h"
#include "bench/row.h"
#include "bench/systems.h"

#include <string.h>

enum { READINGS = 40 };
static const double YEAR = 365.25;

/* ---- the words ---- */

static const char *told(struct arena *a, double x, const char *unit)
{
    const char *gap = *unit ? " " : "";
    return fabs(x) >= 1000 ? arena_print(a, "%.0f%s%s", x, gap, unit)
                           : arena_print(a, "%.3g%s%s", x, gap, unit);
}

/* The month of a day that is only about right; NULL where the calendar ends. */
static const char *month_told(struct arena *a, double at)
{
    int year, month, dom;
    if (!(at > day_from_civil(1700, 1, 1) && at < day_from_civil(2399, 12, 1))) return NULL;
    day_to_civil((day)at, &year, &month, &dom);
    return arena_print(a, "%04d-%02d", year, month);
}

static const char *state_said(struct arena *a, const struct measured *m, const char *unit)
{
    const char *left = told(a, fabs(m->left), unit);
    switch (m->state) {
    case MEASURE_GOOD:
        return arena_print(a, "Good: %s left to the limit", left);
    case MEASURE_NEAR:
        return arena_print(a, "Near the limit: %s left", left);
    case MEASURE_PAST:
        return arena_print(a, "Past the limit by %s", left);
    case MEASURE_CANNOT_TELL:
        break;
    }
    return arena_print(a, "Cannot tell: %s off the limit, and the gauge is no finer", left);
}

static const char *trend_said(struct arena *a, const struct measured *m, const char *unit)
{
    switch (m->trend) {
    case TREND_FEW:
        return "no trend can be told: it takes three readings";
    case TREND_AT_ONCE:
        return "no trend can be told: all were taken on one day";
    case TREND_CHANCE:
        return arena_print(a,
                           "no trend can be told: %s a year, give or take %s, may be chance or the "
                           "gauge",
                           told(a, m->slope * YEAR, unit), told(a, m->give * YEAR, unit));
    case TREND_NONE_TO:
    case TREND_TO:
        break;
    }
    return arena_print(a, "%s by %s a year, give or take %s", m->slope < 0 ? "falls" : "rises",
                       told(a, fabs(m->slope * YEAR), unit), told(a, m->give * YEAR, unit));
}

static const char *crossing_said(struct arena *a, const struct measured *m)
{
    if (m->trend != TREND_TO) return NULL;
    const char *about = month_told(a, m->crosses), *soon = month_told(a, m->soonest),
               *late = month_told(a, m->latest);
    if (!about || !soon) return "not for many years, at this pace";
    return arena_print(a, "about %s, between %s and %s%s", about, soon, late ? late : "never",
                       m->far ? "; far beyond what was watched, so lean lightly on it" : "");
}

static const char *meaning(const struct measured *m)
{
    switch (m->state) {
    case MEASURE_PAST:
        return "Do not use what depends on it until it is mended; measure once more to be sure";
    case MEASURE_CANNOT_TELL:
        return "Measure again with a finer gauge, or several times; until then take it as past";
    case MEASURE_NEAR:
        return m->trend == TREND_TO ? "Plan the work now, and measure often"
                                    : "It may serve; measure again soon and have the part priced";
    case MEASURE_GOOD:
        break;
    }
    return m->trend == TREND_TO        ? "It serves; put the work on the plan before that day"
           : m->trend == TREND_NONE_TO ? "It serves, and moves away from the limit: was something "
                                         "mended, or another gauge taken?"
                                       : "It serves; measure again in some months";
}

struct measurement_words measurement_say(struct arena *a, const struct measured *m,
                                         const char *unit)
{
    return (struct measurement_words){state_said(a, m, unit), trend_said(a, m, unit),
                                      crossing_said(a, m), meaning(m)};
}

/* ---- the sum ---- */

static const struct calc_input measurement_inputs[] = {
    IN_TEXT("value", "what was measured, with its unit: 112 psi"),
    IN_MAYBE_TEXT("at-least", "the limit, if it must not be under it: 105 psi"),
    IN_MAYBE_TEXT("at-most", "the limit, if it must not be over it: 0.25 mm"),
    IN_USUAL("accuracy", NUMBER, "%", "1 %", 0, 0.5, "of the gauge: by how much it may be off"),
    IN_USUAL("margin", NUMBER, "%", "10 %", 0, 0.9,
             "counts as near: share of the limit, or of what is between two"),
    IN_MAYBE_TEXT("date", "the day of it: 2026-05-01; needed with earlier ones"),
    IN_MAYBE_TEXT("earlier", "readings with their days: 2024-05-01 118, 2025-05-03 115"),
    IN_END,
};
static const struct calc_output measurement_outputs[] = {
    OUT_TEXT("left", "to the limit; below 0 past it"),
    OUT_TEXT("trend", "over the readings, by a line of least squares"),
    OUT_TEXT("crosses", "when it would be past the limit, if it goes on so"),
    OUT_TEXT("means", "what to do"),
    OUT_END,
};
static const struct calc_source measurement_sources[] = {
    {MARK_PRACTICE, "Least squares; a trend is told where Student's t says 95 of 100"},
    {MARK_MEMORY, "Fieller (1954): when a line crosses a limit, and how sure that is"},
    {MARK_PRACTICE, "Near is within a tenth of the limit; gauges are off by a hundredth"},
    SOURCE_END,
};
static const struct calc_caution measurement_cautions[] = {
    {"A good figure is no leave to drive: one number says nothing of the part beside it.",
     "The maker's limits; a garage for brakes, steering, tyres and lifting"},
    CAUTION_END,
};

struct measure_kind {
    enum quantity quantity;
    const char *unit;
};

/* What follows the number: the unit in which everything is then told. */
static const char *unit_of(const char *typed)
{
    typed += strspn(typed, " +-0123456789./");
    return typed;
}

/* The quantity whose units the value and all limits have. */
static bool find_kind(struct arena *a, const struct calc_value *in, struct measure_kind *kind,
                      struct fail *f)
{
    const struct calc_value *told_in[] = {&in[0], &in[1], &in[2]};
    const char *unit = "";
    for (int i = 0; i < 3 && !*unit; i++)
        if (told_in[i]->set) unit = unit_of(told_in[i]->text);
    *kind = (struct measure_kind){QUANTITY_NUMBER, ""};
    if (!*unit) return true;
    for (int q = 0; q < QUANTITY_COUNT; q++) {
        struct text t = {.arena = a};
        if (!unit_print_as(&t, 1, (enum quantity)q, unit, 3)) continue;
        *kind = (struct measure_kind){(enum quantity)q, unit};
        double si;
        struct fail ignored = {0};
        bool all = true;
        for (int i = 0; i < 3; i++)
            all = all && (!told_in[i]->set ||
                          unit_parse(told_in[i]->text, kind->quantity, unit, &si, &ignored));
        if (all) return true;
    }
    return *kind->unit || fail_set(f, FAIL_INPUT, "value: no unit '%.40s'", unit);
}

static bool read_one(const struct measure_kind *kind, const char *name, const char *typed,
                     double *out, struct fail *f)
{
    struct fail why = {0};
    double si;
    if (!unit_parse(typed, kind->quantity, *kind->unit ? kind->unit : NULL, &si, &why))
        return fail_set(f, FAIL_INPUT, "%s: %s", name, why.text);
    *out = *kind->unit ? unit_in(si, kind->quantity, kind->unit) : si;
    return fabs(*out) < 1e12 || fail_set(f, FAIL_INPUT, "%s: too large to be a reading", name);
}

/* "2024-05-01 118 psi, 2025-05-03 115" */
static int read_earlier(struct arena *a, const struct measure_kind *kind, const char *typed,
                        double before, struct reading *out, struct fail *f)
{
    int n = 0;
    for (const char *s = typed + strspn(typed, ", "); *s; n++) {
        const size_t length = strcspn(s, ",");
        const char *item = arena_copy_n(a, s, length), *value = strchr(item, ' ');
        struct fail why = {0};
        day d;
        if (n == READINGS - 1)
            return fail_set(f, FAIL_INPUT, "earlier: more than %d readings", READINGS - 1), -1;
        if (!value)
            return fail_set(f, FAIL_INPUT, "earlier: '%.40s' is not a day and a value", item), -1;
        if (!day_parse(arena_copy_n(a, item, (size_t)(value - item)), &d, &why))
            return fail_set(f, FAIL_INPUT, "earlier: %s", why.text), -1;
        if (d > before)
            return fail_set(f, FAIL_INPUT, "earlier: %.10s is after the date of the value", item),
                   -1;
        if (!read_one(kind, "earlier", value, &out[n].value, f)) return -1;
        out[n].at = d;
        s += length;
        s += strspn(s, ", ");
    }
    return n;
}

static bool read_limit(const struct measure_kind *kind, const struct calc_value *in,
                       struct limit *limit, struct fail *f)
{
    *limit = (struct limit){.has_low = in[1].set, .has_high = in[2].set};
    if (in[1].set && !read_one(kind, "at-least", in[1].text, &limit->low, f)) return false;
    if (in[2].set && !read_one(kind, "at-most", in[2].text, &limit->high, f)) return false;
    if (!in[1].set && !in[2].set)
        return fail_set(f, FAIL_INPUT, "at-least: no limit; give at-least, at-most or both");
    if (in[1].set && in[2].set && limit->low >= limit->high)
        return fail_set(f, FAIL_INPUT, "at-least: it is not under at-most");
    limit->margin =
        in[4].si * (in[1].set && in[2].set ? (limit->high - limit->low) / 2
                                           : fabs(in[1].set ? limit->low : limit->high));
    return true;
}

static bool measurement_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                            struct fail *f)
{
    static const enum verdict verdicts[] = {VERDICT_GOOD, VERDICT_CARE, VERDICT_BAD, VERDICT_CARE};
    struct reading readings[READINGS];
    struct measure_kind kind;
    struct limit limit;
    struct fail why = {0};
    day today = 0;
    int n = 0;
    double value;
    if (!find_kind(a, in, &kind, f) || !read_one(&kind, "value", in[0].text, &value, f) ||
        !read_limit(&kind, in, &limit, f))
        return false;
    if (in[5].set && !day_parse(in[5].text, &today, &why))
        return fail_set(f, FAIL_INPUT, "date: %s", why.text);
    if (in[6].set && !in[5].set)
        return fail_set(f, FAIL_INPUT,
                        "date: not given; the day of the value, since earlier ones "
                        "have theirs");
    if (in[6].set && (n = read_earlier(a, &kind, in[6].text, today, readings, f)) < 0) return false;
    readings[n] = (struct reading){today, value};
    const struct measured m = measure_judge(&limit, readings, n + 1, in[3].si * fabs(value));
    const struct measurement_words words = measurement_say(a, &m, kind.unit);
    out->out[0] = calc_text(told(a, m.left, kind.unit));
    out->out[1] = calc_text(words.trend);
    if (words.crosses) out->out[2] = calc_text(words.crosses);
    out->out[3] = calc_text(words.means);
    calc_verdict(a, out, verdicts[m.state], "%s", words.state);
    return true;
}

const struct calc calc_measurement[] = {
    {.name = "measurement",
     .question = "Is this reading good, and where is it going?",
     .inputs = measurement_inputs,
     .outputs = measurement_outputs,
     .formula = "good, near (within the margin), past, or cannot tell (within the gauge's error of "
                "the limit); trend = slope of least squares, told if over t x its error",
     .limits = "What wears may wear faster later: a line drawn on is a guess. Readings by the same "
               "gauge, in the same state.",
     .sources = measurement_sources,
     .cautions = measurement_cautions,
     .run = measurement_run},
    {.name = NULL},
};
