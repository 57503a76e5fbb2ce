/* offer.h - what suppliers ask for a part and for sending an order, from quotes, as the offers and
 * suppliers of reckon/fit.h, in one currency. For all who choose where to buy. */
#ifndef MODEL_OFFER_H
#define MODEL_OFFER_H

#include "model/facts.h"
#include "reckon/fit.h"

struct offer_book {
    struct arena *a;
    const struct facts *facts; /* of any vehicle: quotes, suppliers and rates are the garage's */
    const char *currency;
    const char **notes; /* what had to be left out, and why; each once */
    int n_notes;
    size_t notes_capacity;
};

/* One line that belongs to what is told; a line that is there already is not told again. */
void offer_note(struct offer_book *b, const char *line);

/* In minor units of the book's currency; -1, and a note, where no rate is known. */
double offer_sum(struct offer_book *b, double minor, const char *currency);

/* Quotes of one supplier for one part are steps of one price, by how many are bought. False where
 * there is none that can be reckoned with. `first` is the one for the fewest, with the lead. */
bool offer_quoted(struct offer_book *b, int part, int supplier, struct fit_offer *out,
                  const struct fact_quote **first);

struct fit_supplier offer_terms(struct offer_book *b, int supplier);

/* Days late on average, from the three points of the lead by Swanson's weights. */
double offer_days_late(struct points lead, double in_days);

int64_t offer_whole(double minor); /* of money, never below nothing */

#endif
