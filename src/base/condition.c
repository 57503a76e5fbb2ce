#include "base/condition.h"

#include "base/text.h"

#include <assert.h>

static const char *const names[COND_ANSWERS] = {
    [COND_SOUND] = "sound",           [COND_WORN] = "worn",     [COND_POOR] = "poor",
    [COND_BODGED] = "bodged",         [COND_FAILED] = "failed", [COND_MISSING] = "missing",
    [COND_NOT_FITTED] = "not fitted", [COND_UNSEEN] = "unseen",
};

const char *condition_name(enum condition c)
{
    assert((unsigned)c < COND_ANSWERS);
    return names[c];
}

bool condition_parse(const char *s, enum condition *out)
{
    for (int c = 0; c < COND_ANSWERS; c++) {
        if (!text_same_word(s, names[c])) continue;
        *out = (enum condition)c;
        return true;
    }
    return false;
}
