/* measured_keep.h - a reading is judged, shown and, once its questions are answered, stored. */
#ifndef SHOW_MEASURED_KEEP_H
#define SHOW_MEASURED_KEEP_H

#include "face/show/sheet.h"
#include "shop/measured.h"

#include <jansson.h>

/* Judged and stored as one act. sure: its questions were answered yes. *stored false, and no
 * failure: they are open. */
bool measured_tell(struct arena *a, const struct measured_ask *ask, const char *tool,
                   const char *source, bool sure, struct measured_reading *out, bool *stored,
                   struct fail *f);

struct sheet *show_measured(struct arena *a, const struct trade *t,
                            const struct measured_reading *x, bool stored);
json_t *show_measured_json(const struct measured_reading *x, bool stored);

#endif
