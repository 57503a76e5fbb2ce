#include "face/show/show_choose.h"
#include "face/show/show_crossed.h"
#include "face/show/words.h"

static json_t *json_points(struct points p, const char *currency)
{
    return json_pack("{s:o, s:o, s:o}", "p10", words_json_money(p.low, currency), "p50",
                     words_json_money(p.middle, currency), "p90",
                     words_json_money(p.high, currency));
}

static json_t *json_worth(const struct choose *c, const struct choose_worth *w)
{
    if (w->from == WORTH_UNKNOWN) return json_null();
    json_t *o = json_points(w->band, c->currency);
    json_object_set_new(o, "from", json_string(w->from == WORTH_SALES ? "sales" : "told"));
    if (w->told.middle > 0) json_object_set_new(o, "told", json_points(w->told, c->currency));
    return o;
}

static json_t *json_direction(const struct choose *c, const struct choose_direction *d)
{
    json_t *lost = json_array();
    for (int k = 0; k < d->direction->n_lost; k++)
        json_array_append_new(lost, json_string(d->direction->lost[k]));
    json_t *o =
        json_pack("{s:s, s:b, s:o, s:o, s:o, s:f, s:o}", "direction", d->direction->head.id,
                  "decided", d->decided, "cost", words_json_moneys(&d->cost, c->currency), "finish",
                  words_json_moments(&d->finish, c->first), "hours", words_json_numbers(&d->hours),
                  "not_finished", words_round(d->never, 4), "lost", lost);
    json_object_set_new(o, "worth", json_worth(c, &d->worth));
    if (!d->worth_known) {
        json_object_set_new(o, "net", json_null());
        json_object_set_new(o, "chance_ahead", json_null());
        json_object_set_new(o, "chance_best", json_null());
        return o;
    }
    json_object_set_new(o, "net", words_json_moneys(&d->net, c->currency));
    json_object_set_new(o, "chance_ahead", json_real(words_round(d->chance_ahead, 4)));
    json_object_set_new(o, "chance_best",
                        c->compared && d->choice >= 0
                            ? json_real(words_round(c->choices[d->choice].odds.best, 4))
                            : json_null());
    return o;
}

static json_t *json_choice(const struct choose *c, const struct choose_choice *k)
{
    return json_pack("{s:s, s:o, s:f, s:o, s:o, s:f, s:b}", "choice", k->name, "value",
                     words_json_moneys(&k->value, c->currency), "best",
                     words_round(k->odds.best, 4), "regret",
                     words_json_money(k->odds.regret, c->currency), "regret_p90",
                     words_json_money(k->odds.regret_90, c->currency), "loses",
                     words_round(k->odds.loses, 4), "dominated", k->odds.dominated);
}

static json_t *json_change(const struct choose *c, const struct choose_change *x)
{
    static const char *const what[] = {
        [CHANGE_WORTH] = "worth",           [CHANGE_BILL] = "bill",
        [CHANGE_OTHER_WORTH] = "its worth", [CHANGE_RATE] = "hour",
        [CHANGE_MONTH] = "month",           [CHANGE_KEEPING] = "original",
        [CHANGE_DRIVING] = "driving",       [CHANGE_COMPONENT] = "component"};
    json_t *o = json_pack("{s:s, s:s}", "what", what[x->what], "to", c->choices[x->to].name);
    bool chance = x->what == CHANGE_COMPONENT;
    json_object_set_new(o, "now",
                        chance ? json_real(words_round(x->now, 4))
                               : words_json_money(x->now, c->currency));
    json_object_set_new(
        o, "at", chance ? json_real(words_round(x->at, 4)) : words_json_money(x->at, c->currency));
    if (chance) json_object_set_new(o, "component", json_string(x->component));
    return o;
}

static json_t *json_comparable(const struct choose *c, const struct fact_comparable *k)
{
    return json_pack("{s:o, s:s, s:o, s:f}", "price", words_json_money(k->minor, c->currency),
                     "how", k->asked ? "asked" : "sold", "date", words_json_moment(k->date, 0),
                     "grade", k->grade);
}

static json_t *json_sign(const struct choose *c, const struct choose_sign *s)
{
    return json_pack("{s:s, s:f, s:o, s:o}", "outcome", s->id, "chance", words_round(s->chance, 4),
                     "choice", c->compared ? json_string(c->choices[s->choice].name) : json_null(),
                     "bill", words_json_money(s->bill, c->currency));
}

/* A component has `component` and `odds`; a clue `clue` and `of`. */
static json_t *json_look(const struct choose *c, const struct choose_look *l)
{
    json_t *signs = json_array();
    for (int k = 0; k < l->n_signs; k++)
        if (l->signs[k].chance > 0) json_array_append_new(signs, json_sign(c, &l->signs[k]));
    json_t *o =
        json_pack("{s:s, s:f, s:o, s:o, s:b, s:o, s:f, s:o, s:o}", l->clue ? "clue" : "component",
                  l->clue ? l->clue->head.id : l->component, "minutes", l->minutes, "worth",
                  words_json_money(l->worth.gain, c->currency), "error",
                  words_json_money(l->worth.error, c->currency), "tells", l->worth.tells, "swing",
                  words_json_money(l->swing, c->currency), "days", words_round(l->days, 2), "bill",
                  words_json_money(l->money, c->currency), "outcomes", signs);
    if (l->clue)
        json_object_set_new(o, "name", json_string(l->clue->head.name));
    else
        json_object_set_new(o, "odds", words_json_odds(l->odds));
    return o;
}

json_t *show_choose_json(const struct choose *c)
{
    json_t *directions = json_array(), *looks = json_array(), *notes = json_array();
    for (int i = 0; i < c->n_directions; i++)
        json_array_append_new(directions, json_direction(c, &c->directions[i]));
    for (int i = 0; i < c->n_looks; i++) json_array_append_new(looks, json_look(c, &c->looks[i]));
    for (int i = 0; i < c->n_notes; i++) json_array_append_new(notes, json_string(c->notes[i]));
    json_t *choices = json_array(), *changes = json_array(), *comparables = json_array();
    for (int i = 0; c->compared && i < c->n_choices; i++)
        json_array_append_new(choices, json_choice(c, &c->choices[i]));
    for (int i = 0; i < c->n_changes; i++)
        json_array_append_new(changes, json_change(c, &c->changes[i]));
    for (int i = 0; i < c->facts->n_comparables; i++)
        json_array_append_new(comparables, json_comparable(c, &c->facts->comparables[i]));
    json_t *o = json_pack("{s:s, s:I, s:i, s:o, s:o, s:o, s:o, s:o, s:o, s:o}", "vehicle",
                          c->vehicle, "seed", (json_int_t)c->seed, "runs", c->runs, "notes", notes,
                          "directions", directions, "look_next", looks, "choices", choices,
                          "changes", changes, "comparables", comparables, "crossed",
                          show_crossed_json(c->crossed, c->n_crossed, c->currency));
    json_object_set_new(o, "worth_now", json_worth(c, &c->worth_now));
    json_object_set_new(o, "spent", words_json_money(c->facts->spent, c->currency));
    json_object_set_new(o, "leads",
                        c->compared ? json_string(c->choices[c->led_by].name) : json_null());
    json_object_set_new(o, "ahead",
                        c->compared ? words_json_money(c->ahead, c->currency) : json_null());
    return o;
}
