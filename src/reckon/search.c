#include "reckon/search.h"

#include "reckon/narrow.h"
#include "reckon/simplex.h"

#include <assert.h>
#include <math.h>

#define WHOLE 1e-6 /* as near to a whole number is one */
/* A dive keeps to bounds within this share of the way from the least bound to what is known. */
#define NEAR 0.25
enum { TURNS = 20 }; /* of a dive, before it goes on from the least bound */

struct gain { /* of the bound, per unit that a column is moved */
    double sum[2];
    int n[2];
};

/* A branch of the tree: what it adds to the one above. The first is the root, which adds nothing.
 */
struct branch {
    int above, column;
    int64_t value; /* lower side: at most this; upper side: at least */
    bool upper, open;
    double bound; /* of the node that was split */
    double moved; /* how far the column is moved from where the relaxation had it */
};

struct place {           /* of a branch on the way to the node in hand */
    int branch, changes; /* of the box before it was entered */
};

struct search {
    struct arena *arena;
    const struct program *p;
    struct narrow box;
    struct simplex *lp;
    double *reduced, *root_reduced, root_bound;
    int64_t *trial;
    struct gain *gain;
    struct branch *branches;
    int n_branches;
    size_t room_branches;
    int *heap, n_heap; /* open branches, least bound first */
    size_t room_heap;
    struct place *path;
    int depth; /* of the path; the root is not on it */
    size_t room_path;
    int *way;
    size_t room_way;
    int *aside, n_aside; /* branches left open by the present dive, the last is the nearest */
    size_t room_aside;
    int turns; /* of the present dive */
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
    const struct branch *b = &s->branches[s->path[s->depth - 1].branch];
    if (b->moved < WHOLE) return;
    s->gain[b->column].sum[b->upper] += fmax(0, bound - b->bound) / b->moved;
    s->gain[b->column].n[b->upper]++;
}

static bool before(const struct search *s, int a, int b)
{
    double x = s->branches[a].bound, y = s->branches[b].bound;
    return x != y ? x < y : a > b;
}

static void heap_put(struct search *s, int branch)
{
    s->heap = arena_grow(s->arena, s->heap, (size_t)s->n_heap, &s->room_heap, sizeof *s->heap);
    int at = s->n_heap++;
    for (; at > 0 && before(s, branch, s->heap[(at - 1) / 2]); at = (at - 1) / 2)
        s->heap[at] = s->heap[(at - 1) / 2];
    s->heap[at] = branch;
}

static void heap_drop(struct search *s)
{
    int last = s->heap[--s->n_heap], at = 0;
    while (2 * at + 1 < s->n_heap) {
        int next = 2 * at + 1;
        if (next + 1 < s->n_heap && before(s, s->heap[next + 1], s->heap[next])) next++;
        if (!before(s, s->heap[next], last)) break;
        s->heap[at] = s->heap[next];
        at = next;
    }
    s->heap[at] = last;
}

/* The open branch of the least bound, or -1. */
static int heap_first(struct search *s)
{
    while (s->n_heap > 0 && !s->branches[s->heap[0]].open) heap_drop(s);
    return s->n_heap > 0 ? s->heap[0] : -1;
}

static int add_branch(struct search *s, const struct branch *b)
{
    s->branches = arena_grow(s->arena, s->branches, (size_t)s->n_branches, &s->room_branches,
                             sizeof *s->branches);
    s->branches[s->n_branches] = *b;
    return s->n_branches++;
}

static void step_into(struct search *s, int branch)
{
    const struct branch *b = &s->branches[branch];
    s->path = arena_grow(s->arena, s->path, (size_t)s->depth, &s->room_path, sizeof *s->path);
    s->path[s->depth++] = (struct place){branch, s->box.changes};
    if (b->upper)
        narrow_low(&s->box, b->column, b->value);
    else
        narrow_high(&s->box, b->column, b->value);
}

/* From where the search is to another branch, by the nearest that is above both. */
static void go_to(struct search *s, int branch)
{
    int length = 0, same = 0, *way;
    for (int b = branch; b > 0; b = s->branches[b].above) {
        s->way = arena_grow(s->arena, s->way, (size_t)length++, &s->room_way, sizeof *s->way);
        s->way[length - 1] = b;
    }
    way = s->way + length - 1; /* the last is the nearest to the root */
    while (same < length && same < s->depth && s->path[same].branch == way[-same]) same++;
    if (same < s->depth) {
        narrow_undo(&s->box, s->path[same].changes);
        s->depth = same;
    }
    for (int at = same; at < length; at++) step_into(s, way[-at]);
}

/* The node in hand: true if it was split, and the search is in one of its branches. */
static bool node(struct search *s, struct part *part)
{
    double parent = s->depth ? s->branches[s->path[s->depth - 1].branch].bound : -INFINITY;
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
    struct branch b = {.above = s->depth ? s->path[s->depth - 1].branch : 0,
                       .column = column,
                       .value = down,
                       .bound = fmax(bound, parent),
                       .moved = fraction};
    int lower = add_branch(s, &b);
    b.upper = true, b.value = down + 1, b.moved = 1 - fraction;
    int upper = add_branch(s, &b);
    int first = fraction > 0.5 ? upper : lower, other = fraction > 0.5 ? lower : upper;
    s->branches[other].open = true;
    heap_put(s, other);
    s->aside = arena_grow(s->arena, s->aside, (size_t)s->n_aside, &s->room_aside, sizeof *s->aside);
    s->aside[s->n_aside++] = other;
    step_into(s, first);
    return true;
}

/* To an open branch: of this dive, the nearest, a few times; then that of the least bound. False:
 * there is none that is worth it. */
static bool turn(struct search *s, int64_t known)
{
    int best = heap_first(s), next = -1;
    if (best < 0 || s->branches[best].bound > cutoff(known)) return false;
    double least = s->branches[best].bound;
    double near = isinf(cutoff(known)) ? INFINITY : least + (cutoff(known) - least) * NEAR;
    while (s->n_aside > 0 && s->turns < TURNS && next < 0) {
        int branch = s->aside[--s->n_aside];
        if (s->branches[branch].open && s->branches[branch].bound <= near) next = branch;
    }
    s->turns++;
    if (next < 0) next = best, s->turns = 0, s->n_aside = 0;
    s->branches[next].open = false;
    go_to(s, next);
    return true;
}

/* Whether the root could fix so many columns now that it pays to begin anew. */
static bool worth_restart(const struct search *s, int64_t known, int open)
{
    double room = cutoff(known) - s->root_bound;
    int fixed = 0;
    for (int j = 0; j < s->p->columns; j++) fixed += fabs(s->root_reduced[j]) > room;
    return open >= 20 && fixed > open / 10;
}

enum outcome_of { EXHAUSTED, RESTART, WORK_ENDED };

static enum outcome_of run(struct search *s, struct part *part, double *bound)
{
    int64_t known = part->known;
    add_branch(s, &(struct branch){.above = -1});
    narrow_all(&s->box);
    while (true) {
        if (s->best->nodes >= s->ask->most_nodes) {
            int best = heap_first(s);
            *bound = s->depth ? s->branches[s->path[s->depth - 1].branch].bound : -INFINITY;
            if (best >= 0) *bound = fmin(*bound, s->branches[best].bound);
            return WORK_ENDED;
        }
        bool split = node(s, part);
        if (s->best->found && s->ask->first) return EXHAUSTED;
        if (part->known < known) {
            known = part->known;
            if (s->depth == 0 || s->root_bound > cutoff(known)) return EXHAUSTED;
            if (worth_restart(s, known, s->p->columns)) {
                narrow_undo(&s->box, s->path[0].changes);
                fix_by_cost(s, s->root_bound, s->root_reduced, known);
                return narrow_settle(&s->box) ? RESTART : EXHAUSTED;
            }
        }
        if (!split && !turn(s, part->known)) return EXHAUSTED;
    }
}

/* What the rows alone leave of the box: less to make a relaxation of. */
static bool narrowed(const struct program *p, int64_t *low, int64_t *high, struct arena scratch)
{
    struct narrow box = narrow_new(&scratch, p);
    narrow_all(&box);
    if (!narrow_settle(&box)) return false;
    for (int j = 0; j < p->columns; j++) low[j] = box.low[j], high[j] = box.high[j];
    return true;
}

struct search_end search_program(struct arena *a, const struct program *p,
                                 const struct search_ask *ask)
{
    struct search_end best = {.bound = -PROGRAM_NO_END};
    best.x = ARENA_ARRAY(a, int64_t, p->columns);
    struct arena scratch = *a;
    int64_t *low = ARENA_ARRAY(&scratch, int64_t, p->columns);
    int64_t *high = ARENA_ARRAY(&scratch, int64_t, p->columns);
    if (!narrowed(p, low, high, scratch)) {
        best.proven = true;
        return best;
    }
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
