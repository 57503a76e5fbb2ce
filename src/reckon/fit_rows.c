#include "reckon/fit_rows.h"

#include <assert.h>

enum rank { RANK_SUPPLIER, RANK_OPTION, RANK_BREAK, RANK_COUNT };

/* One taker of a part: a need through its options, an adapter, or the shelf (spare ones). */
struct taker {
    int part, need, adapter; /* -1: not that */
    int64_t most;            /* that it takes at once */
    int first;               /* columns of its share of each offer of the part, in their order */
};

/* Where a part can come from: an offer at one of its breaks. */
struct source {
    int offer, at;
    int bought;       /* column: this break is bought at; -1: it needs none */
    int64_t from, to; /* how many, if it is */
};

struct build {
    struct arena *arena;
    const struct fit_model *m;
    const struct fit_ask *ask;
    struct fit_columns *c;
    struct program_draft d;
    struct taker *takers;        /* by part */
    int *taker_start;            /* parts + 1 */
    int *offer_start, *offers;   /* of a part */
    int *option_start, *options; /* of a need */
    struct source *sources;      /* of the part in hand */
};

static bool off(const uint8_t *flags, int i)
{
    return flags && flags[i];
}

static void options(struct build *b)
{
    const struct fit_model *m = b->m;
    for (int o = 0; o < m->n_options; o++) {
        const struct fit_option *t = &m->options[o];
        bool held = t->held != FIT_FREE && !off(b->ask->loose.held, o);
        bool barred = (m->no_irreversible && t->irreversible && !b->ask->loose.irreversible) ||
                      (held && t->held == FIT_BARRED);
        bool taken = held && t->held == FIT_TAKEN;
        /* Taken and barred at once is for the rows to find. */
        int column = program_column(&b->d, t->money + m->weight * t->lost, 0, 1, RANK_OPTION);
        assert(column == o);
        if (taken || barred) {
            program_row(&b->d, taken, !barred);
            program_put(&b->d, column, 1);
        }
    }
}

/* Indices by a key, as start and list; keys below 0 are left out. */
static void group(struct arena *a, int n, int keys, const int *key, int **start, int **list)
{
    *start = ARENA_ARRAY(a, int, keys + 1);
    *list = ARENA_ARRAY(a, int, n);
    for (int i = 0; i < n; i++)
        if (key[i] >= 0) (*start)[key[i] + 1]++;
    for (int k = 0; k < keys; k++) (*start)[k + 1] += (*start)[k];
    struct arena scratch = *a;
    int *next = ARENA_ARRAY(&scratch, int, keys);
    for (int k = 0; k < keys; k++) next[k] = (*start)[k];
    for (int i = 0; i < n; i++)
        if (key[i] >= 0) (*list)[next[key[i]]++] = i;
}

static void groups(struct build *b)
{
    const struct fit_model *m = b->m;
    int *key = ARENA_ARRAY(b->arena, int, m->n_options + m->n_offers);
    for (int f = 0; f < m->n_offers; f++) key[f] = m->offers[f].part;
    group(b->arena, m->n_offers, m->n_parts, key, &b->offer_start, &b->offers);
    for (int o = 0; o < m->n_options; o++) key[o] = m->options[o].need;
    group(b->arena, m->n_options, m->n_needs, key, &b->option_start, &b->options);
}

/* Takers of each part, in the order of needs, then adapters, then the shelf. */
static void takers(struct build *b)
{
    const struct fit_model *m = b->m;
    int most = m->n_parts, n = 0;
    for (int o = 0; o < m->n_options; o++) most += m->options[o].n_takes;
    struct taker *all = ARENA_ARRAY(b->arena, struct taker, most);
    int *key = ARENA_ARRAY(b->arena, int, most), *order, *last;
    last = ARENA_ARRAY(b->arena, int, m->n_parts); /* 1 + the taker of the need in hand */
    for (int need = 0; need < m->n_needs; need++) {
        int begun = n;
        for (int k = b->option_start[need]; k < b->option_start[need + 1]; k++) {
            const struct fit_option *t = &m->options[b->options[k]];
            for (int i = 0; i < t->n_takes; i++) {
                int part = t->takes[i].part;
                if (last[part] <= begun) {
                    all[n] = (struct taker){.part = part, .need = need, .adapter = -1};
                    last[part] = ++n;
                }
                struct taker *into = &all[last[part] - 1];
                if (t->takes[i].count > into->most) into->most = t->takes[i].count;
            }
        }
    }
    for (int o = 0; o < m->n_options; o++)
        for (int i = 0; m->options[o].need < 0 && i < m->options[o].n_takes; i++)
            all[n++] = (struct taker){.part = m->options[o].takes[i].part,
                                      .need = -1,
                                      .adapter = o,
                                      .most = m->options[o].takes[i].count};
    for (int p = 0; p < m->n_parts; p++)
        if (m->parts[p].spare > 0)
            all[n++] =
                (struct taker){.part = p, .need = -1, .adapter = -1, .most = m->parts[p].spare};
    for (int i = 0; i < n; i++) key[i] = all[i].part;
    group(b->arena, n, m->n_parts, key, &b->taker_start, &order);
    b->takers = ARENA_ARRAY(b->arena, struct taker, n);
    for (int i = 0; i < n; i++) b->takers[i] = all[order[i]];
}

static void needs(struct build *b)
{
    const struct fit_model *m = b->m;
    for (int need = 0; need < m->n_needs; need++) {
        const struct fit_need *t = &m->needs[need];
        bool loose = off(b->ask->loose.need, need), always = t->n_woken_by == 0;
        program_row(&b->d, always && !loose, 1);
        for (int k = b->option_start[need]; k < b->option_start[need + 1]; k++)
            program_put(&b->d, b->options[k], 1);
        if (always) continue;
        /* For each waker: an option if it is chosen; and none without a waker. */
        for (int w = -1; w < t->n_woken_by; w++) {
            if (w >= 0 && loose) break;
            if (w < 0)
                program_row(&b->d, -PROGRAM_NO_END, 0);
            else
                program_row(&b->d, 0, PROGRAM_NO_END);
            for (int k = b->option_start[need]; k < b->option_start[need + 1]; k++) {
                bool wakes = false; /* itself: then it cancels out */
                for (int i = 0; i < t->n_woken_by; i++)
                    if ((w < 0 || w == i) && t->woken_by[i] == b->options[k]) wakes = true;
                if (!wakes) program_put(&b->d, b->options[k], 1);
            }
            for (int i = 0; i < t->n_woken_by; i++)
                if ((w < 0 || w == i) && m->options[t->woken_by[i]].need != need)
                    program_put(&b->d, t->woken_by[i], -1);
        }
    }
}

static void rules(struct build *b)
{
    for (int r = 0; r < b->m->n_rules; r++) {
        const struct fit_rule *t = &b->m->rules[r];
        if (off(b->ask->loose.rule, r)) continue;
        program_row(&b->d, 1 - t->n_when, PROGRAM_NO_END);
        for (int i = 0; i < t->n_when; i++) program_put(&b->d, t->when[i], -1);
        for (int i = 0; i < t->n_one_of; i++) program_put(&b->d, t->one_of[i], 1);
    }
}

/* "an order there", as entries of the last row. False: it needs no column, for it costs nothing. */
static bool put_order(struct build *b, int supplier, int64_t value)
{
    if (b->c->pays[supplier] < 0) return false;
    program_put(&b->d, b->c->pays[supplier], value);
    if (b->c->free[supplier] >= 0) program_put(&b->d, b->c->free[supplier], value);
    return true;
}

static void suppliers(struct build *b)
{
    const struct fit_model *m = b->m;
    for (int s = 0; s < m->n_suppliers; s++) {
        const struct fit_supplier *t = &m->suppliers[s];
        bool least = t->least_order > 0 && !off(b->ask->loose.least_order, s);
        b->c->pays[s] = b->c->free[s] = -1;
        if (t->carriage == 0 && !least) continue;
        b->c->pays[s] = program_column(&b->d, t->carriage, 0, 1, RANK_SUPPLIER);
        if (t->carriage == 0 || t->free_from == 0) continue;
        b->c->free[s] = program_column(&b->d, 0, 0, 1, RANK_SUPPLIER);
        program_row(&b->d, -PROGRAM_NO_END, 1);
        put_order(b, s, 1);
    }
}

/* An offer with breaks, a wait, a least or a most, or of a part that must come whole. */
static bool plain(const struct build *b, int f, int64_t wanted)
{
    const struct fit_offer *t = &b->m->offers[f];
    return t->n_breaks == 1 && t->breaks[0].from <= 1 && t->late == 0 &&
           (t->most == 0 || t->most >= wanted) && !b->m->parts[t->part].whole;
}

/* The sources of an offer, from `n`; returns how many there are then. */
static int add_sources(struct build *b, int f, int64_t wanted, struct source *sources, int n)
{
    const struct fit_offer *t = &b->m->offers[f];
    int64_t most = t->most > 0 && t->most < wanted ? t->most : wanted;
    int first = n;
    for (int k = 0; k < t->n_breaks; k++) {
        struct source *o = &sources[n];
        *o = (struct source){f, k, -1, t->breaks[k].from, most};
        if (k + 1 < t->n_breaks && t->breaks[k + 1].from - 1 < most)
            o->to = t->breaks[k + 1].from - 1;
        if (o->from > o->to) continue; /* never so many */
        if (!plain(b, f, wanted)) o->bought = program_column(&b->d, t->late, 0, 1, RANK_BREAK);
        n++;
    }
    if (first == n || sources[first].bought < 0) return n;
    program_row(&b->d, -PROGRAM_NO_END, b->c->pays[t->supplier] < 0);
    for (int k = first; k < n; k++) program_put(&b->d, sources[k].bought, 1);
    put_order(b, t->supplier, -1);
    return n;
}

/* What a taker gets from each source, and that it gets what it takes. */
static void share(struct build *b, struct taker *t, const struct source *sources, int n)
{
    const struct fit_model *m = b->m;
    t->first = b->d.program.columns;
    for (int k = 0; k < n; k++) {
        int f = sources[k].offer;
        int64_t unit = m->offers[f].breaks[sources[k].at].unit;
        int column = program_column(&b->d, unit, 0, t->most, RANK_COUNT);
        b->c->offer[column] = f;
        b->c->unit[column] = unit;
    }
    for (int k = 0; k < n; k++) { /* nothing unless it is bought there */
        int supplier = m->offers[sources[k].offer].supplier;
        if (sources[k].bought < 0 && b->c->pays[supplier] < 0) continue;
        program_row(&b->d, -PROGRAM_NO_END, 0);
        program_put(&b->d, t->first + k, 1);
        if (sources[k].bought < 0)
            put_order(b, supplier, -t->most);
        else
            program_put(&b->d, sources[k].bought, -t->most);
    }
    bool shelf = t->need < 0 && t->adapter < 0;
    program_row(&b->d, 0, shelf ? t->most : 0);
    for (int k = 0; k < n; k++) program_put(&b->d, t->first + k, 1);
    int options = shelf         ? 0
                  : t->need < 0 ? 1
                                : b->option_start[t->need + 1] - b->option_start[t->need];
    for (int i = 0; i < options; i++) {
        int o = t->need < 0 ? t->adapter : b->options[b->option_start[t->need] + i];
        for (int k = 0; k < m->options[o].n_takes; k++)
            if (m->options[o].takes[k].part == t->part)
                program_put(&b->d, o, -m->options[o].takes[k].count);
    }
}

static void part(struct build *b, int p)
{
    int taker = b->taker_start[p], taker_end = b->taker_start[p + 1], n = 0;
    int64_t wanted = 0;
    for (int k = taker; k < taker_end; k++) wanted += b->takers[k].most;
    for (int i = b->offer_start[p]; i < b->offer_start[p + 1]; i++)
        n = add_sources(b, b->offers[i], wanted, b->sources, n);
    for (int k = taker; k < taker_end; k++) share(b, &b->takers[k], b->sources, n);
    for (int i = 0; i < n; i++) {
        const struct source *o = &b->sources[i];
        if (o->bought < 0) continue;
        for (int most = 0; most < 2; most++) {
            if (most ? o->to >= wanted : o->from <= 1) continue; /* the shares say it already */
            program_row(&b->d, most ? -PROGRAM_NO_END : 0, most ? 0 : PROGRAM_NO_END);
            for (int k = taker; k < taker_end; k++) program_put(&b->d, b->takers[k].first + i, 1);
            program_put(&b->d, o->bought, most ? -o->to : -o->from);
        }
    }
    if (!b->m->parts[p].whole || n == 0) return;
    program_row(&b->d, -PROGRAM_NO_END, 1);
    for (int i = 0; i < n; i++) program_put(&b->d, b->sources[i].bought, 1);
}

/* Goods of a supplier, at `times`, as entries of the last row. */
static void put_goods(struct build *b, int supplier, int64_t times)
{
    for (int j = 0; j < b->d.program.columns; j++)
        if (b->c->offer[j] >= 0 && b->m->offers[b->c->offer[j]].supplier == supplier)
            program_put(&b->d, j, b->c->unit[j] * times);
}

static void orders(struct build *b)
{
    const struct fit_model *m = b->m;
    for (int s = 0; s < m->n_suppliers; s++) {
        const struct fit_supplier *t = &m->suppliers[s];
        if (t->least_order > 0 && !off(b->ask->loose.least_order, s)) {
            program_row(&b->d, 0, PROGRAM_NO_END);
            put_goods(b, s, 1);
            put_order(b, s, -t->least_order);
        }
        if (b->c->free[s] >= 0) {
            program_row(&b->d, 0, PROGRAM_NO_END);
            put_goods(b, s, 1);
            program_put(&b->d, b->c->free[s], -t->free_from);
        }
    }
}

/* What is used of a limit, into the last row; or, `as_cost`, as that which is to be least. */
static void put_use(struct build *b, int limit, bool as_cost)
{
    const struct fit_model *m = b->m;
    bool purse = m->limits[limit].purse;
    for (int j = 0; j < b->d.program.columns; j++) {
        int64_t use = 0;
        if (j < m->n_options) {
            const struct fit_option *t = &m->options[j];
            if (purse) use += t->money;
            for (int i = 0; i < t->n_uses; i++)
                if (t->uses[i].limit == limit) use += t->uses[i].amount;
        } else if (purse && b->c->offer[j] >= 0) {
            use = b->c->unit[j] + m->offers[b->c->offer[j]].core;
        }
        for (int s = 0; purse && s < m->n_suppliers; s++)
            if (b->c->pays[s] == j) use += m->suppliers[s].carriage;
        if (as_cost)
            b->d.program.cost[j] = use;
        else
            program_put(&b->d, j, use);
    }
}

/* Some option for a need is other than in `answer`. */
static void put_unlike(struct build *b, const struct fit_answer *answer)
{
    int64_t same = 0;
    for (int o = 0; o < b->m->n_options; o++)
        same += b->m->options[o].need >= 0 && answer->chosen[o];
    program_row(&b->d, 1 - same, PROGRAM_NO_END);
    for (int o = 0; o < b->m->n_options; o++)
        if (b->m->options[o].need >= 0) program_put(&b->d, o, answer->chosen[o] ? -1 : 1);
}

static int most_columns(const struct build *b)
{
    const struct fit_model *m = b->m;
    int n = m->n_options + 2 * m->n_suppliers;
    for (int f = 0; f < m->n_offers; f++) {
        int p = m->offers[f].part;
        n += m->offers[f].n_breaks * (1 + b->taker_start[p + 1] - b->taker_start[p]);
    }
    return n;
}

struct program fit_program(struct arena *a, const struct fit_model *m, const struct fit_ask *ask,
                           struct fit_columns *columns)
{
    struct build b = {.arena = a, .m = m, .ask = ask, .c = columns, .d.arena = a};
    groups(&b);
    takers(&b);
    int most = most_columns(&b), breaks = 0;
    for (int f = 0; f < m->n_offers; f++) breaks += m->offers[f].n_breaks;
    b.sources = ARENA_ARRAY(a, struct source, breaks + 1);
    columns->pays = ARENA_ARRAY(a, int, m->n_suppliers);
    columns->free = ARENA_ARRAY(a, int, m->n_suppliers);
    columns->offer = ARENA_ARRAY(a, int, most);
    columns->unit = ARENA_ARRAY(a, int64_t, most);
    for (int j = 0; j < most; j++) columns->offer[j] = -1;
    options(&b);
    suppliers(&b);
    needs(&b);
    rules(&b);
    for (int p = 0; p < m->n_parts; p++)
        if (!off(ask->loose.part, p)) part(&b, p);
    orders(&b);
    for (int l = 0; l < m->n_limits; l++) {
        if (off(ask->loose.limit, l)) continue;
        program_row(&b.d, -PROGRAM_NO_END, m->limits[l].most);
        put_use(&b, l, false);
    }
    for (int i = 0; i < ask->n_unlike; i++) put_unlike(&b, &ask->unlike[i]);
    if (ask->any)
        for (int j = 0; j < b.d.program.columns; j++) b.d.program.cost[j] = 0;
    if (ask->least_of) put_use(&b, ask->least_of - 1, true);
    return program_done(&b.d);
}
