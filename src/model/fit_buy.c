/* fit_buy.c - parts, offers and suppliers of a problem of fit: what was quoted, and where nothing
 * was, the usual price of the trade data from the usual seller. */
#include "model/fit_inside.h"

#include "base/money.h"
#include "model/offer.h"

#include <assert.h>
#include <math.h>

/* Carriage of an order from those of whom no terms are known, in major units of the trade data's
 * currency: common practice for a parcel. A fee, and what is carried home from an autojumble, has
 * none. */
static const double CARRIAGE[FROM_COUNT] = {
    [FROM_STOCK] = 5,    [FROM_SPECIALIST] = 9, [FROM_EXCHANGE] = 12,  [FROM_MACHINE_SHOP] = 15,
    [FROM_PLATING] = 15, [FROM_TRIM_SHOP] = 15, [FROM_AUTOJUMBLE] = 0, [FROM_FEE] = 0};

struct buying {
    struct arena *a;
    const struct fit_ask *ask;
    const struct trade *t;
    struct fit_problem *p;
    int *part_of;                /* by part of trade data: its index in the model, or -1 */
    double *need_day, *late_day; /* by part of the model: the soonest need, and the dearest day */
    struct fit_offer *offers;
    size_t offers_capacity, quotes_capacity, leads_capacity;
    int *seller_of_supplier; /* by supplier of facts */
    int seller_of_from[FROM_COUNT];
    int seller_had; /* of what was ordered already; -1: nothing was */
    struct fit_supplier *suppliers;
    double minor; /* of the currency */
    struct offer_book book;
};

/* ---- parts ---- */

static int part_of(struct buying *b, int trade_part)
{
    if (b->part_of[trade_part] < 0) {
        b->part_of[trade_part] = b->p->model.n_parts;
        b->need_day[b->p->model.n_parts] = INFINITY;
        b->p->part[b->p->model.n_parts++] = trade_part;
    }
    return b->part_of[trade_part];
}

static void take_parts(struct buying *b, struct fit_option *options)
{
    struct fit_problem *p = b->p;
    for (int i = 0; i < p->model.n_options; i++) {
        const struct trade_option *o = &b->t->options[p->option[i]];
        struct fit_option *to = &options[i];
        struct fit_take *takes = ARENA_ARRAY(b->a, struct fit_take, o->n_parts + 1);
        const int job = fit_job_of_option(p, i);
        for (int k = 0; k < o->n_parts; k++) {
            const int part = part_of(b, o->parts[k].part);
            int at = 0;
            while (at < to->n_takes && takes[at].part != part) at++;
            if (at == to->n_takes) takes[to->n_takes++] = (struct fit_take){part, 0};
            takes[at].count += (int)fmax(1, ceil(o->parts[k].count));
            if (job >= 0 && !isnan(b->ask->need_day[job]))
                b->need_day[part] = fmin(b->need_day[part], b->ask->need_day[job]);
            b->late_day[part] = fmax(b->late_day[part], fit_late_day(b->ask, job));
        }
        to->takes = takes;
    }
}

/* ---- suppliers ---- */

static int add_seller(struct buying *b, struct fit_seller seller, struct fit_supplier terms)
{
    b->p->sellers[b->p->model.n_suppliers] = seller;
    b->suppliers[b->p->model.n_suppliers] = terms;
    return b->p->model.n_suppliers++;
}

static int seller_of(struct buying *b, int supplier)
{
    if (b->seller_of_supplier[supplier] >= 0) return b->seller_of_supplier[supplier];
    return b->seller_of_supplier[supplier] = add_seller(
               b, (struct fit_seller){supplier, FROM_COUNT}, offer_terms(&b->book, supplier));
}

static double trade_minor(const struct buying *b, const char *currency)
{
    const double level = b->ask->facts->price_level > 0 ? b->ask->facts->price_level : 1;
    const double rate = facts_rate(b->ask->facts, currency, b->p->currency);
    return b->minor * level * (rate > 0 ? rate : 1); /* one for one, as the plan takes it */
}

static int usual_seller(struct buying *b, const struct trade_part *part)
{
    int *at = &b->seller_of_from[part->from];
    if (*at < 0)
        *at = add_seller(
            b, (struct fit_seller){-1, part->from},
            (struct fit_supplier){
                .carriage = offer_whole(CARRIAGE[part->from] * trade_minor(b, part->currency))});
    return *at;
}

/* ---- offers ---- */

static void add_offer(struct buying *b, struct fit_offer offer, const struct fact_quote *quote,
                      struct points lead)
{
    struct fit_problem *p = b->p;
    const size_t n = (size_t)p->model.n_offers;
    b->offers = arena_grow(b->a, b->offers, n, &b->offers_capacity, sizeof *b->offers);
    p->quote = arena_grow(b->a, p->quote, n, &b->quotes_capacity, sizeof *p->quote);
    p->lead = arena_grow(b->a, p->lead, n, &b->leads_capacity, sizeof *p->lead);
    offer.late =
        offer_whole(offer_days_late(lead, b->need_day[offer.part]) * b->late_day[offer.part]);
    b->offers[n] = offer;
    p->quote[n] = quote;
    p->lead[n] = lead.middle;
    p->model.n_offers++;
}

static bool quoted(struct buying *b, int part, int supplier)
{
    struct fit_offer offer;
    const struct fact_quote *first;
    if (!offer_quoted(&b->book, b->p->part[part], supplier, &offer, &first)) return false;
    offer.part = part;
    offer.supplier = seller_of(b, supplier);
    add_offer(b, offer, first, first->lead_told ? first->lead : b->t->parts[b->p->part[part]].lead);
    return true;
}

static void usual(struct buying *b, int part)
{
    const struct trade_part *of = &b->t->parts[b->p->part[part]];
    struct fit_break *price = ARENA_NEW(b->a, struct fit_break);
    *price = (struct fit_break){1, offer_whole(of->price.middle * trade_minor(b, of->currency))};
    add_offer(b,
              (struct fit_offer){
                  .part = part, .supplier = usual_seller(b, of), .breaks = price, .n_breaks = 1},
              NULL, of->lead);
}

/* What was ordered is paid: it costs nothing more, and there is as much of it as was ordered. */
static void ordered(struct buying *b, int part)
{
    const struct facts *facts = b->ask->facts;
    for (int i = 0; i < facts->n_orders; i++) {
        const struct fact_order *o = &facts->orders[i];
        const bool is_here = order_is_here(o);
        if (o->part != b->p->part[part] || (!is_here && !order_is_coming(o))) continue;
        struct fit_break *price = ARENA_NEW(b->a, struct fit_break);
        *price = (struct fit_break){1, 0};
        if (b->seller_had < 0)
            b->seller_had =
                add_seller(b, (struct fit_seller){-1, FROM_COUNT}, (struct fit_supplier){0});
        const double days = o->due == DAY_NONE ? b->t->parts[o->part].lead.middle
                                               : fmax(o->due - b->ask->model->first, 1);
        add_offer(b,
                  (struct fit_offer){.part = part,
                                     .supplier = b->seller_had,
                                     .breaks = price,
                                     .n_breaks = 1,
                                     .most = o->count > 0 ? (int)fmax(1, floor(o->count)) : 0},
                  NULL, is_here ? (struct points){0} : (struct points){days, days, days});
    }
}

void fit_buying(struct arena *a, const struct fit_ask *ask, struct fit_problem *p,
                struct fit_option *options)
{
    const struct trade *t = ask->model->trade;
    const int n_suppliers = ask->facts->buy.n_suppliers;
    int digits = 2;
    currency_digits(p->currency, &digits);
    struct buying b = {.seller_had = -1,
                       .a = a,
                       .ask = ask,
                       .t = t,
                       .p = p,
                       .minor = pow(10, digits),
                       .book = {.a = a, .facts = ask->facts, .currency = p->currency}};
    b.part_of = ARENA_ARRAY(a, int, t->n_parts + 1);
    b.need_day = ARENA_ARRAY(a, double, t->n_parts + 1);
    b.late_day = ARENA_ARRAY(a, double, t->n_parts + 1);
    b.seller_of_supplier = ARENA_ARRAY(a, int, n_suppliers + 1);
    b.suppliers = ARENA_ARRAY(a, struct fit_supplier, n_suppliers + FROM_COUNT + 1);
    p->sellers = ARENA_ARRAY(a, struct fit_seller, n_suppliers + FROM_COUNT + 1);
    p->part = ARENA_ARRAY(a, int, t->n_parts + 1);
    for (int i = 0; i < t->n_parts; i++) b.part_of[i] = -1;
    for (int i = 0; i < n_suppliers; i++) b.seller_of_supplier[i] = -1;
    for (int i = 0; i < FROM_COUNT; i++) b.seller_of_from[i] = -1;
    take_parts(&b, options);
    for (int part = 0; part < p->model.n_parts; part++) {
        bool any = false;
        for (int s = 0; s < n_suppliers; s++) any |= quoted(&b, part, s);
        if (!any) usual(&b, part);
        ordered(&b, part);
    }
    p->model.parts = ARENA_ARRAY(a, struct fit_part, p->model.n_parts + 1);
    p->model.offers = b.offers;
    p->model.suppliers = b.suppliers;
    p->notes = b.book.notes;
    p->n_notes = b.book.n_notes;
}
