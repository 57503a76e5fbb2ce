/* fit_buy.c - parts, offers and suppliers of a problem of fit: what was quoted, and where nothing
 * was, the usual price of the trade data from the usual seller. */
#include "model/fit_inside.h"

#include "base/money.h"

#include <assert.h>
#include <math.h>
#include <stdarg.h>

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
    struct fit_supplier *suppliers;
    double minor; /* of the currency */
};

static void note(struct buying *b, const char *line)
{
    struct fit_problem *p = b->p;
    p->notes = arena_grow(b->a, p->notes, (size_t)p->n_notes, &p->notes_capacity, sizeof *p->notes);
    p->notes[p->n_notes++] = line;
}

static bool here(const struct facts *facts, int part)
{
    for (int i = 0; i < facts->n_orders; i++)
        if (facts->orders[i].part == part && order_is_here(&facts->orders[i])) return true;
    return false;
}

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
            if (here(b->ask->facts, o->parts[k].part)) continue;
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

static int64_t whole(double minor)
{
    return (int64_t)llround(fmax(minor, 0));
}

static int add_seller(struct buying *b, struct fit_seller seller, struct fit_supplier terms)
{
    b->p->sellers[b->p->model.n_suppliers] = seller;
    b->suppliers[b->p->model.n_suppliers] = terms;
    return b->p->model.n_suppliers++;
}

static int seller_of(struct buying *b, int supplier)
{
    if (b->seller_of_supplier[supplier] >= 0) return b->seller_of_supplier[supplier];
    const struct fact_supplier *s = &b->ask->facts->buy.suppliers[supplier];
    const double rate =
        s->currency[0] ? facts_minor(b->ask->facts, s->currency, b->p->currency) : 1;
    if (rate <= 0)
        note(b,
             arena_print(b->a,
                         "%s: carriage is in %s, and no rate to %s is known; taken as none. Mend "
                         "with: fettle add rate",
                         s->name, s->currency, b->p->currency));
    struct fit_supplier terms = {
        .carriage = whole(s->carriage * fmax(rate, 0)),
        .least_order = whole(s->minimum * fmax(rate, 0)),
        .free_from = s->carriage_free > 0 ? whole(s->carriage_free * fmax(rate, 0)) : 0};
    return b->seller_of_supplier[supplier] =
               add_seller(b, (struct fit_seller){supplier, FROM_COUNT}, terms);
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
        *at = add_seller(b, (struct fit_seller){-1, part->from},
                         (struct fit_supplier){.carriage = whole(CARRIAGE[part->from] *
                                                                 trade_minor(b, part->currency))});
    return *at;
}

/* ---- offers ---- */

/* Days late on average, from the three points of the lead by Swanson's weights. */
static double days_late(struct points lead, double need_day)
{
    return 0.3 * fmax(0, lead.low - need_day) + 0.4 * fmax(0, lead.middle - need_day) +
           0.3 * fmax(0, lead.high - need_day);
}

static void add_offer(struct buying *b, struct fit_offer offer, const struct fact_quote *quote,
                      struct points lead)
{
    struct fit_problem *p = b->p;
    const size_t n = (size_t)p->model.n_offers;
    b->offers = arena_grow(b->a, b->offers, n, &b->offers_capacity, sizeof *b->offers);
    p->quote = arena_grow(b->a, p->quote, n, &b->quotes_capacity, sizeof *p->quote);
    p->lead = arena_grow(b->a, p->lead, n, &b->leads_capacity, sizeof *p->lead);
    offer.late = whole(days_late(lead, b->need_day[offer.part]) * b->late_day[offer.part]);
    b->offers[n] = offer;
    p->quote[n] = quote;
    p->lead[n] = lead.middle;
    p->model.n_offers++;
}

/* Quotes of one supplier for one part are steps of one price, by how many are bought. */
static bool quoted(struct buying *b, int part, int supplier)
{
    const struct facts_buy *buy = &b->ask->facts->buy;
    struct fit_break *breaks = ARENA_ARRAY(b->a, struct fit_break, buy->n_quotes);
    struct fit_offer offer = {.part = part, .breaks = breaks};
    const struct fact_quote *first = NULL;
    for (int i = 0; i < buy->n_quotes; i++) {
        const struct fact_quote *q = &buy->quotes[i];
        if (q->part != b->p->part[part] || q->supplier != supplier || q->stale) continue;
        const double rate = facts_minor(b->ask->facts, q->currency, b->p->currency);
        if (rate <= 0) {
            note(b, arena_print(b->a,
                                "the quote for %s is in %s, and no rate to %s is known; left out. "
                                "Mend with: fettle add rate",
                                q->name, q->currency, b->p->currency));
            continue;
        }
        int at = offer.n_breaks++;
        for (; at > 0 && breaks[at - 1].from > q->from_count; at--) breaks[at] = breaks[at - 1];
        breaks[at] = (struct fit_break){q->from_count, whole(q->minor * rate)};
        offer.core = whole(fmax((double)offer.core, q->core * rate));
        if (!first || q->from_count < first->from_count) first = q;
    }
    if (!first) return false;
    offer.supplier = seller_of(b, supplier);
    add_offer(b, offer, first, first->lead_told ? first->lead : b->t->parts[b->p->part[part]].lead);
    return true;
}

static void usual(struct buying *b, int part)
{
    const struct trade_part *of = &b->t->parts[b->p->part[part]];
    struct fit_break *price = ARENA_NEW(b->a, struct fit_break);
    *price = (struct fit_break){1, whole(of->price.middle * trade_minor(b, of->currency))};
    add_offer(b,
              (struct fit_offer){
                  .part = part, .supplier = usual_seller(b, of), .breaks = price, .n_breaks = 1},
              NULL, of->lead);
}

void fit_buying(struct arena *a, const struct fit_ask *ask, struct fit_problem *p,
                struct fit_option *options)
{
    const struct trade *t = ask->model->trade;
    const int n_suppliers = ask->facts->buy.n_suppliers;
    int digits = 2;
    currency_digits(p->currency, &digits);
    struct buying b = {.a = a, .ask = ask, .t = t, .p = p, .minor = pow(10, digits)};
    b.part_of = ARENA_ARRAY(a, int, t->n_parts + 1);
    b.need_day = ARENA_ARRAY(a, double, t->n_parts + 1);
    b.late_day = ARENA_ARRAY(a, double, t->n_parts + 1);
    b.seller_of_supplier = ARENA_ARRAY(a, int, n_suppliers + 1);
    b.suppliers = ARENA_ARRAY(a, struct fit_supplier, n_suppliers + FROM_COUNT);
    p->sellers = ARENA_ARRAY(a, struct fit_seller, n_suppliers + FROM_COUNT);
    p->part = ARENA_ARRAY(a, int, t->n_parts + 1);
    for (int i = 0; i < t->n_parts; i++) b.part_of[i] = -1;
    for (int i = 0; i < n_suppliers; i++) b.seller_of_supplier[i] = -1;
    for (int i = 0; i < FROM_COUNT; i++) b.seller_of_from[i] = -1;
    take_parts(&b, options);
    for (int part = 0; part < p->model.n_parts; part++) {
        bool any = false;
        for (int s = 0; s < n_suppliers; s++) any |= quoted(&b, part, s);
        if (!any) usual(&b, part);
    }
    p->model.parts = ARENA_ARRAY(a, struct fit_part, p->model.n_parts + 1);
    p->model.offers = b.offers;
    p->model.suppliers = b.suppliers;
}
