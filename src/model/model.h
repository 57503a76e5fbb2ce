/* model.h - the one place where a vehicle becomes a problem to reckon: facts and trade data ->
 * struct project. */
#ifndef MODEL_MODEL_H
#define MODEL_MODEL_H

#include "model/calendar.h"
#include "model/facts.h"
#include "model/figures.h"
#include "reckon/belief.h"
#include "reckon/habit.h"
#include "reckon/pace.h"

/* What vehicles of a better rank have taken already: by session of the garage's calendar, and of
 * the purse. */
struct taken {
    int n_sessions;
    int32_t *until; /* by session: hands-on time is taken up to this moment; 0: none */
    uint8_t *bays;  /* by session: how many bays are taken */
    int n_orders;
    struct taken_order {
        int32_t when;
        double minor;
    } * orders; /* in order of time */
};

struct model_ask {
    day today;
    int direction;             /* index of trade data */
    const struct taken *taken; /* or NULL */
    const struct model *like;  /* of the same vehicle and findings, if it is at hand: its belief
                                  and odds are taken; NULL: reckoned anew */
    double more_a_month;       /* minor units more than the purse says */
};

/* What the log says of the builder. */
struct model_pace {
    struct pace_shares shares;
    struct pace_learned learned; /* kinds are the systems of the trade data */
    struct model_pace_kind {
        int jobs;
        double logged, estimated; /* minutes; of the middle figures */
    } * kinds;
    int left_out; /* finished jobs that say nothing of pace: a setback was met, or how much there
                     was is not known */
    struct habit habit;
};

/* A project, with the way back to the trade data that its numbers came from. */
struct model {
    struct project project;
    struct belief belief;       /* what the findings say of the unseen */
    double (*odds)[COND_COUNT]; /* by component, with that */
    const struct trade *trade;
    const struct facts *facts;
    int direction;
    day first; /* day 0 */
    char currency[4];
    struct calendar calendar;
    struct model_pace pace;
    int *component_kind, *component_place; /* by component of the project */
    int *trade_job;                        /* by job */
    int *trade_part;                       /* by part */
    bool *part_ordered;                    /* by part: it is on its way */
    int *trade_setback;                    /* by setback */
    int *session_of; /* by session: its number in the calendar, before any was taken */
    const char **notes;
    int n_notes; /* what was assumed, and what is not covered: for the top of the plan */
    size_t notes_capacity;
    int answers[ANSWER_COUNT]; /* as used: the usual one where it is not known */
};

/* Components and their odds alone, with the notes on coverage: for a survey, which needs no
 * calendar and no purse. */
bool model_survey(struct arena *a, const struct trade *t, const struct facts *facts,
                  struct model *out, struct fail *f);

bool model_make(struct arena *a, const struct trade *t, const struct facts *facts,
                const struct model_ask *ask, struct model *out, struct fail *f);
/* The same with another purse: ask is that of m but for more_a_month. What does not hang on money
 * is shared. */
bool model_with_purse(struct arena *a, const struct model *m, const struct model_ask *ask,
                      struct model *out, struct fail *f);

#endif
