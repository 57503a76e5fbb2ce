/* mileage.h - how far a vehicle may have run, given what its clock reads and dated papers.
 *
 * True miles are lognormal about years in use times miles a year, on a grid of cells. Against each
 * stand the stories that a clock can tell: it turned 0, 1, 2 ... times and is true beside that; it
 * was changed or set back at some time; it stood still for part of its life. Each story is a
 * density of the reading (and of the readings on dated papers) given the true miles, so that
 * stories and miles have one joint posterior. A true clock fixes the miles exactly; a changed one
 * hardly binds them.
 *
 * Between new and the end of use, what was run by a date is a share of the whole: beta, its mean
 * the share of the time, `steady` its sum of parameters. Any paper may be wrong (another vehicle's,
 * a slip of the pen); then it says nothing. */
#ifndef RECKON_MILEAGE_H
#define RECKON_MILEAGE_H

#include "base/arena.h"

enum mileage_story { STORY_TRUE, STORY_CHANGED, STORY_STOOD, STORY_NO_CLOCK, STORY_COUNT };

enum { MILEAGE_PAPERS_MOST = 40, MILEAGE_TURNS_MOST = 5 };
static const double MILEAGE_CELL = 2000, MILEAGE_MOST = 500000;

struct mileage_paper {
    double years;   /* from new */
    double reading; /* miles shown */
};

struct mileage_ask {
    double years;                 /* in use; > 0 */
    double a_year, a_year_spread; /* median miles a year, and standard deviation of its logarithm */
    bool clock;                   /* a reading is known */
    double reading, turn;         /* miles shown; miles after which it shows the same again */
    double changed, stood;        /* chances of those stories before anything is known */
    double steady;                /* see above; > 2 */
    double wrong;                 /* chance that a paper is wrong */
    const struct mileage_paper *papers;
    int n_papers; /* by date */
};

/* Hypotheses that have any weight, each at its miles. */
struct mileage_point {
    enum mileage_story story;
    int turns; /* of STORY_TRUE and STORY_STOOD */
    double miles;
};

struct mileage {
    struct mileage_point *points;
    double *chance; /* after reading and papers; sums to 1 */
    int n_points;
    bool impossible; /* no story gives this reading and these papers: chances as if there were none
                      */
};

void mileage_weigh(struct arena *a, const struct mileage_ask *ask, struct mileage *out);

/* Quantile of miles under weights over the points (for instance after clues). */
double mileage_quantile(const struct mileage *m, const double *weight, double p,
                        struct arena scratch);
/* Weight of all points of fewer miles, by point: it and that and its own weight are where the point
 * lies between 0 and 1, in order of miles. */
double *mileage_ranks(struct arena *a, const struct mileage *m, const double *weight);
/* Weight of all points of fewer miles, by point: it and that and its own weight are where the point
 * lies between 0 and 1, in order of miles. */
double *mileage_ranks(struct arena *a, const struct mileage *m, const double *weight);
/* All weight of a story and number of turns (turns -1: of any). */
double mileage_of_story(const struct mileage *m, const double *weight, enum mileage_story story,
                        int turns);

/* The first paper that reads less than the one before it, or -1. */
int mileage_falls(const struct mileage_paper *papers, int n);

#endif
