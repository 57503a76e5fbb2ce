/* make_picture.h - small pictures for tests, made with the same libraries that read them. */
#ifndef TESTS_MAKE_PICTURE_H
#define TESTS_MAKE_PICTURE_H

#include "base/text.h"

/* Four fields of colour: red and green above, blue and white below. orientation 0: no Exif at all.
 * day: "2026:11:25 19:00:00" or NULL. */
struct text make_jpeg(struct arena *a, unsigned width, unsigned height, int orientation,
                      const char *day);
/* alpha: each pixel half see-through. */
struct text make_png(struct arena *a, unsigned width, unsigned height, bool interlaced, bool alpha);

#endif
