#include "shop/originality.h"

#include "base/text.h"
#include "shop/marks_read.h"

#include <string.h>

struct look {
    struct arena *a;
    const struct trade *t;
    const struct facts *facts;
    const struct facts_identity *identity;
    int year_now;
};

static bool fitted(const struct look *x, int kind)
{
    return fitted_holds(&x->t->components[kind].fitted, x->facts->answers);
}

static bool changes(const struct look *x, const struct trade_change *c, int kind)
{
    for (int i = 0; i < c->n_components; i++)
        if (c->components[i] == kind) return true;
    for (int i = 0; i < c->n_systems; i++)
        if (c->systems[i] == x->t->components[kind].system) return true;
    return false;
}

/* What a kind of component becomes by a direction; -1: it stays as it is. */
static int becomes(const struct look *x, int direction, int kind)
{
    if (direction < 0) return -1;
    const struct trade_direction *d = &x->t->directions[direction];
    for (int i = 0; i < d->n_changes; i++)
        if (changes(x, &d->changes[i], kind)) return (int)d->changes[i].to;
    return -1;
}

/* The class of a component at a place; ORIGINALITY_COUNT: nobody has told. */
static enum originality class_at(const struct look *x, int kind, int place)
{
    for (int i = x->identity->n_originals - 1; i >= 0; i--) {
        const struct fact_original *o = &x->identity->originals[i];
        if (o->kind == kind && (o->place < 0 || o->place == place)) return o->class_;
    }
    return ORIGINALITY_COUNT;
}

static enum part_state kind_state(const struct look *x, int kind, unsigned classes, int direction)
{
    const struct trade_component *c = &x->t->components[kind];
    const int to = becomes(x, direction, kind);
    if (to >= 0) return classes >> to & 1 ? PART_SUITS : PART_DIFFERS;
    enum part_state state = PART_UNTOLD;
    for (int i = 0; i < c->n_places; i++) {
        const enum originality o = class_at(x, kind, c->places[i]);
        if (o == ORIGINALITY_COUNT || o == ORIGINAL_UNKNOWN) continue;
        if (!(classes >> o & 1)) return PART_DIFFERS;
        state = PART_SUITS;
    }
    return state;
}

static enum part_state part_state(const struct look *x, const struct trade_rule_part *p,
                                  int direction)
{
    enum part_state state = PART_NOT_FITTED;
    for (int i = 0; i < p->n_components; i++) {
        if (!fitted(x, p->components[i])) continue;
        const enum part_state s = kind_state(x, p->components[i], p->classes, direction);
        if (s == PART_DIFFERS) return PART_DIFFERS;
        if (state != PART_UNTOLD) state = s;
    }
    return state;
}

static struct rule_state rule_state(const struct look *x, const struct trade_rule *r, int direction)
{
    struct rule_state s = {.verdict = RULE_MEETS};
    const int age = x->facts->year > 0 ? x->year_now - x->facts->year : -1;
    if (r->age > 0 && age < r->age) s.verdict = age < 0 ? RULE_OPEN : RULE_FAILS;
    for (int i = 0; i < r->n_parts; i++) {
        const struct trade_rule_part *p = &r->parts[i];
        const enum part_state state = part_state(x, p, direction);
        if (state == PART_SUITS) s.sure += p->points;
        if (state != PART_DIFFERS && state != PART_NOT_FITTED) s.possible += p->points;
        if (p->needed && state == PART_DIFFERS) s.verdict = RULE_FAILS;
        if (p->needed && state == PART_UNTOLD && s.verdict == RULE_MEETS) s.verdict = RULE_OPEN;
    }
    if (s.possible < r->need) s.verdict = RULE_FAILS;
    if (s.sure < r->need && s.verdict == RULE_MEETS) s.verdict = RULE_OPEN;
    return s;
}

static void read_rules(const struct look *x, struct originality_answer *out)
{
    const struct trade *t = x->t;
    out->rules = ARENA_ARRAY(x->a, struct rule_read, t->n_rules);
    out->n_rules = t->n_rules;
    for (int i = 0; i < t->n_rules; i++) {
        struct rule_read *r = &out->rules[i];
        r->rule = &t->rules[i];
        r->now = rule_state(x, r->rule, -1);
        for (int d = 0; d < t->n_directions; d++) r->after[d] = rule_state(x, r->rule, d);
        r->parts = ARENA_ARRAY(x->a, enum part_state, r->rule->n_parts);
        for (int k = 0; k < r->rule->n_parts; k++)
            r->parts[k] = part_state(x, &r->rule->parts[k], -1);
        const int age = x->year_now - x->facts->year;
        if (x->facts->year > 0 && age < r->rule->age) r->years_to_go = r->rule->age - age;
    }
}

static enum rule_verdict verdict_of(const struct rule_read *r, int direction)
{
    return direction < 0 ? r->now.verdict : r->after[direction].verdict;
}

/* The rules of a scheme up to the first that surely holds, but for those that surely do not. */
static int *may_hold(const struct look *x, const struct originality_answer *out, const char *scheme,
                     int direction, int *count)
{
    int *found = ARENA_ARRAY(x->a, int, out->n_rules);
    *count = 0;
    for (int i = 0; i < out->n_rules; i++) {
        const struct rule_read *r = &out->rules[i];
        const enum rule_verdict verdict = verdict_of(r, direction);
        if (!text_is(r->rule->scheme, scheme) || verdict == RULE_FAILS) continue;
        found[(*count)++] = i;
        if (verdict == RULE_MEETS) break;
    }
    return found;
}

static void read_schemes(const struct look *x, struct originality_answer *out)
{
    out->schemes = ARENA_ARRAY(x->a, struct scheme_read, out->n_rules);
    for (int i = 0; i < out->n_rules; i++) {
        const char *name = out->rules[i].rule->scheme;
        int known = 0;
        while (known < out->n_schemes && !text_is(out->schemes[known].name, name)) known++;
        if (!name || known < out->n_schemes) continue;
        struct scheme_read *s = &out->schemes[out->n_schemes++];
        s->name = name;
        s->now = may_hold(x, out, name, -1, &s->n_now);
        for (int d = 0; d < x->t->n_directions; d++)
            s->after[d] = may_hold(x, out, name, d, &s->n_after[d]);
    }
}

static void sum_areas(const struct look *x, struct originality_answer *out)
{
    out->areas = ARENA_ARRAY(x->a, struct area, x->t->n_systems);
    for (int s = 0; s < x->t->n_systems; s++) {
        struct area area = {.system = &x->t->systems[s]};
        for (int k = 0; k < x->t->n_components; k++) {
            const struct trade_component *c = &x->t->components[k];
            if (c->system != s || !fitted(x, k)) continue;
            for (int i = 0; i < c->n_places; i++) {
                const enum originality o = class_at(x, k, c->places[i]);
                area.total++;
                if (o == ORIGINALITY_COUNT)
                    area.untold++;
                else
                    area.count[o]++;
            }
        }
        if (area.total > 0) out->areas[out->n_areas++] = area;
    }
}

static void sum_changes(const struct look *x, struct originality_answer *out)
{
    const struct trade *t = x->t;
    out->n_directions = t->n_directions;
    out->directions = ARENA_ARRAY(x->a, struct originality_direction, t->n_directions);
    for (int d = 0; d < t->n_directions; d++) {
        struct originality_direction *to = &out->directions[d];
        to->direction = &t->directions[d];
        to->n_changes = to->direction->n_changes;
        to->changes = ARENA_ARRAY(x->a, struct direction_change, to->n_changes);
        for (int i = 0; i < to->n_changes; i++) {
            struct direction_change *c = &to->changes[i];
            c->change = &to->direction->changes[i];
            for (int k = 0; k < t->n_components; k++) {
                const struct trade_component *kind = &t->components[k];
                if (!fitted(x, k) || !changes(x, c->change, k)) continue;
                for (int p = 0; p < kind->n_places; p++) {
                    const enum originality o = class_at(x, k, kind->places[p]);
                    c->originals += o == ORIGINAL;
                    c->untold += o == ORIGINALITY_COUNT || o == ORIGINAL_UNKNOWN;
                }
            }
        }
    }
}

/* What was told as its own, but bears a date that says otherwise. */
static void check_originals(const struct look *x, struct originality_answer *out)
{
    for (int i = 0; i < out->n_marks; i++) {
        const struct mark_read *m = &out->marks[i];
        const struct fact_mark *f = m->mark;
        if (f->kind < 0 || !m->book || m->date.n_candidates == 0) continue;
        if (class_at(x, f->kind, f->place) != ORIGINAL) continue;
        if (m->date.verdict == DATE_AFTER)
            conflict_add(x->a, out, false,
                         arena_print(x->a,
                                     "%s was told as original to this vehicle, but its date is "
                                     "after assembly; one of the two is wrong.",
                                     f->component));
        if (m->date.verdict == DATE_LONG_BEFORE)
            conflict_add(x->a, out, false,
                         arena_print(x->a,
                                     "%s was told as original to this vehicle, but its date lies "
                                     "long before assembly, if not after it; ask what the maker's "
                                     "stock allows.",
                                     f->component));
    }
}

bool originality_reckon(struct arena *a, const struct shop_ask *ask, struct originality_answer *out,
                        struct fail *f)
{
    struct facts *facts = ARENA_NEW(a, struct facts);
    struct facts_identity *identity = ARENA_NEW(a, struct facts_identity);
    int month, dom;
    if (!facts_read(ask->garage, a, ask->trade, ask->vehicle, facts, f) ||
        !facts_read_identity(ask->garage, a, ask->trade, ask->vehicle, identity, f))
        return false;
    *out = (struct originality_answer){.vehicle = facts->name,
                                       .trade = ask->trade,
                                       .originals = identity->originals,
                                       .n_originals = identity->n_originals};
    struct look x = {a, ask->trade, facts, identity, 0};
    day_to_civil(ask->today, &x.year_now, &month, &dom);
    marks_read(a, facts, identity, ask->today, out);
    check_originals(&x, out);
    out->loose = ARENA_ARRAY(a, const char *, identity->n_originals);
    for (int i = 0; i < identity->n_originals; i++)
        if (identity->originals[i].kind < 0)
            out->loose[out->n_loose++] = identity->originals[i].component;
    sum_areas(&x, out);
    read_rules(&x, out);
    read_schemes(&x, out);
    sum_changes(&x, out);
    return true;
}
