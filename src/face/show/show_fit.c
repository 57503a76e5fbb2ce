#include "face/show/show_fit.h"

#include "face/show/show_trade.h"
#include "face/show/show_trade_fit.h"
#include "face/show/words.h"

#include <math.h>

enum { DEEPEST = 6, SHOWN = 4 };

static const struct trade_option *option_of(const struct fit *x, int option)
{
    return &x->trade->options[x->problem.option[option]];
}

/* A wish for an option is answered by its own chain alone. */
static bool in_focus(const struct fit *x, int option)
{
    if (x->wish.wanted < 0) return true;
    for (int i = 0; i < x->n_chain; i++) {
        if (x->chain[i].option != option) continue;
        const struct fit_chain *c = &x->chain[i];
        while (c->brought >= 0)
            for (int k = 0; k < x->n_chain; k++)
                if (x->chain[k].option == c->brought) {
                    c = &x->chain[k];
                    break;
                }
        return x->problem.option[c->option] == x->wish.wanted;
    }
    return false;
}

static bool side_in_focus(const struct fit *x, const struct fit_side *s)
{
    return s->option >= 0 && in_focus(x, x->problem.option_of[s->option]);
}

static bool pair_in_focus(const struct fit *x, const struct fit_pair *p)
{
    return x->wish.wanted < 0 || side_in_focus(x, &p->giver) || side_in_focus(x, &p->taker);
}

/* An adapter belongs to the pairs that it closes. */
static bool adapter_in_focus(const struct fit *x, int adapter)
{
    for (int i = 0; i < x->n_live; i++) {
        const struct fit_pair *p = &x->problem.pairs[x->live[i]];
        if (p->rule < 0 || !pair_in_focus(x, p)) continue;
        const struct fit_rule *r = &x->problem.model.rules[p->rule];
        for (int k = 0; k < r->n_one_of; k++)
            if (r->one_of[k] == adapter) return true;
    }
    return false;
}

static const char *need_name(const struct fit *x, int need)
{
    return x->trade->needs[x->problem.need[need]].head.name;
}

const char *fit_side_words(const struct fit *x, const struct fit_side *side)
{
    if (side->option >= 0) return x->trade->options[side->option].head.name;
    return x->trade->components[x->trade->fittings[side->fitting].component].head.name;
}

const char *fit_seller_words(struct arena *a, const struct fit *x, int supplier)
{
    const struct fit_seller *s = &x->problem.sellers[supplier];
    return s->supplier >= 0        ? x->facts->buy.suppliers[s->supplier].name
           : s->from == FROM_COUNT ? "ordered already"
                                   : arena_print(a, "the usual: %s", part_from_name(s->from));
}

/* ---- what was chosen ---- */

/* The option's share of its parts' price; what comes from two sellers is told at their mean. */
static double goods_of(const struct fit *x, int option)
{
    const struct fit_option *o = &x->problem.model.options[option];
    double sum = 0;
    for (int i = 0; i < o->n_takes; i++) {
        double goods = 0, count = 0;
        for (int k = 0; k < x->answer.n_buys; k++) {
            const struct fit_buy *b = &x->answer.buys[k];
            if (x->problem.model.offers[b->offer].part != o->takes[i].part) continue;
            goods += (double)b->goods;
            count += b->count;
        }
        if (count > 0) sum += goods / count * o->takes[i].count;
    }
    return sum;
}

static bool brings_others(const struct fit *x, const struct fit_chain *c)
{
    if (c->depth > 0 || x->problem.option[c->option] == x->wish.wanted) return true;
    for (int i = 0; i < x->n_chain; i++)
        if (x->chain[i].brought == c->option) return true;
    return false;
}

/* What an option costs and does, after the cell that says what it is for. */
static void option_cells(struct sheet *s, struct sheet_table *t, const struct fit *x, int option)
{
    const struct trade_option *o = option_of(x, option);
    sheet_cell(s, t, TONE_PLAIN, "%s", o->head.name);
    sheet_cell(s, t, TONE_PLAIN, "%s",
               o->n_parts ? words_money(s->arena, goods_of(x, option), x->problem.currency)
                          : "none");
    sheet_cell(s, t, TONE_PLAIN, "%s",
               o->hours.high > 0 ? words_hours(s->arena, o->hours.middle) : "none");
    sheet_cell(s, t, TONE_PLAIN, "%s", originality_name(o->original));
    sheet_cell(s, t, o->undo == UNDO_NO ? TONE_CARE : TONE_PLAIN, "%s", undo_words(o->undo));
}

static void chain_table(struct sheet *s, const struct fit *x, bool that_brings)
{
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "need", ALIGN_LEFT, 1);
    sheet_column(s, t, "met by", ALIGN_LEFT, 1);
    sheet_column(s, t, "parts", ALIGN_RIGHT, 1);
    sheet_column(s, t, "hours", ALIGN_RIGHT, 2);
    sheet_column(s, t, "then it is", ALIGN_LEFT, 3);
    sheet_column(s, t, "can be undone", ALIGN_LEFT, 4);
    for (int i = 0; i < x->n_chain; i++) {
        const struct fit_chain *c = &x->chain[i];
        if (brings_others(x, c) != that_brings || !in_focus(x, c->option)) continue;
        const int depth = c->depth < DEEPEST ? c->depth : DEEPEST;
        sheet_cell(s, t, TONE_PLAIN, "%.*s%s%s", 2 * depth, "            ", depth ? "> " : "",
                   need_name(x, c->need));
        option_cells(s, t, x, c->option);
    }
    if (!that_brings) sheet_behind(s, t, "%d needs, one by one", sheet_table_rows(t));
    for (int i = 0; that_brings && i < x->n_adapters; i++) {
        const struct trade_option *o = option_of(x, x->adapters[i]);
        if (!adapter_in_focus(x, x->adapters[i])) continue;
        sheet_cell(s, t, TONE_PLAIN, "> closes: %s",
                   x->trade->joins[o->adapts[0].in.join].head.name);
        option_cells(s, t, x, x->adapters[i]);
    }
}

static bool any_brings(const struct fit *x)
{
    for (int i = 0; i < x->n_chain; i++)
        if (brings_others(x, &x->chain[i])) return true;
    return x->n_adapters > 0;
}

static void show_kept(struct sheet *s, const struct fit *x)
{
    bool first = true;
    for (int i = 0; i < x->n_chain; i++) {
        const struct trade_option *o = option_of(x, x->chain[i].option);
        if (!o->keep || !in_focus(x, x->chain[i].option)) continue;
        if (first) sheet_heading(s, 2, "Keep of the old");
        first = false;
        sheet_item(s, "%s", o->keep);
    }
}

/* Each caution once on the sheet; said: by caution of trade data. */
static void caution_once(struct sheet *s, const struct fit *x, bool *said, const int *cautions,
                         int count)
{
    for (int k = 0; k < count; k++) {
        if (!said[cautions[k]]) show_cautions(s, x->trade, &cautions[k], 1);
        said[cautions[k]] = true;
    }
}

/* Beside the acts that can hurt someone. */
static void show_dangers(struct sheet *s, const struct fit *x, bool *said)
{
    for (int i = 0; i < x->n_chain + x->n_adapters; i++) {
        const bool adapter = i >= x->n_chain;
        if (adapter ? !adapter_in_focus(x, x->adapters[i - x->n_chain])
                    : !brings_others(x, &x->chain[i]) || !in_focus(x, x->chain[i].option))
            continue;
        const struct trade_option *o =
            option_of(x, adapter ? x->adapters[i - x->n_chain] : x->chain[i].option);
        caution_once(s, x, said, o->cautions, o->n_cautions);
    }
}

/* ---- numbers that must agree ---- */

static bool closed_by(const struct fit *x, const struct fit_pair *pair, const char **by)
{
    if (pair->rule < 0) return false;
    const struct fit_rule *r = &x->problem.model.rules[pair->rule];
    for (int i = 0; i < r->n_one_of; i++)
        if (x->answer.chosen[r->one_of[i]]) {
            *by = option_of(x, r->one_of[i])->head.name;
            return true;
        }
    return false;
}

static void show_checks(struct sheet *s, const struct fit *x, bool *said)
{
    struct arena *a = s->arena;
    bool *told = ARENA_ARRAY(a, bool, x->trade->n_joins + 1);
    int shown = 0;
    for (int i = 0; i < x->n_live; i++) shown += pair_in_focus(x, &x->problem.pairs[x->live[i]]);
    if (shown == 0) return;
    sheet_heading(s, 2, "Numbers that must agree");
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "check", ALIGN_LEFT, 1);
    sheet_column(s, t, "gives", ALIGN_LEFT, 1);
    sheet_column(s, t, "takes", ALIGN_LEFT, 1);
    sheet_column(s, t, "verdict", ALIGN_LEFT, 1);
    sheet_column(s, t, "mark", ALIGN_LEFT, 5);
    for (int i = 0; i < x->n_live; i++) {
        const struct fit_pair *p = &x->problem.pairs[x->live[i]];
        const char *by = NULL;
        if (!pair_in_focus(x, p)) continue;
        static const enum tone tones[JOIN_VERDICTS] = {TONE_GOOD, TONE_CARE, TONE_BAD, TONE_CARE};
        sheet_cell(s, t, TONE_PLAIN, "%s", x->trade->joins[p->join].head.name);
        sheet_cell(s, t, TONE_PLAIN, "%s: %s", fit_side_words(x, &p->giver),
                   end_words(a, x->trade, &p->giver.end));
        sheet_cell(s, t, TONE_PLAIN, "%s: %s", fit_side_words(x, &p->taker),
                   end_words(a, x->trade, &p->taker.end));
        if (p->result.verdict == JOIN_MISFIT && closed_by(x, p, &by))
            sheet_cell(s, t, TONE_GOOD, "closed by %s", by);
        else
            sheet_cell(s, t, tones[p->result.verdict], "%s", join_verdict_name(p->result.verdict));
        sheet_cell(s, t, TONE_PLAIN, "%s", mark_word(x->trade->joins[p->join].head.mark));
    }
    for (int i = 0; i < x->n_live; i++) {
        const struct fit_pair *p = &x->problem.pairs[x->live[i]];
        const struct trade_join *j = &x->trade->joins[p->join];
        const char *by = NULL;
        if (p->result.verdict == JOIN_FITS || closed_by(x, p, &by) || !pair_in_focus(x, p))
            continue;
        if (!told[p->join]) sheet_fact(s, TONE_CARE, j->head.name, "else: %s", j->misfit);
        told[p->join] = true;
    }
    for (int i = 0; i < x->trade->n_joins; i++) {
        const struct trade_join *j = &x->trade->joins[i];
        if (told[i]) caution_once(s, x, said, j->cautions, j->n_cautions);
    }
}

static void measure(struct sheet *s, const struct fit *x, const struct fit_pair *p,
                    const struct fit_side *side, bool gives)
{
    const struct trade_join *j = &x->trade->joins[p->join];
    sheet_fact(s, TONE_CARE, arena_print(s->arena, "%s, %s", fit_side_words(x, side), j->head.name),
               "%s; then: fettle add measured of=%s join=%s end=%s %s=...", j->measure,
               side->option >= 0 ? x->trade->options[side->option].head.id
                                 : x->trade->fittings[side->fitting].head.id,
               j->head.id, gives ? "gives" : "takes", j->rule == JOIN_SAME ? "is" : "most");
}

/* What is open is a thing to measure before anything is bought, each end once. */
static void show_open(struct sheet *s, const struct fit *x)
{
    bool first = true;
    for (int side = 0; side < 2; side++)
        for (int i = 0; i < x->n_live; i++) {
            const struct fit_pair *p = &x->problem.pairs[x->live[i]];
            const struct fit_side *end = side ? &p->taker : &p->giver;
            if (!(side ? p->result.measure_taker : p->result.measure_giver) || !pair_in_focus(x, p))
                continue;
            bool before = false;
            for (int k = 0; k < i && !before; k++) {
                const struct fit_pair *q = &x->problem.pairs[x->live[k]];
                const struct fit_side *other = side ? &q->taker : &q->giver;
                before = q->join == p->join && other->option == end->option &&
                         other->fitting == end->fitting;
            }
            if (before) continue;
            if (first) sheet_heading(s, 2, "Measure before you buy");
            first = false;
            measure(s, x, p, end, !side);
        }
}

/* ---- buying ---- */

static void show_baskets(struct sheet *s, const struct fit *x)
{
    struct arena *a = s->arena;
    if (x->answer.n_baskets == 0) return;
    sheet_heading(s, 2, "Orders");
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "from", ALIGN_LEFT, 1);
    sheet_column(s, t, "part", ALIGN_LEFT, 1);
    sheet_column(s, t, "count", ALIGN_RIGHT, 2);
    sheet_column(s, t, "price", ALIGN_RIGHT, 1);
    sheet_column(s, t, "days to come", ALIGN_RIGHT, 3);
    for (int b = 0; b < x->answer.n_baskets; b++) {
        const struct fit_basket *k = &x->answer.baskets[b];
        for (int i = 0; i < k->n; i++) {
            const struct fit_buy *buy = &x->answer.buys[k->first + i];
            const struct fit_offer *o = &x->problem.model.offers[buy->offer];
            sheet_cell(s, t, TONE_PLAIN, "%s", i == 0 ? fit_seller_words(a, x, k->supplier) : "");
            sheet_cell(s, t, TONE_PLAIN, "%s", x->trade->parts[x->problem.part[o->part]].head.name);
            sheet_cell(s, t, TONE_PLAIN, "%d", buy->count);
            sheet_cell(s, t, TONE_PLAIN, "%s",
                       words_money(a, (double)(buy->goods + buy->cores), x->problem.currency));
            sheet_cell(s, t, TONE_PLAIN, "%s", words_days(a, x->problem.lead[buy->offer]));
        }
        sheet_cell(s, t, TONE_PLAIN, "%s", "");
        sheet_cell(s, t, TONE_FAINT, "carriage of this order");
        sheet_cell(s, t, TONE_PLAIN, "%s", "");
        sheet_cell(s, t, TONE_FAINT, "%s",
                   k->carriage ? words_money(a, (double)k->carriage, x->problem.currency) : "none");
        sheet_cell(s, t, TONE_PLAIN, "%s", "");
    }
    sheet_behind(s, t, "%d orders, part by part", x->answer.n_baskets);
}

static void show_cost(struct sheet *s, const struct fit *x)
{
    struct arena *a = s->arena;
    const struct fit_cost *c = &x->answer.cost;
    const char *money = x->problem.currency;
    sheet_fact(s, TONE_PLAIN, "parts", "%s, and %s carriage for %d order%s",
               words_money(a, (double)c->goods, money), words_money(a, (double)c->carriage, money),
               x->answer.n_baskets, x->answer.n_baskets == 1 ? "" : "s");
    if (c->cores > 0)
        sheet_fact(s, TONE_PLAIN, "paid and given back", "%s, with the old parts",
                   words_money(a, (double)c->cores, money));
    if (c->own > 0)
        sheet_fact(s, TONE_PLAIN, "hours, and what they delay, count as", "%s",
                   words_money(a, (double)c->own, money));
    if (c->late > 0)
        sheet_fact(s, TONE_CARE, "waiting for parts counts as", "%s, at %s a late day%s",
                   words_money(a, (double)c->late, money), words_money(a, x->late_day, money),
                   x->late_assumed ? ", the usual figure" : "");
    if (x->answer.state == FIT_PROVEN)
        sheet_fact(s, TONE_GOOD, "how sure", "no set costs less at these prices (proven)");
    else
        sheet_fact(s, TONE_CARE, "how sure", "within %s of the best; the search ended first",
                   words_money(a, (double)(c->total - x->answer.bound), money));
    if (x->without >= 0)
        sheet_fact(s, TONE_PLAIN, "more than without it", "%s, all told",
                   words_money(a, (double)(c->total - x->without), money));
    const struct fit_side_by_side *b = &x->as_is, *w = &x->with;
    sheet_fact(s, TONE_PLAIN, "the plan as it is", "%s at 50 %%, %s at 80 %%; %s at 50 %%",
               words_moment(a, x->first, b->finish.p50), words_moment(a, x->first, b->finish.p80),
               words_money(a, b->cost.p50, money));
    sheet_fact(s, TONE_PLAIN, "with this set", "%s at 50 %%, %s at 80 %%; %s at 50 %%",
               words_moment(a, x->first, w->finish.p50), words_moment(a, x->first, w->finish.p80),
               words_money(a, w->cost.p50, money));
}

/* ---- what else ---- */

/* What the best set takes for the need of this option; NULL: nothing. */
static const struct trade_option *instead_of(const struct fit *x, int option)
{
    const struct fit_model *m = &x->problem.model;
    for (int i = 0; i < m->n_options; i++)
        if (x->answer.chosen[i] && m->options[i].need == m->options[option].need)
            return option_of(x, i);
    return NULL;
}

static void show_next(struct sheet *s, const struct fit *x)
{
    enum { TOLD = 4 };
    struct arena *a = s->arena;
    if (x->n_next == 0) return;
    sheet_heading(s, 2, "The next best sets");
    for (int n = 0; n < x->n_next; n++) {
        struct text t = {.arena = a};
        int told = 0;
        for (int i = 0; i < x->problem.model.n_options; i++) {
            if (!x->next[n].chosen[i] || x->answer.chosen[i] ||
                x->problem.model.options[i].need < 0 || told++ >= TOLD)
                continue;
            const struct trade_option *old = instead_of(x, i);
            text_print(&t, "%s%s%s%s", told > 1 ? "; " : "", option_of(x, i)->head.name,
                       old ? ", in place of: " : "", old ? old->head.name : "");
        }
        sheet_item(s, "%s more: %s%s",
                   words_money(a, (double)(x->next[n].cost.total - x->answer.cost.total),
                               x->problem.currency),
                   told ? text_get(&t) : "fewer parts", told > TOLD ? "; and others" : "");
    }
}

static double less_of(const struct fit *x, const struct fit_preference *p)
{
    return p->flip.flips ? (double)(x->problem.model.options[p->option].money - p->flip.money)
                         : (double)INFINITY;
}

/* The nearest first; the rest are asked for by name. */
static void show_preferences(struct sheet *s, const struct fit *x)
{
    enum { TOLD = 8 };
    struct arena *a = s->arena;
    if (x->n_preferences == 0) {
        if (x->wish.prefer >= 0)
            sheet_text(s, "%s: %s.", x->trade->options[x->wish.prefer].head.name,
                       x->problem.option_of[x->wish.prefer] < 0 ? "not for this vehicle as it is"
                                                                : "it is in the best set already");
        return;
    }
    bool *told = ARENA_ARRAY(a, bool, x->n_preferences);
    sheet_heading(s, 2, "What it would take to prefer");
    for (int k = 0; k < x->n_preferences && k < TOLD; k++) {
        int best = -1;
        for (int i = 0; i < x->n_preferences; i++)
            if (!told[i] &&
                (best < 0 || less_of(x, &x->preferences[i]) < less_of(x, &x->preferences[best])))
                best = i;
        told[best] = true;
        const struct fit_preference *p = &x->preferences[best];
        const struct trade_option *o = option_of(x, p->option);
        const double less = less_of(x, p);
        if (!p->flip.flips)
            sheet_fact(s, TONE_PLAIN, o->head.name, "at no price: something in it does not fit");
        else if (less <= 0)
            sheet_fact(s, TONE_PLAIN, o->head.name, "nothing: it costs as little");
        else
            sheet_fact(s, TONE_PLAIN, o->head.name, "%s%s less, with all that it brings",
                       p->flip.proven ? "" : "about ", words_money(a, less, x->problem.currency));
    }
    if (x->n_preferences > TOLD)
        sheet_text(s,
                   "%d more would have to become cheaper still; ask for one by: fettle fit "
                   "--prefer OPTION",
                   x->n_preferences - TOLD);
}

/* ---- nothing fits ---- */

static const char *rule_words(struct arena *a, const struct fit *x, int rule)
{
    const int tag = x->problem.model.rules[rule].tag;
    if (tag >= FIT_TAG_CONFLICT)
        return arena_print(a, "%s goes with nothing that it conflicts with",
                           x->trade->options[tag - FIT_TAG_CONFLICT].head.name);
    if (tag >= FIT_TAG_REQUIRES)
        return arena_print(a, "%s wants what it requires",
                           x->trade->options[tag - FIT_TAG_REQUIRES].head.name);
    const struct fit_pair *p = &x->problem.pairs[tag];
    return arena_print(a, "%s: %s gives %s, %s takes %s", x->trade->joins[p->join].head.name,
                       fit_side_words(x, &p->giver), end_words(a, x->trade, &p->giver.end),
                       fit_side_words(x, &p->taker), end_words(a, x->trade, &p->taker.end));
}

const char *fit_clash_words(struct arena *a, const struct fit *x, const struct fit_clash_member *m)
{
    const struct fit_model *model = &x->problem.model;
    switch (m->kind) {
    case FIT_NEED:
        return arena_print(a, "it needs %s", need_name(x, m->which));
    case FIT_RULE:
        return rule_words(a, x, m->which);
    case FIT_LIMIT:
        return arena_print(
            a, "no more than %s may be spent",
            words_money(a, (double)model->limits[m->which].most, x->problem.currency));
    case FIT_HELD:
        return arena_print(a, "it was decided: %s", option_of(x, m->which)->head.name);
    case FIT_IRREVERSIBLE:
        return "nothing that cannot be undone";
    case FIT_PART:
        return arena_print(a, "%s is sold as it was quoted",
                           x->trade->parts[x->problem.part[m->which]].head.name);
    case FIT_LEAST_ORDER:
        return arena_print(a, "%s sends no smaller order", fit_seller_words(a, x, m->which));
    }
    return "";
}

/* Prices are facts, and many: they are told in one line. */
static void show_clash(struct sheet *s, const struct fit *x)
{
    struct arena *a = s->arena;
    struct text parts = {.arena = a};
    int n = 0;
    sheet_text(s, "Nothing fits. These cannot all hold:");
    for (int i = 0; i < x->clash.n; i++) {
        const struct fit_clash_member *m = &x->clash.members[i];
        if (m->kind != FIT_PART)
            sheet_item(s, "%s", fit_clash_words(a, x, m));
        else if (n++ < SHOWN)
            text_print(&parts, "%s%s", n > 1 ? ", " : "",
                       x->trade->parts[x->problem.part[m->which]].head.name);
    }
    if (n > SHOWN) text_print(&parts, " and %d more", n - SHOWN);
    if (n > 0) sheet_item(s, "what these cost: %s", text_get(&parts));
    if (x->clash.wide) sheet_item(s, "all else that the plan needs, with its prices");
    if (x->clash.helps_most < 0) {
        sheet_text(s, "Leaving one of them out does not help alone.");
        return;
    }
    const struct fit_clash_member *m = &x->clash.members[x->clash.helps_most];
    sheet_fact(s, TONE_GOOD, "helps most", "give up: %s", fit_clash_words(a, x, m));
    if (m->kind == FIT_LIMIT)
        sheet_fact(s, TONE_PLAIN, "by", "%s more at least",
                   words_money(a, (double)m->raise, x->problem.currency));
}

struct sheet *show_fit(struct arena *a, const struct fit *x)
{
    struct sheet *s = sheet_new(a, arena_print(a, "Fit: %s", x->vehicle));
    bool *said = ARENA_ARRAY(a, bool, x->trade->n_cautions + 1);
    if (x->wish.wanted >= 0)
        sheet_text(s, "With %s, and what it brings; the whole set is told by: fettle fit",
                   x->trade->options[x->wish.wanted].head.name);
    sheet_text(s,
               "What '%s' needs in half the cases or more, met at the least money, waiting and "
               "originality together.",
               x->trade->directions[x->direction].head.name);
    if (!x->fits) {
        if (x->answer.state == FIT_NOTHING)
            show_clash(s, x);
        else
            sheet_text(s, "The search ended before a set was found; ask for less at once.");
        return s;
    }
    show_cost(s, x);
    if (any_brings(x)) {
        sheet_heading(s, 2, "What brings others");
        chain_table(s, x, true);
    }
    show_open(s, x);
    show_checks(s, x, said);
    show_dangers(s, x, said);
    if (x->wish.wanted < 0) {
        sheet_heading(s, 2, "What is met by itself");
        chain_table(s, x, false);
    }
    show_kept(s, x);
    if (x->wish.wanted < 0) {
        show_baskets(s, x);
        show_next(s, x);
        show_preferences(s, x);
    }
    for (int i = 0; i < x->problem.n_notes; i++) sheet_text(s, "%s", x->problem.notes[i]);
    sheet_note(s, MARK_PRACTICE,
               "prices and leads of what was not quoted, carriage of usual sellers, points of "
               "originality by class",
               "");
    sheet_link(s, "Adopt this set: the plan then reckons with it", "fit adopt");
    return s;
}
