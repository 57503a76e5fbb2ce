/* facts_identity.h - what was read on the vehicle, and what of it was told to be its own. */
#ifndef MODEL_FACTS_IDENTITY_H
#define MODEL_FACTS_IDENTITY_H

#include "model/facts.h"

struct fact_mark {
    enum mark_of what;
    const char *where;                             /* "plate"; NULL: not told */
    const char *component;                         /* as typed, or NULL */
    int kind, place;                               /* as of a finding */
    const char *text, *again, *book, *how, *photo; /* NULL: not told, but for text */
    day date;
};

struct fact_original {
    const char *component; /* as typed */
    int kind, place;
    enum originality class_;
    const char *evidence, *how;
    day date;
};

struct facts_identity {
    const char *maker; /* NULL: not told */
    struct fact_mark *marks;
    int n_marks;
    struct fact_original *originals; /* the latest of each component and place, oldest first */
    int n_originals;
};

bool facts_read_identity(struct garage *g, struct arena *a, const struct trade *t,
                         const char *vehicle, struct facts_identity *out, struct fail *f);

#endif
