#include "face/show/show_buying.h"

#include "face/show/buying_act.h"
#include "face/show/words.h"
#include "model/facts_worth.h"

#include <math.h>
#include <string.h>

/* ---- asking ---- */

static double critical_of(const json_t *plan, const char *job)
{
    const json_t *jobs = json_object_get(plan, "jobs");
    for (size_t i = 0; i < json_array_size(jobs); i++) {
        const json_t *j = json_array_get(jobs, i);
        if (text_is(json_string_value(json_object_get(j, "job")), job))
            return json_number_value(json_object_get(j, "critical"));
    }
    return 0;
}

static void take_wants(struct arena *a, const struct trade *t, const json_t *plan,
                       struct buying_vehicle *to)
{
    const json_t *orders = json_object_get(plan, "order_by");
    to->wants = ARENA_ARRAY(a, struct buying_want, json_array_size(orders));
    for (size_t i = 0; i < json_array_size(orders); i++) {
        const json_t *o = json_array_get(orders, i);
        const char *part = json_string_value(json_object_get(o, "part"));
        const char *date = json_string_value(json_object_get(o, "date"));
        struct fail ignored = {0};
        struct buying_want w = {.count = json_number_value(json_object_get(o, "count")),
                                .chance = json_number_value(json_object_get(o, "chance")),
                                .lead_days = json_number_value(json_object_get(o, "lead_days"))};
        const char *job = json_string_value(json_object_get(o, "for"));
        if (!part || !date || !day_parse(date, &w.by, &ignored)) continue;
        if ((w.part = trade_find_part(t, part)) < 0 || t->parts[w.part].from == FROM_FEE) continue;
        w.critical = job ? critical_of(plan, job) : 0;
        to->wants[to->n_wants++] = w;
    }
}

static void take_setbacks(struct arena *a, const struct trade *t, const json_t *plan,
                          struct buying_vehicle *to)
{
    const json_t *all = json_object_get(plan, "setbacks");
    to->setbacks = ARENA_ARRAY(a, struct buying_setback, json_array_size(all));
    for (size_t i = 0; i < json_array_size(all); i++) {
        const json_t *o = json_array_get(all, i);
        const char *setback = json_string_value(json_object_get(o, "setback"));
        const char *job = json_string_value(json_object_get(o, "job"));
        if (!setback || !job) continue;
        struct buying_setback s = {.setback = trade_find_setback(t, setback),
                                   .job = trade_find_job(t, job),
                                   .chance = json_number_value(json_object_get(o, "chance")),
                                   .critical = critical_of(plan, job)};
        if (s.setback >= 0 && s.job >= 0) to->setbacks[to->n_setbacks++] = s;
    }
}

/* A month sooner is told; a day is a part of it. */
static bool take_worth(struct arena *a, struct garage *g, struct buying_vehicle *to, struct fail *f)
{
    static const double DAYS_A_MONTH = 365.25 / 12;
    struct record *r;
    int n;
    if (!garage_list(g, a, record_kind_find("weights"), to->facts->vehicle_id, &r, &n, f))
        return false;
    const struct value *month = n > 0 ? record_get(&r[n - 1], "month") : NULL;
    if (month && month->set && to->facts->currency[0])
        to->day_worth = (double)month->money.minor *
                        facts_minor(to->facts, month->money.currency, to->facts->currency) /
                        DAYS_A_MONTH;
    return true;
}

bool buying_of_garage(struct arena *a, struct garage *g, const struct trade *t,
                      struct buying_plans plans, day today, struct buying *out, struct fail *f)
{
    const char **ids;
    int n;
    if (!reckoning_ranked(a, g, NULL, &ids, &n, f)) return false;
    struct buying_vehicle *vehicles = ARENA_ARRAY(a, struct buying_vehicle, n);
    for (int i = 0; i < n; i++) {
        struct facts *facts = ARENA_NEW(a, struct facts);
        struct told told;
        vehicles[i].facts = facts;
        if (!facts_read(g, a, t, ids[i], facts, f)) return false;
        vehicles[i].planned = plans.plan(plans.context, ids[i], &told, &vehicles[i].current);
        if (!take_worth(a, g, &vehicles[i], f)) return false;
        if (!vehicles[i].planned) continue;
        take_wants(a, t, told.json, &vehicles[i]);
        take_setbacks(a, t, told.json, &vehicles[i]);
        json_decref(told.json);
    }
    buying_reckon(a, t, vehicles, n, today, out);
    return true;
}

/* ---- as a sheet ---- */

/* "12.50 GBP": what is paid is told to the penny. */
static const char *price_of(struct arena *a, double minor, const char *currency)
{
    struct text t = {.arena = a};
    if (!*currency) return "?";
    struct money m = {.minor = (int64_t)llround(minor)};
    memcpy(m.currency, currency, sizeof m.currency);
    money_print(&t, m);
    return text_get(&t);
}

const char *buying_thing(const struct buying *x, const struct due *d)
{
    if (d->sent) return d->sent->what;
    return d->order->part >= 0 ? x->trade->parts[d->order->part].head.name : d->order->name;
}

static const char *days_of(struct arena *a, int n)
{
    return arena_print(a, "%d day%s", n, n == 1 ? "" : "s");
}

/* "today", "in 3 days", "4 days ago" */
static const char *when_of(struct arena *a, day d, day today)
{
    if (d == DAY_NONE) return "";
    if (d == today) return "today";
    return d > today ? arena_print(a, "in %s", days_of(a, d - today))
                     : arena_print(a, "%s ago", days_of(a, today - d));
}

static const char *away_words(struct arena *a, const struct buying *x, const struct fact_sent *s)
{
    struct text t = {.arena = a};
    const bool late = s->promised != DAY_NONE && s->promised < x->as_of;
    text_print(&t, "%s: %d away since %s",
               late ? "It is late: ask for a new day" : "Ask how it stands", s->count,
               words_date(a, s->sent));
    if (s->promised != DAY_NONE) text_print(&t, ", promised for %s", words_date(a, s->promised));
    if (s->deposit > 0)
        text_print(&t, ", %s paid beforehand", price_of(a, s->deposit, s->currency));
    if (s->tolerances) text_print(&t, "; agreed: %s", s->tolerances);
    return text_get(&t);
}

const char *buying_words(struct arena *a, const struct buying *x, const struct due *d)
{
    const bool past = d->day != DAY_NONE && d->day < x->as_of;
    switch (d->kind) {
    case DUE_RETURN:
        return arena_print(a, "Send it back: %s%s", d->order->wrong,
                           past ? ". The days for that are over: ask all the same" : "");
    case DUE_CHECK:
        return arena_print(a, "Hold it against the old part and measure it%s",
                           past                 ? "; the days to send it back are over"
                           : d->day == DAY_NONE ? ""
                                                : ", while it may still go back");
    case DUE_LATE:
        return "Ask where it is, and for a new day";
    case DUE_PIECES:
        return away_words(a, x, d->sent);
    case DUE_SHORT:
        return arena_print(a, "Only %d of %d came back: ask for the rest", d->sent->count_returned,
                           d->sent->count);
    case DUE_MEASURE:
        return arena_print(a, "Measure it against what was agreed: %s", d->sent->tolerances);
    case DUE_CORE:
        return arena_print(a, "Send the old one in: %s come back for it",
                           price_of(a, d->order->core, d->order->currency));
    case DUE_WARRANTY:
    case DUE_KINDS:
        break;
    }
    return "Its warranty runs while it lies: try it, or fit it";
}

/* "Fri 20 Nov, 5 days ago" */
const char *buying_day(struct arena *a, const struct buying *x, const struct due *d)
{
    if (d->day == DAY_NONE) return d->press == PRESS_NOW ? "now" : "no day told";
    return arena_print(a, "%s, %s", words_short_day(a, d->day), when_of(a, d->day, x->as_of));
}

/* What to do, and what to type when it is done. */
static const char *typed_of(struct arena *a, const struct buying *x, const struct due *d)
{
    struct text t = {.arena = a};
    text_print(&t, "%s.", buying_words(a, x, d));
    const char *joint = " Then: ";
    for (const struct buying_act *act = buying_acts; act->name; act++) {
        if (act->kind != d->kind) continue;
        text_print(&t, "%s%s", joint, buying_act_line(a, act, d));
        joint = ", or: ";
    }
    return text_get(&t);
}

enum tone buying_tone(enum due_press p)
{
    return p == PRESS_NOW ? TONE_BAD : p == PRESS_SOON ? TONE_CARE : TONE_PLAIN;
}

const char *buying_headline(struct arena *a, const struct buying *x)
{
    return x->n_due == 0   ? "Nothing is due: nothing to check, send back or chase."
           : x->n_now == 0 ? "Nothing presses today."
           : x->n_now == 1 ? "One thing wants doing now."
                           : arena_print(a, "%d things want doing now.", x->n_now);
}

static void say_due(struct sheet *s, const struct buying *x)
{
    struct arena *a = s->arena;
    sheet_text(s, "%s", buying_headline(a, x));
    if (x->n_due == 0) return;
    struct sheet_table *t = sheet_table(s, "What is due");
    sheet_column(s, t, "by", ALIGN_LEFT, 1);
    sheet_column(s, t, "what", ALIGN_LEFT, 1);
    sheet_column(s, t, "do", ALIGN_LEFT, 1);
    sheet_column(s, t, "from", ALIGN_LEFT, 3);
    if (x->n_vehicles > 1) sheet_column(s, t, "for", ALIGN_LEFT, 4);
    for (int i = 0; i < x->n_due; i++) {
        const struct due *d = &x->due[i];
        sheet_cell(s, t, buying_tone(d->press), "%s", buying_day(a, x, d));
        sheet_cell(s, t, TONE_PLAIN, "%s", buying_thing(x, d));
        sheet_cell(s, t, TONE_PLAIN, "%s", typed_of(a, x, d));
        sheet_cell(s, t, TONE_PLAIN, "%s", d->supplier ? d->supplier : "");
        if (x->n_vehicles > 1) sheet_cell(s, t, TONE_PLAIN, "%s", d->vehicle);
    }
}

static const char *along_words(enum along why)
{
    static const char *const words[] = {
        [ALONG_NOTHING] = "",
        [ALONG_CARRIAGE] = "earns the carriage",
        [ALONG_MINIMUM] = "reaches the least that they send",
        [ALONG_BREAK] = "reaches a lower price",
    };
    return words[why];
}

/* What is ordered along, and why; else what is short of the minimum or of free carriage. */
static void say_wanting(struct sheet *s, const struct buying *x, const struct basket *b)
{
    struct arena *a = s->arena;
    const char *missing = price_of(a, b->wanting, x->currency);
    struct text along = {.arena = a};
    const int soon = b->n_items - b->n_later;
    for (int i = soon; i < b->n_items; i++)
        text_print(&along, "%s%s",
                   i == soon             ? ""
                   : i + 1 == b->n_items ? " and "
                                         : ", ",
                   words_inside(a, b->items[i].part->head.name));
    if (b->n_later > 0)
        sheet_fact(s, TONE_GOOD, "ordered along", "%s: wanted later, and now it %s",
                   text_get(&along), along_words(b->along));
    if (b->below_minimum)
        sheet_fact(s, TONE_CARE, "too little",
                   "%s short of the least that they send; the plans want nothing else from here",
                   missing);
    else if (b->wanting > 0)
        sheet_fact(s, TONE_PLAIN, "free carriage",
                   "%s more would earn it; nothing that the plans want is worth that", missing);
}

static void say_basket(struct sheet *s, const struct buying *x, const struct basket *b)
{
    struct arena *a = s->arena;
    sheet_heading(s, 3, b->supplier->name);
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "part", ALIGN_LEFT, 1);
    sheet_column(s, t, "order by", ALIGN_LEFT, 1);
    sheet_column(s, t, "pieces", ALIGN_RIGHT, 2);
    sheet_column(s, t, "each", ALIGN_RIGHT, 3);
    sheet_column(s, t, "sum", ALIGN_RIGHT, 1);
    if (x->n_vehicles > 1) sheet_column(s, t, "for", ALIGN_LEFT, 4);
    for (int i = 0; i < b->n_items; i++) {
        const struct buying_item *item = &b->items[i];
        sheet_cell(s, t, TONE_PLAIN, "%s", item->part->head.name);
        sheet_cell(s, t, item->by < x->as_of ? TONE_CARE : TONE_PLAIN, "%s%s",
                   item->by < x->as_of ? "now" : words_short_day(a, item->by),
                   item->later ? ", along" : "");
        sheet_cell(s, t, TONE_PLAIN, "%.0f", item->count);
        sheet_cell(s, t, TONE_PLAIN, "%s", price_of(a, item->each, x->currency));
        sheet_cell(s, t, TONE_PLAIN, "%s", price_of(a, item->sum, x->currency));
        if (x->n_vehicles > 1) sheet_cell(s, t, TONE_PLAIN, "%s", item->vehicle);
    }
    sheet_fact(s, TONE_PLAIN, "goods", "%s", price_of(a, b->sum, x->currency));
    sheet_fact(s, TONE_PLAIN, "carriage", "%s",
               b->carriage > 0         ? price_of(a, b->carriage, x->currency)
               : b->usual_carriage > 0 ? "free for that sum"
                                       : "none told");
    sheet_fact(s, TONE_PLAIN, "together", "%s", price_of(a, b->sum + b->carriage, x->currency));
    say_wanting(s, x, b);
}

static const char *unquoted_words(struct arena *a, const struct buying *x)
{
    struct text t = {.arena = a};
    for (int i = 0; i < x->n_unquoted; i++)
        text_print(&t, "%s%s", i == 0 ? "" : ", ", words_inside(a, x->unquoted[i]->head.name));
    return text_get(&t);
}

void show_buying_baskets(struct sheet *s, const struct buying *x)
{
    struct arena *a = s->arena;
    sheet_heading(s, 2, "To order together");
    if (x->n_quotes == 0) {
        sheet_text(s, "No prices of a supplier are known yet.");
        sheet_link(s, "Take in a supplier's list", "quote import");
        return;
    }
    if (x->n_wanted == 0)
        sheet_text(s, "No part must be ordered within %d days, as far as the plans say.",
                   BUYING_SOON);
    for (int i = 0; i < x->n_baskets; i++) say_basket(s, x, &x->baskets[i]);
    if (x->n_unquoted > 0)
        sheet_text(s, "To be ordered within %d days, and without a quote: %s.", BUYING_SOON,
                   unquoted_words(a, x));
    if (x->n_baskets > 0)
        sheet_note(
            s, MARK_NONE,
            arena_print(a,
                        "Chosen together for the least of goods, carriage and waiting%s; the "
                        "days are those of the last plan. A day late counts as %s%s.",
                        x->proven ? ", and proven" : ", as far as it was searched",
                        price_of(a, x->late_day, x->currency),
                        x->late_assumed ? ", the usual figure" : ""),
            "");
    for (int i = 0; i < x->n_unplanned; i++)
        sheet_text(s, "%s has no plan of today's facts, so what it wants may be otherwise.",
                   x->unplanned[i]);
    for (int i = 0; i < x->n_notes; i++) sheet_text(s, "%s", x->notes[i]);
}

static const char *verdict_of(struct arena *a, const struct buying *x, const struct spare *s)
{
    const char *from = price_of(a, s->from_a_day, x->currency);
    if (s->day_worth <= 0) return arena_print(a, "pays if a day sooner is worth %s", from);
    return arena_print(a, "%s: from %s a day; yours is worth %s", s->pays ? "pays" : "does not pay",
                       from, price_of(a, s->day_worth, x->currency));
}

void show_buying_spares(struct sheet *s, const struct buying *x)
{
    struct arena *a = s->arena;
    bool untold = false;
    if (x->n_spares == 0) return;
    sheet_heading(s, 2, "Worth having on the shelf?");
    sheet_text(s, "Parts that the setbacks which the last plan fears most would want. Bought now "
                  "they save the days of waiting; if nothing happens they were for nothing.");
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "part", ALIGN_LEFT, 1);
    sheet_column(s, t, "worth it?", ALIGN_LEFT, 1);
    sheet_column(s, t, "if", ALIGN_LEFT, 2);
    sheet_column(s, t, "odds", ALIGN_RIGHT, 3);
    sheet_column(s, t, "waits", ALIGN_RIGHT, 4);
    sheet_column(s, t, "price", ALIGN_RIGHT, 2);
    for (int i = 0; i < x->n_spares; i++) {
        const struct spare *p = &x->spares[i];
        untold |= p->day_worth <= 0;
        sheet_cell(s, t, TONE_PLAIN, "%s", p->part->head.name);
        sheet_cell(s, t, p->pays ? TONE_GOOD : TONE_PLAIN, "%s", verdict_of(a, x, p));
        sheet_cell(s, t, TONE_PLAIN, "%s", p->setback->head.name);
        sheet_cell(s, t, TONE_PLAIN, "%s", words_share(a, p->odds));
        sheet_cell(s, t, TONE_PLAIN, "%s", words_days(a, p->lead));
        sheet_cell(s, t, TONE_PLAIN, "%s%s", price_of(a, p->price, x->currency),
                   p->quoted ? "" : mark_behind(a, p->part->head.mark));
    }
    sheet_note(s, MARK_PRACTICE,
               "A day of waiting counts as often as its job is on the binding chain. What lies on "
               "the shelf and is not wanted is taken as worth nothing.",
               "");
    if (untold) sheet_link(s, "Say what a month sooner is worth", "add weights month=SUM");
}

struct sheet *show_buying(struct arena *a, const struct buying *x)
{
    struct sheet *s = sheet_new(a, "Buying");
    say_due(s, x);
    show_buying_baskets(s, x);
    show_buying_spares(s, x);
    return s;
}

/* ---- as JSON ---- */

static json_t *json_day(day d)
{
    return d == DAY_NONE ? json_null() : words_json_moment(d, 0);
}

static json_t *json_due(const struct due *d)
{
    static const char *const press[] = {"now", "soon", "later"};
    return json_pack("{s:s, s:s, s:o, s:s, s:s, s:s, s:s?, s:s}", "due", due_name(d->kind), "press",
                     press[d->press], "date", json_day(d->day), "vehicle", d->vehicle, "kind",
                     d->sent ? "sent" : "order", "what", d->sent ? d->sent->what : d->order->name,
                     "supplier", d->supplier, "id", d->sent ? d->sent->id : d->order->id);
}

static json_t *json_items(const struct buying_item *items, int n, const char *currency)
{
    json_t *all = json_array();
    for (int i = 0; i < n; i++)
        json_array_append_new(
            all, json_pack("{s:s, s:s, s:s, s:f, s:o, s:o, s:o, s:b, s:b}", "part",
                           items[i].part->head.id, "vehicle", items[i].vehicle, "quote",
                           items[i].quote->id, "count", items[i].count, "each",
                           words_json_money(items[i].each, currency), "sum",
                           words_json_money(items[i].sum, currency), "date", json_day(items[i].by),
                           "along", items[i].later, "seller_chosen", items[i].chosen));
    return all;
}

static json_t *json_spares(const struct buying *x)
{
    json_t *all = json_array();
    for (int i = 0; i < x->n_spares; i++) {
        const struct spare *s = &x->spares[i];
        json_array_append_new(
            all, json_pack("{s:s, s:s, s:s, s:s, s:f, s:f, s:f, s:o, s:b, s:o, s:b}", "part",
                           s->part->head.id, "setback", s->setback->head.id, "job", s->job->head.id,
                           "vehicle", s->vehicle, "odds", words_round(s->odds, 4), "lead_days",
                           words_round(s->lead, 1), "days", words_round(s->days, 2), "price",
                           words_json_money(s->price, x->currency), "quoted", s->quoted,
                           "pays_from_a_day", words_json_money(s->from_a_day, x->currency), "pays",
                           s->pays));
    }
    return all;
}

json_t *show_buying_json(const struct buying *x)
{
    json_t *due = json_array(), *baskets = json_array(), *unplanned = json_array(),
           *notes = json_array();
    for (int i = 0; i < x->n_due; i++) json_array_append_new(due, json_due(&x->due[i]));
    for (int i = 0; i < x->n_baskets; i++) {
        const struct basket *b = &x->baskets[i];
        json_array_append_new(baskets,
                              json_pack("{s:s, s:o, s:o, s:o, s:s?, s:o, s:s}", "supplier",
                                        b->supplier->name, "items",
                                        json_items(b->items, b->n_items, x->currency), "sum",
                                        words_json_money(b->sum, x->currency), "carriage",
                                        words_json_money(b->carriage, x->currency), "short_of",
                                        b->wanting <= 0    ? NULL
                                        : b->below_minimum ? "minimum"
                                                           : "free carriage",
                                        "short", words_json_money(b->wanting, x->currency), "along",
                                        along_words(b->along)));
    }
    for (int i = 0; i < x->n_unplanned; i++)
        json_array_append_new(unplanned, json_string(x->unplanned[i]));
    for (int i = 0; i < x->n_notes; i++) json_array_append_new(notes, json_string(x->notes[i]));
    return json_pack("{s:i, s:o, s:o, s:o, s:i, s:i, s:o, s:o}", "now", x->n_now, "due", due,
                     "baskets", baskets, "spares", json_spares(x), "wanted", x->n_wanted,
                     "unquoted", x->n_unquoted, "unplanned", unplanned, "notes", notes);
}
