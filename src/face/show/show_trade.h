/* show_trade.h - entries of the trade data as sheets, with their marks, sources and cautions. */
#ifndef SHOW_SHOW_TRADE_H
#define SHOW_SHOW_TRADE_H

#include "face/show/sheet.h"

#include <jansson.h>

/* All that is known of one entry. */
struct sheet *show_trade_entry(struct arena *a, const struct trade *t, enum subject s, int index);
/* A line an entry. */
struct sheet *show_trade_hits(struct arena *a, const struct trade *t, const char *title,
                              const struct trade_hit *hits, int count);
/* {"subject","id","name","mark","source","file","line","own"} and, where it has them, hours, price,
 * lead, odds. */
json_t *trade_entry_to_json(const struct trade *t, enum subject s, int index);

/* "practice", or "published: NAME, WHERE", of the source with that id. */
const char *trade_source_words(struct arena *a, const struct trade *t, const char *source);
/* Puts the cautions of a job or a step beside it; one that the sheet has in full already is named
 * only. */
void show_cautions(struct sheet *s, const struct trade *t, const int *cautions, int count);
/* "2 / 5 / 12 h" */
const char *points_words(struct arena *a, struct points p, const char *unit);

#endif
