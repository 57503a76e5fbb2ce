/* show_trade_identity.h - a code book and a rule about originality, as sheets. */
#ifndef SHOW_SHOW_TRADE_IDENTITY_H
#define SHOW_SHOW_TRADE_IDENTITY_H

#include "face/show/sheet.h"

void show_codebook(struct sheet *s, const struct trade *t, const struct trade_codebook *c);
void show_rule(struct sheet *s, const struct trade *t, const struct trade_rule *r);
/* What a direction does to what is original. */
void show_changes(struct sheet *s, const struct trade_direction *d);

/* "original or period" */
const char *originality_words(struct arena *a, unsigned classes);

#endif
