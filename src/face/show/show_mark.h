/* show_mark.h - numbers and dates as they were read. A part of show_originality.h. */
#ifndef SHOW_SHOW_MARK_H
#define SHOW_SHOW_MARK_H

#include "face/show/sheet.h"
#include "shop/originality.h"

void show_marks(struct sheet *s, const struct originality_answer *o);

#endif
