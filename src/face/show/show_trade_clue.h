/* show_trade_clue.h - clues and their clusters as trade entries. */
#ifndef SHOW_TRADE_CLUE_H
#define SHOW_TRADE_CLUE_H

#include "face/show/sheet.h"

void show_trade_cluster(struct sheet *s, const struct trade *t, int index);
void show_trade_clue(struct sheet *s, const struct trade *t, int index);

#endif
