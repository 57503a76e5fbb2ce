/* fold.h - words as they are looked up: case, plural, American words to British ones, and words for
 * one trouble to one of them. */
#ifndef SHOP_FOLD_H
#define SHOP_FOLD_H

#include "base/text.h"

const char *fold_word(struct arena *a, const char *word, size_t n); /* "Tires" -> "tyre" */
bool fold_is_trouble(const char *folded);                           /* "stuck", "broken", ... */
/* Every word of the text, blanks between: letters and digits of any script. */
const char *fold_text(struct arena *a, const char *text);

#endif
