/* Trade data as an enemy would write it: the small good set of the tests with one file edited or
 * replaced. Input: file (top bit: replace the whole), offset (2 bytes), bytes taken out, then the
 * bytes put in. Held: it loads or is told, and what is told is clean text on lines of its own. */
#include "library/small_trade.c"

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size);

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size)
{
    if (size < 4) return 0;
    struct arena a = arena_open(256 << 20);
    struct sources s = small_sources(&a, NULL, "", "");
    struct source *edited = &s.at[(data[0] & 0x7F) % s.count];
    size_t from = (size_t)(data[1] << 8 | data[2]) % (edited->size + 1);
    size_t to = from + data[3] < edited->size ? from + data[3] : edited->size;
    if (data[0] & 0x80) from = 0, to = edited->size;
    struct text bytes = {.arena = &a};
    text_add_n(&bytes, edited->bytes, from);
    text_add_n(&bytes, (const char *)data + 4, size - 4);
    text_add_n(&bytes, edited->bytes + to, edited->size - to);
    edited->bytes = text_get(&bytes);
    edited->size = bytes.length;
    struct trade t;
    const char *said = small_faults(&a, &s, &t);
    assert(text_is_utf8(said, strlen(said)));
    for (const char *c = said; *c; c++) assert((unsigned char)*c >= 0x20 || *c == '\n');
    arena_close(&a);
    return 0;
}
