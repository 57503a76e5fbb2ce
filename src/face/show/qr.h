/* qr.h - an address as a square code for a phone's camera: its modules, and as text in half blocks.
 */
#ifndef SHOW_QR_H
#define SHOW_QR_H

#include "base/text.h"

enum { QR_QUIET = 2 }; /* light modules around it; the standard asks for 4, cameras for fewer */

struct qr {
    int size;                  /* modules a side, without the quiet ones */
    const unsigned char *dark; /* size x size, row by row: 0 or 1 */
};

/* The text must be short enough to be read off a screen: under 200 bytes. */
void qr_make(struct arena *a, const char *text, struct qr *out);
bool qr_is_dark(const struct qr *q, int x, int y); /* false outside of it */
/* Two rows a line. colour: black on white whatever the terminal's colours are; else right on a
 * dark terminal, and inverted, which most cameras take, on a light one. */
void qr_text(struct text *out, const struct qr *q, bool colour);

#endif
