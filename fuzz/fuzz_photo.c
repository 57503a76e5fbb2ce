/* Pictures as an enemy would make them: a small one with up to eight edits, or any bytes at all;
 * the check sums of a PNG are mended, so that its chunks are read and not just refused. Held: it is
 * a picture within the limits and at most as large as was asked for, or one line. Input: which one,
 * then for each edit an offset (2 bytes), how many bytes go, how many come, and those. */
#include "face/photo/picture.h"
#include "show/small_picture.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size);

enum { EDITS_MOST = 8, SIDE = 64, BYTES_MOST = 65536 };

static const struct {
    const char *bytes;
    size_t n;
} seeds[] = {{"", 0}, {SMALL_JPEG, sizeof SMALL_JPEG - 1}, {SMALL_PNG, sizeof SMALL_PNG - 1}};

static void put(unsigned char *out, unsigned n)
{
    for (int i = 0; i < 4; i++) out[i] = (unsigned char)(n >> (24 - 8 * i));
}

/* CRC-32 of type and data of each chunk, as PNG defines it. */
static void mend_png(unsigned char *bytes, size_t n)
{
    for (size_t at = 8; at + 12 <= n;) {
        const size_t length = (size_t)bytes[at] << 24 | (size_t)bytes[at + 1] << 16 |
                              (size_t)bytes[at + 2] << 8 | bytes[at + 3];
        if (length > n - at - 12) return;
        unsigned crc = 0xffffffffu;
        for (size_t i = at + 4; i < at + 8 + length; i++) {
            crc ^= bytes[i];
            for (int k = 0; k < 8; k++) crc = crc & 1 ? 0xedb88320u ^ (crc >> 1) : crc >> 1;
        }
        put(bytes + at + 8 + length, crc ^ 0xffffffffu);
        at += 12 + length;
    }
}

static size_t edit(unsigned char *bytes, size_t n, const unsigned char *data, size_t size)
{
    size_t at = 0;
    for (int i = 0; i < EDITS_MOST && at + 4 <= size; i++) {
        size_t from = (size_t)(data[at] << 8 | data[at + 1]) % (n + 1), out = data[at + 2],
               in = data[at + 3];
        at += 4;
        if (out > n - from) out = n - from;
        if (in > size - at) in = size - at;
        if (n - out + in > BYTES_MOST) break;
        memmove(bytes + from + in, bytes + from + out, n - from - out);
        memcpy(bytes + from, data + at, in);
        n = n - out + in;
        at += in;
    }
    return n;
}

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size)
{
    if (size < 1 || size > BYTES_MOST) return 0;
    const size_t which = data[0] % (sizeof seeds / sizeof *seeds);
    unsigned char *work = malloc(BYTES_MOST + 1);
    size_t n = seeds[which].n;
    memcpy(work, seeds[which].bytes, n);
    if (which == 0)
        memcpy(work, data + 1, n = size - 1);
    else
        n = edit(work, n, data + 1, size - 1);
    unsigned char *bytes = malloc(n + !n); /* reading beyond it is seen */
    memcpy(bytes, work, n);
    if (n >= 8 && memcmp(bytes, "\x89PNG", 4) == 0) mend_png(bytes, n);
    struct picture_facts facts;
    struct picture p;
    struct fail f = {0};
    if (picture_read(bytes, n, SIDE, &facts, &p, &f)) {
        const unsigned long pixels = (unsigned long)facts.width * facts.height;
        assert(p.rgb && p.width >= 1 && p.height >= 1 && p.width <= SIDE && p.height <= SIDE);
        assert(pixels >= 1 && pixels <= PICTURE_PIXELS_MOST);
        assert(strlen(facts.taken) == 0 || strlen(facts.taken) == 10);
    } else {
        assert(f.kind == FAIL_INPUT && *f.text && !strchr(f.text, '\n'));
    }
    free(p.rgb);
    free(bytes);
    free(work);
    return 0;
}
