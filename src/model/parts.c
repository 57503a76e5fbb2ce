/* parts.c - what jobs and setbacks want that is not here: to be ordered, on its way, or away at a
 * specialist. */
#include "model/build.h"

#include "model/facts_worth.h"

#include <math.h>
#include <string.h>

/* Who it is to be bought from was chosen: his quote for the fewest takes the place of the usual
 * price. */
static void quoted_price(struct build *b, int trade_part, struct project_part *to)
{
    const struct facts_buy *buy = &b->facts->buy;
    const struct fact_quote *best = NULL;
    int supplier = -1;
    for (int i = 0; i < buy->n_sellers; i++)
        if (buy->sellers[i].part == trade_part) supplier = buy->sellers[i].supplier;
    for (int i = 0; i < buy->n_quotes; i++) {
        const struct fact_quote *q = &buy->quotes[i];
        if (q->supplier == supplier && q->part == trade_part && !q->stale &&
            (!best || q->from_count < best->from_count))
            best = q;
    }
    const double rate = best ? facts_minor(b->facts, best->currency, b->out->currency) : 0;
    if (rate <= 0) return;
    to->price = (struct spread){best->minor * rate, 0, 0};
    if (best->lead_told) to->lead = spread_of(best->lead, MINUTES_A_DAY);
}

/* A part of the project, as the trade data or the chosen seller has it. */
static int add_part(struct build *b, int trade_part, bool ordered)
{
    struct project *p = &b->out->project;
    const struct trade_part *part = &b->t->parts[trade_part];
    const size_t n = (size_t)p->n_parts;
    p->parts = arena_grow(b->a, p->parts, n, &b->parts_capacity, sizeof *p->parts);
    b->out->trade_part = arena_grow(b->a, b->out->trade_part, n, &b->trade_parts_capacity,
                                    sizeof *b->out->trade_part);
    b->out->part_ordered = arena_grow(b->a, b->out->part_ordered, n, &b->ordered_capacity,
                                      sizeof *b->out->part_ordered);
    p->parts[n] =
        (struct project_part){.id = part->head.id,
                              .stream = text_hash(arena_print(b->a, "part/%s", part->head.id)),
                              .price = spread_of(part->price, b->money_of[trade_part]),
                              .lead = spread_of(part->lead, MINUTES_A_DAY)};
    quoted_price(b, trade_part, &p->parts[n]);
    b->out->trade_part[n] = trade_part;
    b->out->part_ordered[n] = ordered;
    return p->n_parts++;
}

static int part_number(struct build *b, int trade_part)
{
    if (b->part_of[trade_part] < 0) b->part_of[trade_part] = add_part(b, trade_part, false);
    return b->part_of[trade_part];
}

static struct spread until(const struct build *b, day d)
{
    return (struct spread){fmax(d - b->out->first, 1) * MINUTES_A_DAY, 0, 0};
}

/* ---- what was ordered ---- */

void build_stock(struct build *b)
{
    b->part_of = ARENA_ARRAY(b->a, int, b->t->n_parts);
    for (int i = 0; i < b->t->n_parts; i++) b->part_of[i] = -1;
    b->pools = ARENA_ARRAY(b->a, struct pool, b->facts->n_orders);
    for (int i = 0; i < b->facts->n_orders; i++) {
        const struct fact_order *o = &b->facts->orders[i];
        const bool counts = o->part >= 0 && (order_is_here(o) || order_is_coming(o));
        b->pools[i] = (struct pool){!counts ? 0 : o->count > 0 ? o->count : (double)INFINITY, -1};
    }
}

/* The part of an order that is paid and still to come. */
static int coming_part(struct build *b, int order)
{
    const struct fact_order *o = &b->facts->orders[order];
    struct pool *pool = &b->pools[order];
    if (pool->part >= 0) return pool->part;
    pool->part = add_part(b, o->part, true);
    struct project_part *to = &b->out->project.parts[pool->part];
    to->price = (struct spread){0};
    if (o->due != DAY_NONE) to->lead = until(b, o->due);
    return pool->part;
}

/* The next order to be drawn on: what is here, then what comes first; -1: none is left. */
static int next_pool(const struct build *b, int trade_part, const bool *seen)
{
    int best = -1;
    for (int i = 0; i < b->facts->n_orders; i++) {
        const struct fact_order *o = &b->facts->orders[i];
        if (o->part != trade_part || seen[i] || b->pools[i].left <= 0) continue;
        const struct fact_order *than = best < 0 ? NULL : &b->facts->orders[best];
        if (!than || (order_is_here(o) && !order_is_here(than)) ||
            (order_is_here(o) == order_is_here(than) && o->due != DAY_NONE &&
             (than->due == DAY_NONE || o->due < than->due)))
            best = i;
    }
    return best;
}

static void add_buy(struct build *b, int part, double count)
{
    struct project *p = &b->out->project;
    p->buys = arena_grow(b->a, p->buys, (size_t)p->n_buys, &b->buys_capacity, sizeof *p->buys);
    p->buys[p->n_buys++] = (struct project_buy){part, count};
}

/* ---- what is away ---- */

static bool is_service(const struct trade_part *part)
{
    return part->from == FROM_MACHINE_SHOP || part->from == FROM_PLATING ||
           part->from == FROM_TRIM_SHOP;
}

/* Back when? As promised; what is late, as long again as it is late, and at least a week. */
static day back_on(const struct build *b, const struct fact_sent *s)
{
    enum { WEEK = 7 };
    const day today = b->ask->today, late = today - s->promised;
    return late <= 0 ? s->promised : today + (late > WEEK ? late : WEEK);
}

/* The pieces of one job at specialists. */
struct absence {
    bool any, away;
    day sent, back; /* back: when all are, if each has a promise; else DAY_NONE */
    double deposit; /* minor units of the model's currency */
};

static struct absence absence_of(const struct build *b, int trade_job)
{
    struct absence x = {.sent = DAY_NONE, .back = DAY_NONE};
    bool promised = true;
    for (int i = 0; i < b->facts->buy.n_sent; i++) {
        const struct fact_sent *s = &b->facts->buy.sent[i];
        if (trade_job < 0 || s->job != trade_job) continue;
        x.any = true;
        if (s->returned != DAY_NONE) continue;
        x.away = true;
        if (s->deposit > 0)
            x.deposit += s->deposit * fmax(facts_minor(b->facts, s->currency, b->out->currency), 0);
        if (x.sent == DAY_NONE || s->sent > x.sent) x.sent = s->sent;
        promised = promised && s->promised != DAY_NONE;
        if (promised && (x.back == DAY_NONE || back_on(b, s) > x.back)) x.back = back_on(b, s);
    }
    if (!promised) x.back = DAY_NONE;
    return x;
}

static void note_late(struct build *b, int trade_job)
{
    for (int i = 0; i < b->facts->buy.n_sent; i++) {
        const struct fact_sent *s = &b->facts->buy.sent[i];
        if (s->job != trade_job || s->returned != DAY_NONE || s->promised == DAY_NONE ||
            s->promised >= b->ask->today)
            continue;
        build_note(b,
                   "Late and away: %s, %d day%s after its promise; taken to need as long again, at "
                   "least a week. Mend with: fettle change sent %.8s promised=...",
                   s->what, b->ask->today - s->promised,
                   b->ask->today - s->promised == 1 ? "" : "s", s->id);
    }
}

void build_sent(struct build *b, int trade_job, struct project_job *to)
{
    const struct absence x = absence_of(b, trade_job);
    if (!x.any) return;
    to->needs.count = 0; /* what was sent is surely done */
    note_late(b, trade_job);
    if (x.back != DAY_NONE || !x.away) to->wait = (struct spread){0};
    to->away = x.away;
    if (x.away)
        to->away_from = ((x.back != DAY_NONE ? x.back : x.sent) - b->out->first) * MINUTES_A_DAY;
}

/* The work of a specialist on what was sent: it is done, or comes with the pieces and costs what
 * was not paid beforehand. Where the job has a wait of its own, it is that which ends with them. */
static bool sent_buy(struct build *b, const struct trade_buy *buy, int trade_job, struct absence *x)
{
    if (!x->any || !is_service(&b->t->parts[buy->part])) return false;
    if (!x->away) return true;
    const int part = add_part(b, buy->part, true);
    struct project_part *to = &b->out->project.parts[part];
    const double paid = fmin(x->deposit, to->price.middle * buy->count);
    to->price.middle -= paid / buy->count;
    x->deposit -= paid;
    if (b->t->jobs[trade_job].wait.days.middle > 0)
        to->lead = (struct spread){0};
    else if (x->back != DAY_NONE)
        to->lead = until(b, x->back);
    add_buy(b, part, buy->count);
    return true;
}

struct range build_buys(struct build *b, const struct trade_buy *parts, int n, int trade_job)
{
    struct project *p = &b->out->project;
    struct range r = {p->n_buys, 0};
    struct absence absence = absence_of(b, trade_job);
    bool *seen = ARENA_ARRAY(b->a, bool, b->facts->n_orders + 1);
    for (int i = 0; i < n; i++) {
        double want = parts[i].count;
        memset(seen, 0, (size_t)b->facts->n_orders * sizeof *seen);
        if (sent_buy(b, &parts[i], trade_job, &absence)) continue;
        for (int at; want > 0 && (at = next_pool(b, parts[i].part, seen)) >= 0;) {
            const double taken = fmin(want, b->pools[at].left);
            seen[at] = true;
            want -= taken;
            if (trade_job >= 0) b->pools[at].left -= taken;
            if (!order_is_here(&b->facts->orders[at])) add_buy(b, coming_part(b, at), taken);
        }
        if (want > 1e-9) add_buy(b, part_number(b, parts[i].part), want);
    }
    r.count = p->n_buys - r.first;
    return r;
}
