#include "base/day.h"

#include <assert.h>
#include <string.h>

enum { FIRST_YEAR = 1700, LAST_YEAR = 2399 };

static bool is_leap(int year)
{
    return year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
}

static int days_in_month(int year, int month)
{
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    return days[month - 1] + (month == 2 && is_leap(year));
}

bool day_exists(int year, int month, int dom)
{
    return year >= FIRST_YEAR && year <= LAST_YEAR && month >= 1 && month <= 12 && dom >= 1 &&
           dom <= days_in_month(year, month);
}

/* The year is begun in March, so that the leap day is its last and months follow one linear rule.
 */
day day_from_civil(int year, int month, int dom)
{
    assert(day_exists(year, month, dom));
    const int y = month <= 2 ? year - 1 : year;
    const int era = y / 400, year_of_era = y % 400;
    const int day_of_year = (153 * (month + (month > 2 ? -3 : 9)) + 2) / 5 + dom - 1;
    const int day_of_era = year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year;
    return era * 146097 + day_of_era - 719468; /* days of 400 years; 0000-03-01 to 1970-01-01 */
}

void day_to_civil(day d, int *year, int *month, int *dom)
{
    assert(d >= -98615 && d <= 157053); /* 1700-01-01, 2399-12-31 */
    const int z = d + 719468;
    const int era = z / 146097, day_of_era = z % 146097;
    const int year_of_era =
        (day_of_era - day_of_era / 1460 + day_of_era / 36524 - day_of_era / 146096) / 365;
    const int day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    const int march_month = (5 * day_of_year + 2) / 153;
    *dom = day_of_year - (153 * march_month + 2) / 5 + 1;
    *month = march_month < 10 ? march_month + 3 : march_month - 9;
    *year = era * 400 + year_of_era + (*month <= 2);
}

int day_of_week(day d)
{
    const int w = (d + 3) % 7; /* 1970-01-01 was a Thursday */
    return w < 0 ? w + 7 : w;
}

day day_add_months(day d, int months)
{
    int year, month, dom;
    day_to_civil(d, &year, &month, &dom);
    const int count = year * 12 + month - 1 + months;
    year = count / 12;
    month = count % 12 + 1;
    assert(year >= FIRST_YEAR && year <= LAST_YEAR);
    const int last = days_in_month(year, month);
    return day_from_civil(year, month, dom < last ? dom : last);
}

int day_months_between(day a, day b)
{
    int year_a, month_a, year_b, month_b, dom;
    day_to_civil(a, &year_a, &month_a, &dom);
    day_to_civil(b, &year_b, &month_b, &dom);
    return (year_b - year_a) * 12 + month_b - month_a;
}

/* Exactly `digits` digits at s. */
static bool read_digits(const char *s, int digits, int *out)
{
    *out = 0;
    for (int i = 0; i < digits; i++) {
        if (s[i] < '0' || s[i] > '9') return false;
        *out = *out * 10 + (s[i] - '0');
    }
    return true;
}

bool day_parse(const char *s, day *out, struct fail *f)
{
    int year, month, dom;
    if (strlen(s) != 10 || s[4] != '-' || s[7] != '-' || !read_digits(s, 4, &year) ||
        !read_digits(s + 5, 2, &month) || !read_digits(s + 8, 2, &dom))
        return fail_set(f, FAIL_INPUT, "'%s' is no day; write year-month-day, as 2026-02-28", s);
    if (year < FIRST_YEAR || year > LAST_YEAR)
        return fail_set(f, FAIL_INPUT, "'%s': the year must be %d to %d", s, FIRST_YEAR, LAST_YEAR);
    if (month < 1 || month > 12)
        return fail_set(f, FAIL_INPUT, "'%s': there is no month %d; use 01 to 12", s, month);
    if (!day_exists(year, month, dom))
        return fail_set(f, FAIL_INPUT, "'%s': %s %d has %d days; check the day", s,
                        day_month_name(month), year, days_in_month(year, month));
    *out = day_from_civil(year, month, dom);
    return true;
}

void day_print(struct text *t, day d)
{
    int year, month, dom;
    day_to_civil(d, &year, &month, &dom);
    text_print(t, "%04d-%02d-%02d", year, month, dom);
}

void day_print_long(struct text *t, day d)
{
    int year, month, dom;
    day_to_civil(d, &year, &month, &dom);
    text_print(t, "%s %d %s %d", day_week_name(day_of_week(d)), dom, day_month_name(month), year);
}

const char *day_month_name(int month)
{
    static const char *const names[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                        "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    assert(month >= 1 && month <= 12);
    return names[month - 1];
}

static const char *const week_names[7] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};

const char *day_week_name(int weekday)
{
    assert(weekday >= 0 && weekday < 7);
    return week_names[weekday];
}

bool day_week_parse(const char *s, int *weekday)
{
    static const char *const full[7] = {"monday", "tuesday",  "wednesday", "thursday",
                                        "friday", "saturday", "sunday"};
    for (int i = 0; i < 7; i++) {
        if (!text_same_word(s, week_names[i]) && !text_same_word(s, full[i])) continue;
        *weekday = i;
        return true;
    }
    return false;
}

bool clock_parse(const char *s, int *minute, struct fail *f)
{
    int hours, minutes;
    const int hour_digits = strlen(s) == 4 ? 1 : 2; /* "7:30" is as clear as "07:30" */
    if (strlen(s) != (size_t)hour_digits + 3 || !read_digits(s, hour_digits, &hours) ||
        s[hour_digits] != ':' || !read_digits(s + hour_digits + 1, 2, &minutes))
        return fail_set(f, FAIL_INPUT, "'%s' is no time of day; write hours:minutes, as 19:00", s);
    if (minutes > 59 || hours * 60 + minutes > MINUTES_A_DAY)
        return fail_set(f, FAIL_INPUT, "'%s': a day runs from 00:00 to 24:00", s);
    *minute = hours * 60 + minutes;
    return true;
}

void clock_print(struct text *t, int minute)
{
    assert(minute >= 0 && minute <= MINUTES_A_DAY);
    text_print(t, "%02d:%02d", minute / 60, minute % 60);
}
