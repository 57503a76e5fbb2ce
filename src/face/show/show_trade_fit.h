/* show_trade_fit.h - joins, fittings, needs and options of the trade data, as a person reads them.
 */
#ifndef SHOW_SHOW_TRADE_FIT_H
#define SHOW_SHOW_TRADE_FIT_H

#include "face/show/sheet.h"
#include "library/trade.h"

void show_join(struct sheet *s, const struct trade *t, const struct trade_join *j);
void show_fitting(struct sheet *s, const struct trade *t, const struct trade_fitting *f);
void show_need(struct sheet *s, const struct trade *t, int index);
void show_option(struct sheet *s, const struct trade *t, const struct trade_option *o);

/* "18 to 45 A", "at most 45 A", "negative", or "not known". */
const char *end_words(struct arena *a, const struct trade *t, const struct trade_end *e);
/* "yes", "with care, the old parts kept", "no". */
const char *undo_words(enum option_undo u);
void show_seal(struct sheet *s, const struct trade_seal *x);

#endif
