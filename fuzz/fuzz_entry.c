/* What a person types into a record: any field of any kind, any text. Input: kind, field, then the
 * text. Held: a value that is taken gives a text that is taken again and means the same; a refusal
 * is one clean line. */
#include "garage/record.h"

#include <assert.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size);

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size)
{
    if (size < 2 || memchr(data + 2, 0, size - 2)) return 0;
    struct arena a = arena_open(64 << 20);
    int kinds = 0;
    while (record_kinds[kinds]) kinds++;
    const struct record_kind *k = record_kinds[data[0] % kinds];
    const struct field *d = &k->fields[data[1] % k->n_fields];
    struct record *r = record_new(&a, k), *again = record_new(&a, k);
    struct fail f = {0};
    const char *text = arena_copy_n(&a, (const char *)data + 2, size - 2);
    if (!record_set(&a, r, d->name, text, "GBP", &f)) {
        assert(f.kind == FAIL_INPUT && f.text[0]);
        for (const char *c = f.text; *c; c++) assert((unsigned char)*c >= 0x20);
    } else if (record_get(r, d->name)->set) {
        struct fail f2 = {0};
        const struct value *v = record_get(r, d->name), *w;
        bool taken = record_set(&a, again, d->name, v->text, NULL, &f2);
        assert(taken);
        w = record_get(again, d->name);
        assert(w->set && text_is(w->text, v->text) && w->integer == v->integer &&
               w->money.minor == v->money.minor);
        assert(w->day == v->day && w->points.middle == v->points.middle);
    }
    arena_close(&a);
    return 0;
}
