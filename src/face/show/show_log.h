/* show_log.h - what was read from a line of the work log, as a sheet and as JSON. */
#ifndef SHOW_SHOW_LOG_H
#define SHOW_SHOW_LOG_H

#include "face/show/sheet.h"
#include "shop/log.h"

#include <jansson.h>

/* stored: it is in the log; else what it would be. */
struct sheet *show_log(struct arena *a, const struct log_reading *r, bool stored);
json_t *show_log_json(const struct log_reading *r, bool stored);

#endif
