#include "face/show/show_view.h"

#include "face/show/show_trade.h"
#include "face/show/words.h"

#include <math.h>

const char view_walk[] = "The walk";
const char view_caution[] =
    "Nobody goes under it, not with an arm. No start, no battery and no fuel without the seller's "
    "leave and a look over pipes and wiring. Gloves: edges cut, and dust may hold asbestos.";
const char view_defer[] = "the owner, and the asbestos rules of the place";

enum { PARTS_SHOWN = 12 };

static const char *money(struct arena *a, const struct candidate *c, double minor)
{
    return words_money(a, minor, c->choose.currency);
}

const char *view_bad_words(struct arena *a, const struct candidate *c,
                           const struct candidate_stop *s)
{
    if (s->sign) return "walk away";
    const char *sign = s->meets ? "; perhaps walk away" : "";
    if (isnan(s->if_good) || isnan(s->if_bad)) return s->meets ? sign + 2 : "too little to tell";
    double less = c->best >= 0 ? s->if_good - s->if_bad : s->if_bad - s->if_good;
    if (!(less > 0)) return s->meets ? sign + 2 : "too little to tell";
    return arena_print(a, "%s %s%s", money(a, c, less),
                       c->best >= 0 ? "off the price" : "more to spend", sign);
}

/* ---- what it may cost ---- */

static void say_met(struct sheet *s, const struct candidate *c)
{
    for (int i = 0; i < c->met_count; i++) {
        const struct candidate_met *m = &c->met[i];
        sheet_caution(s,
                      arena_print(s->arena, "Walk away: %s%s%s%s. %s", m->sign->head.name,
                                  m->by ? " (" : "", m->by ? m->by : "", m->by ? ")" : "",
                                  m->sign->why),
                      m->sign->ask);
    }
}

static void say_price(struct sheet *s, const struct candidate *c)
{
    struct arena *a = s->arena;
    const char *odds = words_share(a, c->odds);
    if (c->best < 0) {
        sheet_text(s,
                   "What it is worth, as it stands and done, was not told, so no highest price can "
                   "be said. Tell it with: fettle add worth vehicle=%s of=now "
                   "worth=low/middle/high, and the same of=drive and the others.",
                   c->choose.vehicle);
        return;
    }
    const struct candidate_price *p = &c->prices[c->best];
    const char *direction = p->direction->direction->head.id;
    if (p->price > 0)
        sheet_fact(s, TONE_PLAIN, "pay at most", "%s: to '%s' it pays with %s odds",
                   money(a, c, p->price), direction, odds);
    else
        sheet_fact(s, TONE_BAD, "pay at most",
                   "nothing: not even as a gift does any direction pay with %s odds", odds);
    if (c->facts.asked >= 0)
        sheet_fact(s,
                   c->met_count > 0    ? TONE_BAD
                   : p->pays < c->odds ? TONE_CARE
                                       : TONE_GOOD,
                   "asked", "%s: pays with %s odds", money(a, c, c->facts.asked),
                   words_share(a, p->pays));
    if (c->facts.carriage >= 0)
        sheet_fact(s, TONE_PLAIN, "bringing it home", "%s", money(a, c, c->facts.carriage));
    if (c->met_count > 0)
        sheet_text(s, "These figures hold only if what is told above turns out to be nothing.");
    if (c->moved)
        sheet_text(s,
                   "The last look, %s, moved the highest price from about %s ('%s') to about %s "
                   "('%s'); told on fewer runs.",
                   c->moved_by, money(a, c, c->moved_before), c->best_before->head.id,
                   money(a, c, c->moved_after), direction);
}

static void say_advert(struct sheet *s, const struct candidate *c)
{
    const struct facts_candidate *f = &c->facts;
    sheet_heading(s, 2, "The advert");
    if (!f->told) {
        sheet_text(s,
                   "No advert was told. Tell it with: fettle add advert vehicle=%s asked=... "
                   "distance=... carriage=...",
                   f->name);
        return;
    }
    if (f->asked < 0) sheet_fact(s, TONE_CARE, "asked", "not told");
    if (f->carriage < 0) sheet_fact(s, TONE_CARE, "bringing it home", "not told, taken as nothing");
    if (f->distance_typed) sheet_fact(s, TONE_PLAIN, "distance", "%s", f->distance_typed);
    if (f->place) sheet_fact(s, TONE_PLAIN, "place", "%s", f->place);
    if (f->seller) sheet_fact(s, TONE_PLAIN, "seller", "%s", f->seller);
    if (f->date != DAY_NONE) sheet_fact(s, TONE_PLAIN, "seen", "%s", words_date(s->arena, f->date));
    if (f->says) sheet_fact(s, TONE_PLAIN, "it says", "%s", f->says);
}

static void table_prices(struct sheet *s, const struct candidate *c)
{
    struct arena *a = s->arena;
    if (c->best < 0) return;
    sheet_heading(s, 2, "The highest price, direction by direction");
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "direction", ALIGN_LEFT, 1);
    sheet_column(s, t, "highest price", ALIGN_RIGHT, 1);
    if (c->facts.asked >= 0) sheet_column(s, t, "pays as asked", ALIGN_RIGHT, 1);
    sheet_column(s, t, "net at 50 %", ALIGN_RIGHT, 3);
    for (int i = 0; i < c->choose.n_directions; i++) {
        const struct candidate_price *p = &c->prices[i];
        sheet_cell(s, t, TONE_PLAIN, "%s", p->direction->direction->head.id);
        if (!p->known)
            sheet_cell(s, t, TONE_FAINT, "worth not told");
        else if (p->price <= 0)
            sheet_cell(s, t, TONE_CARE, "at no price");
        else
            sheet_cell(s, t, TONE_PLAIN, "%s", money(a, c, p->price));
        if (c->facts.asked >= 0)
            sheet_cell(s, t, TONE_PLAIN, "%s", p->known ? words_share(a, p->pays) : "?");
        sheet_cell(s, t, TONE_PLAIN, "%s", p->known ? money(a, c, p->direction->net.p50) : "?");
    }
    sheet_text(s,
               "Left out: what else the money could do, tax and registration, the price of room, "
               "a market that moves, and what you would give for keeping it original or driving "
               "it. Worths are as you told them: after a "
               "bad look tell "
               "anew what it fetches as it stands.%s",
               c->choose.own_rate > 0 ? "" : " Your hours count nothing.");
}

/* ---- the walk ---- */

static const char *stop_name(struct arena *a, const struct candidate_stop *s)
{
    if (s->sign) return arena_print(a, "Sign: %s", s->sign->head.name);
    return s->look->kind->n_places > 1
               ? arena_print(a, "%s, %s", s->look->kind->head.name, s->place->head.name)
               : s->look->kind->head.name;
}

static void say_outings(struct sheet *s, const struct trade *t, enum outing when)
{
    for (int i = 0; i < t->n_outings; i++) {
        const struct trade_outing *o = &t->outings[i];
        if (o->when != when) continue;
        sheet_item(s, "%s: %s", o->head.name, o->text);
        show_cautions(s, t, o->cautions, o->n_cautions);
    }
}

static void table_walk(struct sheet *s, const struct candidate *c)
{
    struct arena *a = s->arena;
    sheet_heading(s, 2, view_walk);
    sheet_text(s,
               "%d looks and %d signs, %.0f of %.0f minutes%s. The looks that are worth most for "
               "their minutes, taken one by one while they fit, walked in the order of places.",
               c->looks, c->n_stops - c->looks, c->minutes, c->minutes_given,
               c->minutes_spent > 0 ? arena_print(a, ", %.0f spent", c->minutes_spent) : "");
    sheet_caution(s, view_caution, view_defer);
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "look at", ALIGN_LEFT, 1);
    sheet_column(s, t, "min", ALIGN_RIGHT, 1);
    sheet_column(s, t, "how", ALIGN_LEFT, 1);
    sheet_column(s, t, "bad means", ALIGN_LEFT, 1);
    sheet_column(s, t, "found (ring it)", ALIGN_LEFT, 5);
    for (int i = 0; i < c->n_stops; i++) {
        const struct candidate_stop *stop = &c->stops[i];
        sheet_cell(s, t, TONE_PLAIN, "%d. %s", i + 1, stop_name(a, stop));
        sheet_cell(s, t, TONE_PLAIN, "%g", stop->minutes);
        sheet_cell(s, t, TONE_FAINT, "%s", stop->seen_by);
        sheet_cell(s, t, TONE_PLAIN, "%s", view_bad_words(a, c, stop));
        sheet_cell(s, t, TONE_FAINT, "%s", stop->sign ? "no   yes" : "sound worn poor failed");
    }
    if (c->n_stops == 0) sheet_text(s, "No minute is left, or nothing to look at.");
}

/* ---- a parts car ---- */

static void say_parts(struct sheet *s, const struct candidate *c)
{
    struct arena *a = s->arena;
    const struct candidate_parts *p = c->parts;
    if (!p) return;
    sheet_heading(s, 2, arena_print(a, "As a parts car for %s", p->vehicle));
    sheet_text(s, "Net %s on average (%s to %s): parts %s, what remains %s, less the price%s.",
               money(a, c, p->net.middle), money(a, c, p->net.low), money(a, c, p->net.high),
               money(a, c, p->parts_worth),
               c->facts.remains_told ? money(a, c, c->facts.remains.middle) : "not told",
               p->room > 0 ? arena_print(a, ", carriage and %s of room", money(a, c, p->room))
                           : " and carriage; room was not told");
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "part", ALIGN_LEFT, 1);
    sheet_column(s, t, "wanted", ALIGN_RIGHT, 2);
    sheet_column(s, t, "good here", ALIGN_RIGHT, 1);
    sheet_column(s, t, "new price", ALIGN_RIGHT, 3);
    sheet_column(s, t, "worth", ALIGN_RIGHT, 1);
    for (int i = 0; i < p->n_parts && i < PARTS_SHOWN; i++) {
        const struct candidate_part *one = &p->parts[i];
        sheet_cell(s, t, TONE_PLAIN, "%s", one->part->head.name);
        sheet_cell(s, t, TONE_PLAIN, "%s", words_share(a, one->wanted));
        sheet_cell(s, t, TONE_PLAIN, "%s", words_share(a, one->good));
        sheet_cell(s, t, TONE_PLAIN, "%s", money(a, c, one->price));
        sheet_cell(s, t, TONE_PLAIN, "%s", money(a, c, one->worth));
    }
    sheet_text(s,
               "Odds that %s wants it x odds that it is sound or worn here x its usual price x %s "
               "(used), for parts that may well come off another vehicle. Left out: your hours to "
               "take it apart, that it may not fit, what breaks coming off.",
               p->vehicle, words_share(a, p->used));
}

static void say_home(struct sheet *s, const struct trade *t, const struct candidate *c)
{
    sheet_heading(s, 2, "Bringing it home");
    say_outings(s, t, OUTING_HOME);
    if (c->seized) say_outings(s, t, OUTING_SEIZED);
    if (c->brakeless) say_outings(s, t, OUTING_BRAKELESS);
    if (c->in_pieces) say_outings(s, t, OUTING_PARTS);
    sheet_note(s, MARK_PUBLISHED, "lashings: half the weight carried",
               trade_source_words(s->arena, t, "cfr-49-393"));
    sheet_note(s, MARK_PRACTICE, "the rest; the towing law of the place comes first", "");
}

struct sheet *show_view(struct arena *a, const struct trade *t, const struct candidate *c)
{
    struct sheet *s = sheet_new(a, arena_print(a, "%s: to be viewed", c->choose.vehicle));
    say_met(s, c);
    say_price(s, c);
    table_walk(s, c);
    say_advert(s, c);
    sheet_heading(s, 2, "At the viewing");
    say_outings(s, t, OUTING_VIEWING);
    table_prices(s, c);
    say_parts(s, c);
    say_home(s, t, c);
    struct sheet_why *w = sheet_why(
        s, "Why these figures?",
        "highest price = the net that the given share of runs reaches, less the carriage; net = "
        "worth when done - money still to spend - hours x own rate. A look is worth what knowing "
        "it would add to the best of walking away and the directions at the asked price; it is "
        "taken as if it told the truth, and a glance can miss",
        MARK_PRACTICE, "odds, hours and prices of the trade data; your own worths");
    sheet_why_input(s, w, "odds wanted", "%s", words_share(a, c->odds));
    sheet_why_input(s, w, "runs", "%d", c->choose.runs);
    sheet_why_input(s, w, "looks left for another day", "%d", c->left_out);
    sheet_link(s, "The directions side by side", "choose");
    return s;
}

/* ---- JSON ---- */

static json_t *json_money_or_null(const struct candidate *c, double minor, bool known)
{
    return known && isfinite(minor) ? words_json_money(minor, c->choose.currency) : json_null();
}

static json_t *json_prices(const struct candidate *c)
{
    json_t *all = json_array();
    for (int i = 0; i < c->choose.n_directions; i++) {
        const struct candidate_price *p = &c->prices[i];
        json_array_append_new(
            all,
            json_pack("{s:s, s:o, s:o}", "direction", p->direction->direction->head.id, "highest",
                      json_money_or_null(c, p->price, p->known), "pays_as_asked",
                      p->known && p->pays >= 0 ? json_real(words_round(p->pays, 4)) : json_null()));
    }
    return all;
}

static json_t *json_walk(struct arena *a, const struct candidate *c)
{
    json_t *all = json_array();
    for (int i = 0; i < c->n_stops; i++) {
        const struct candidate_stop *s = &c->stops[i];
        json_t *o =
            json_pack("{s:s, s:s, s:s, s:s, s:f, s:s, s:s}", s->sign ? "sign" : "component",
                      s->sign ? s->sign->head.id : s->look->component, "name", stop_name(a, s),
                      "place", s->lap->head.id, "place_name", s->lap->head.name, "minutes",
                      s->minutes, "seen_by", s->seen_by, "bad_means", view_bad_words(a, c, s));
        if (!s->sign)
            json_object_update_new(o,
                                   json_pack("{s:o, s:b, s:f, s:o, s:o}", "worth",
                                             words_json_money(s->worth.gain, c->choose.currency),
                                             "tells", s->worth.tells, "bad", words_round(s->bad, 4),
                                             "if_good", json_money_or_null(c, s->if_good, true),
                                             "if_bad", json_money_or_null(c, s->if_bad, true)));
        json_array_append_new(all, o);
    }
    return all;
}

static json_t *json_met(const struct candidate *c)
{
    json_t *all = json_array();
    for (int i = 0; i < c->met_count; i++)
        json_array_append_new(all, json_pack("{s:s, s:s?, s:s, s:s}", "sign",
                                             c->met[i].sign->head.id, "by", c->met[i].by, "why",
                                             c->met[i].sign->why, "ask", c->met[i].sign->ask));
    return all;
}

static json_t *json_parts(const struct candidate *c)
{
    const struct candidate_parts *p = c->parts;
    if (!p) return json_null();
    json_t *all = json_array();
    for (int i = 0; i < p->n_parts; i++)
        json_array_append_new(
            all,
            json_pack("{s:s, s:f, s:f, s:o, s:o}", "part", p->parts[i].part->head.id, "wanted",
                      words_round(p->parts[i].wanted, 4), "good", words_round(p->parts[i].good, 4),
                      "price", words_json_money(p->parts[i].price, c->choose.currency), "worth",
                      words_json_money(p->parts[i].worth, c->choose.currency)));
    return json_pack("{s:s, s:o, s:o, s:o, s:o}", "serves", p->vehicle, "parts", all, "low",
                     words_json_money(p->net.low, c->choose.currency), "middle",
                     words_json_money(p->net.middle, c->choose.currency), "high",
                     words_json_money(p->net.high, c->choose.currency));
}

json_t *show_view_json(struct arena *a, const struct trade *t, const struct candidate *c)
{
    (void)t;
    const char *best = c->best >= 0 ? c->prices[c->best].direction->direction->head.id : NULL;
    json_t *moved = c->moved ? json_pack("{s:s, s:o, s:o}", "by", c->moved_by, "before",
                                         json_money_or_null(c, c->moved_before, true), "after",
                                         json_money_or_null(c, c->moved_after, true))
                             : json_null();
    json_t *highest =
        c->best >= 0 ? json_money_or_null(c, c->prices[c->best].price, true) : json_null();
    return json_pack(
        "{s:o, s:s, s:o, s:o, s:f, s:s?, s:o, s:o, s:o, s:f, s:f, s:i, s:o, s:o, s:i, s:I}",
        "highest", highest, "vehicle", c->choose.vehicle, "asked",
        json_money_or_null(c, c->facts.asked, c->facts.asked >= 0), "carriage",
        json_money_or_null(c, c->facts.carriage, c->facts.carriage >= 0), "odds",
        words_round(c->odds, 4), "best", best, "prices", json_prices(c), "moved", moved,
        "walk_away", json_met(c), "minutes", c->minutes, "minutes_given", c->minutes_given,
        "left_out", c->left_out, "walk", json_walk(a, c), "parts_car", json_parts(c), "runs",
        c->choose.runs, "seed", (json_int_t)c->choose.seed);
}
