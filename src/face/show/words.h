/* words.h - how reckoned figures are said: dates, money, hours, odds; and as JSON. Rounded to what
 * is known. */
#ifndef SHOW_WORDS_H
#define SHOW_WORDS_H

#include "base/day.h"
#include "face/show/sheet.h"
#include "reckon/quantile.h"

#include <jansson.h>

/* The day of a moment of project time, "Wed 25 Nov 2026"; "never" for +infinity. */
const char *words_moment(struct arena *a, day first, double moment);
const char *words_day(struct arena *a, day d);
const char *words_date(struct arena *a, day d);      /* "25 Nov 2026" */
const char *words_short_day(struct arena *a, day d); /* "Wed 25 Nov" */
const char *words_month(struct arena *a, day d);     /* "Nov 2026" */
const char *words_money(struct arena *a, double minor,
                        const char *currency); /* "about 1,300 GBP"'s figure */
const char *words_hours(struct arena *a, double hours);
const char *words_days(struct arena *a, double days); /* "9 days", "5 weeks", "4 months" */
const char *words_share(struct arena *a, double p);   /* "35 %", "under 1 %" */
/* "about nine to one" for .9, "about nine to one against" for .1, "even odds" between. */
const char *words_odds(struct arena *a, double p);
const char *words_miles(struct arena *a, double miles); /* "134,000": to what is known */
const char *words_clock(struct arena *a, int minute);
const char *words_inside(struct arena *a,
                         const char *name); /* "Make the bay safe" within a sentence */

/* dates ISO 8601, money {"amount","currency"}; what never comes is null. */
json_t *words_json_moment(day first, double moment);
json_t *words_json_money(double minor, const char *currency);
json_t *words_json_moments(const struct quantiles *q, day first);
json_t *words_json_moneys(const struct quantiles *q, const char *currency); /* with mean */
json_t *words_json_numbers(const struct quantiles *q);
json_t *words_json_odds(const double odds[COND_COUNT]);
double words_round(double x, int digits); /* to so many digits after the point */

#endif
