/* day.h - civil days and times of day. No clock is read here: callers pass the day in.
 *
 * A day is a count of days since 1970-01-01 in the proleptic Gregorian calendar; valid from
 * 1700-01-01 to 2399-12-31. A moment of project time is a count of whole minutes from the start of
 * the plan's first day. Method: days from civil, after H. Hinnant's public description; checked
 * against a table in the tests. */
#ifndef BASE_DAY_H
#define BASE_DAY_H

#include "base/fail.h"
#include "base/text.h"

typedef int32_t day;

enum { DAY_NONE = INT32_MIN, MINUTES_A_DAY = 1440 };

day day_from_civil(int year, int month, int dom); /* asserts a real date */
void day_to_civil(day d, int *year, int *month, int *dom);
bool day_exists(int year, int month, int dom);
int day_of_week(day d);                /* 0 Monday .. 6 Sunday (ISO 8601 order) */
day day_add_months(day d, int months); /* the last day of the month if there is no such day */
/* Whole calendar months from a to b: 0 within the same month. */
int day_months_between(day a, day b);

/* "2026-02-28"; anything else, and 31 February, is refused with a line. */
bool day_parse(const char *s, day *out, struct fail *f);
void day_print(struct text *t, day d);      /* 2026-11-25 */
void day_print_long(struct text *t, day d); /* Wed 25 Nov 2026 */
const char *day_month_name(int month);      /* "Jan" .. */
const char *day_week_name(int weekday);
bool day_week_parse(const char *s, int *weekday); /* "tue", "Tuesday" */

/* "19:00" -> minutes of the day, 0..1440 ("24:00" allowed). */
bool clock_parse(const char *s, int *minute, struct fail *f);
void clock_print(struct text *t, int minute);

#endif
