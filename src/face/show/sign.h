/* sign.h - walk-away signs as they are told, for every face. */
#ifndef SHOW_SIGN_H
#define SHOW_SIGN_H

#include "garage/garage.h"

struct sign_told {
    const char *sign; /* its id */
    bool met;
};

/* Stores all of them in one act; none: no act. */
bool sign_tell_all(struct arena *a, struct garage *g, const char *vehicle, day today,
                   const struct sign_told *told, int count, struct fail *f);

#endif
