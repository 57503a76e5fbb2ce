#include "shop/buying_inside.h"

#include "model/facts_worth.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double LIKELY = 0.5, SURE = 0.8; /* odds that a part is wanted: to buy, to add */

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
    *to = (struct due){
        .kind = kind, .day = d, .press = press_of(d, x->out->as_of), .vehicle = x->facts->name};
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

/* ---- baskets ---- */

static void note(struct baskets *x, const char *line)
{
    struct buying *out = x->out;
    for (int i = 0; i < out->n_notes; i++)
        if (text_is(out->notes[i], line)) return;
    out->notes = arena_grow(x->a, out->notes, (size_t)out->n_notes, &out->notes_capacity,
                            sizeof *out->notes);
    out->notes[out->n_notes++] = line;
}

/* In minor units of the garage's currency; 0 where no rate is known, which is then said. */
static double in_ours(struct baskets *x, double minor, const char *currency)
{
    if (!*currency || minor == 0) return minor;
    double by = facts_minor(x->facts, currency, x->out->currency);
    if (by <= 0)
        note(x, arena_print(x->a,
                            "Left out: sums in %s, for no rate to %s is known. Mend with: fettle "
                            "add rate currency=%s per=%s rate=... date=...",
                            currency, x->out->currency, currency, x->out->currency));
    return minor * by;
}

bool buying_best(struct baskets *x, const struct buying_want *want, const char *vehicle,
                 struct buying_item *out)
{
    const struct facts_buy *b = &x->facts->buy;
    const double count = fmax(ceil(want->count - 1e-9), 1);
    *out = (struct buying_item){
        .part = &x->t->parts[want->part], .vehicle = vehicle, .count = count, .by = want->by};
    for (int i = 0; i < b->n_quotes; i++) {
        const struct fact_quote *q = &b->quotes[i];
        if (q->stale || q->part != want->part || q->supplier < 0 || q->from_count > count) continue;
        double each = in_ours(x, q->minor, q->currency);
        if ((each <= 0 && q->minor > 0) || (out->quote && each >= out->each)) continue;
        out->quote = q;
        out->each = each;
    }
    out->sum = out->each * count;
    return out->quote != NULL;
}

static int by_day(const void *a, const void *b)
{
    const struct buying_item *x = a, *y = b;
    if (x->by != y->by) return x->by < y->by ? -1 : 1;
    int order = strcmp(x->part->head.id, y->part->head.id);
    return order ? order : strcmp(x->vehicle, y->vehicle);
}

static void settle_carriage(struct baskets *x, struct basket *b)
{
    const struct fact_supplier *s = b->supplier;
    b->minimum = in_ours(x, s->minimum, s->currency);
    b->free_at = s->carriage_free < 0 ? -1 : in_ours(x, s->carriage_free, s->currency);
    b->carriage = in_ours(x, s->carriage, s->currency);
    if (b->sum < b->minimum) {
        b->below_minimum = true;
        b->wanting = b->minimum - b->sum;
    } else if (b->carriage > 0 && b->free_at >= 0) {
        if (b->sum >= b->free_at)
            b->carriage = 0;
        else
            b->wanting = b->free_at - b->sum;
    }
}

/* What is wanted later all the same, the soonest first, until nothing is wanting. */
static void add_later(struct baskets *x, struct basket *b, const struct buying_item *later, int n)
{
    b->add = ARENA_ARRAY(x->a, struct buying_item, n);
    for (int i = 0; i < n && b->added < b->wanting; i++) {
        if (&x->facts->buy.suppliers[later[i].quote->supplier] != b->supplier) continue;
        b->add[b->n_add++] = later[i];
        b->added += later[i].sum;
    }
}

static void fill_baskets(struct baskets *x, const struct buying_item *soon, int n_soon,
                         const struct buying_item *later, int n_later)
{
    const struct facts_buy *buy = &x->facts->buy;
    x->out->baskets = ARENA_ARRAY(x->a, struct basket, buy->n_suppliers);
    for (int s = 0; s < buy->n_suppliers; s++) {
        struct basket b = {.supplier = &buy->suppliers[s],
                           .items = ARENA_ARRAY(x->a, struct buying_item, n_soon)};
        for (int i = 0; i < n_soon; i++) {
            if (soon[i].quote->supplier != s) continue;
            b.items[b.n_items++] = soon[i];
            b.sum += soon[i].sum;
        }
        if (b.n_items == 0) continue;
        settle_carriage(x, &b);
        if (b.wanting > 0) add_later(x, &b, later, n_later);
        x->out->baskets[x->out->n_baskets++] = b;
    }
}

static void reckon_baskets(struct baskets *x, const struct buying_vehicle *vehicles, int n)
{
    int most = 0, n_soon = 0, n_later = 0;
    for (int i = 0; i < n; i++) most += vehicles[i].n_wants;
    struct buying_item *soon = ARENA_ARRAY(x->a, struct buying_item, most),
                       *later = ARENA_ARRAY(x->a, struct buying_item, most);
    for (int i = 0; i < n; i++)
        for (int k = 0; k < vehicles[i].n_wants; k++) {
            const struct buying_want *want = &vehicles[i].wants[k];
            const bool is_soon = want->by <= x->out->as_of + BUYING_SOON;
            struct buying_item item;
            if (want->chance < (is_soon ? LIKELY : SURE)) continue;
            x->out->n_wanted += is_soon;
            if (!buying_best(x, want, vehicles[i].facts->name, &item))
                x->out->n_unquoted += is_soon;
            else if (is_soon)
                soon[n_soon++] = item;
            else
                later[n_later++] = item;
        }
    qsort(soon, (size_t)n_soon, sizeof *soon, by_day);
    qsort(later, (size_t)n_later, sizeof *later, by_day);
    fill_baskets(x, soon, n_soon, later, n_later);
}

void buying_reckon(struct arena *a, const struct trade *t, const struct buying_vehicle *vehicles,
                   int n_vehicles, day today, struct buying *out)
{
    *out = (struct buying){.trade = t, .as_of = today, .currency = "", .n_vehicles = n_vehicles};
    if (n_vehicles == 0) return;
    struct baskets x = {a, t, vehicles[0].facts, out};
    for (int i = n_vehicles - 1; i >= 0; i--)
        if (vehicles[i].facts->currency[0]) out->currency = vehicles[i].facts->currency;
    if (!*out->currency && x.facts->buy.n_quotes > 0)
        out->currency = x.facts->buy.quotes[0].currency;
    out->n_suppliers = x.facts->buy.n_suppliers;
    for (int i = 0; i < x.facts->buy.n_quotes; i++) out->n_quotes += !x.facts->buy.quotes[i].stale;
    out->unplanned = ARENA_ARRAY(a, const char *, n_vehicles);
    for (int i = 0; i < n_vehicles; i++)
        if (!vehicles[i].current) out->unplanned[out->n_unplanned++] = vehicles[i].facts->name;
    list_due(a, vehicles, n_vehicles, out);
    reckon_baskets(&x, vehicles, n_vehicles);
    buying_spares(&x, vehicles, n_vehicles);
}
