#include "model/facts.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static const struct record_kind *kind_of(const char *name)
{
    const struct record_kind *k = record_kind_find(name);
    assert(k);
    return k;
}

static enum tri tri_of(const struct record *r, const char *field)
{
    const struct value *v = record_get(r, field);
    return !v->set ? TRI_UNKNOWN : v->integer ? TRI_YES : TRI_NO;
}

static int choice_of(const struct record *r, const char *field)
{
    const struct value *v = record_get(r, field);
    return v->set ? (int)v->integer : -1;
}

static void note_currency(struct facts *out, const char *code)
{
    if (!out->currency[0] && code && code[0]) memcpy(out->currency, code, 4);
}

static double sum_of(const struct record *r, const char *field, struct facts *out)
{
    const struct value *v = record_get(r, field);
    if (!v->set) return -1;
    note_currency(out, v->money.currency);
    return (double)v->money.minor;
}

const struct fact_finding *facts_finding(const struct facts *facts, int kind, int place)
{
    for (int i = facts->n_findings - 1; i >= 0; i--) {
        const struct fact_finding *x = &facts->findings[i];
        if (x->kind == kind && (x->place < 0 || x->place == place)) return x;
    }
    return NULL;
}

bool component_parse(const struct trade *t, const char *word, int *kind, int *place, struct fail *f)
{
    char head[128];
    const char *at = strchr(word, '@');
    size_t n = at ? (size_t)(at - word) : strlen(word);
    if (n >= sizeof head) return fail_set(f, FAIL_INPUT, "component: '%.40s...' is too long", word);
    memcpy(head, word, n);
    head[n] = 0;
    *kind = *place = -1;
    for (int i = 0; i < t->n_components && *kind < 0; i++)
        if (text_same_word(t->components[i].head.id, head) ||
            text_same_word(t->components[i].head.name, head))
            *kind = i;
    for (int i = 0; i < t->n_components && *kind < 0; i++)
        for (int k = 0; k < t->components[i].head.n_also; k++)
            if (text_same_word(t->components[i].head.also[k], head)) *kind = i;
    if (*kind < 0) {
        const char *near = trade_nearest_component(t, head);
        return near
                   ? fail_set(f, FAIL_INPUT,
                              "component: nothing is called '%s'; did you mean '%s'?", head, near)
                   : fail_set(f, FAIL_INPUT,
                              "component: nothing is called '%s'; see fettle trade list components",
                              head);
    }
    if (!at) return true;
    const struct trade_component *c = &t->components[*kind];
    for (int i = 0; i < c->n_places; i++)
        if (text_same_word(t->places[c->places[i]].head.id, at + 1)) *place = c->places[i];
    return *place >= 0 ||
           fail_set(f, FAIL_INPUT, "component: '%s' is not at '%s'; it is at '%s'%s", head, at + 1,
                    t->places[c->places[0]].head.id, c->n_places > 1 ? " and others" : "");
}

static void read_vehicle(const struct record *r, struct arena *a, struct facts *out)
{
    out->name = arena_copy(a, record_text(r, "name", "?"));
    out->rank = (int)record_integer(r, "rank", 99);
    out->year = (int)record_integer(r, "year", 0);
    for (int i = 0; i < ANSWER_COUNT; i++) {
        const char *said = record_text(r, answer_name((enum answer)i), NULL);
        out->answers[i] = said ? answer_parse((enum answer)i, said) : -1;
    }
    out->turns = tri_of(r, "turns");
    out->rolls = tri_of(r, "rolls");
    out->stops = tri_of(r, "stops");
    out->papers = choice_of(r, "papers");
    out->standing = record_number(r, "standing", -1);
}

static void read_workshop(const struct record *r, struct facts *out)
{
    out->hours_a_week = record_number(r, "hours-a-week", -1);
    out->hands = (int)record_integer(r, "hands", 0);
    out->sessions_kept = record_number(r, "sessions-kept", -1);
    out->heated = tri_of(r, "heated");
    out->bays = (int)record_integer(r, "bays", 0);
    out->own_rate = sum_of(r, "own-rate", out);
    out->price_level = record_number(r, "price-level", -1);
    note_currency(out, record_text(r, "currency", NULL));
    out->start = record_get(r, "start")->set ? record_get(r, "start")->day : DAY_NONE;
}

/* Reads all records of a kind; each is handed to `take`. */
struct reading {
    struct garage *g;
    struct arena *a;
    const struct trade *t;
    struct facts *out;
    struct fail *f;
};
typedef void take_record(struct reading *x, const struct record *r, int index);

static bool read_all(struct reading *x, const char *kind, int *count, void **array, size_t size,
                     take_record *take)
{
    struct record *records;
    const struct record_kind *k = kind_of(kind);
    if (!garage_list(x->g, x->a, k, k->of_garage ? NULL : x->out->vehicle_id, &records, count,
                     x->f))
        return false;
    if (array) *array = arena_take(x->a, (size_t)*count, size);
    for (int i = 0; i < *count; i++) take(x, &records[i], i);
    return true;
}

static void take_slot(struct reading *x, const struct record *r, int i)
{
    x->out->slots[i] =
        (struct fact_slot){choice_of(r, "weekday"), (int)record_integer(r, "from", 0),
                           (int)record_integer(r, "to", 0), (int)record_integer(r, "hands", 0)};
}

static void take_helper(struct reading *x, const struct record *r, int i)
{
    x->out->helpers[i] =
        (struct fact_helper){record_get(r, "date")->day, (int)record_integer(r, "from", 0),
                             (int)record_integer(r, "to", 0), (int)record_integer(r, "hands", 1)};
}

static void take_away(struct reading *x, const struct record *r, int i)
{
    x->out->aways[i] = (struct fact_away){record_get(r, "from")->day, record_get(r, "to")->day};
}

static void take_rate(struct reading *x, const struct record *r, int i)
{
    struct fact_rate *rate = &x->out->rates[i];
    memcpy(rate->currency, record_text(r, "currency", "   "), 4);
    memcpy(rate->per, record_text(r, "per", "   "), 4);
    rate->rate = record_number(r, "rate", 1);
    rate->date = record_get(r, "date")->day;
}

static void take_finding(struct reading *x, const struct record *r, int i)
{
    struct fact_finding *finding = &x->out->findings[i];
    struct fail ignored = {0};
    *finding = (struct fact_finding){
        .component = arena_copy(x->a, record_text(r, "component", "")),
        .condition = (enum condition)record_integer(r, "condition", COND_UNSEEN),
        .date = record_get(r, "date")->set ? record_get(r, "date")->day : DAY_NONE};
    /* A finding of something that the trade data does not know is a fact all the same. */
    if (!component_parse(x->t, finding->component, &finding->kind, &finding->place, &ignored))
        finding->kind = -1;
}

static void take_worth(struct reading *x, const struct record *r, int i)
{
    (void)i;
    int of = choice_of(r, "of");
    const struct value *v = record_get(r, "worth");
    if (of < 0 || !v->set) return;
    struct fact_worth *w = &x->out->worth[of];
    *w = (struct fact_worth){.set = true, .minor = v->points};
    memcpy(w->currency, v->money.currency, 4);
    note_currency(x->out, w->currency);
}

static void take_decision(struct reading *x, const struct record *r, int i)
{
    (void)i;
    x->out->direction = trade_find_direction(x->t, record_text(r, "direction", ""));
}

static void take_adopted(struct reading *x, const struct record *r, int i)
{
    (void)i;
    x->out->adopted_direction = trade_find_direction(x->t, record_text(r, "direction", ""));
    x->out->adopted_order = arena_copy(x->a, record_text(r, "order", ""));
}

static void take_work(struct reading *x, const struct record *r, int i)
{
    x->out->works[i] = (struct fact_work){.job = arena_copy(x->a, record_text(r, "job", "")),
                                          .minutes = record_number(r, "hours", 0) / 60,
                                          .finished = record_integer(r, "finished", 0) != 0};
}

bool order_is_here(const struct fact_order *o)
{
    return o->arrived && o->returned == DAY_NONE;
}

bool order_is_coming(const struct fact_order *o)
{
    return !o->arrived && o->returned == DAY_NONE;
}

static day day_of(const struct record *r, const char *field)
{
    const struct value *v = record_get(r, field);
    return v->set ? v->day : DAY_NONE;
}

static const char *words_of(struct reading *x, const struct record *r, const char *field)
{
    const char *s = record_text(r, field, NULL);
    return s ? arena_copy(x->a, s) : NULL;
}

static void take_order(struct reading *x, const struct record *r, int i)
{
    const struct facts_buy *buy = &x->out->buy;
    struct fact_order *o = &x->out->orders[i];
    *o = (struct fact_order){
        .name = arena_copy(x->a, record_text(r, "part", "")),
        .part = part_called(x->t, record_text(r, "part", "")),
        .arrived = record_get(r, "arrived")->set,
        .minor = sum_of(r, "price", x->out),
        .due = day_of(r, "due"),
        .id = arena_copy(x->a, r->id),
        .supplier_name = words_of(x, r, "supplier"),
        .wrong = words_of(x, r, "wrong"),
        .supplier = facts_supplier(buy, record_text(r, "supplier", NULL)),
        .quote = facts_quote(buy, record_text(r, "quote", NULL)),
        .count = record_number(r, "count", 0),
        .core = fmax(sum_of(r, "core", x->out), 0),
        .checked = tri_of(r, "checked"),
        .ordered = day_of(r, "ordered"),
        .came = day_of(r, "arrived"),
        .return_by = day_of(r, "return-by"),
        .returned = day_of(r, "returned"),
        .warranty = day_of(r, "warranty"),
        .fitted = day_of(r, "fitted"),
    };
    const struct value *price = record_get(r, "price"), *core = record_get(r, "core");
    if (price->set || core->set)
        memcpy(o->currency, (price->set ? price : core)->money.currency, sizeof o->currency);
    if (o->supplier < 0 && o->quote >= 0) o->supplier = buy->quotes[o->quote].supplier;
}

bool facts_read(struct garage *g, struct arena *a, const struct trade *t, const char *vehicle,
                struct facts *out, struct fail *f)
{
    *out = (struct facts){.vehicle_id = vehicle,
                          .hours_a_week = -1,
                          .sessions_kept = -1,
                          .own_rate = -1,
                          .price_level = -1,
                          .start = DAY_NONE,
                          .a_month = -1,
                          .ceiling = -1,
                          .reserve = -1,
                          .in_hand = -1,
                          .direction = -1,
                          .adopted_direction = -1};
    struct reading x = {g, a, t, out, f};
    struct record *r;
    int n;
    if (!garage_find(g, a, kind_of("vehicle"), vehicle, &r, f)) return false;
    read_vehicle(r, a, out);
    if (!garage_list(g, a, kind_of("purse"), NULL, &r, &n, f)) return false;
    if (n > 0) {
        out->purse = true;
        out->a_month = sum_of(&r[n - 1], "a-month", out);
        out->ceiling = sum_of(&r[n - 1], "ceiling", out);
        out->reserve = sum_of(&r[n - 1], "reserve", out);
        out->in_hand = sum_of(&r[n - 1], "in-hand", out);
    }
    if (!garage_list(g, a, kind_of("workshop"), NULL, &r, &n, f)) return false;
    if (n > 0) read_workshop(&r[n - 1], out);
    return read_all(&x, "slot", &out->n_slots, (void **)&out->slots, sizeof *out->slots,
                    take_slot) &&
           read_all(&x, "helper-day", &out->n_helpers, (void **)&out->helpers, sizeof *out->helpers,
                    take_helper) &&
           read_all(&x, "away", &out->n_aways, (void **)&out->aways, sizeof *out->aways,
                    take_away) &&
           read_all(&x, "rate", &out->n_rates, (void **)&out->rates, sizeof *out->rates,
                    take_rate) &&
           read_all(&x, "finding", &out->n_findings, (void **)&out->findings, sizeof *out->findings,
                    take_finding) &&
           read_all(&x, "worth", &n, NULL, 0, take_worth) &&
           read_all(&x, "decision", &n, NULL, 0, take_decision) &&
           read_all(&x, "adopted-plan", &n, NULL, 0, take_adopted) &&
           read_all(&x, "work", &out->n_works, (void **)&out->works, sizeof *out->works,
                    take_work) &&
           facts_buy_read(g, a, t, vehicle, &out->buy, f) &&
           read_all(&x, "order", &out->n_orders, (void **)&out->orders, sizeof *out->orders,
                    take_order) &&
           facts_setback_read(g, a, t, vehicle, &out->met, f) &&
           facts_pace_read(g, a, t, vehicle, &out->pace, f) &&
           facts_clue_read(g, a, t, vehicle, &out->past, f);
}
