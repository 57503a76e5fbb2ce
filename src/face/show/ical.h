/* ical.h - days that matter as an iCalendar stream, for the calendar of a phone.
 *
 * Published: RFC 5545 (2009): lines of at most 75 octets, folded between characters (3.1), texts
 * escaped (3.3.11), an end that is exclusive (3.6.1). Times float (3.3.5): they are those of the
 * clock on the garage's wall. */
#ifndef SHOW_ICAL_H
#define SHOW_ICAL_H

#include "face/show/answer.h"
#include "shop/feed.h"

/* Adds the dates by which the last plans want parts to be ordered, of every vehicle that has one
 * kept. *without: names of those that have none of today, or NULL. */
bool ical_add_order_by(struct arena *a, const struct shop_ask *ask, struct answer_trade trade,
                       struct feed *feed, const char **without, struct fail *f);
const char *ical_write(struct arena *a, const struct feed *feed, day as_of);
json_t *ical_json(const struct feed *feed, const char *without);

#endif
