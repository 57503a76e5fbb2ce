/* survey.h - what is here, and in what state: findings by place, and the odds of what nobody has
 * seen. */
#ifndef SHOP_SURVEY_H
#define SHOP_SURVEY_H

#include "shop/reckoning.h"

struct survey_line {
    const char *id; /* component at its place */
    const struct trade_component *kind;
    const struct trade_place *place;
    const struct trade_place *lap; /* the stop of the lap that the place belongs to */
    bool seen;                     /* a finding says so; otherwise `condition` is the likeliest */
    bool inferred;                 /* nobody looked: an answer about the vehicle tells it */
    enum condition condition;
    double odds[COND_COUNT];
    day date; /* of the finding, or DAY_NONE */
};

struct survey {
    const char *vehicle;
    struct survey_line *lines;
    int n_lines; /* in the order of the lap */
    int seen, not_fitted;
    const char **loose;
    int n_loose; /* findings on what the trade data does not know */
    const char **notes;
    int n_notes;
};

bool survey_reckon(struct arena *a, const struct shop_ask *ask, struct survey *out, struct fail *f);

#endif
