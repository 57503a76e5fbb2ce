#include "face/show/show_fit.h"
#include "face/show/show_trade_fit.h"
#include "face/show/words.h"

#include <math.h>

static json_t *number_or_null(double x)
{
    return isnan(x) ? json_null() : json_real(words_round(x, 6));
}

static json_t *chosen_json(const struct fit *x, const struct fit_chain *c)
{
    const struct trade_option *o = &x->trade->options[x->problem.option[c->option]];
    return json_pack(
        "{s:s, s:s, s:s, s:s, s:s, s:s, s:s?}", "need", x->trade->needs[o->need].head.id, "option",
        o->head.id, "name", o->head.name, "way", option_way_name(o->way), "originality",
        originality_name(o->original), "undo", option_undo_name(o->undo), "brought_by",
        c->brought < 0 ? NULL : x->trade->options[x->problem.option[c->brought]].head.id);
}

static json_t *adapter_json(const struct fit *x, int adapter)
{
    const struct trade_option *o = &x->trade->options[x->problem.option[adapter]];
    return json_pack("{s:s, s:s, s:s}", "option", o->head.id, "name", o->head.name, "join",
                     x->trade->joins[o->adapts[0].in.join].head.id);
}

static json_t *side_json(struct arena *a, const struct fit *x, const struct fit_side *s)
{
    return json_pack("{s:s, s:s, s:s, s:b}", "of",
                     s->option >= 0 ? x->trade->options[s->option].head.id
                                    : x->trade->fittings[s->fitting].head.id,
                     "name", fit_side_words(x, s), "end", end_words(a, x->trade, &s->end),
                     "measured", s->measured != NULL);
}

static json_t *check_json(struct arena *a, const struct fit *x, int pair)
{
    const struct fit_pair *p = &x->problem.pairs[pair];
    const struct trade_join *j = &x->trade->joins[p->join];
    const char *by = NULL;
    if (p->rule >= 0) {
        const struct fit_rule *r = &x->problem.model.rules[p->rule];
        for (int i = 0; i < r->n_one_of && !by; i++)
            if (x->answer.chosen[r->one_of[i]])
                by = x->trade->options[x->problem.option[r->one_of[i]]].head.id;
    }
    return json_pack("{s:s, s:s, s:o, s:o, s:s?, s:s, s:s?, s:s?, s:o, s:o}", "check", j->head.id,
                     "verdict", join_verdict_name(p->result.verdict), "value",
                     number_or_null(p->result.value), "limit", number_or_null(p->result.limit),
                     "unit", j->unit, "mark", mark_word(j->head.mark), "source", j->head.source,
                     "closed_by", by, "gives", side_json(a, x, &p->giver), "takes",
                     side_json(a, x, &p->taker));
}

static json_t *basket_json(struct arena *a, const struct fit *x, const struct fit_basket *b)
{
    json_t *parts = json_array();
    for (int i = 0; i < b->n; i++) {
        const struct fit_buy *buy = &x->answer.buys[b->first + i];
        const struct fit_offer *o = &x->problem.model.offers[buy->offer];
        json_array_append_new(
            parts, json_pack("{s:s, s:i, s:o, s:o, s:f, s:b}", "part",
                             x->trade->parts[x->problem.part[o->part]].head.id, "count", buy->count,
                             "goods", words_json_money((double)buy->goods, x->problem.currency),
                             "core", words_json_money((double)buy->cores, x->problem.currency),
                             "lead_days", words_round(x->problem.lead[buy->offer], 1), "quoted",
                             x->problem.quote[buy->offer] != NULL));
    }
    return json_pack("{s:s, s:o, s:o}", "supplier", fit_seller_words(a, x, b->supplier), "carriage",
                     words_json_money((double)b->carriage, x->problem.currency), "parts", parts);
}

static json_t *side_by_side_json(const struct fit *x, const struct fit_side_by_side *s)
{
    return json_pack("{s:o, s:o}", "finish", words_json_moments(&s->finish, x->first), "cost",
                     words_json_moneys(&s->cost, x->problem.currency));
}

static const char *state_word(enum fit_state s)
{
    static const char *const words[] = {"proven", "found", "nothing", "unknown"};
    return words[s];
}

static json_t *clash_json(struct arena *a, const struct fit *x)
{
    json_t *all = json_array();
    for (int i = 0; i < x->clash.n; i++)
        json_array_append_new(all, json_pack("{s:s, s:b, s:b}", "what",
                                             fit_clash_words(a, x, &x->clash.members[i]), "frees",
                                             x->clash.members[i].frees, "helps_most",
                                             i == x->clash.helps_most));
    return all;
}

json_t *show_fit_json(struct arena *a, const struct fit *x)
{
    json_t *out = json_pack("{s:s, s:s, s:i, s:I, s:s, s:b}", "vehicle", x->vehicle, "direction",
                            x->trade->directions[x->direction].head.id, "runs", x->runs, "seed",
                            (json_int_t)x->seed, "state", state_word(x->answer.state), "optimal",
                            x->answer.state == FIT_PROVEN);
    if (!x->fits) {
        json_object_set_new(out, "clash", clash_json(a, x));
        json_object_set_new(out, "clash_with_all_else", json_boolean(x->clash.wide));
        return out;
    }
    const char *money = x->problem.currency;
    const struct fit_cost *c = &x->answer.cost;
    json_t *chosen = json_array(), *brought = json_array(), *checks = json_array(),
           *baskets = json_array(), *next = json_array(), *prefer = json_array(),
           *adapters = json_array();
    for (int i = 0; i < x->n_chain; i++)
        json_array_append_new(x->chain[i].depth ? brought : chosen, chosen_json(x, &x->chain[i]));
    for (int i = 0; i < x->n_adapters; i++)
        json_array_append_new(adapters, adapter_json(x, x->adapters[i]));
    for (int i = 0; i < x->n_live; i++) json_array_append_new(checks, check_json(a, x, x->live[i]));
    for (int i = 0; i < x->answer.n_baskets; i++)
        json_array_append_new(baskets, basket_json(a, x, &x->answer.baskets[i]));
    for (int i = 0; i < x->n_next; i++)
        json_array_append_new(next, words_json_money((double)x->next[i].cost.total, money));
    for (int i = 0; i < x->n_preferences; i++) {
        const struct fit_preference *p = &x->preferences[i];
        const double less = (double)(x->problem.model.options[p->option].money - p->flip.money);
        json_array_append_new(
            prefer,
            json_pack("{s:s, s:b, s:o}", "option",
                      x->trade->options[x->problem.option[p->option]].head.id, "at_a_price",
                      p->flip.flips, "less",
                      p->flip.flips ? words_json_money(fmax(less, 0), money) : json_null()));
    }
    json_object_set_new(out, "chosen", chosen);
    json_object_set_new(out, "brought", brought);
    json_object_set_new(out, "adapters", adapters);
    json_object_set_new(out, "checks", checks);
    json_object_set_new(out, "baskets", baskets);
    json_object_set_new(out, "cost",
                        json_pack("{s:o, s:o, s:o, s:o, s:o, s:o}", "total",
                                  words_json_money((double)c->total, money), "goods",
                                  words_json_money((double)c->goods, money), "carriage",
                                  words_json_money((double)c->carriage, money), "hours",
                                  words_json_money((double)c->own, money), "late",
                                  words_json_money((double)c->late, money), "originality",
                                  words_json_money((double)c->originality, money)));
    json_object_set_new(out, "bound", words_json_money((double)x->answer.bound, money));
    json_object_set_new(out, "next_best", next);
    json_object_set_new(out, "prefer", prefer);
    json_object_set_new(out, "as_is", side_by_side_json(x, &x->as_is));
    json_object_set_new(out, "with_set", side_by_side_json(x, &x->with));
    return out;
}
