/* choose_past.c - what is true of its past in each run, and what that does to what it fetches.
 *
 * Sales and what a builder tells are of usual ones, of which the same is doubted as of this one
 * before any clue. So over those doubts the mean of what a worth is multiplied by is 1, and what is
 * known moves it from there. */
#include "base/random.h"
#include "shop/choose_inside.h"

#include <math.h>
#include <string.h>

/* A price follows no more doublings than these, either way (practice). */
static const double DOUBLINGS_MOST = 2;

static double of_miles(const struct trade_direction *d, double doublings)
{
    return pow(1 + d->miles, fmax(-DOUBLINGS_MOST, fmin(DOUBLINGS_MOST, doublings)));
}

static double of_original(const struct trade_direction *d, const struct figures *g)
{
    return 1 - (1 - g->worth_if_not_original) * d->original;
}

/* Parts of [of], each run's as drawn. */
static void draw_parts(struct choosing *x)
{
    const int runs = x->ask->runs;
    const struct project *p = &x->r[0].model.project;
    for (int of = 0; of < CLUE_OF_COUNT; of++) x->part[of] = ARENA_ARRAY(x->a, int, runs);
    const uint64_t identity = text_hash("past/identity"), original = text_hash("past/original");
    const double itself = x->past.identity.weighed.posterior[0],
                 as_built = x->past.original.weighed.posterior[0];
    for (int i = 0; i < runs; i++) {
        const uint32_t run = (uint32_t)i;
        x->part[CLUE_OF_MILES][i] = x->part[CLUE_OF_CLOCK][i] = draw_miles(p, x->ask->seed, run);
        x->part[CLUE_OF_IDENTITY][i] =
            random_unit(random_words(x->ask->seed, identity, run, 0).word[0]) >= itself;
        x->part[CLUE_OF_ORIGINALITY][i] =
            random_unit(random_words(x->ask->seed, original, run, 0).word[0]) >= as_built;
    }
}

/* What a worth is multiplied by, before its mean is set to 1. */
struct follow {
    double miles[DOUBLINGS], another, not_original;
    double usual; /* its mean over what is usual */
    double known; /* its mean over what is known, by that */
};

static struct follow follow_of(const struct choosing *x, const struct trade_direction *d)
{
    const struct figures *g = &x->figures;
    const double spread = past_usual_spread(g);
    struct follow f = {.another = g->worth_if_another, .not_original = of_original(d, g)};
    double usual = 0, known = 0;
    for (int k = 0; k < DOUBLINGS; k++) {
        f.miles[k] = of_miles(d, x->r[0].model.project.doublings[k]);
        known += f.miles[k] / DOUBLINGS;
        usual += of_miles(d, spread * normal_quantile((k + 0.5) / DOUBLINGS)) / DOUBLINGS;
    }
    if (!x->past.known) usual = known; /* the usual, but for the grain of its grid */
    const double itself = x->past.identity.weighed.posterior[0],
                 as_built = x->past.original.weighed.posterior[0];
    f.usual = usual * (f.another + (1 - f.another) * g->identity_holds) *
              (f.not_original + (1 - f.not_original) * g->original_holds);
    f.known = known * (f.another + (1 - f.another) * itself) *
              (f.not_original + (1 - f.not_original) * as_built) / f.usual;
    return f;
}

bool choose_past(struct choosing *x, struct fail *f)
{
    if (!figures_read(x->ask->trade, &x->figures, f)) return false;
    past_weigh(x->a, x->ask->trade, x->facts, &x->figures, x->r[0].model.answers, &x->past);
    draw_parts(x);
    return true;
}

void choose_follow(const struct choosing *x, const struct trade_direction *d,
                   struct choose_worth *w, double *worth)
{
    const struct follow f = follow_of(x, d);
    for (int i = 0; worth && i < x->ask->runs; i++)
        worth[i] *= f.miles[x->part[CLUE_OF_MILES][i]] *
                    (x->part[CLUE_OF_IDENTITY][i] ? f.another : 1) *
                    (x->part[CLUE_OF_ORIGINALITY][i] ? f.not_original : 1) / f.usual;
    w->follows = fabs(f.known - 1) < 1e-9 ? 1 : f.known;
    w->band = points_scale(w->band, w->follows);
}
