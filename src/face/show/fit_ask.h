/* fit_ask.h - what is wished of a set of parts, as typed: read alike by every face. */
#ifndef SHOW_FIT_ASK_H
#define SHOW_FIT_ASK_H

#include "shop/fit.h"

struct fit_typed {
    const char *with, *prefer; /* ids of options */
    const char *budget;        /* a sum with its currency */
    const char *reversible;    /* "yes" */
};

/* NULL or "": not said. The line of a fault begins with the field's name. */
bool fit_wish_read(const struct trade *t, const struct fit_typed *typed, struct fit_wish *out,
                   struct fail *f);

#endif
