#include "model/override.h"

#include "model/calendar.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { SLOT_LEAST = 15, APART = 14 };

struct override override_none(void)
{
    return (struct override){.hours_a_week = -1, .start = DAY_NONE, .a_month = -1, .direction = -1};
}

bool override_is_none(const struct override *o)
{
    return o->hours_a_week < 0 && o->start == DAY_NONE && o->helpers == 0 && o->a_month < 0 &&
           o->direction < 0;
}

static int length(const struct fact_slot *s)
{
    return s->to - s->from;
}

static int by_length(const void *a, const void *b)
{
    const struct week_change *x = a, *y = b;
    int lx = length(&x->slot), ly = length(&y->slot);
    return lx != ly ? ly - lx : x->told - y->told;
}

/* Takes a time whole, cut or not at all; returns the minutes that are left. Times are told to five
 * minutes. */
static double take(struct week_change *c, double left)
{
    c->drop = left < SLOT_LEAST;
    if (c->drop) return left;
    if (length(&c->slot) > left) c->slot.to = c->slot.from + (int)(ceil(left / 5) * 5);
    return left - length(&c->slot);
}

static bool is_free(const struct facts *facts, const struct week_slot *s)
{
    for (int i = 0; i < facts->n_slots; i++) {
        const struct fact_slot *t = &facts->slots[i];
        if (t->weekday == s->weekday && t->from < s->to && s->from < t->to) return false;
    }
    return true;
}

int override_week(struct arena *a, const struct facts *facts, double hours,
                  struct week_change **out)
{
    int n = facts->n_slots, n_usual;
    const struct week_slot *usual = calendar_usual(&n_usual);
    struct week_change *all = ARENA_ARRAY(a, struct week_change, n + n_usual);
    double told = 0, left = 60 * hours;
    for (int i = 0; i < n; i++) {
        all[i] = (struct week_change){i, false, facts->slots[i]};
        told += length(&facts->slots[i]);
    }
    *out = all;
    if (told == left) return n;
    qsort(all, (size_t)n, sizeof *all, by_length);
    for (int i = 0; i < n; i++) left = take(&all[i], left);
    for (int i = 0; i < n_usual && left >= SLOT_LEAST; i++) {
        if (!is_free(facts, &usual[i])) continue;
        all[n] = (struct week_change){
            -1, false, {usual[i].weekday, usual[i].from, usual[i].to, usual[i].hands}};
        left = take(&all[n], left);
        if (!all[n].drop) n++;
    }
    return n;
}

/* Of the told week, else Saturday morning. */
static struct fact_slot longest_time(const struct facts *facts)
{
    struct fact_slot longest = {5, 9 * 60, 13 * 60, 0};
    for (int i = 0; i < facts->n_slots; i++)
        if (i == 0 || length(&facts->slots[i]) > length(&longest)) longest = facts->slots[i];
    return longest;
}

static bool is_open(const struct facts *facts, day d)
{
    for (int i = 0; i < facts->n_helpers; i++)
        if (facts->helpers[i].date == d) return false;
    for (int i = 0; i < facts->n_aways; i++)
        if (d >= facts->aways[i].from && d <= facts->aways[i].to) return false;
    return true;
}

int override_helpers(struct arena *a, const struct facts *facts, const struct override *o,
                     day today, struct fact_helper **out)
{
    enum { TRIED = 3 * HELPERS_MOST };
    struct fact_slot at = longest_time(facts);
    day start = o->start != DAY_NONE ? o->start : facts->start;
    day d = (start != DAY_NONE && start > today ? start : today) + 7;
    d += (at.weekday - day_of_week(d) + 7) % 7;
    *out = ARENA_ARRAY(a, struct fact_helper, o->helpers);
    int n = 0;
    for (int tried = 0; n < o->helpers && tried < TRIED; tried++) {
        bool open = is_open(facts, d);
        if (open) (*out)[n++] = (struct fact_helper){d, at.from, at.to, 1};
        d += open ? APART : 7;
    }
    return n;
}

struct facts override_facts(struct arena *a, const struct facts *facts, const struct override *o,
                            day today)
{
    struct facts f = *facts;
    if (o->helpers > 0) {
        struct fact_helper *more;
        int n = override_helpers(a, facts, o, today, &more);
        f.helpers = ARENA_ARRAY(a, struct fact_helper, facts->n_helpers + n);
        if (facts->n_helpers > 0)
            memcpy(f.helpers, facts->helpers, (size_t)facts->n_helpers * sizeof *f.helpers);
        if (n > 0) memcpy(f.helpers + facts->n_helpers, more, (size_t)n * sizeof *more);
        f.n_helpers = facts->n_helpers + n;
    }
    if (o->hours_a_week >= 0) {
        f.hours_a_week = o->hours_a_week;
        struct week_change *week;
        int n = facts->n_slots > 0 ? override_week(a, facts, o->hours_a_week, &week) : 0;
        f.slots = ARENA_ARRAY(a, struct fact_slot, n);
        f.n_slots = 0;
        for (int i = 0; i < n; i++)
            if (!week[i].drop) f.slots[f.n_slots++] = week[i].slot;
    }
    if (o->start != DAY_NONE) f.start = o->start;
    if (o->a_month >= 0) {
        f.purse = true;
        f.a_month = o->a_month;
        if (!f.currency[0]) memcpy(f.currency, o->currency, sizeof f.currency);
    }
    if (o->direction >= 0) f.direction = o->direction;
    return f;
}
