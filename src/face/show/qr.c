#include "face/show/qr.h"

#include <assert.h>
#include <qrencode.h>
#include <string.h>

void qr_make(struct arena *a, const char *text, struct qr *out)
{
    assert(strlen(text) < 200);
    QRcode *code = QRcode_encodeString8bit(text, 0, QR_ECLEVEL_M);
    assert(code); /* it fits, so only memory can have run out */
    const size_t n = (size_t)code->width * (size_t)code->width;
    unsigned char *dark = ARENA_ARRAY(a, unsigned char, n);
    for (size_t i = 0; i < n; i++) dark[i] = code->data[i] & 1;
    *out = (struct qr){code->width, dark};
    QRcode_free(code);
}

bool qr_is_dark(const struct qr *q, int x, int y)
{
    return x >= 0 && y >= 0 && x < q->size && y < q->size && q->dark[y * q->size + x];
}

void qr_text(struct text *out, const struct qr *q, bool colour)
{
    /* Light modules are drawn, dark ones are the ground. */
    static const char *const blocks[2][2] = {{"█", "▀"}, {"▄", " "}}; /* upper dark, lower dark */
    for (int y = -QR_QUIET; y < q->size + QR_QUIET; y += 2) {
        if (colour) text_add(out, "\033[38;5;231;48;5;16m");
        for (int x = -QR_QUIET; x < q->size + QR_QUIET; x++)
            text_add(out, blocks[qr_is_dark(q, x, y)][qr_is_dark(q, x, y + 1)]);
        text_add(out, colour ? "\033[0m\n" : "\n");
    }
}
