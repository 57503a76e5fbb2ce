/* show_choose_inside.h - what the files of the sheet of choose share. */
#ifndef SHOW_CHOOSE_INSIDE_H
#define SHOW_CHOOSE_INSIDE_H

#include "face/show/show_choose.h"

/* show_choose_chart.c */
void show_choose_bands(struct sheet *s, const struct choose *c);
void show_choose_left(struct sheet *s, const struct choose *c);
void show_choose_sales(struct sheet *s, const struct choose *c);

/* show_choose_look.c */
void show_choose_looks(struct sheet *s, const struct choose *c);

/* show_choose_why.c: the sentence on top with its odds and its reason; what would change it. */
void show_choose_advice(struct sheet *s, const struct choose *c);
void show_choose_changes(struct sheet *s, const struct choose *c);

#endif
