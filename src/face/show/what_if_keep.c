#include "face/show/what_if_keep.h"

#include <assert.h>
#include <string.h>

struct keeping {
    struct arena *a;
    const struct shop_ask *ask;
    const struct override *said;
    struct keep *out;
    struct fail *f;
};

static void add_act(struct keeping *x, struct keep_act act)
{
    struct keep *k = x->out;
    k->acts = arena_grow(x->a, k->acts, (size_t)k->count, &k->capacity, sizeof *k->acts);
    k->acts[k->count++] = act;
}

static bool list(struct keeping *x, const char *kind, struct record **out, int *n)
{
    const struct record_kind *k = record_kind_find(kind);
    assert(k);
    return garage_list(x->ask->garage, x->a, k, k->of_garage ? NULL : x->ask->vehicle, out, n,
                       x->f);
}

static const char *text_of_day(struct arena *a, day d)
{
    struct text t = {.arena = a};
    day_print(&t, d);
    return text_get(&t);
}

static const char *text_of_clock(struct arena *a, int minute)
{
    struct text t = {.arena = a};
    clock_print(&t, minute);
    return text_get(&t);
}

static bool set(struct keeping *x, struct record *r, const char *field, const char *text)
{
    return record_set(x->a, r, field, text, NULL, x->f);
}

/* Of workshop and purse only the latest counts; it is changed, or the first of its kind added. */
static bool set_latest(struct keeping *x, const char *kind, struct record **r, const char *field,
                       const char *label, const char *text)
{
    struct record *all;
    int n;
    if (!*r) {
        if (!list(x, kind, &all, &n)) return false;
        *r = n > 0 ? &all[n - 1] : record_new(x->a, record_kind_find(kind));
    }
    const char *was = arena_copy(x->a, record_text(*r, field, "not told"));
    if (!set(x, *r, field, text)) return false;
    add_act(x, (struct keep_act){
                   *(*r)->id ? KEEP_CHANGE : KEEP_ADD, *r,
                   arena_print(x->a, "%s: %s becomes %s", label, was, record_text(*r, field, ""))});
    return true;
}

static bool keep_workshop(struct keeping *x)
{
    struct record *r = NULL;
    const struct override *o = x->said;
    return (o->hours_a_week < 0 || set_latest(x, "workshop", &r, "hours-a-week", "Hours a week",
                                              arena_print(x->a, "%.10g", o->hours_a_week))) &&
           (o->start == DAY_NONE || set_latest(x, "workshop", &r, "start", "First day of work",
                                               text_of_day(x->a, o->start)));
}

static const char *time_of_week(struct arena *a, const struct fact_slot *s)
{
    return arena_print(a, "%s %s to %s", day_week_name(s->weekday), text_of_clock(a, s->from),
                       text_of_clock(a, s->to));
}

/* Records of slots lie in the order of the facts: both are the garage's own. */
static bool keep_week(struct keeping *x, const struct facts *facts)
{
    struct record *slots;
    struct week_change *week;
    int n_slots;
    if (x->said->hours_a_week < 0 || facts->n_slots == 0) return true;
    if (!list(x, "slot", &slots, &n_slots)) return false;
    assert(n_slots == facts->n_slots);
    int n = override_week(x->a, facts, x->said->hours_a_week, &week);
    for (int i = 0; i < n; i++) {
        const struct week_change *c = &week[i];
        const char *time = time_of_week(x->a, &c->slot);
        if (c->told < 0) {
            struct record *r = record_new(x->a, record_kind_find("slot"));
            if (!set(x, r, "weekday", day_week_name(c->slot.weekday)) ||
                !set(x, r, "from", text_of_clock(x->a, c->slot.from)) ||
                !set(x, r, "to", text_of_clock(x->a, c->slot.to)))
                return false;
            add_act(x, (struct keep_act){KEEP_ADD, r, arena_print(x->a, "%s is added", time)});
            continue;
        }
        struct record *r = &slots[c->told];
        const struct fact_slot *was = &facts->slots[c->told];
        if (c->drop) {
            add_act(x,
                    (struct keep_act){KEEP_REMOVE, r, arena_print(x->a, "%s is taken out", time)});
        } else if (c->slot.to != was->to) {
            if (!set(x, r, "to", text_of_clock(x->a, c->slot.to))) return false;
            add_act(x, (struct keep_act){
                           KEEP_CHANGE, r,
                           arena_print(x->a, "%s becomes %s", time_of_week(x->a, was), time)});
        }
    }
    return true;
}

static bool keep_helpers(struct keeping *x, const struct facts *facts)
{
    struct fact_helper *days;
    int n = x->said->helpers > 0 ? override_helpers(x->a, facts, x->said, x->ask->today, &days) : 0;
    for (int i = 0; i < n; i++) {
        struct record *r = record_new(x->a, record_kind_find("helper-day"));
        const char *date = text_of_day(x->a, days[i].date);
        const char *from = text_of_clock(x->a, days[i].from), *to = text_of_clock(x->a, days[i].to);
        if (!set(x, r, "date", date) || !set(x, r, "from", from) || !set(x, r, "to", to) ||
            !set(x, r, "hands", arena_print(x->a, "%d", days[i].hands)))
            return false;
        add_act(x, (struct keep_act){
                       KEEP_ADD, r,
                       arena_print(x->a, "Helper day %s, %s to %s, is added", date, from, to)});
    }
    return true;
}

static bool keep_money(struct keeping *x)
{
    struct record *r = NULL;
    if (x->said->a_month < 0) return true;
    struct text t = {.arena = x->a};
    struct money m = {.minor = (int64_t)x->said->a_month};
    memcpy(m.currency, x->said->currency, sizeof m.currency);
    money_print(&t, m);
    return set_latest(x, "purse", &r, "a-month", "Money a month", text_get(&t));
}

static bool keep_direction(struct keeping *x, const struct facts *facts)
{
    if (x->said->direction < 0) return true;
    const struct trade *t = x->ask->trade;
    const char *to = t->directions[x->said->direction].head.id;
    const char *was =
        facts->direction >= 0 ? t->directions[facts->direction].head.id : "not decided";
    struct record *r = record_new(x->a, record_kind_find("decision"));
    if (!set(x, r, "vehicle", x->ask->vehicle) || !set(x, r, "direction", to) ||
        !set(x, r, "date", text_of_day(x->a, x->ask->today)))
        return false;
    add_act(x,
            (struct keep_act){KEEP_ADD, r, arena_print(x->a, "Direction: %s becomes %s", was, to)});
    return true;
}

bool what_if_acts(struct arena *a, const struct shop_ask *ask, const struct override *said,
                  struct keep *out, struct fail *f)
{
    struct facts *facts = ARENA_NEW(a, struct facts);
    struct keeping x = {a, ask, said, out, f};
    *out = (struct keep){0};
    if (!facts_read(ask->garage, a, ask->trade, ask->vehicle, facts, f) || !keep_workshop(&x) ||
        !keep_week(&x, facts) || !keep_helpers(&x, facts) || !keep_money(&x) ||
        !keep_direction(&x, facts))
        return false;
    for (int i = 0; i < out->count; i++)
        if (out->acts[i].act != KEEP_REMOVE && !record_valid(out->acts[i].record, f)) return false;
    return true;
}

/* Two lines may be of one record; it is stored once. */
static bool was_stored(const struct keep *keep, int i)
{
    for (int k = 0; k < i; k++)
        if (keep->acts[k].record == keep->acts[i].record) return true;
    return false;
}

bool what_if_keep(struct garage *g, const struct keep *keep, struct fail *f)
{
    for (int i = 0; i < keep->count; i++) {
        const struct keep_act *x = &keep->acts[i];
        if (was_stored(keep, i)) continue;
        bool done = x->act == KEEP_ADD      ? garage_add(g, x->record, f)
                    : x->act == KEEP_CHANGE ? garage_change(g, x->record, f)
                                            : garage_remove(g, x->record->kind, x->record->id, f);
        if (!done) return false;
    }
    return true;
}
