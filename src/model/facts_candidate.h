/* facts_candidate.h - what is known of a vehicle as something to buy: its advert in the garage's
 * currency, and the walk-away signs that were looked for. */
#ifndef MODEL_FACTS_CANDIDATE_H
#define MODEL_FACTS_CANDIDATE_H

#include "model/facts.h"

struct fact_sign {
    int sign; /* of trade data, or -1 */
    bool met;
    day date; /* or DAY_NONE */
};

struct facts_candidate {
    const char *name;
    bool told;                                          /* there is an advert */
    double asked, carriage, room_a_month;               /* minor units, -1 unknown */
    double distance;                                    /* metres, -1 unknown */
    const char *distance_typed, *place, *seller, *says; /* NULL unknown */
    day date;
    int minutes;        /* 0 unknown */
    double odds;        /* 0 unknown */
    const char *serves; /* id of the vehicle that its parts are for, or NULL */
    const char *serves_name;
    bool remains_told;
    struct points remains; /* minor units */
    double months;         /* -1 unknown */
    struct fact_sign *signs;
    int n_signs; /* oldest first */
};

/* facts: of the same vehicle, for rates. FAIL_INPUT: a currency without a rate, a vehicle served
 * that there is not. */
bool facts_candidate_read(struct garage *g, struct arena *a, const struct trade *t,
                          const struct facts *facts, const char *currency,
                          struct facts_candidate *out, struct fail *f);

#endif
