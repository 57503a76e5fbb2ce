/* choose_worth.c - what it would fetch, today and done: from sales, or as told. */
#include "base/random.h"
#include "shop/choose_inside.h"

#include <math.h>
#include <string.h>

/* Worths share the market: half of the variance of each is the same draw, whether they come from
 * sales or were told (practice). What the sales do not tell of this vehicle goes with it from one
 * state to another, as does a good or a bad year for selling. */
static const double MARKET_SHARE = 0.5;

/* Of the vehicle as it stands, where nobody told how original it is (practice). */
static const double ORIGINAL_USUAL = 0.8;

static const double DAYS_A_YEAR = 365.25;

void choose_draw(const struct choosing *x, struct points p, const char *stream, bool market,
                 double *out)
{
    uint64_t shared = text_hash("worth"), own = text_hash(stream);
    for (int i = 0; i < x->ask->runs; i++) {
        struct philox o = random_words(x->ask->seed, own, (uint32_t)i, 0);
        double z = random_normal(o.word[0]);
        if (market) {
            struct philox m = random_words(x->ask->seed, shared, (uint32_t)i, 0);
            z = sqrt(MARKET_SHARE) * random_normal(m.word[0]) + sqrt(1 - MARKET_SHARE) * z;
        }
        out[i] = points_draw(p, z);
    }
}

static int state_of(const char *direction)
{
    static const char *const names[] = {"now", "preserve", "drive", "restore", "modify", "sell"};
    for (int i = 0; i < WORTH_COUNT; i++)
        if (text_is(names[i], direction)) return i;
    return -1;
}

/* ---- sales ---- */

static void fit_sales(struct choosing *x)
{
    const struct facts_worth *more = x->more;
    struct market_sale *sales = ARENA_ARRAY(x->a, struct market_sale, more->n_comparables);
    for (int i = 0; i < more->n_comparables; i++) {
        const struct fact_comparable *c = &more->comparables[i];
        sales[i] = (struct market_sale){.price = c->minor,
                                        .asked = c->asked,
                                        .years = fmax(0, (x->ask->today - c->date) / DAYS_A_YEAR),
                                        .grade = c->grade,
                                        .original = c->original >= 0 ? c->original : ORIGINAL_USUAL,
                                        .kilometres = fmax(0, c->kilometres)};
    }
    if (market_fit(x->a, sales, more->n_comparables, &x->market))
        x->out->n_sales = more->n_comparables;
}

/* Grade and originality of a state: the builder's, else those of the direction's data. What is as
 * built at the end is a share of what is as built now. */
static bool end_state(const struct choosing *x, int state, const struct trade_direction *d,
                      struct choose_worth *w)
{
    const struct fact_grade *own = &x->more->grades[state], *now = &x->more->grades[WORTH_NOW];
    if (state == WORTH_SELL && !own->set) own = now;
    w->grade = own->set ? own->grade : d->grade;
    double as_it_stands = now->set && now->original >= 0 ? now->original : ORIGINAL_USUAL;
    w->original = own->set && own->original >= 0 ? own->original : as_it_stands * d->original;
    return w->grade > 0;
}

/* ---- as told ---- */

static bool told(const struct choosing *x, int state, struct points *out)
{
    const struct fact_worth *w = &x->facts->worth[state];
    /* Sold as it stands it fetches what it is worth now, unless another figure was told. */
    if (state == WORTH_SELL && !w->set) w = &x->facts->worth[WORTH_NOW];
    double by = w->set ? facts_minor(x->facts, w->currency, x->out->currency) : 0;
    *out = points_scale(w->minor, by);
    return by > 0;
}

static struct choose_worth worth_of(const struct choosing *x, int state,
                                    const struct trade_direction *d)
{
    struct choose_worth w = {.from = WORTH_UNKNOWN};
    bool own = told(x, state, &w.band);
    if (own) w.from = WORTH_TOLD;
    if (x->out->n_sales == 0 || !d || !end_state(x, state, d, &w)) return w;
    if (own) w.told = w.band;
    w.band = market_worth(&x->market, w.grade, w.original, *x->a);
    w.apart = own && (w.told.middle < w.band.low || w.told.middle > w.band.high);
    w.from = WORTH_SALES;
    return w;
}

void choose_worths(struct choosing *x)
{
    struct choose *out = x->out;
    const struct trade *t = x->ask->trade;
    size_t runs = (size_t)x->ask->runs;
    int sell = trade_find_direction(t, "sell");
    const struct trade_direction *as_it_stands = sell >= 0 ? &t->directions[sell] : NULL;
    fit_sales(x);
    out->worth_now = worth_of(x, WORTH_NOW, as_it_stands);
    out->worth_now_known = out->worth_now.from != WORTH_UNKNOWN;
    if (out->worth_now.from == WORTH_SALES)
        out->pull =
            market_pull_of(&x->market, out->worth_now.grade, out->worth_now.original, *x->a);
    x->worth_now = ARENA_ARRAY(x->a, double, runs);
    x->worth = ARENA_ARRAY(x->a, double, runs *(size_t)t->n_directions);
    const struct points usual = out->worth_now.band;
    if (out->worth_now_known) {
        choose_draw(x, usual, "worth/now", true, x->worth_now);
        if (as_it_stands) choose_follow(x, as_it_stands, &out->worth_now, x->worth_now);
    }
    for (int d = 0; d < t->n_directions; d++) {
        struct choose_direction *to = &out->directions[d];
        const char *id = to->direction->head.id;
        int state = state_of(id);
        if (state < 0) continue;
        to->worth = worth_of(x, state, to->direction);
        if (to->worth.from == WORTH_UNKNOWN) continue;
        /* The same sum is the same draw: sold today it fetches what it is worth today. */
        bool same = memcmp(&to->worth.band, &usual, sizeof usual) == 0;
        double *draws = x->worth + (size_t)d * runs;
        choose_draw(x, to->worth.band,
                    state == WORTH_SELL && same ? "worth/now" : arena_print(x->a, "worth/%s", id),
                    true, draws);
        choose_follow(x, to->direction, &to->worth, draws);
    }
}
