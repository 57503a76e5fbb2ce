#include "shop/identify.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double BIN = 25000;
/* A clue's cluster that every hypothesis gives less than this, as the mean a clue, fits nothing
 * (practice). */
static const double FITS_NOTHING = 0.05;

static void share_out(struct identify *out, struct arena scratch)
{
    const struct mileage *m = &out->past.mileage;
    const double *weight = out->past.miles.weighed.posterior;
    double mean = 0;
    out->bin_width = BIN;
    for (int i = 0; i < m->n_points; i++) {
        int bin = (int)(m->points[i].miles / BIN);
        out->bin[bin < IDENTIFY_BINS ? bin : IDENTIFY_BINS - 1] += weight[i];
        mean += weight[i] * m->points[i].miles;
    }
    out->miles = (struct quantiles){.p10 = mileage_quantile(m, weight, 0.1, scratch),
                                    .p50 = mileage_quantile(m, weight, 0.5, scratch),
                                    .p80 = mileage_quantile(m, weight, 0.8, scratch),
                                    .p90 = mileage_quantile(m, weight, 0.9, scratch),
                                    .mean = mean};
}

/* ---- stories ---- */

static int by_share(const void *a, const void *b)
{
    const struct identify_story *x = a, *y = b;
    if (x->share != y->share) return x->share > y->share ? -1 : 1;
    return (int)x->story != (int)y->story ? (int)x->story - (int)y->story : x->turns - y->turns;
}

/* Turns are told apart only where the clock is true: a clock that stood is one story. */
static bool in_story(const struct mileage_point *p, enum mileage_story story, int turns)
{
    return p->story == story && (story != STORY_TRUE || p->turns == turns);
}

static void add_story(struct identify *out, struct arena scratch, enum mileage_story story,
                      int turns)
{
    const struct mileage *m = &out->past.mileage;
    const double *weight = out->past.miles.weighed.posterior;
    double *of = ARENA_ARRAY(&scratch, double, m->n_points);
    double share = 0;
    for (int i = 0; i < m->n_points; i++)
        if (in_story(&m->points[i], story, turns)) share += of[i] = weight[i];
    if (share < 1e-4 || out->n_stories == IDENTIFY_STORIES) return;
    for (int i = 0; i < m->n_points; i++) of[i] /= share;
    out->stories[out->n_stories++] =
        (struct identify_story){story, turns, share, mileage_quantile(m, of, 0.5, scratch)};
}

static void tell_stories(struct identify *out, struct arena scratch)
{
    for (int k = 0; k <= MILEAGE_TURNS_MOST; k++) add_story(out, scratch, STORY_TRUE, k);
    add_story(out, scratch, STORY_CHANGED, 0);
    add_story(out, scratch, STORY_STOOD, 0);
    add_story(out, scratch, STORY_NO_CLOCK, 0);
    qsort(out->stories, (size_t)out->n_stories, sizeof *out->stories, by_share);
}

static void headline(struct identify *out)
{
    struct identify_claim *c = &out->claim;
    *c = (struct identify_claim){.of = CLUE_OF_MILES, .told = out->past.known};
    if (out->n_stories == 0) return;
    c->story = out->stories[0].story;
    c->turns = out->stories[0].turns;
    c->share = out->stories[0].share;
}

/* That it ran less than the median that clock and papers leave; and that the clock was never out.
 * Each clue of the problem is held against one of them. */
static void claims_of_miles(struct arena *a, struct identify *out, const bool *claims[])
{
    const struct mileage *m = &out->past.mileage;
    const double *weight = out->past.miles.weighed.posterior;
    const double least = 10000, median = mileage_quantile(m, m->chance, 0.5, *a);
    bool *less = ARENA_ARRAY(a, bool, m->n_points), *untouched = ARENA_ARRAY(a, bool, m->n_points);
    out->less = (struct identify_claim){.of = CLUE_OF_MILES,
                                        .miles = fmax(least, floor(median / least) * least),
                                        .told = out->past.known};
    out->untouched = (struct identify_claim){.of = CLUE_OF_CLOCK, .told = out->past.known};
    for (int i = 0; i < m->n_points; i++) {
        less[i] = m->points[i].miles < out->less.miles;
        untouched[i] = m->points[i].story != STORY_CHANGED;
        if (less[i]) out->less.share += weight[i];
        if (untouched[i]) out->untouched.share += weight[i];
    }
    claims[CLUE_OF_MILES] = less;
    claims[CLUE_OF_CLOCK] = untouched;
}

/* ---- clues ---- */

static int by_push(const void *a, const void *b)
{
    const struct identify_clue *x = a, *y = b;
    double p = fabs(x->decibans), q = fabs(y->decibans);
    if (p != q) return p > q ? -1 : 1;
    return strcmp(x->clue->head.id, y->clue->head.id);
}

static bool is_of_miles(enum clue_of of)
{
    return of == CLUE_OF_MILES || of == CLUE_OF_CLOCK;
}

static int by_promise(const void *a, const void *b)
{
    const struct identify_next *x = a, *y = b;
    if (x->place != y->place) return x->place - y->place;
    if (is_of_miles(x->of) != is_of_miles(y->of)) return is_of_miles(x->of) ? -1 : 1;
    if (x->per_minute != y->per_minute) return x->per_minute > y->per_minute ? -1 : 1;
    return strcmp(x->clue->head.id, y->clue->head.id);
}

/* The same reckoning as that of choose: what a clue could save, then what it moves the bill by. */
static void place_next(struct identify *out)
{
    const struct choose *c = out->choose;
    for (int i = 0; i < out->n_next; i++) {
        struct identify_next *n = &out->next[i];
        n->place = c ? c->n_looks : 0;
        for (int k = 0; c && k < c->n_looks; k++) {
            if (c->looks[k].clue != n->clue) continue;
            n->look = &c->looks[k];
            if (n->look->worth.tells || n->look->swing > 0) n->place = k;
        }
    }
    qsort(out->next, (size_t)out->n_next, sizeof *out->next, by_promise);
}

static const struct choose *try_choose(struct arena *a, const struct shop_ask *ask)
{
    struct choose *c = ARENA_NEW(a, struct choose);
    struct fail why = {0};
    return choose_reckon(a, ask, c, &why) ? c : NULL;
}

static void tell_clues(struct arena *a, const struct evidence *e, const bool *const claims[],
                       struct identify *out)
{
    const struct trade *t = out->trade;
    for (int i = 0; i < e->problem.n_clues; i++) {
        const struct trade_clue *c = &t->clues[e->clue_of[i]];
        enum clue_of of = t->clusters[c->cluster].of;
        if (e->fact_of[i] >= 0) {
            out->clues[out->n_clues++] = (struct identify_clue){
                c, &c->outcomes[e->problem.clues[i].seen], &out->facts->past.clues[e->fact_of[i]],
                of, clue_push(&e->weighed, *a, i, claims[of])};
            continue;
        }
        double *chance = ARENA_ARRAY(a, double, c->n_outcomes);
        double *after = ARENA_ARRAY(a, double, c->n_outcomes);
        double bits = clue_promise(&e->weighed, *a, i, claims[of], chance, after);
        out->next[out->n_next++] = (struct identify_next){.clue = c,
                                                          .of = of,
                                                          .bits = bits,
                                                          .per_minute = bits / c->minutes,
                                                          .chance = chance,
                                                          .claim_after = after};
    }
}

static void add_conflict(struct identify *out, struct identify_conflict conflict)
{
    if (out->n_conflicts < IDENTIFY_CONFLICTS) out->conflicts[out->n_conflicts++] = conflict;
}

static void find_conflicts(const struct evidence *e, struct arena scratch, struct identify *out)
{
    const struct trade *t = out->trade;
    for (int i = 0; i < e->problem.n_clues; i++) {
        double against = clue_surprise(&e->weighed, scratch, i);
        if (against > CLUE_APART)
            add_conflict(out, (struct identify_conflict){.one = &t->clues[e->clue_of[i]],
                                                         .decibans = against});
    }
    for (int i = 0; i < e->problem.n_clues; i++)
        for (int k = 0; k < i; k++) {
            double apart = clue_conflict(&e->problem, i, k);
            if (apart > CLUE_APART)
                add_conflict(out, (struct identify_conflict){.one = &t->clues[e->clue_of[k]],
                                                             .other = &t->clues[e->clue_of[i]],
                                                             .decibans = apart});
        }
    for (int k = 0; k < e->problem.n_clusters; k++)
        if (clue_best_chance(&e->weighed, k) < FITS_NOTHING)
            add_conflict(out,
                         (struct identify_conflict){.cluster = &t->clusters[e->cluster_of[k]]});
}

static struct identify_claim claim_of(enum clue_of of, const struct evidence *e)
{
    return (struct identify_claim){.of = of, .share = e->weighed.posterior[0], .told = e->told > 0};
}

bool identify_reckon(struct arena *a, const struct shop_ask *ask, struct identify *out,
                     struct fail *f)
{
    static const bool holds[] = {true, false};
    struct facts *facts = ARENA_NEW(a, struct facts);
    struct figures figures;
    int answers[ANSWER_COUNT];
    *out = (struct identify){.trade = ask->trade, .facts = facts, .falls = -1};
    if (!facts_read(ask->garage, a, ask->trade, ask->vehicle, facts, f) ||
        !figures_read(ask->trade, &figures, f))
        return false;
    for (int i = 0; i < ANSWER_COUNT; i++)
        answers[i] = facts->answers[i] >= 0 ? facts->answers[i] : 0;
    struct past *past = &out->past;
    past_weigh(a, ask->trade, facts, &figures, answers, past);
    out->vehicle = facts->name;
    share_out(out, *a);
    tell_stories(out, *a);
    const bool *claims[CLUE_OF_COUNT] = {[CLUE_OF_IDENTITY] = holds, [CLUE_OF_ORIGINALITY] = holds};
    headline(out);
    claims_of_miles(a, out, claims);
    out->identity = claim_of(CLUE_OF_IDENTITY, &past->identity);
    out->original = claim_of(CLUE_OF_ORIGINALITY, &past->original);
    out->clues = ARENA_ARRAY(a, struct identify_clue, ask->trade->n_clues);
    out->next = ARENA_ARRAY(a, struct identify_next, ask->trade->n_clues);
    tell_clues(a, &past->miles, claims, out);
    tell_clues(a, &past->identity, claims, out);
    tell_clues(a, &past->original, claims, out);
    qsort(out->clues, (size_t)out->n_clues, sizeof *out->clues, by_push);
    out->choose = try_choose(a, ask);
    place_next(out);
    find_conflicts(&past->miles, *a, out);
    find_conflicts(&past->identity, *a, out);
    find_conflicts(&past->original, *a, out);
    out->falls = mileage_falls(past->ask.papers, past->ask.n_papers);
    return true;
}
