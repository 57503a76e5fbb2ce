#include "face/show/show_what_if.h"

#include "face/show/show_plan_chart.h"
#include "face/show/what_if_form.h"
#include "face/show/words.h"

#include <math.h>

/* ---- a difference in words ---- */

static const char *say(struct arena *a, const struct what_if_difference *d, const char *currency)
{
    const char *const more = currency ? "more" : "later", *const less =
                                                              currency ? "less" : "sooner";
    if (d->kind == NEVER_BOTH) return "never, either way";
    if (d->kind == NEVER_NOW) return "no longer reached";
    if (d->kind == NEVER_BEFORE) return "reached, which it was not";
    if (d->by == 0) return "no difference";
    if (!d->tells) return "no difference that we can tell";
    const double by = fabs(d->by);
    const char *amount =
        arena_print(a, "%s %s", currency ? words_money(a, by, currency) : words_days(a, by),
                    d->by > 0 ? more : less);
    if (!(d->error > 0)) return amount;
    return arena_print(a, "%s, give or take %s", amount,
                       currency ? words_money(a, d->error, currency) : words_days(a, d->error));
}

const char *what_if_days(struct arena *a, const struct what_if_difference *d)
{
    return say(a, d, NULL);
}

const char *what_if_money(struct arena *a, const struct what_if_difference *d, const char *currency)
{
    return say(a, d, currency);
}

enum tone what_if_tone(const struct what_if_difference *d)
{
    if (d->kind == NEVER_NOW) return TONE_BAD;
    if (d->kind == NEVER_BEFORE) return TONE_GOOD;
    if (d->kind == NEVER_BOTH || !d->tells) return TONE_PLAIN;
    return d->by < 0 ? TONE_GOOD : TONE_CARE;
}

const char *what_if_headline(struct arena *a, const struct what_if *w)
{
    return arena_print(a, "Done at 80 %%: %s. Money at 80 %%: %s.", what_if_days(a, &w->days_p80),
                       what_if_money(a, &w->money_p80, w->changed.with.currency));
}

/* ---- the sheet ---- */

static void say_said(struct sheet *s, const struct what_if *w)
{
    struct arena *a = s->arena;
    const struct what_if_now *was = &w->as_is.with;
    const struct override *o = &w->said;
    const bool said[WHAT_IF_KEYS] = {o->hours_a_week >= 0, o->start != DAY_NONE, o->helpers > 0,
                                     o->a_month >= 0, o->direction >= 0};
    struct what_if_now now = w->changed.with;
    for (enum what_if_key k = 0; k < WHAT_IF_KEYS; k++) {
        if (!said[k]) continue;
        const char *before = what_if_now_text(a, was, w->trade, k);
        const char *after = k == WHAT_IF_HELPERS ? arena_print(a, "%d", o->helpers)
                                                 : what_if_now_text(a, &now, w->trade, k);
        sheet_fact(s, TONE_PLAIN, what_if_label(k), "%s instead of %s", after,
                   *before ? before : "not told");
    }
}

static void table_row(struct sheet *s, struct sheet_table *t, const char *name, const char *before,
                      const char *after, const char *difference, enum tone tone)
{
    sheet_cell(s, t, TONE_PLAIN, "%s", name);
    sheet_cell(s, t, TONE_PLAIN, "%s", before);
    sheet_cell(s, t, TONE_PLAIN, "%s", after);
    sheet_cell(s, t, tone, "%s", difference);
}

static const char *date_or_never(struct arena *a, double d)
{
    return isinf(d) ? "never" : words_day(a, (day)floor(d));
}

static void table_differences(struct sheet *s, const struct what_if *w)
{
    struct arena *a = s->arena;
    const struct what_if_side *x = &w->as_is, *y = &w->changed;
    const char *currency = y->with.currency;
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "", ALIGN_LEFT, 1);
    sheet_column(s, t, "as it is", ALIGN_LEFT, 2);
    sheet_column(s, t, "what if", ALIGN_LEFT, 1);
    sheet_column(s, t, "difference", ALIGN_LEFT, 1);
    table_row(s, t, "Done at 50 %", date_or_never(a, x->finished.p50),
              date_or_never(a, y->finished.p50), what_if_days(a, &w->days_p50),
              what_if_tone(&w->days_p50));
    table_row(s, t, "Done at 80 %", date_or_never(a, x->finished.p80),
              date_or_never(a, y->finished.p80), what_if_days(a, &w->days_p80),
              what_if_tone(&w->days_p80));
    table_row(s, t, "Money at 50 %", words_money(a, x->bill.p50, currency),
              words_money(a, y->bill.p50, currency), what_if_money(a, &w->money_p50, currency),
              what_if_tone(&w->money_p50));
    table_row(s, t, "Money at 80 %", words_money(a, x->bill.p80, currency),
              words_money(a, y->bill.p80, currency), what_if_money(a, &w->money_p80, currency),
              what_if_tone(&w->money_p80));
    if (fmax(x->never, y->never) > 0.005)
        table_row(s, t, "Not done", words_share(a, x->never), words_share(a, y->never), "",
                  TONE_PLAIN);
}

static void chart_both(struct sheet *s, const struct what_if *w)
{
    struct fan as_is = {"as it is", w->as_is.with.start, w->as_is.fan};
    struct fan changed = {"what if", w->changed.with.start, w->changed.fan};
    chart_fan(s, &changed, &as_is);
}

struct sheet *show_what_if(struct arena *a, const struct what_if *w, const struct keep *keep)
{
    struct sheet *s = sheet_new(a, arena_print(a, "%s: what if", w->vehicle));
    if (override_is_none(&w->said))
        sheet_text(s, "Nothing is said otherwise yet: this is the plan as it is.");
    say_said(s, w);
    table_differences(s, w);
    chart_both(s, w);
    sheet_text(
        s,
        "Both on the first %d of the plan's runs, so that it follows at once: their dates may "
        "lie some days off the plan's own, the difference is of the same runs.",
        w->changed.runs);
    if (w->after) sheet_item(s, "Hands, bay and money go first to: %s.", w->after);
    if (keep && keep->count > 0) {
        sheet_heading(s, 2, "Keeping it would write");
        for (int i = 0; i < keep->count; i++) sheet_item(s, "%s.", keep->acts[i].line);
    }
    struct sheet_why *why = sheet_why(
        s, "Why these differences?",
        "the same draws of conditions, hours, setbacks, prices and leads for both, the first of "
        "the "
        "runs of the plan; give or take: one standard error, from the runs in twenty parts; less "
        "than two of it is no difference that we can tell",
        MARK_PRACTICE, "odds, hours and prices of the trade data");
    sheet_why_input(s, why, "runs", "%d", w->changed.runs);
    sheet_why_input(s, why, "seed", "%llu", (unsigned long long)w->seed);
    sheet_why_input(s, why, "hours a week as planned", "%.1f", w->changed.with.hours_a_week);
    return s;
}

/* ---- JSON ---- */

static json_t *json_difference(const struct what_if_difference *d, json_t *by, json_t *error)
{
    bool differs = d->kind == DIFFERS;
    json_t *o = json_pack("{s:o, s:o, s:b}", "by", differs ? by : json_null(), "error",
                          differs && isfinite(d->error) ? error : json_null(), "tells",
                          differs ? d->tells : d->kind != NEVER_BOTH);
    if (!differs) json_decref(by);
    if (!differs || !isfinite(d->error)) json_decref(error);
    return o;
}

json_t *what_if_days_json(const struct what_if_difference *d)
{
    return json_difference(d, json_real(words_round(d->by, 2)),
                           json_real(isfinite(d->error) ? words_round(d->error, 2) : 0));
}

json_t *what_if_money_json(const struct what_if_difference *d, const char *currency)
{
    return json_difference(d, words_json_money(d->by, currency),
                           words_json_money(isfinite(d->error) ? d->error : 0, currency));
}

static json_t *json_with(const struct what_if *w, const struct what_if_now *now)
{
    return json_pack("{s:f, s:o, s:o, s:s}", "hours_a_week", words_round(now->hours_a_week, 4),
                     "first_day", words_json_moment(now->start, 0), "a_month",
                     now->a_month < 0 ? json_null() : words_json_money(now->a_month, now->currency),
                     "direction", w->trade->directions[now->direction].head.id);
}

/* Days since 1970 are moments of a plan that began then. */
static json_t *json_side(const struct what_if *w, const struct what_if_side *x)
{
    struct quantiles q = x->finished;
    double *const moment[] = {&q.p10, &q.p50, &q.p80, &q.p90, &q.mean};
    for (size_t i = 0; i < sizeof moment / sizeof *moment; i++) *moment[i] *= MINUTES_A_DAY;
    return json_pack("{s:o, s:o, s:o, s:f}", "with", json_with(w, &x->with), "finish",
                     words_json_moments(&q, 0), "cost",
                     words_json_moneys(&x->bill, x->with.currency), "not_finished",
                     words_round(x->never, 4));
}

json_t *show_what_if_json(const struct what_if *w, const struct keep *keep)
{
    json_t *lines = json_array();
    for (int i = 0; keep && i < keep->count; i++)
        json_array_append_new(lines, json_string(keep->acts[i].line));
    const char *currency = w->changed.with.currency;
    return json_pack("{s:s, s:I, s:i, s:i, s:o, s:o, s:{s:{s:o, s:o}, s:{s:o, s:o}}, s:o}",
                     "vehicle", w->vehicle, "seed", (json_int_t)w->seed, "runs", w->changed.runs,
                     "more_helpers", w->said.helpers, "as_is", json_side(w, &w->as_is), "what_if",
                     json_side(w, &w->changed), "difference", "days", "p50",
                     what_if_days_json(&w->days_p50), "p80", what_if_days_json(&w->days_p80),
                     "money", "p50", what_if_money_json(&w->money_p50, currency), "p80",
                     what_if_money_json(&w->money_p80, currency), "would_keep", lines);
}
