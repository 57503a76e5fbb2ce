#include "face/show/fit_keep.h"

#include <string.h>

struct keeping {
    struct arena *a;
    struct garage *g;
    const char *vehicle, *date;
    const struct fit *x;
    int count;
    struct fail *f;
};

static bool add(struct keeping *k, const char *kind, const char *const (*fields)[2], int n)
{
    struct record *r = record_new(k->a, record_kind_find(kind));
    if (!record_set(k->a, r, "vehicle", k->vehicle, NULL, k->f)) return false;
    for (int i = 0; i < n; i++)
        if (fields[i][1] && !record_set(k->a, r, fields[i][0], fields[i][1], NULL, k->f))
            return false;
    k->count++;
    return record_valid(r, k->f) && garage_add(k->g, r, k->f);
}

static bool keep_options(struct keeping *k)
{
    const struct fit *x = k->x;
    for (int i = 0; i < x->problem.model.n_options; i++) {
        if (!x->answer.chosen[i]) continue;
        const struct trade_option *o = &x->trade->options[x->problem.option[i]];
        const char *const fields[][2] = {
            {"need", o->need < 0 ? NULL : x->trade->needs[o->need].head.id},
            {"option", o->head.id},
            {"date", k->date}};
        if (!add(k, "choice", fields, 3)) return false;
    }
    return true;
}

static bool keep_sellers(struct keeping *k)
{
    const struct fit *x = k->x;
    for (int i = 0; i < x->answer.n_buys; i++) {
        const struct fit_offer *o = &x->problem.model.offers[x->answer.buys[i].offer];
        const int supplier = x->problem.sellers[o->supplier].supplier;
        if (supplier < 0) continue;
        const char *const fields[][2] = {
            {"part", x->trade->parts[x->problem.part[o->part]].head.id},
            {"supplier", x->facts->buy.suppliers[supplier].id},
            {"date", k->date}};
        if (!add(k, "seller", fields, 3)) return false;
    }
    return true;
}

bool fit_keep(struct arena *a, struct garage *g, const char *vehicle, const struct fit *x,
              day today, int *count, struct fail *f)
{
    struct text date = {.arena = a};
    day_print(&date, today);
    struct keeping k = {a, g, vehicle, text_get(&date), x, 0, f};
    if (!x->fits)
        return fail_set(f, FAIL_INPUT,
                        "fit: nothing fits, so there is nothing to adopt; see fettle fit");
    if (!garage_begin(g, f)) return false;
    const bool done = keep_options(&k) && keep_sellers(&k) && garage_commit(g, f);
    if (!done) garage_rollback(g);
    *count = k.count;
    return done;
}

/* What is typed as one value is what the join counts in: a word, a figure, or a range; of a limit
 * one figure is the most. */
static bool set_value(struct arena *a, const struct trade *t, const struct fit_measured *m,
                      struct record *r, struct fail *f)
{
    const int join = trade_find(t, SUBJECT_JOINS, m->join);
    const char *to = strstr(m->value, " to ");
    if (join < 0) return fail_set(f, FAIL_INPUT, "join: there is no '%.60s'", m->join);
    if (t->joins[join].rule == JOIN_SAME) return record_set(a, r, "is", m->value, NULL, f);
    if (to)
        return record_set(a, r, "least", arena_copy_n(a, m->value, (size_t)(to - m->value)), NULL,
                          f) &&
               record_set(a, r, "most", to + 4, NULL, f);
    return (t->joins[join].rule == JOIN_INSIDE || record_set(a, r, "least", m->value, NULL, f)) &&
           record_set(a, r, "most", m->value, NULL, f);
}

bool fit_measure(struct arena *a, struct garage *g, const struct trade *t, const char *vehicle,
                 const struct fit_measured *m, day today, struct fail *f)
{
    struct text date = {.arena = a};
    struct record *r = record_new(a, record_kind_find("measured"));
    day_print(&date, today);
    if (!*m->value)
        return fail_set(f, FAIL_INPUT, "value: is missing; write the figure or the word");
    if (!record_set(a, r, "vehicle", vehicle, NULL, f) || !record_set(a, r, "of", m->of, NULL, f) ||
        !record_set(a, r, "join", m->join, NULL, f) || !record_set(a, r, "end", m->end, NULL, f) ||
        !record_set(a, r, "date", text_get(&date), NULL, f) || !set_value(a, t, m, r, f) ||
        !facts_buy_settle(a, t, r, f) || !record_valid(r, f) || !garage_begin(g, f))
        return false;
    if (garage_add(g, r, f) && garage_commit(g, f)) return true;
    garage_rollback(g);
    return false;
}
