/* show_trade_gate.h - gates, proofs and checks of the trade data, as a person reads them. */
#ifndef SHOW_SHOW_TRADE_GATE_H
#define SHOW_SHOW_TRADE_GATE_H

#include "face/show/sheet.h"
#include "library/trade.h"

void show_proof(struct sheet *s, const struct trade *t, const struct trade_proof *p);
void show_gate(struct sheet *s, const struct trade *t, const struct trade_gate *g);
void show_check(struct sheet *s, const struct trade *t, const struct trade_check *c);

/* "13.8 to 14.6 V; stops under 13.5 or over 15", "the maker's figure, in mm", "seen, not measured".
 */
const char *proof_limits(struct arena *a, const struct trade_proof *p);

#endif
