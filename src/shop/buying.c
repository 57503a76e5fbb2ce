#include "shop/buying_inside.h"

#include <stdlib.h>
#include <string.h>

const char *due_name(enum due_kind k)
{
    static const char *const name[DUE_KINDS] = {"return", "check",   "late", "pieces",
                                                "short",  "measure", "core", "warranty"};
    return name[k];
}

day order_return_by(const struct facts_buy *buy, const struct fact_order *o)
{
    if (o->return_by != DAY_NONE) return o->return_by;
    if (o->quote < 0 || o->came == DAY_NONE || buy->quotes[o->quote].return_days < 0)
        return DAY_NONE;
    return o->came + buy->quotes[o->quote].return_days;
}

/* ---- what is due ---- */

struct listing {
    struct buying *out;
    const struct facts *facts;
};

static enum due_press press_of(day d, day today)
{
    return d == DAY_NONE || d > today + BUYING_PRESSING ? PRESS_LATER
           : d > today                                  ? PRESS_SOON
                                                        : PRESS_NOW;
}

static struct due *add_due(struct listing *x, enum due_kind kind, day d)
{
    struct due *to = &x->out->due[x->out->n_due++];
    *to = (struct due){.kind = kind,
                       .day = d,
                       .press = press_of(d, x->out->as_of),
                       .vehicle = x->facts->name,
                       .vehicle_id = x->facts->vehicle_id};
    return to;
}

static void add_order(struct listing *x, const struct fact_order *o, enum due_kind kind, day d)
{
    struct due *to = add_due(x, kind, d);
    to->order = o;
    to->supplier = o->supplier >= 0 ? x->facts->buy.suppliers[o->supplier].name : o->supplier_name;
    /* Without a last day a part is checked as soon as it is there, and goes back when it is wrong.
     */
    if ((kind == DUE_CHECK || kind == DUE_RETURN) && d == DAY_NONE) to->press = PRESS_NOW;
    if (kind == DUE_CHECK && to->press == PRESS_LATER) to->press = PRESS_SOON;
}

static void list_order(struct listing *x, const struct fact_order *o)
{
    const day today = x->out->as_of;
    if (order_is_coming(o) && o->due != DAY_NONE && o->due < today)
        add_order(x, o, DUE_LATE, o->due);
    if (!order_is_here(o)) return;
    const day back = order_return_by(&x->facts->buy, o);
    if (o->wrong)
        add_order(x, o, DUE_RETURN, back);
    else if (o->checked != TRI_YES && o->fitted == DAY_NONE)
        add_order(x, o, DUE_CHECK, back);
    if (o->core > 0) add_order(x, o, DUE_CORE, DAY_NONE);
    if (o->warranty >= today && o->fitted == DAY_NONE && !o->wrong)
        add_order(x, o, DUE_WARRANTY, o->warranty);
}

static void list_sent(struct listing *x, const struct fact_sent *s)
{
    enum due_kind kinds[2];
    int n = 0;
    day d = s->chase != DAY_NONE ? s->chase : s->promised;
    if (s->promised != DAY_NONE && s->promised < d) d = s->promised;
    if (s->returned == DAY_NONE) {
        kinds[n++] = DUE_PIECES;
    } else {
        d = s->returned;
        if (s->count_returned >= 0 && s->count_returned < s->count) kinds[n++] = DUE_SHORT;
        if (s->tolerances && !s->measured) kinds[n++] = DUE_MEASURE;
    }
    for (int i = 0; i < n; i++) {
        struct due *to = add_due(x, kinds[i], d);
        to->sent = s;
        to->supplier = s->supplier >= 0 ? x->facts->buy.suppliers[s->supplier].name : NULL;
    }
}

static int by_press(const void *a, const void *b)
{
    const struct due *x = a, *y = b;
    if (x->press != y->press) return x->press < y->press ? -1 : 1;
    if (x->day != y->day) /* no day: after those that have one */
        return y->day == DAY_NONE || (x->day != DAY_NONE && x->day < y->day) ? -1 : 1;
    if (x->kind != y->kind) return x->kind < y->kind ? -1 : 1;
    return strcmp(x->order ? x->order->id : x->sent->id, y->order ? y->order->id : y->sent->id);
}

static void list_due(struct arena *a, const struct buying_vehicle *vehicles, int n,
                     struct buying *out)
{
    int most = 0;
    for (int i = 0; i < n; i++)
        most += 4 * vehicles[i].facts->n_orders + 2 * vehicles[i].facts->buy.n_sent;
    out->due = ARENA_ARRAY(a, struct due, most);
    for (int i = 0; i < n; i++) {
        struct listing x = {out, vehicles[i].facts};
        for (int k = 0; k < x.facts->n_orders; k++) list_order(&x, &x.facts->orders[k]);
        for (int k = 0; k < x.facts->buy.n_sent; k++) list_sent(&x, &x.facts->buy.sent[k]);
    }
    qsort(out->due, (size_t)out->n_due, sizeof *out->due, by_press);
    while (out->n_now < out->n_due && out->due[out->n_now].press == PRESS_NOW) out->n_now++;
}

void buying_reckon(struct arena *a, const struct trade *t, const struct buying_vehicle *vehicles,
                   int n_vehicles, day today, struct buying *out)
{
    *out = (struct buying){.trade = t, .as_of = today, .currency = "", .n_vehicles = n_vehicles};
    if (n_vehicles == 0) return;
    struct baskets x = {.a = a, .t = t, .facts = vehicles[0].facts, .out = out};
    for (int i = n_vehicles - 1; i >= 0; i--)
        if (vehicles[i].facts->currency[0]) out->currency = vehicles[i].facts->currency;
    if (!*out->currency && x.facts->buy.n_quotes > 0)
        out->currency = x.facts->buy.quotes[0].currency;
    x.book = (struct offer_book){.a = a, .facts = x.facts, .currency = out->currency};
    out->n_suppliers = x.facts->buy.n_suppliers;
    for (int i = 0; i < x.facts->buy.n_quotes; i++) out->n_quotes += !x.facts->buy.quotes[i].stale;
    out->unplanned = ARENA_ARRAY(a, const char *, n_vehicles);
    for (int i = 0; i < n_vehicles; i++)
        if (!vehicles[i].current) out->unplanned[out->n_unplanned++] = vehicles[i].facts->name;
    list_due(a, vehicles, n_vehicles, out);
    buying_baskets(&x, vehicles, n_vehicles);
    buying_spares(&x, vehicles, n_vehicles);
    out->notes = x.book.notes;
    out->n_notes = x.book.n_notes;
}
