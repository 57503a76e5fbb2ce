#include "reckon/search.h"

#include "reckon/narrow.h"
#include "reckon/simplex.h"

#include <assert.h>
#include <math.h>

#define WHOLE 1e-6 /* as near to a whole number is one */

struct gain { /* of the bound, per unit that a column is moved */
    double sum[2];
    int n[2];
};

struct frame {
    int column, changes;
    int64_t down; /* the lower branch: at most this; the upper: more */
    bool up_first, second;
    double bound; /* of the node that was split */
    double part;  /* its fraction above `down` */
};

struct search {
    struct arena *arena;
    const struct program *p;
    struct narrow box;
    struct simplex *lp;
    double *reduced, *root_reduced, root_bound;
    int64_t *trial;
    struct gain *gain;
    struct frame *frames;
    int depth;
    size_t room;
    const struct search_ask *ask;
    struct search_end *best; /* in columns of the whole program */
};

/* Costs are whole: a node is of use only if it can be one less than what is known. */
static double cutoff(int64_t known)
{
    if (known >= PROGRAM_NO_END) return INFINITY;
    return (double)known - 1 + 1e-4 + 1e-10 * fabs((double)known);
}

struct part { /* a program that is left after fixing, and its place in the whole one */
    struct program p;
    int *from;
    const int64_t *fixed; /* of the whole one: right where it is fixed */
    int columns;          /* of the whole one */
    int64_t base;
    int64_t known; /* best cost so far, less the base */
};

static void better(struct search *s, struct part *part, const int64_t *x)
{
    int64_t cost;
    if (!program_holds(&part->p, x, &cost) || cost >= part->known) return;
    part->known = cost;
    s->best->found = true;
    s->best->cost = cost + part->base;
    for (int j = 0; j < part->columns; j++) s->best->x[j] = part->fixed[j];
    for (int j = 0; j < part->p.columns; j++) s->best->x[part->from[j]] = x[j];
}

/* What leaves its cheap end by too much costs more than what is known. */
static void fix_by_cost(struct search *s, double bound, const double *reduced, int64_t known)
{
    double room = cutoff(known) - bound;
    if (isinf(room)) return;
    for (int j = 0; j < s->p->columns; j++) {
        int64_t low = s->box.low[j], high = s->box.high[j];
        double d = fabs(reduced[j]);
        if (low == high || d * (double)(high - low) <= room) continue;
        int64_t steps = (int64_t)floor(room / d + 1e-9);
        if (reduced[j] > 0)
            narrow_high(&s->box, j, low + steps);
        else
            narrow_low(&s->box, j, high - steps);
    }
}

static double guess(const struct gain *g, int side, double usual)
{
    return g->n[side] ? g->sum[side] / g->n[side] : usual;
}

/* The column to split on; -1: the relaxation is whole. */
static int choose(const struct search *s, const double *x)
{
    int chosen = -1;
    double best = -1, usual[2] = {0, 0};
    int n[2] = {0, 0}, rank = 256;
    for (int j = 0; j < s->p->columns; j++)
        for (int side = 0; side < 2; side++)
            if (s->gain[j].n[side])
                usual[side] += s->gain[j].sum[side] / s->gain[j].n[side], n[side]++;
    for (int side = 0; side < 2; side++) usual[side] = n[side] ? usual[side] / n[side] : 1;
    for (int j = 0; j < s->p->columns; j++) {
        double part = x[j] - floor(x[j]);
        if (s->box.low[j] == s->box.high[j] || part < WHOLE || part > 1 - WHOLE) continue;
        if (s->p->rank[j] > rank) continue;
        if (s->p->rank[j] < rank) rank = s->p->rank[j], best = -1;
        double down = fmax(guess(&s->gain[j], 0, usual[0]) * part, 1e-6);
        double up = fmax(guess(&s->gain[j], 1, usual[1]) * (1 - part), 1e-6);
        if (down * up > best) best = down * up, chosen = j;
    }
    return chosen;
}

/* A column that is not fixed yet. */
static int any_open(const struct search *s)
{
    int chosen = -1;
    for (int j = 0; j < s->p->columns; j++)
        if (s->box.low[j] < s->box.high[j] && (chosen < 0 || s->p->rank[j] < s->p->rank[chosen]))
            chosen = j;
    return chosen;
}

static void learn(struct search *s, double bound)
{
    if (s->depth == 0 || isinf(bound)) return;
    const struct frame *f = &s->frames[s->depth - 1];
    int side = f->second != f->up_first; /* 1: the upper one */
    double moved = side ? 1 - f->part : f->part, rise = fmax(0, bound - f->bound);
    if (moved < WHOLE) return;
    s->gain[f->column].sum[side] += rise / moved;
    s->gain[f->column].n[side]++;
}

static void enter(struct search *s)
{
    const struct frame *f = &s->frames[s->depth - 1];
    if (f->second != f->up_first)
        narrow_low(&s->box, f->column, f->down + 1);
    else
        narrow_high(&s->box, f->column, f->down);
}

/* The node in hand: true if it was split (a frame is on top), false if it is done with. */
static bool node(struct search *s, struct part *part)
{
    double parent = s->depth ? s->frames[s->depth - 1].bound : -INFINITY;
    s->best->nodes++;
    if (!narrow_settle(&s->box)) return false;
    enum simplex_end end =
        simplex_solve(s->lp, s->box.low, s->box.high, cutoff(part->known), 20000 + 20 * s->p->rows);
    if (end == SIMPLEX_BARREN && simplex_barren(s->lp, s->box.low, s->box.high)) return false;
    double bound = simplex_bound(s->lp, s->box.low, s->box.high, s->reduced);
    learn(s, bound);
    if (bound > cutoff(part->known)) return false;
    const double *x = simplex_x(s->lp);
    bool sound = end == SIMPLEX_BEST;
    int column = sound ? choose(s, x) : -1;
    if (sound && column < 0) {
        for (int j = 0; j < s->p->columns; j++) s->trial[j] = (int64_t)llround(x[j]);
        better(s, part, s->trial);
        if (bound > cutoff(part->known)) return false;
    }
    if (s->depth == 0) {
        s->root_bound = bound;
        for (int j = 0; j < s->p->columns; j++) s->root_reduced[j] = s->reduced[j];
    }
    fix_by_cost(s, bound, s->reduced, part->known);
    if (!narrow_settle(&s->box)) return false;
    if (column < 0 || s->box.low[column] == s->box.high[column]) {
        column = any_open(s);
        if (column < 0) {
            better(s, part, s->box.low);
            return false;
        }
    }
    int64_t low = s->box.low[column], high = s->box.high[column];
    double at = sound ? fmin(fmax(x[column], (double)low), (double)high) : (double)low;
    int64_t down = (int64_t)floor(at + WHOLE);
    if (down >= high) down = high - 1;
    double fraction = fmin(fmax(at - (double)down, 0), 1);
    s->frames = arena_grow(s->arena, s->frames, (size_t)s->depth, &s->room, sizeof *s->frames);
    s->frames[s->depth++] = (struct frame){.column = column,
                                           .changes = s->box.changes,
                                           .down = down,
                                           .up_first = fraction > 0.5,
                                           .bound = fmax(bound, parent),
                                           .part = fraction};
    return true;
}

/* To the next branch that is not done; false: there is none. */
static bool backtrack(struct search *s, int64_t known)
{
    while (s->depth > 0) {
        struct frame *f = &s->frames[s->depth - 1];
        narrow_undo(&s->box, f->changes);
        if (!f->second && f->bound <= cutoff(known)) {
            f->second = true;
            return true;
        }
        s->depth--;
    }
    return false;
}

/* Whether the root could fix so many columns now that it pays to begin anew. */
static bool worth_restart(const struct search *s, int64_t known, int open)
{
    double room = cutoff(known) - s->root_bound;
    int fixed = 0;
    for (int j = 0; j < s->p->columns; j++) fixed += fabs(s->root_reduced[j]) > room;
    return open >= 20 && fixed > open / 5;
}

enum outcome_of { EXHAUSTED, RESTART, WORK_ENDED };

static double open_bound(const struct search *s)
{
    double least = INFINITY;
    for (int d = 0; d < s->depth; d++)
        if (!s->frames[d].second || d == s->depth - 1) least = fmin(least, s->frames[d].bound);
    return least;
}

static enum outcome_of run(struct search *s, struct part *part, double *bound)
{
    int64_t known = part->known;
    narrow_all(&s->box);
    while (true) {
        if (s->best->nodes >= s->ask->most_nodes) {
            *bound = open_bound(s);
            return WORK_ENDED;
        }
        bool split = node(s, part);
        if (s->best->found && s->ask->first) return EXHAUSTED;
        if (part->known < known && s->depth > 0) {
            known = part->known;
            if (s->root_bound > cutoff(known)) return EXHAUSTED;
            if (worth_restart(s, known, s->p->columns)) {
                narrow_undo(&s->box, s->frames[0].changes);
                fix_by_cost(s, s->root_bound, s->root_reduced, known);
                return narrow_settle(&s->box) ? RESTART : EXHAUSTED;
            }
        }
        if (!split && !backtrack(s, part->known)) return EXHAUSTED;
        enter(s);
    }
}

struct search_end search_program(struct arena *a, const struct program *p,
                                 const struct search_ask *ask)
{
    struct search_end best = {.bound = -PROGRAM_NO_END};
    best.x = ARENA_ARRAY(a, int64_t, p->columns);
    struct arena scratch = *a;
    int64_t *low = ARENA_ARRAY(&scratch, int64_t, p->columns);
    int64_t *high = ARENA_ARRAY(&scratch, int64_t, p->columns);
    for (int j = 0; j < p->columns; j++) low[j] = p->low[j], high[j] = p->high[j];
    while (true) {
        struct arena own = scratch;
        struct part part = {
            .from = ARENA_ARRAY(&own, int, p->columns), .fixed = low, .columns = p->columns};
        part.p = program_shrink(&own, p, low, high, part.from, &part.base);
        part.known = best.found ? best.cost - part.base : PROGRAM_NO_END;
        int n = part.p.columns;
        struct search s = {.arena = &own,
                           .p = &part.p,
                           .ask = ask,
                           .best = &best,
                           .root_bound = -INFINITY,
                           .box = narrow_new(&own, &part.p),
                           .reduced = ARENA_ARRAY(&own, double, n),
                           .root_reduced = ARENA_ARRAY(&own, double, n),
                           .trial = ARENA_ARRAY(&own, int64_t, n),
                           .gain = ARENA_ARRAY(&own, struct gain, n),
                           .lp = simplex_new(&own, &part.p)};
        double bound = -INFINITY;
        enum outcome_of outcome = run(&s, &part, &bound);
        best.steps += simplex_steps(s.lp);
        bound = fmax(bound, s.root_bound) + (double)part.base;
        if (isfinite(bound) && bound > (double)best.bound) best.bound = (int64_t)ceil(bound - 1e-4);
        best.proven = outcome == EXHAUSTED;
        if (best.found && (best.bound > best.cost || (best.proven && !ask->first)))
            best.bound = best.cost;
        if (outcome != RESTART) return best;
        for (int k = 0; k < n; k++) {
            low[part.from[k]] = s.box.low[k];
            high[part.from[k]] = s.box.high[k];
        }
    }
}
