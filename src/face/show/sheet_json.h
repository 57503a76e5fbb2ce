/* sheet_json.h - a sheet as JSON and back, so that what was reckoned once can be kept in the cache.
 *
 * The shape is private to one version of the program: a cache's name holds the version. Reading is
 * strict all the same, because the file could be damaged: anything unexpected is a failure and the
 * sheet is reckoned again. */
#ifndef SHOW_SHEET_JSON_H
#define SHOW_SHEET_JSON_H

#include "face/show/sheet.h"

#include <jansson.h>

json_t *sheet_to_json(const struct sheet *s); /* the caller's to json_decref */
bool sheet_from_json(struct arena *a, const json_t *json, struct sheet **out, struct fail *f);

#endif
