#include "face/show/words.h"

#include "base/money.h"

#include <math.h>
#include <string.h>

const char *words_day(struct arena *a, day d)
{
    struct text t = {.arena = a};
    day_print_long(&t, d);
    return text_get(&t);
}

const char *words_date(struct arena *a, day d)
{
    return words_day(a, d) + strlen("Wed ");
}

const char *words_short_day(struct arena *a, day d)
{
    int year, month, dom;
    day_to_civil(d, &year, &month, &dom);
    return arena_print(a, "%.3s %d %s", day_week_name(day_of_week(d)), dom, day_month_name(month));
}

const char *words_month(struct arena *a, day d)
{
    int year, month, dom;
    day_to_civil(d, &year, &month, &dom);
    return arena_print(a, "%s %d", day_month_name(month), year);
}

const char *words_moment(struct arena *a, day first, double moment)
{
    return isinf(moment) ? "never" : words_day(a, first + (day)floor(moment / MINUTES_A_DAY));
}

const char *words_money(struct arena *a, double minor, const char *currency)
{
    struct text t = {.arena = a};
    money_print_about(&t, minor, currency);
    return text_get(&t);
}

const char *words_hours(struct arena *a, double hours)
{
    const int tens = (int)round(fmin(hours, 1e9) / 10) * 10;
    if (tens >= 1000) return arena_print(a, "%d,%03d h", tens / 1000, tens % 1000);
    if (hours >= 100) return arena_print(a, "%d h", tens);
    return hours >= 10 ? arena_print(a, "%.0f h", hours) : arena_print(a, "%.1f h", hours);
}

const char *words_days(struct arena *a, double days)
{
    double size = fabs(days);
    if (size < 0.95) return arena_print(a, "%.1f days", days);
    if (size < 1.5) return "1 day";
    if (size < 21) return arena_print(a, "%.0f days", days);
    if (size < 120) return arena_print(a, "%.0f weeks", days / 7);
    return arena_print(a, "%.0f months", days / (365.25 / 12));
}

const char *words_share(struct arena *a, double p)
{
    if (p > 0 && p < 0.005) return "under 1 %";
    if (p < 1 && p > 0.995) return "over 99 %";
    return arena_print(a, "%.0f %%", 100 * p);
}

const char *words_odds(struct arena *a, double p)
{
    static const struct {
        double upto;
        const char *words;
    } steps[] = {{1.25, "even odds"},      {1.75, "three to two"}, {2.5, "two to one"},
                 {3.5, "three to one"},    {4.5, "four to one"},   {5.5, "five to one"},
                 {6.5, "six to one"},      {7.5, "seven to one"},  {8.5, "eight to one"},
                 {9.5, "nine to one"},     {12.5, "ten to one"},   {17.5, "fifteen to one"},
                 {25, "twenty to one"},    {40, "thirty to one"},  {75, "fifty to one"},
                 {150, "a hundred to one"}};
    bool against = p < 0.5;
    double ratio = against ? (1 - p) / p : p / (1 - p);
    if (ratio < steps[0].upto) return steps[0].words;
    for (size_t i = 1; i < sizeof steps / sizeof *steps; i++)
        if (ratio < steps[i].upto)
            return arena_print(a, "about %s%s", steps[i].words, against ? " against" : "");
    return against ? "over a hundred to one against" : "over a hundred to one";
}

const char *words_miles(struct arena *a, double miles)
{
    long whole = lround(miles / 1000) * 1000;
    return whole >= 1000 ? arena_print(a, "%ld,000", whole / 1000) : "under 1,000";
}

const char *words_clock(struct arena *a, int minute)
{
    struct text t = {.arena = a};
    clock_print(&t, minute);
    return text_get(&t);
}

const char *words_inside(struct arena *a, const char *name)
{
    char *s = arena_copy(a, name);
    bool shouted = s[0] && s[1] >= 'A' && s[1] <= 'Z'; /* an abbreviation keeps its capitals */
    if (s[0] >= 'A' && s[0] <= 'Z' && !shouted) s[0] = (char)(s[0] - 'A' + 'a');
    return s;
}

double words_round(double x, int digits)
{
    double scale = pow(10, digits);
    return round(x * scale) / scale;
}

json_t *words_json_moment(day first, double moment)
{
    int year, month, dom;
    if (isinf(moment)) return json_null();
    day_to_civil(first + (day)floor(moment / MINUTES_A_DAY), &year, &month, &dom);
    return json_sprintf("%04d-%02d-%02d", year, month, dom);
}

json_t *words_json_money(double minor, const char *currency)
{
    if (isinf(minor)) return json_null();
    return json_pack("{s:I, s:s}", "amount", (json_int_t)llround(minor), "currency", currency);
}

json_t *words_json_moments(const struct quantiles *q, day first)
{
    return json_pack("{s:o, s:o, s:o, s:o}", "p10", words_json_moment(first, q->p10), "p50",
                     words_json_moment(first, q->p50), "p80", words_json_moment(first, q->p80),
                     "p90", words_json_moment(first, q->p90));
}

json_t *words_json_moneys(const struct quantiles *q, const char *currency)
{
    return json_pack("{s:o, s:o, s:o, s:o, s:o}", "p10", words_json_money(q->p10, currency), "p50",
                     words_json_money(q->p50, currency), "p80", words_json_money(q->p80, currency),
                     "p90", words_json_money(q->p90, currency), "mean",
                     words_json_money(q->mean, currency));
}

static json_t *number(double x)
{
    return isinf(x) ? json_null() : json_real(words_round(x, 2));
}

json_t *words_json_numbers(const struct quantiles *q)
{
    return json_pack("{s:o, s:o, s:o, s:o, s:o}", "p10", number(q->p10), "p50", number(q->p50),
                     "p80", number(q->p80), "p90", number(q->p90), "mean", number(q->mean));
}

json_t *words_json_odds(const double odds[COND_COUNT])
{
    json_t *o = json_object();
    for (int c = 0; c < COND_COUNT; c++)
        json_object_set_new(o, condition_name((enum condition)c),
                            json_real(words_round(odds[c], 4)));
    return o;
}
