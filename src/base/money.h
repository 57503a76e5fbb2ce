/* money.h - sums of money: whole minor units and an ISO 4217 code.
 *
 * Published: ISO 4217 gives each currency's number of minor digits (JPY 0, KWD 3, most 2). */
#ifndef BASE_MONEY_H
#define BASE_MONEY_H

#include "base/fail.h"
#include "base/text.h"

struct money {
    int64_t minor;
    char currency[4];
};

/* Is it a code that we know? Digits after the point into *digits. */
bool currency_digits(const char *code, int *digits);
/* "12.50 GBP", "GBP 12.50", "1,250" with a default currency (may be NULL: then a currency is
 * needed). Thousands may be parted by commas or blanks, in threes; "12,50" is refused, not guessed
 * at. Refuses more decimals than the currency has, and sums beyond 10^13 minor units. */
bool money_parse(const char *s, const char *fallback_currency, struct money *out, struct fail *f);
void money_print(struct text *t, struct money m); /* "1,250.00 GBP" */
/* For forecasts, to two significant figures, without minor units where they are zero: "1,300 GBP".
 * |minor| < 10^18 (asserted). */
void money_print_about(struct text *t, double minor, const char *currency);
/* The ISO currency of a POSIX locale name ("en_GB.UTF-8"), or NULL. */
const char *currency_of_locale(const char *locale);

#endif
