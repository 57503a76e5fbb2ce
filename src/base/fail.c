#include "base/fail.h"

#include "base/text.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* Bytes of the UTF-8 sequence at s if it may stand in a line, else 0. */
static size_t fit_for_line(const char *s)
{
    const unsigned char c = (unsigned char)s[0];
    const size_t n = c < 0x80 ? 1 : c < 0xe0 ? 2 : c < 0xf0 ? 3 : 4;
    if (c < 0x20 || c == 0x7f) return 0;
    /* C1 controls steer terminals too. */
    if (c == 0xc2 && (unsigned char)s[1] < 0xa0) return 0;
    return strnlen(s, n) == n && text_is_utf8(s, n) ? n : 0;
}

bool fail_set(struct fail *f, enum fail_kind kind, const char *format, ...)
{
    if (f->kind != FAIL_NONE) return false;
    f->kind = kind;
    va_list args;
    va_start(args, format);
    const int wanted = vsnprintf(f->text, sizeof f->text, format, args);
    va_end(args);
    if (wanted >= (int)sizeof f->text) {
        size_t cut = sizeof f->text - 4;
        while (cut > 0 && ((unsigned char)f->text[cut] & 0xc0) == 0x80) cut--;
        memcpy(f->text + cut, "...", 4);
    }
    for (char *s = f->text; *s;) {
        const size_t n = fit_for_line(s);
        if (n == 0) *s = '?';
        s += n ? n : 1;
    }
    return false;
}
