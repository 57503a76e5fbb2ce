/* steady.h - pages kept whole, with a place for the token of their forms. */
#ifndef WEB_STEADY_H
#define WEB_STEADY_H

#include "face/web/visit.h"

/* The page from before, or made now by `page` and kept if it came out well. */
bool steady_answer(struct visit *v, page_function *page, struct fail *f);

#endif
