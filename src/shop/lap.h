/* lap.h - the vehicle as one walks round it: stops, their parts, and at each what stands there.
 *
 * A stop is a place that is part of no other; places that a group of the trade data joins (the four
 * corners) are one stop. What is there several times is one row, so that one answer serves for all
 * of it. Odds are left out: whoever looks should not be told what to see. */
#ifndef SHOP_LAP_H
#define SHOP_LAP_H

#include "model/facts.h"

struct lap_cell {
    const char *id; /* the component with its place, as findings name it */
    const struct trade_place *place;
    enum condition now; /* as last told; COND_NOT_FITTED too; COND_UNSEEN: nobody looked */
    day date;           /* of that, or DAY_NONE */
};

struct lap_row {
    const struct trade_component *kind;
    struct lap_cell *cells; /* one a place, in the order of places */
    int n_cells, unseen;
    int first; /* the lower, the more a look is worth */
};

struct lap_part {
    const struct trade_place *place; /* a place, or the group of exactly its rows' places */
    struct lap_row *rows;            /* unseen ones first, then in the order of `first` */
    int n_rows, unseen;
};

struct lap_stop {
    const struct trade_place *place;
    struct lap_part *parts;
    int n_parts, total, seen, bad; /* components; bad: found poor or worse */
};

struct lap {
    const char *vehicle;
    struct lap_stop *stops;
    int n_stops, total, seen;
};

/* looks: ids of components, the one most worth a look first; may be none. */
bool lap_read(struct arena *a, struct garage *g, const struct trade *t, const char *vehicle,
              const char *const *looks, int n_looks, struct lap *out, struct fail *f);
/* By the id of its place; NULL if there is none. */
const struct lap_stop *lap_find(const struct lap *lap, const char *place);
/* The stop where a component stands, and its row; NULL if it is not on this vehicle. */
const struct lap_stop *lap_where(const struct lap *lap, const char *component,
                                 const struct lap_row **row);

#endif
