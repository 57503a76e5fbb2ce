#include "face/show/fit_keep.h"

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
