#include "shop/lap.h"

#include "model/model.h"

#include <limits.h>
#include <stdlib.h>

struct walk {
    struct arena *a;
    const struct trade *t;
    const struct facts *facts;
    const char *const *looks;
    int n_looks;
    struct lap *out;
};

static int root_of(const struct trade *t, int place)
{
    while (t->places[place].parent >= 0) place = t->places[place].parent;
    return place;
}

static bool is_member(const struct trade_place *group, int place)
{
    for (int i = 0; i < group->n_members; i++)
        if (group->members[i] == place) return true;
    return false;
}

/* The widest group of topmost places that a topmost place is in, else that place itself. */
static int stop_of(const struct trade *t, int place)
{
    const int root = root_of(t, place);
    int widest = root;
    for (int i = 0; i < t->n_places; i++) {
        const struct trade_place *group = &t->places[i];
        bool topmost = is_member(group, root);
        for (int m = 0; topmost && m < group->n_members; m++)
            topmost = t->places[group->members[m]].parent < 0;
        if (topmost && group->n_members > t->places[widest].n_members) widest = i;
    }
    return widest;
}

/* The group that has exactly the places of a row; its one place; else the whole stop. */
static const struct trade_place *part_of(const struct trade *t, const struct lap_row *row,
                                         const struct trade_place *stop)
{
    if (row->n_cells == 1) return row->cells[0].place;
    for (int i = 0; i < t->n_places; i++) {
        const struct trade_place *group = &t->places[i];
        int same = 0;
        for (int c = 0; c < row->n_cells; c++)
            same += is_member(group, (int)(row->cells[c].place - t->places));
        if (same == row->n_cells && group->n_members == same) return group;
    }
    return stop;
}

static struct lap_cell cell_of(const struct walk *w, int kind, int place)
{
    const struct trade_component *c = &w->t->components[kind];
    const struct trade_place *at = &w->t->places[place];
    const struct fact_finding *finding = facts_finding(w->facts, kind, place);
    return (struct lap_cell){
        .id = c->n_places > 1 ? arena_print(w->a, "%s@%s", c->head.id, at->head.id) : c->head.id,
        .place = at,
        .now = finding ? finding->condition : COND_UNSEEN,
        .date = finding ? finding->date : DAY_NONE};
}

static int worth_of(const struct walk *w, const char *id)
{
    for (int i = 0; i < w->n_looks; i++)
        if (text_is(w->looks[i], id)) return i;
    return INT_MAX;
}

/* The part of a stop that a row belongs to, made if it is the first there. */
static struct lap_part *part_for(struct walk *w, struct lap_stop *stop,
                                 const struct trade_place *place)
{
    for (int i = 0; i < stop->n_parts; i++)
        if (stop->parts[i].place == place) return &stop->parts[i];
    struct lap_part *made = &stop->parts[stop->n_parts++];
    *made = (struct lap_part){place, ARENA_ARRAY(w->a, struct lap_row, w->t->n_components), 0, 0};
    return made;
}

static void add_row(struct walk *w, struct lap_stop *stop, struct lap_row row)
{
    struct lap_part *part = part_for(w, stop, part_of(w->t, &row, stop->place));
    row.first = INT_MAX;
    for (int i = 0; i < row.n_cells; i++) {
        const struct lap_cell *cell = &row.cells[i];
        bool seen = cell->now != COND_UNSEEN;
        int worth = worth_of(w, cell->id);
        row.unseen += !seen;
        stop->bad += cell->now >= COND_POOR && cell->now < COND_COUNT;
        if (!seen && worth < row.first) row.first = worth;
    }
    part->unseen += row.unseen;
    stop->total += row.n_cells;
    stop->seen += row.n_cells - row.unseen;
    part->rows[part->n_rows++] = row;
}

/* What stands at a stop: each kind with those of its places that belong to it. */
static void fill_stop(struct walk *w, const int answers[ANSWER_COUNT], int place)
{
    struct lap_stop *stop = &w->out->stops[w->out->n_stops];
    *stop = (struct lap_stop){.place = &w->t->places[place]};
    stop->parts = ARENA_ARRAY(w->a, struct lap_part, w->t->n_places);
    for (int k = 0; k < w->t->n_components; k++) {
        const struct trade_component *kind = &w->t->components[k];
        struct lap_row row = {.kind = kind};
        if (!fitted_holds(&kind->fitted, answers)) continue;
        row.cells = ARENA_ARRAY(w->a, struct lap_cell, kind->n_places);
        for (int i = 0; i < kind->n_places; i++)
            if (stop_of(w->t, kind->places[i]) == place)
                row.cells[row.n_cells++] = cell_of(w, k, kind->places[i]);
        if (row.n_cells > 0) add_row(w, stop, row);
    }
    w->out->n_stops += stop->total > 0;
    w->out->total += stop->total;
    w->out->seen += stop->seen;
}

static int by_worth(const void *a, const void *b)
{
    const struct lap_row *x = a, *y = b;
    if ((x->unseen > 0) != (y->unseen > 0)) return x->unseen > 0 ? -1 : 1;
    if (x->first != y->first) return x->first < y->first ? -1 : 1;
    if (x->kind->system != y->kind->system) return x->kind->system < y->kind->system ? -1 : 1;
    return x->kind < y->kind ? -1 : x->kind > y->kind;
}

/* As the places lie in the trade data; what is there on several of them comes first. */
static int by_place(const void *a, const void *b)
{
    const struct lap_part *x = a, *y = b;
    if (x->place->n_members != y->place->n_members)
        return x->place->n_members > y->place->n_members ? -1 : 1;
    return x->place < y->place ? -1 : x->place > y->place;
}

bool lap_read(struct arena *a, struct garage *g, const struct trade *t, const char *vehicle,
              const char *const *looks, int n_looks, struct lap *out, struct fail *f)
{
    struct facts *facts = ARENA_NEW(a, struct facts);
    struct model *m = ARENA_NEW(a, struct model);
    if (!facts_read(g, a, t, vehicle, facts, f) || !model_survey(a, t, facts, m, f)) return false;
    *out = (struct lap){.vehicle = facts->name};
    out->stops = ARENA_ARRAY(a, struct lap_stop, t->n_places);
    struct walk w = {a, t, facts, looks, n_looks, out};
    for (int i = 0; i < t->n_places; i++) {
        /* A joined stop comes where its first place does. */
        const int stop =
            t->places[i].n_members > 0 || t->places[i].parent >= 0 ? -1 : stop_of(t, i);
        if (stop >= 0 && !lap_find(out, t->places[stop].head.id)) fill_stop(&w, m->answers, stop);
    }
    for (int s = 0; s < out->n_stops; s++) {
        struct lap_stop *stop = &out->stops[s];
        qsort(stop->parts, (size_t)stop->n_parts, sizeof *stop->parts, by_place);
        for (int p = 0; p < stop->n_parts; p++)
            qsort(stop->parts[p].rows, (size_t)stop->parts[p].n_rows, sizeof(struct lap_row),
                  by_worth);
    }
    return true;
}

const struct lap_stop *lap_find(const struct lap *lap, const char *place)
{
    for (int i = 0; i < lap->n_stops; i++)
        if (text_is(lap->stops[i].place->head.id, place)) return &lap->stops[i];
    return NULL;
}

const struct lap_stop *lap_where(const struct lap *lap, const char *component,
                                 const struct lap_row **row)
{
    for (int s = 0; s < lap->n_stops; s++)
        for (int p = 0; p < lap->stops[s].n_parts; p++)
            for (int r = 0; r < lap->stops[s].parts[p].n_rows; r++) {
                *row = &lap->stops[s].parts[p].rows[r];
                for (int c = 0; c < (*row)->n_cells; c++)
                    if (text_is((*row)->cells[c].id, component)) return &lap->stops[s];
            }
    return NULL;
}
