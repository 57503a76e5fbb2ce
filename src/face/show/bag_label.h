/* bag_label.h - labels for bags as a PDF to be cut up: code, what, shelf, and a square code that
 * opens the bag's page on a phone. */
#ifndef SHOW_BAG_LABEL_H
#define SHOW_BAG_LABEL_H

#include "model/facts_bag.h"

enum paper { PAPER_A4, PAPER_LETTER };
enum { LABELS_ACROSS = 3, LABELS_DOWN = 7 };

/* address: where the pages are served, "https://192.168.1.20:8061"; the bag's is address/bag/CODE.
 * Refused where it is too long to be read off a label, or there is none to print. */
bool bag_labels(struct arena *a, const char *vehicle, const struct fact_bag *bags, int count,
                const char *address, enum paper paper, const char **out, size_t *length,
                struct fail *f);

#endif
