#include "model/facts_buy.h"

#include "base/text.h"
#include "garage/kinds.h"

#include <math.h>
#include <string.h>

/* ---- names to what the trade data has ---- */

static bool is_called(const struct entry *e, const char *word)
{
    bool is = text_same_word(e->id, word) || text_same_word(e->name, word);
    for (int k = 0; k < e->n_also && !is; k++) is = text_same_word(e->also[k], word);
    return is;
}

static int entry_called(const struct trade *t, enum subject s, const char *word)
{
    int i = trade_find(t, s, word);
    for (int k = 0; k < trade_count(t, s) && i < 0; k++)
        if (is_called(trade_entry(t, s, k), word)) i = k;
    return i;
}

int part_called(const struct trade *t, const char *word)
{
    return entry_called(t, SUBJECT_PARTS, word);
}

int facts_supplier(const struct facts_buy *x, const char *word)
{
    for (int i = 0; i < x->n_suppliers && word; i++)
        if (text_is(x->suppliers[i].id, word) || text_same_word(x->suppliers[i].name, word))
            return i;
    return -1;
}

int facts_quote(const struct facts_buy *x, const char *id)
{
    for (int i = 0; i < x->n_quotes && id; i++)
        if (text_is(x->quotes[i].id, id)) return i;
    return -1;
}

/* The end at that join, on the side asked for (-1: either), NULL if there is none; *both: either
 * would do. */
static const struct trade_end *end_of(const struct trade_end *gives, int n_gives,
                                      const struct trade_end *takes, int n_takes, int join,
                                      int side, bool *is_giver, bool *both)
{
    const struct trade_end *given = NULL, *taken = NULL;
    for (int i = 0; i < n_gives && side != 1; i++)
        if (gives[i].join == join) given = &gives[i];
    for (int i = 0; i < n_takes && side != 0; i++)
        if (takes[i].join == join) taken = &takes[i];
    *is_giver = given != NULL;
    *both = given && taken;
    return given ? given : taken;
}

static const struct trade_end *end_at(const struct trade *t, const struct fact_end *e, int side,
                                      bool *is_giver, bool *both)
{
    *is_giver = *both = false;
    if (e->fitting >= 0) {
        const struct trade_fitting *x = &t->fittings[e->fitting];
        return end_of(x->gives, x->n_gives, x->takes, x->n_takes, e->end.join, side, is_giver,
                      both);
    }
    if (e->option < 0) return NULL;
    const struct trade_option *x = &t->options[e->option];
    return end_of(x->gives, x->n_gives, x->takes, x->n_takes, e->end.join, side, is_giver, both);
}

/* ---- reading ---- */

struct reading {
    struct arena *a;
    const struct trade *t;
    struct facts_buy *out;
};

static const char *words_of(struct arena *a, const struct record *r, const char *field)
{
    const char *s = record_text(r, field, NULL);
    return s ? arena_copy(a, s) : NULL;
}

static day day_of(const struct record *r, const char *field)
{
    const struct value *v = record_get(r, field);
    return v->set ? v->day : DAY_NONE;
}

static double sum_of(const struct record *r, const char *field, double fallback, char currency[4])
{
    const struct value *v = record_get(r, field);
    if (!v->set) return fallback;
    memcpy(currency, v->money.currency, 4);
    return (double)v->money.minor;
}

static void take_supplier(struct reading *x, const struct record *r)
{
    struct fact_supplier *s = &x->out->suppliers[x->out->n_suppliers++];
    *s = (struct fact_supplier){.id = arena_copy(x->a, r->id),
                                .name = arena_copy(x->a, record_text(r, "name", "?")),
                                .promised_days = (int)record_integer(r, "promised-days", -1),
                                .note = words_of(x->a, r, "note")};
    s->carriage = sum_of(r, "carriage", 0, s->currency);
    s->carriage_free = sum_of(r, "carriage-free", -1, s->currency);
    s->minimum = sum_of(r, "minimum", 0, s->currency);
}

static bool alike(const struct fact_quote *a, const struct fact_quote *b)
{
    return a->supplier == b->supplier && a->from_count == b->from_count &&
           (a->part >= 0 ? a->part == b->part : text_same_word(a->name, b->name));
}

static void take_quote(struct reading *x, const struct record *r)
{
    struct fact_quote q = {.id = arena_copy(x->a, r->id),
                           .name = arena_copy(x->a, record_text(r, "part", "")),
                           .supplier = facts_supplier(x->out, record_text(r, "supplier", NULL)),
                           .from_count = (int)record_integer(r, "from-count", 1),
                           .lead_told = record_get(r, "lead")->set,
                           .return_days = (int)record_integer(r, "return-days", -1),
                           .date = day_of(r, "date"),
                           .note = words_of(x->a, r, "note")};
    q.part = part_called(x->t, q.name);
    if (q.lead_told) q.lead = record_get(r, "lead")->points;
    q.minor = sum_of(r, "price", -1, q.currency);
    if (q.minor < 0) return; /* a private price that was not handed on */
    q.core = sum_of(r, "core", 0, q.currency);
    for (int i = 0; i < x->out->n_quotes; i++)
        if (alike(&x->out->quotes[i], &q)) x->out->quotes[i].stale = true;
    x->out->quotes[x->out->n_quotes++] = q;
}

static void take_choice(struct reading *x, const struct record *r)
{
    struct fact_choice c = {.need_name = arena_copy(x->a, record_text(r, "need", "")),
                            .option_name = arena_copy(x->a, record_text(r, "option", "")),
                            .why = words_of(x->a, r, "why"),
                            .date = day_of(r, "date")};
    c.need = entry_called(x->t, SUBJECT_NEEDS, c.need_name);
    c.option = entry_called(x->t, SUBJECT_OPTIONS, c.option_name);
    for (int i = 0; i < x->out->n_choices; i++)
        if ((*c.need_name ? text_same_word(x->out->choices[i].need_name, c.need_name)
                          : text_same_word(x->out->choices[i].option_name, c.option_name)) ||
            (c.need >= 0 && x->out->choices[i].need == c.need)) {
            x->out->choices[i] = c;
            return;
        }
    x->out->choices[x->out->n_choices++] = c;
}

static void take_seller(struct reading *x, const struct record *r)
{
    const struct fact_seller s = {part_called(x->t, record_text(r, "part", "")),
                                  facts_supplier(x->out, record_text(r, "supplier", NULL))};
    if (s.part < 0 || s.supplier < 0) return;
    for (int i = 0; i < x->out->n_sellers; i++)
        if (x->out->sellers[i].part == s.part) {
            x->out->sellers[i] = s;
            return;
        }
    x->out->sellers[x->out->n_sellers++] = s;
}

static void read_end(struct arena *a, const struct trade *t, const struct record *r,
                     struct fact_end *e)
{
    *e = (struct fact_end){
        .of = arena_copy(a, record_text(r, "of", "")),
        .join_name = arena_copy(a, record_text(r, "join", "")),
        .how = words_of(a, r, "how"),
        .note = words_of(a, r, "note"),
        .date = day_of(r, "date"),
        .end = {.least = record_number(r, "least", NAN), .most = record_number(r, "most", NAN)},
    };
    e->fitting = entry_called(t, SUBJECT_FITTINGS, e->of);
    e->option = e->fitting >= 0 ? -1 : entry_called(t, SUBJECT_OPTIONS, e->of);
    e->end.join = entry_called(t, SUBJECT_JOINS, e->join_name);
    if (e->end.join < 0) return;
    /* Where ends are one figure, one is enough, however it was told. */
    enum join_rule rule = t->joins[e->end.join].rule;
    const char *is = words_of(a, r, "is");
    if (rule == JOIN_SAME) e->end.is = is;
    if (rule != JOIN_NEAR) return;
    double figure;
    if (is && text_to_double(is, &figure)) e->end.least = e->end.most = figure;
    if (isnan(e->end.least)) e->end.least = e->end.most;
    if (isnan(e->end.most)) e->end.most = e->end.least;
}

static void take_end(struct reading *x, const struct record *r)
{
    struct fact_end e;
    const struct value *side = record_get(r, "end");
    bool both;
    read_end(x->a, x->t, r, &e);
    end_at(x->t, &e, side->set ? (int)side->integer : -1, &e.gives, &both);
    if (side->set) e.gives = side->integer == 0;
    for (int i = 0; i < x->out->n_ends; i++) {
        const struct fact_end *o = &x->out->ends[i];
        if (text_same_word(o->of, e.of) && text_same_word(o->join_name, e.join_name) &&
            o->gives == e.gives) {
            x->out->ends[i] = e;
            return;
        }
    }
    x->out->ends[x->out->n_ends++] = e;
}

static void take_sent(struct reading *x, const struct record *r)
{
    struct fact_sent *s = &x->out->sent[x->out->n_sent++];
    *s = (struct fact_sent){.id = arena_copy(x->a, r->id),
                            .what = arena_copy(x->a, record_text(r, "what", "")),
                            .job_name = words_of(x->a, r, "job"),
                            .tolerances = words_of(x->a, r, "tolerances"),
                            .measured = words_of(x->a, r, "measured"),
                            .photo = words_of(x->a, r, "photo"),
                            .supplier = facts_supplier(x->out, record_text(r, "supplier", NULL)),
                            .job = -1,
                            .count = (int)record_integer(r, "count", 1),
                            .count_returned = (int)record_integer(r, "count-returned", -1),
                            .sent = day_of(r, "sent"),
                            .promised = day_of(r, "promised"),
                            .chase = day_of(r, "chase"),
                            .returned = day_of(r, "returned")};
    if (s->job_name) s->job = entry_called(x->t, SUBJECT_JOBS, s->job_name);
    s->deposit = sum_of(r, "deposit", 0, s->currency);
}

bool facts_buy_read(struct garage *g, struct arena *a, const struct trade *t, const char *vehicle,
                    struct facts_buy *out, struct fail *f)
{
    *out = (struct facts_buy){0};
    struct reading x = {a, t, out};
    const struct {
        const struct record_kind *kind;
        void **array;
        size_t size;
        void (*take)(struct reading *x, const struct record *r);
    } kinds[] = {
        {&kind_supplier, (void **)&out->suppliers, sizeof *out->suppliers, take_supplier},
        {&kind_quote, (void **)&out->quotes, sizeof *out->quotes, take_quote},
        {&kind_choice, (void **)&out->choices, sizeof *out->choices, take_choice},
        {&kind_measured, (void **)&out->ends, sizeof *out->ends, take_end},
        {&kind_sent, (void **)&out->sent, sizeof *out->sent, take_sent},
        {&kind_seller, (void **)&out->sellers, sizeof *out->sellers, take_seller},
    };
    for (size_t k = 0; k < sizeof kinds / sizeof *kinds; k++) {
        struct record *r;
        int n;
        if (!garage_list(g, a, kinds[k].kind, vehicle, &r, &n, f)) return false;
        *kinds[k].array = arena_take(a, (size_t)n, kinds[k].size);
        for (int i = 0; i < n; i++) kinds[k].take(&x, &r[i]);
    }
    return true;
}

/* ---- before a record is stored ---- */

/* A field's word becomes the id of what it names. */
static bool settle_name(struct arena *a, const struct trade *t, struct record *r, const char *field,
                        enum subject s, int *index, struct fail *f)
{
    const char *word = record_text(r, field, NULL);
    *index = -1;
    if (!word) return true; /* record_valid says that it is missing */
    *index = entry_called(t, s, word);
    if (*index >= 0) return record_set(a, r, field, trade_entry(t, s, *index)->id, NULL, f);
    const char *near = trade_nearest(t, s, word);
    return fail_set(f, FAIL_INPUT, "%s.%s: nothing is called '%.60s'; %s%s%s", r->kind->name, field,
                    word, near ? "did you mean '" : "see fettle trade list ",
                    near ? near : subject_name(s), near ? "'?" : "");
}

static bool settle_choice(struct arena *a, const struct trade *t, struct record *r, struct fail *f)
{
    int need, option;
    if (!settle_name(a, t, r, "need", SUBJECT_NEEDS, &need, f) ||
        !settle_name(a, t, r, "option", SUBJECT_OPTIONS, &option, f))
        return false;
    /* An adapter meets no need; any other option says which. */
    if (need < 0 && option >= 0 && t->options[option].need >= 0)
        return record_set(a, r, "need", t->needs[t->options[option].need].head.id, NULL, f);
    if (need < 0 || option < 0 || t->options[option].need == need) return true;
    struct text ways = {.arena = a};
    for (int i = 0; i < t->n_options; i++)
        if (t->options[i].need == need)
            text_print(&ways, "%s%s", *text_get(&ways) ? ", " : "", t->options[i].head.id);
    return fail_set(f, FAIL_INPUT, "choice.option: '%s' does not meet '%s'; use one of %.400s",
                    t->options[option].head.id, t->needs[need].head.id, text_get(&ways));
}

/* What the join counts in, and what was told. */
static bool settle_figures(const struct record *r, const struct trade_join *join, struct fail *f)
{
    const struct value *is = record_get(r, "is");
    bool figures = record_get(r, "least")->set || record_get(r, "most")->set;
    double figure;
    if (join->rule == JOIN_SAME)
        return (is->set && !figures) ||
               fail_set(f, FAIL_INPUT,
                        "measured.is: at '%s' ends are one word (%s); give it as is=...",
                        join->head.id, join->gives);
    if (join->rule == JOIN_INSIDE && is->set)
        return fail_set(f, FAIL_INPUT,
                        "measured.is: at '%s' ends reach from a least to a most, in %s; give "
                        "least=... or most=..., or both",
                        join->head.id, join->unit);
    return !is->set || text_to_double(is->text, &figure) ||
           fail_set(f, FAIL_INPUT, "measured.is: '%.60s' is no figure; give one in %s", is->text,
                    join->unit);
}

static bool settle_measured(struct arena *a, const struct trade *t, struct record *r,
                            struct fail *f)
{
    const struct value *side = record_get(r, "end");
    bool gives, both;
    struct fact_end e;
    int join;
    if (!record_text(r, "of", NULL) || !record_text(r, "join", NULL)) return true;
    read_end(a, t, r, &e);
    if (e.fitting < 0 && e.option < 0) {
        const char *fitting = trade_nearest(t, SUBJECT_FITTINGS, e.of);
        const char *near = fitting ? fitting : trade_nearest(t, SUBJECT_OPTIONS, e.of);
        return fail_set(f, FAIL_INPUT,
                        "measured.of: no fitting and no option is called '%.60s'; %s%s%s", e.of,
                        near ? "did you mean '" : "see fettle trade list fittings",
                        near ? near : "", near ? "'?" : "");
    }
    const char *id = e.fitting >= 0 ? t->fittings[e.fitting].head.id : t->options[e.option].head.id;
    if (!record_set(a, r, "of", id, NULL, f) ||
        !settle_name(a, t, r, "join", SUBJECT_JOINS, &join, f))
        return false;
    if (!end_at(t, &e, side->set ? (int)side->integer : -1, &gives, &both))
        return fail_set(f, FAIL_INPUT, "measured.join: '%s' %s nothing at '%s'", id,
                        side->set ? side->text : "gives and takes", t->joins[join].head.id);
    if (both)
        return fail_set(f, FAIL_INPUT,
                        "measured.end: '%s' both gives and takes at '%s'; say end=gives or "
                        "end=takes",
                        id, t->joins[join].head.id);
    return settle_figures(r, &t->joins[join], f);
}

bool facts_buy_settles(const struct record_kind *k)
{
    return k == &kind_quote || k == &kind_sent || k == &kind_choice || k == &kind_measured ||
           k == &kind_seller;
}

bool facts_buy_settle(struct arena *a, const struct trade *t, struct record *r, struct fail *f)
{
    int index;
    if (r->kind == &kind_quote || r->kind == &kind_seller)
        return settle_name(a, t, r, "part", SUBJECT_PARTS, &index, f);
    if (r->kind == &kind_sent) return settle_name(a, t, r, "job", SUBJECT_JOBS, &index, f);
    if (r->kind == &kind_choice) return settle_choice(a, t, r, f);
    if (r->kind == &kind_measured) return settle_measured(a, t, r, f);
    return true;
}
