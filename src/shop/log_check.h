/* log_check.h - what was read from a line, held against the clock and what is logged already. */
#ifndef SHOP_LOG_CHECK_H
#define SHOP_LOG_CHECK_H

#include "shop/log.h"

/* Refuses what cannot be; fills out->questions with what a slip or a second phone may have done. */
bool log_check(struct arena *a, const struct log_ask *ask, struct log_reading *out, struct fail *f);

#endif
