/* show_view.h - a vehicle that might be bought, as a sheet and as JSON. */
#ifndef SHOW_VIEW_H
#define SHOW_VIEW_H

#include "face/show/sheet.h"
#include "shop/candidate.h"

#include <jansson.h>

/* The heading of what is walked, so that a page can put tiles in its place. */
extern const char view_walk[];
/* Beside every walk. */
extern const char view_caution[], view_defer[];

struct sheet *show_view(struct arena *a, const struct trade *t, const struct candidate *c);
json_t *show_view_json(struct arena *a, const struct trade *t, const struct candidate *c);
/* What a bad answer means in money, in a few words; "" where too few runs tell. */
const char *view_bad_words(struct arena *a, const struct candidate *c,
                           const struct candidate_stop *s);

#endif
