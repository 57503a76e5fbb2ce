/* buying_basket.c - what to order together, as a problem of reckon/fit.h: each part that is wanted
 * soon is a need, met by ordering it now or, at a price that nobody pays, not at all; each that is
 * wanted later is one that may be ordered now, or later at its lowest quote. So what is ordered
 * along is what makes the whole cheaper, and nothing else. */
#include "shop/buying_inside.h"

#include "shop/fit.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double LIKELY = 0.5, SURE = 0.8; /* odds that a part is wanted: to buy, to add */
/* Of its price, what lies for a month costs: money that is missing elsewhere, days to return it and
 * warranty that run (practice). */
static const double LYING_A_MONTH = 0.01;

enum { ORDER_NODES = 5000 };

struct line {
    struct buying_want want;
    struct buying_item item; /* where its quote is lowest */
    int seller;              /* that was chosen, or -1 */
    int part;                /* of the model */
    double late_day;
};

struct order {
    struct baskets *x;
    struct line *lines;
    int n_lines;
    struct fit_model m;
    struct fit_option *options; /* of line i: 2 i to order it now, 2 i + 1 not to */
    struct fit_offer *offers;
    const struct fact_quote **quote; /* by offer */
    struct fit_supplier *suppliers;  /* those of facts */
    size_t offers_capacity, quotes_capacity;
};

bool buying_best(struct baskets *x, const struct buying_want *want, int supplier,
                 const char *vehicle, struct buying_item *out)
{
    const struct facts_buy *b = &x->facts->buy;
    const double count = fmax(ceil(want->count - 1e-9), 1);
    *out = (struct buying_item){
        .part = &x->t->parts[want->part], .vehicle = vehicle, .count = count, .by = want->by};
    for (int i = 0; i < b->n_quotes; i++) {
        const struct fact_quote *q = &b->quotes[i];
        if (q->stale || q->part != want->part || q->supplier < 0 || q->from_count > count) continue;
        if (supplier >= 0 && q->supplier != supplier) continue;
        double each = offer_sum(&x->book, q->minor, q->currency);
        if (each < 0 || (out->quote && each >= out->each)) continue;
        out->quote = q;
        out->each = each;
    }
    out->sum = out->each * count;
    return out->quote != NULL;
}

/* ---- lines ---- */

static int seller_of(const struct facts *facts, int part)
{
    for (int i = 0; i < facts->buy.n_sellers; i++)
        if (facts->buy.sellers[i].part == part) return facts->buy.sellers[i].supplier;
    return -1;
}

static void take_line(struct order *o, const struct buying_vehicle *v,
                      const struct buying_want *want, double late_day)
{
    struct buying *out = o->x->out;
    struct line line = {.want = *want, .late_day = late_day, .part = -1};
    const bool later = want->by > out->as_of + BUYING_SOON;
    if (want->chance < (later ? SURE : LIKELY) || want->by > out->as_of + BUYING_ALONG) return;
    out->n_wanted += !later;
    line.seller = seller_of(v->facts, want->part);
    if (line.seller < 0 || !buying_best(o->x, want, line.seller, v->facts->name, &line.item)) {
        line.seller = -1;
        if (!buying_best(o->x, want, -1, v->facts->name, &line.item)) {
            if (!later) out->unquoted[out->n_unquoted++] = &o->x->t->parts[want->part];
            return;
        }
    }
    line.item.later = later;
    line.item.chosen = line.seller >= 0;
    o->lines[o->n_lines++] = line;
}

static int by_day(const void *a, const void *b)
{
    const struct buying_item *x = &((const struct line *)a)->item,
                             *y = &((const struct line *)b)->item;
    if (x->later != y->later) return x->later ? 1 : -1;
    if (x->by != y->by) return x->by < y->by ? -1 : 1;
    int order = strcmp(x->part->head.id, y->part->head.id);
    return order ? order : strcmp(x->vehicle, y->vehicle);
}

static void take_lines(struct order *o, const struct buying_vehicle *vehicles, int n)
{
    struct buying *out = o->x->out;
    int most = 0;
    for (int i = 0; i < n; i++) most += vehicles[i].n_wants;
    o->lines = ARENA_ARRAY(o->x->a, struct line, most);
    out->unquoted = ARENA_ARRAY(o->x->a, const struct trade_part *, most);
    for (int i = n - 1; i >= 0; i--) {
        const struct buying_vehicle *v = &vehicles[i];
        out->late_assumed = v->day_worth <= 0;
        out->late_day = !*out->currency    ? 0
                        : v->day_worth > 0 ? v->day_worth
                                           : usual_late_day(v->facts, o->x->t, out->currency);
        for (int k = 0; k < v->n_wants; k++) take_line(o, v, &v->wants[k], out->late_day);
    }
    if (o->n_lines > 0) qsort(o->lines, (size_t)o->n_lines, sizeof *o->lines, by_day);
}

/* ---- the problem ---- */

static void add_offer(struct order *o, const struct line *line, int supplier)
{
    const struct trade_part *part = line->item.part;
    struct fit_offer offer;
    const struct fact_quote *first;
    if (!offer_quoted(&o->x->book, line->want.part, supplier, &offer, &first)) return;
    offer.part = line->part;
    offer.supplier = supplier;
    if (!line->item.later)
        offer.late =
            offer_whole(offer_days_late(first->lead_told ? first->lead : part->lead,
                                        line->want.by - o->x->out->as_of + line->want.lead_days) *
                        line->late_day * line->want.critical);
    const size_t n = (size_t)o->m.n_offers++;
    o->offers = arena_grow(o->x->a, o->offers, n, &o->offers_capacity, sizeof *o->offers);
    o->quote = arena_grow(o->x->a, o->quote, n, &o->quotes_capacity, sizeof *o->quote);
    o->offers[n] = offer;
    o->quote[n] = first;
}

/* What ordering it now may lose: its price, as often as it is not wanted after all, and lying.
 * Where it makes no difference nothing is ordered along, else the soonest. */
static int64_t early(const struct order *o, const struct line *line)
{
    if (!line->item.later) return 0;
    const double months = (line->item.by - o->x->out->as_of) / DAYS_A_MONTH;
    return 1 +
           offer_whole(line->item.sum * (1 - fmin(line->want.chance, 1) + LYING_A_MONTH * months));
}

/* Something wanted later can only help where an order goes anyway: what it costs there above the
 * lowest, and early, is no more than the carriage that it may earn; or the order is too small. */
static bool may_help(struct order *o, const struct line *line, int supplier)
{
    const struct fit_supplier *terms = &o->suppliers[supplier];
    struct buying_item here;
    double soon = 0;
    bool goes = false;
    if (!buying_best(o->x, &line->want, supplier, "", &here)) return false;
    for (int i = 0; i < o->n_lines && !o->lines[i].item.later; i++) {
        struct buying_item item;
        if (o->lines[i].seller >= 0 && o->lines[i].seller != supplier) continue;
        if (!buying_best(o->x, &o->lines[i].want, supplier, "", &item)) continue;
        goes = true;
        soon += item.sum;
    }
    const double dearer = here.sum + (double)early(o, line) - line->item.sum;
    return goes && (dearer <= (double)terms->carriage || soon < (double)terms->least_order);
}

/* Vehicles that want the same from whoever sells it share a part, and its price breaks. False: it
 * is wanted later, and helps nowhere. */
static bool set_part(struct order *o, int i)
{
    struct line *line = &o->lines[i];
    const int before = o->m.n_offers;
    for (int k = 0; k < i && line->part < 0; k++)
        if (o->lines[k].want.part == line->want.part && o->lines[k].seller == line->seller)
            line->part = o->lines[k].part;
    if (line->part >= 0) return true;
    line->part = o->m.n_parts;
    for (int s = 0; s < o->m.n_suppliers; s++)
        if ((line->seller < 0 || line->seller == s) && (!line->item.later || may_help(o, line, s)))
            add_offer(o, line, s);
    if (o->m.n_offers == before) return false;
    o->m.n_parts++;
    return true;
}

/* More than ordering all of it could cost anywhere, and no more than it must be: what nobody would
 * pay blurs the bound of the search. */
static int64_t nobody_pays(const struct order *o)
{
    double sum = 1;
    for (int i = 0; i < o->m.n_suppliers; i++) sum += (double)o->suppliers[i].carriage;
    for (int i = 0; i < o->m.n_offers; i++) {
        double count = 0;
        for (int k = 0; k < o->n_lines; k++)
            if (o->lines[k].part == o->offers[i].part) count += o->lines[k].item.count;
        sum += (double)o->offers[i].breaks[0].unit * count + (double)o->offers[i].late;
    }
    return offer_whole(2 * sum);
}

static void set_line(struct order *o, int i, int64_t never)
{
    const struct line *line = &o->lines[i];
    struct fit_take *take = ARENA_NEW(o->x->a, struct fit_take);
    *take = (struct fit_take){line->part, (int)line->item.count};
    o->options[2 * i] =
        (struct fit_option){.need = i, .money = early(o, line), .takes = take, .n_takes = 1};
    o->options[2 * i + 1] = (struct fit_option){
        .need = i, .money = line->item.later ? offer_whole(line->item.sum) : never};
}

static struct fit_answer solve(struct order *o)
{
    struct arena *a = o->x->a;
    int n = 0;
    for (int i = 0; i < o->n_lines; i++) {
        o->lines[n] = o->lines[i];
        n += set_part(o, n);
    }
    o->n_lines = n;
    struct fit_part *parts = ARENA_ARRAY(a, struct fit_part, n);
    o->options = ARENA_ARRAY(a, struct fit_option, 2 * n);
    const int64_t never = nobody_pays(o);
    for (int i = 0; i < n; i++) {
        set_line(o, i, never);
        parts[i].whole = true;
    }
    o->m.options = o->options;
    o->m.needs = ARENA_ARRAY(a, struct fit_need, n);
    o->m.parts = parts;
    o->m.offers = o->offers;
    o->m.suppliers = o->suppliers;
    o->m.n_options = 2 * n;
    o->m.n_needs = n;
    struct fail ignored = {0};
    if (!fit_valid(&o->m, &ignored)) return (struct fit_answer){.state = FIT_UNKNOWN};
    return fit_solve(a, &o->m, ORDER_NODES);
}

/* ---- baskets ---- */

static double unit_at(const struct fit_offer *offer, int count)
{
    int at = 0;
    while (at + 1 < offer->n_breaks && offer->breaks[at + 1].from <= count) at++;
    return (double)offer->breaks[at].unit;
}

static const struct fact_quote *quote_at(const struct order *o, int offer, double each)
{
    const struct facts_buy *b = &o->x->facts->buy;
    const struct fact_quote *first = o->quote[offer];
    for (int i = 0; i < b->n_quotes; i++) {
        const struct fact_quote *q = &b->quotes[i];
        if (!q->stale && q->part == first->part && q->supplier == first->supplier &&
            (double)offer_whole(offer_sum(&o->x->book, q->minor, q->currency)) == each)
            return q;
    }
    return first;
}

/* Where the answer buys it; what could not be settled stays where its quote is lowest. */
static void place_line(struct order *o, const struct fit_answer *answer, int i)
{
    struct buying_item *item = &o->lines[i].item;
    for (int k = 0; k < answer->n_buys; k++) {
        const struct fit_buy *buy = &answer->buys[k];
        if (o->offers[buy->offer].part != o->lines[i].part) continue;
        item->each = unit_at(&o->offers[buy->offer], buy->count);
        item->sum = item->each * item->count;
        item->quote = quote_at(o, buy->offer, item->each);
        return;
    }
}

static void settle(struct order *o, struct basket *b, const struct fit_supplier *terms, double soon)
{
    b->minimum = (double)terms->least_order;
    b->free_at = b->supplier->carriage_free < 0 ? -1 : (double)terms->free_from;
    b->usual_carriage = b->carriage = (double)terms->carriage;
    if (b->free_at > 0 && b->sum >= b->free_at) b->carriage = 0;
    b->below_minimum = b->sum < b->minimum;
    if (b->below_minimum)
        b->wanting = b->minimum - b->sum;
    else if (b->carriage > 0 && b->free_at > 0)
        b->wanting = b->free_at - b->sum;
    if (b->n_later > 0)
        b->along = soon < b->minimum                       ? ALONG_MINIMUM
                   : b->carriage == 0 && soon < b->free_at ? ALONG_CARRIAGE
                                                           : ALONG_BREAK;
    o->x->out->baskets[o->x->out->n_baskets++] = *b;
}

static void fill_baskets(struct order *o, const struct fit_answer *answer)
{
    const bool settled = answer->state == FIT_PROVEN || answer->state == FIT_FOUND;
    for (int s = 0; s < o->m.n_suppliers; s++) {
        struct basket b = {.supplier = &o->x->facts->buy.suppliers[s],
                           .items = ARENA_ARRAY(o->x->a, struct buying_item, o->n_lines)};
        double soon = 0;
        for (int i = 0; i < o->n_lines; i++) {
            const struct buying_item *item = &o->lines[i].item;
            const bool now = settled && answer->chosen[2 * i];
            if (item->quote->supplier != s || (item->later && !now)) continue;
            b.items[b.n_items++] = *item;
            b.n_later += item->later;
            b.sum += item->sum;
            soon += item->later ? 0 : item->sum;
        }
        if (b.n_items > 0) settle(o, &b, &o->suppliers[s], soon);
    }
}

void buying_baskets(struct baskets *x, const struct buying_vehicle *vehicles, int n)
{
    struct order o = {.x = x, .m = {.n_suppliers = x->facts->buy.n_suppliers}};
    struct fit_answer answer = {.state = FIT_UNKNOWN};
    take_lines(&o, vehicles, n);
    if (x->out->n_wanted == x->out->n_unquoted) return; /* nothing presses: nothing to order yet */
    x->out->baskets = ARENA_ARRAY(x->a, struct basket, o.m.n_suppliers);
    o.suppliers = ARENA_ARRAY(x->a, struct fit_supplier, o.m.n_suppliers + 1);
    for (int s = 0; s < o.m.n_suppliers; s++) o.suppliers[s] = offer_terms(&x->book, s);
    answer = solve(&o);
    x->out->proven = answer.state == FIT_PROVEN;
    for (int i = 0; i < o.n_lines && answer.chosen; i++)
        if (answer.chosen[2 * i]) place_line(&o, &answer, i);
    fill_baskets(&o, &answer);
}
