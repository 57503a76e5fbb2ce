/* page_photographs.h - what the pages of photographs have in common. */
#ifndef WEB_PAGE_PHOTOGRAPHS_H
#define WEB_PAGE_PHOTOGRAPHS_H

#include "face/show/photograph.h"
#include "face/web/route.h"

bool photograph_is_named(const struct record *r);
/* "radiator, front: weeps", or "not named yet": what stands for it where it is not seen. */
const char *photograph_words(struct visit *v, const struct record *r);
const char *photograph_address(struct arena *a, const struct record *r);
void photograph_image(struct visit *v, const struct record *r, enum photograph_size size);

#endif
