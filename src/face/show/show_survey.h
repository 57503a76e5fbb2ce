/* show_survey.h - what was found and what is still unseen, in the order of one lap. */
#ifndef SHOW_SHOW_SURVEY_H
#define SHOW_SHOW_SURVEY_H

#include "face/show/sheet.h"
#include "shop/survey.h"

#include <jansson.h>

extern const char survey_caution[], survey_defer[]; /* beside every look, on every face */
const char *survey_title(struct arena *a, const char *vehicle);
struct sheet *show_survey(struct arena *a, const struct survey *v);
json_t *show_survey_json(const struct survey *v);

#endif
