/* page_survey.h - what the survey's pages have in common. */
#ifndef WEB_PAGE_SURVEY_H
#define WEB_PAGE_SURVEY_H

#include "face/web/route.h"
#include "shop/lap.h"

/* The lap round a vehicle. What is most worth a look comes first, as the last answer to "choose"
 * had it, if there is one; nothing is reckoned for it. */
bool survey_lap(struct visit *v, const char *vehicle, struct lap *out, struct fail *f);
/* How much the form before this page stored, if one did. */
void survey_write_stored(struct visit *v);

#endif
