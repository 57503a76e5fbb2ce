/* evidence.h - what clock, papers and clues say of a vehicle: the one place where they become a
 * problem to weigh. */
#ifndef MODEL_EVIDENCE_H
#define MODEL_EVIDENCE_H

#include "model/facts.h"
#include "model/figures.h"
#include "reckon/clue.h"
#include "reckon/mileage.h"
#include "reckon/project.h"

/* Clues that bear on one thing, weighed: of a problem's clues, [i] is trade data's clue_of[i], told
 * as fact_of[i] or -1. */
struct evidence {
    struct clue_problem problem;
    struct clue_weighed weighed;
    int *clue_of, *fact_of;
    int *cluster_of; /* of the problem's clusters: trade data's */
    int told;        /* how many clues of it were told */
};

struct past {
    struct mileage_ask ask;
    struct mileage mileage;
    struct evidence miles;    /* miles and clock, over mileage.points */
    struct evidence identity; /* two hypotheses each: it holds, it does not */
    struct evidence original;
    bool known;        /* clock, papers or a clue tell of the miles */
    double usual;      /* miles: the median before anything is known */
    int digits;        /* of the clock, as taken */
    bool years_known;  /* year and years standing were told */
    double miles_unit; /* miles in one unit of the clock */
    int papers_left;   /* how many papers were too many to weigh */
};

/* facts: of a vehicle, read. answers: about it, settled. */
void past_weigh(struct arena *a, const struct trade *t, const struct facts *facts,
                const struct figures *figures, const int answers[ANSWER_COUNT], struct past *out);

/* How far it ran against the usual, as doublings, at so many equally likely values; and how far
 * these spread (standard deviation; their mean is 0) before anything is known of a vehicle. */
enum { DOUBLINGS = PROJECT_DOUBLINGS };
void past_doublings(const struct past *p, struct arena scratch, double out[DOUBLINGS]);
double past_usual_spread(const struct figures *figures);

/* What a run takes for true of one of these: which of DOUBLINGS parts of the miles, or 0 that it is
 * so, 1 that it is not. */
int past_parts(enum clue_of of);
/* P(outcome | part) of a clue of e that was not told: [part * outcomes + outcome]. */
const double *past_signs(struct arena *a, const struct past *p, const struct evidence *e, int clue);

#endif
