#include "model/facts_candidate.h"

#include "garage/kinds.h"
#include "model/facts_worth.h"

struct reading {
    const struct facts *facts;
    const char *currency;
    struct fail *f;
};

static bool rate_to(const struct reading *x, const char *field, const char *from, double *rate)
{
    *rate = facts_minor(x->facts, from, x->currency);
    if (*rate > 0) return true;
    return fail_set(x->f, FAIL_INPUT,
                    "advert.%s: is in %s, the garage reckons in %s, and no rate is known; tell it "
                    "with: fettle add rate currency=%s per=%s rate=... date=...",
                    field, from, x->currency, from, x->currency);
}

static bool read_sum(const struct reading *x, const struct record *r, const char *field,
                     double *minor)
{
    const struct value *v = record_get(r, field);
    double rate;
    *minor = -1;
    if (!v->set) return true;
    if (!rate_to(x, field, v->money.currency, &rate)) return false;
    *minor = (double)v->money.minor * rate;
    return true;
}

static bool read_remains(const struct reading *x, const struct record *r,
                         struct facts_candidate *out)
{
    const struct value *v = record_get(r, "remains");
    double rate;
    if (!v->set) return true;
    if (!rate_to(x, "remains", v->money.currency, &rate)) return false;
    out->remains_told = true;
    out->remains =
        (struct points){v->points.low * rate, v->points.middle * rate, v->points.high * rate};
    return true;
}

static bool read_serves(struct garage *g, struct arena *a, const struct record *r,
                        struct facts_candidate *out, struct fail *f)
{
    const char *name = record_text(r, "serves", NULL);
    struct record *served;
    struct fail why = {0};
    if (!name) return true;
    if (!garage_find(g, a, record_kind_find("vehicle"), name, &served, &why))
        return fail_set(f, FAIL_INPUT,
                        "advert.serves: there is no vehicle '%s'; 'fettle list vehicles' has all",
                        name);
    if (text_is(served->id, r->parents[0]) || text_is(served->id, record_text(r, "vehicle", "")))
        return fail_set(f, FAIL_INPUT,
                        "advert.serves: '%s' cannot be a parts car for itself; name another", name);
    out->serves = served->id;
    out->serves_name = record_text(served, "name", "?");
    return true;
}

static bool read_advert(struct garage *g, struct arena *a, const struct reading *x,
                        const struct record *r, struct facts_candidate *out)
{
    out->told = true;
    out->distance = record_number(r, "distance", -1);
    out->distance_typed = record_text(r, "distance", NULL);
    out->place = record_text(r, "place", NULL);
    out->seller = record_text(r, "seller", NULL);
    out->says = record_text(r, "says", NULL);
    out->date = record_get(r, "date")->set ? record_get(r, "date")->day : DAY_NONE;
    out->minutes = (int)record_integer(r, "minutes", 0);
    out->odds = record_number(r, "odds", 0);
    out->months = record_number(r, "months", -1);
    return read_sum(x, r, "asked", &out->asked) && read_sum(x, r, "carriage", &out->carriage) &&
           read_sum(x, r, "room-a-month", &out->room_a_month) && read_remains(x, r, out) &&
           read_serves(g, a, r, out, x->f);
}

static int sign_called(const struct trade *t, const char *word)
{
    for (int i = 0; i < t->n_signs; i++)
        if (text_same_word(t->signs[i].head.id, word) ||
            text_same_word(t->signs[i].head.name, word))
            return i;
    return -1;
}

bool facts_candidate_read(struct garage *g, struct arena *a, const struct trade *t,
                          const struct facts *facts, const char *currency,
                          struct facts_candidate *out, struct fail *f)
{
    struct record *r;
    int n;
    const struct reading x = {facts, currency, f};
    *out = (struct facts_candidate){.name = facts->name,
                                    .asked = -1,
                                    .carriage = -1,
                                    .room_a_month = -1,
                                    .distance = -1,
                                    .date = DAY_NONE,
                                    .months = -1};
    if (!garage_list(g, a, &kind_advert, facts->vehicle_id, &r, &n, f)) return false;
    if (n > 0 && !read_advert(g, a, &x, &r[n - 1], out)) return false;
    if (!garage_list(g, a, &kind_sign, facts->vehicle_id, &r, &n, f)) return false;
    out->signs = ARENA_ARRAY(a, struct fact_sign, n);
    for (int i = 0; i < n; i++) {
        const struct value *date = record_get(&r[i], "date");
        out->signs[out->n_signs++] = (struct fact_sign){
            sign_called(t, record_text(&r[i], "sign", "")), record_integer(&r[i], "met", 0) != 0,
            date->set ? date->day : DAY_NONE};
    }
    return true;
}
