#include "face/show/fit_ask.h"

#include <string.h>

static bool option_named(const struct trade *t, const char *field, const char *word, int *out,
                         struct fail *f)
{
    *out = -1;
    if (!word || !*word) return true;
    *out = trade_find(t, SUBJECT_OPTIONS, word);
    if (*out >= 0) return true;
    const char *near = trade_nearest(t, SUBJECT_OPTIONS, word);
    return fail_set(f, FAIL_INPUT, "%s: there is no option '%.60s'; %s%s%s", field, word,
                    near ? "did you mean '" : "see fettle trade list options", near ? near : "",
                    near ? "'?" : "");
}

bool fit_wish_read(const struct trade *t, const struct fit_typed *typed, struct fit_wish *out,
                   struct fail *f)
{
    struct money sum;
    struct fail ignored = {0};
    *out = fit_no_wish();
    out->reversible = typed->reversible && text_is(typed->reversible, "yes");
    if (typed->reversible && *typed->reversible && !out->reversible)
        return fail_set(f, FAIL_INPUT, "reversible: '%.60s' is no answer; say yes, or leave it out",
                        typed->reversible);
    if (!option_named(t, "with", typed->with, &out->wanted, f) ||
        !option_named(t, "prefer", typed->prefer, &out->prefer, f))
        return false;
    if (!typed->budget || !*typed->budget) return true;
    if (!money_parse(typed->budget, NULL, &sum, &ignored))
        return fail_set(f, FAIL_INPUT, "budget: '%.60s' is not a sum; write it as 900 GBP",
                        typed->budget);
    if (sum.minor < 0)
        return fail_set(f, FAIL_INPUT, "budget: is less than nothing; give 0 or more");
    out->budget = (double)sum.minor;
    memcpy(out->currency, sum.currency, sizeof out->currency);
    return true;
}
