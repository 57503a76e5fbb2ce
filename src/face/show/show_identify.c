#include "face/show/show_identify.h"

#include "face/show/show_choose.h"
#include "face/show/show_trade.h"
#include "face/show/words.h"

#include <math.h>

const char identify_caution[] =
    "Nothing is measured under a vehicle that stands on a jack. Play is measured before anything "
    "is "
    "greased, dirt photographed before it is washed off. Plates, rivets and numbers stay as they "
    "are: read and photograph them, no more.";
const char identify_defer[] = "the registration authority, for anything about numbers";

const char identify_miles_heading[] = "How far it ran";
const char identify_next_heading[] = "The clue worth taking next";
const char identify_more_heading[] = "What would tell most for its minutes";

enum { NEXT_SHOWN = 3 };
static const double SHOWN_LEAST = 0.005, HARDLY = 1, LEANS = 3, SPEAKS = 6;

static const char *const turn_words[MILEAGE_TURNS_MOST + 1] = {"first",  "second", "third",
                                                               "fourth", "fifth",  "sixth"};

/* What is claimed, to stand after "that". */
static const char *claim_words(struct arena *a, const struct identify_claim *c)
{
    switch (c->of) {
    case CLUE_OF_IDENTITY:
        return "it is the vehicle that plates and papers say";
    case CLUE_OF_ORIGINALITY:
        return "it is in the main as it left the works";
    case CLUE_OF_CLOCK:
        return "its clock was never changed or set back";
    default:
        break;
    }
    if (c->miles > 0) return arena_print(a, "it ran less than %s miles", words_miles(a, c->miles));
    switch (c->story) {
    case STORY_TRUE:
        return arena_print(a, "its clock is true and in its %s turn", turn_words[c->turns]);
    case STORY_CHANGED:
        return "its clock was changed or set back";
    case STORY_STOOD:
        return "its clock stood still for some years";
    default:
        return "no clock tells of it";
    }
}

static const char *story_words(struct arena *a, const struct identify_story *s)
{
    switch (s->story) {
    case STORY_TRUE:
        return s->turns == 0 ? "as the clock reads"
                             : arena_print(a, "true, in its %s turn", turn_words[s->turns]);
    case STORY_CHANGED:
        return "clock changed or set back";
    case STORY_STOOD:
        return "clock stood still for some years";
    default:
        return "no clock is known";
    }
}

static const char *reading_words(struct arena *a, const struct identify *x)
{
    const struct fact_clock *c = &x->facts->past.clock;
    if (!c->told) return "not told yet";
    return arena_print(a, "%0*.0f %s, a clock of %d figures%s", x->past.digits, c->reading,
                       c->km ? "km" : "miles", x->past.digits,
                       c->working == 1   ? ", working"
                       : c->working == 0 ? ", not working"
                                         : "");
}

static const char *odds_of_claim(struct arena *a, const struct identify_claim *c)
{
    return arena_print(a, "%s%s", words_odds(a, c->share), c->told ? "" : ", before any clue");
}

static void show_first(struct sheet *s, const struct identify *x)
{
    struct arena *a = s->arena;
    const char *odds = words_odds(a, x->claim.share);
    if (x->past.known && x->claim.story == STORY_NO_CLOCK)
        sheet_text(s,
                   "About %s miles, eight in ten between %s and %s; what its clock reads is not "
                   "told yet.",
                   words_miles(a, x->miles.p50), words_miles(a, x->miles.p10),
                   words_miles(a, x->miles.p90));
    else if (x->past.known && x->claim.share >= 0.5)
        sheet_text(s, "%c%s that %s: %s%s miles.", odds[0] - 'a' + 'A', odds + 1,
                   claim_words(a, &x->claim), x->claim.story == STORY_TRUE ? "" : "about ",
                   words_miles(a, x->stories[0].miles));
    else if (x->past.known)
        sheet_text(s, "Likeliest, at %s, is that %s: %s%s miles. Nothing is settled.",
                   words_share(a, x->claim.share), claim_words(a, &x->claim),
                   x->claim.story == STORY_TRUE ? "" : "about ",
                   words_miles(a, x->stories[0].miles));
    else
        sheet_text(s,
                   "Nothing tells yet how far it ran; vehicles used as long ran %s miles as often "
                   "less as more. Begin with what the clock reads.",
                   words_miles(a, x->past.usual));
    sheet_fact(s, TONE_PLAIN, "clock", "%s", reading_words(a, x));
    sheet_fact(s, TONE_PLAIN, "miles", "%s; eight in ten between %s and %s",
               words_miles(a, x->miles.p50), words_miles(a, x->miles.p10),
               words_miles(a, x->miles.p90));
    sheet_fact(s, TONE_PLAIN, "what plates and papers say", "%s", odds_of_claim(a, &x->identity));
    sheet_fact(s, TONE_PLAIN, "as it left the works", "%s", odds_of_claim(a, &x->original));
    sheet_caution(s, identify_caution, identify_defer);
}

/* Named, and not averaged away. */
static void show_conflicts(struct sheet *s, const struct identify *x)
{
    if (x->n_conflicts == 0 && x->falls < 0 && !x->past.mileage.impossible &&
        !x->past.miles.weighed.impossible)
        return;
    sheet_heading(s, 2, "What does not fit together");
    if (x->falls >= 0) {
        const struct mileage_paper *p = x->past.ask.papers + x->falls;
        sheet_item(s,
                   "Papers fall from %.0f to %.0f miles: in between the clock turned over or was "
                   "changed, or one of them is wrong.",
                   p[-1].reading, p[0].reading);
    }
    for (int i = 0; i < x->n_conflicts; i++) {
        const struct identify_conflict *c = &x->conflicts[i];
        if (c->cluster)
            sheet_item(s, "%s: hardly ever seen so, whatever the truth. Look again.",
                       c->cluster->head.name);
        else if (!c->other)
            sheet_item(s,
                       "%s against all else: what the other clues say makes it %.0f times rarer. "
                       "It misleads, or something was changed.",
                       c->one->head.name, pow(10, c->decibans / 10));
        else
            sheet_item(s,
                       "%s against %s: together %.0f times rarer than each by itself. One of them "
                       "misleads, or something was changed.",
                       c->one->head.name, c->other->head.name, pow(10, c->decibans / 10));
    }
    if (x->past.mileage.impossible || x->past.miles.weighed.impossible)
        sheet_item(s, "No story fits all that was told of the miles; they are left at the usual.");
}

static void show_miles(struct sheet *s, const struct identify *x)
{
    struct arena *a = s->arena;
    double most = 0;
    sheet_heading(s, 2, identify_miles_heading);
    for (int i = 0; i < IDENTIFY_BINS; i++) most = fmax(most, x->bin[i]);
    double end = ceil(most * 10) / 10;
    struct sheet_chart *c = sheet_chart(s, CHART_BARS, "Odds by miles", "%", 0, "0", end,
                                        arena_print(a, "%.0f", end * 100));
    for (int i = 0; i < IDENTIFY_BINS; i++) {
        if (x->bin[i] < SHOWN_LEAST) continue;
        bool last = i == IDENTIFY_BINS - 1;
        sheet_chart_row(
            s, c,
            (struct chart_row){
                .label = last ? arena_print(a, "over %.0f thousand", i * x->bin_width / 1000)
                              : arena_print(a, "%.0f to %.0f thousand", i * x->bin_width / 1000,
                                            (i + 1) * x->bin_width / 1000),
                .text = words_share(a, x->bin[i]),
                .middle = x->bin[i],
                .high = x->bin[i]});
    }
    if (!x->past.ask.clock) return;
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "what the clock did", ALIGN_LEFT, 1);
    sheet_column(s, t, "odds", ALIGN_RIGHT, 1);
    sheet_column(s, t, "miles then", ALIGN_RIGHT, 1);
    for (int i = 0; i < x->n_stories; i++) {
        if (x->stories[i].share < SHOWN_LEAST) continue;
        sheet_cell(s, t, TONE_PLAIN, "%s", story_words(a, &x->stories[i]));
        sheet_cell(s, t, TONE_PLAIN, "%s", words_share(a, x->stories[i].share));
        sheet_cell(s, t, TONE_PLAIN, "%s%s", x->stories[i].story == STORY_TRUE ? "" : "about ",
                   words_miles(a, x->stories[i].miles));
    }
}

/* ---- clues ---- */

static const char *push_words(double decibans)
{
    double size = fabs(decibans);
    if (size < HARDLY) return "says next to nothing";
    if (size < LEANS) return decibans > 0 ? "leans for it" : "leans against it";
    if (size < SPEAKS) return decibans > 0 ? "speaks for it" : "speaks against it";
    return decibans > 0 ? "speaks strongly for it" : "speaks strongly against it";
}

static const struct identify_claim *claim_for(const struct identify *x, enum clue_of of)
{
    return of == CLUE_OF_IDENTITY      ? &x->identity
           : of == CLUE_OF_ORIGINALITY ? &x->original
           : of == CLUE_OF_CLOCK       ? &x->untouched
                                       : &x->less;
}

static void show_clues(struct sheet *s, const struct identify *x)
{
    struct arena *a = s->arena;
    if (x->n_clues == 0) return;
    sheet_heading(s, 2, "Clues so far, and what each says");
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "clue", ALIGN_LEFT, 1);
    sheet_column(s, t, "showed", ALIGN_LEFT, 1);
    sheet_column(s, t, "is it so that ...", ALIGN_LEFT, 1);
    sheet_column(s, t, "this clue", ALIGN_LEFT, 1);
    for (int i = 0; i < x->n_clues; i++) {
        const struct identify_clue *c = &x->clues[i];
        sheet_cell(s, t, TONE_PLAIN, "%s", c->clue->head.name);
        sheet_cell(s, t, TONE_PLAIN, "%s%s%s", c->outcome->text, c->fact->value ? ": " : "",
                   c->fact->value ? c->fact->value : "");
        sheet_cell(s, t, TONE_FAINT, "%s", claim_words(a, claim_for(x, c->of)));
        sheet_cell(s, t, TONE_PLAIN, "%s", push_words(c->decibans));
    }
    struct sheet_why *w = sheet_why(
        s, "Why so much?",
        "decibans: ten times the logarithm of how much the odds change with this clue. Ten is ten "
        "to one, three is two to one. Clues of one cluster share a cause, which is summed out.",
        MARK_PRACTICE, "trade data of clues and clusters");
    for (int i = 0; i < x->n_clues; i++)
        sheet_why_input(s, w, x->clues[i].clue->head.name, "%+.1f decibans", x->clues[i].decibans);
    for (int i = 0; i < x->n_clues; i++)
        if (x->clues[i].fact->before > 0)
            sheet_item(s, "%s was told %d times: the latest counts.", x->clues[i].clue->head.name,
                       x->clues[i].fact->before + 1);
}

static const char *minutes_words(struct arena *a, double minutes)
{
    return minutes == 1 ? "1 minute" : arena_print(a, "%g minutes", minutes);
}

static void show_first_next(struct sheet *s, const struct identify *x,
                            const struct identify_next *n)
{
    const struct trade_clue *c = n->clue;
    struct arena *a = s->arena;
    sheet_heading(s, 3, arena_print(a, "%s, %s", c->head.name, minutes_words(a, c->minutes)));
    sheet_text(s, "%s", c->how);
    show_cautions(s, x->trade, c->cautions, c->n_cautions);
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "if it shows", ALIGN_LEFT, 1);
    sheet_column(s, t, "odds of that", ALIGN_RIGHT, 1);
    sheet_column(s, t, arena_print(a, "then that %s", claim_words(a, claim_for(x, n->of))),
                 ALIGN_RIGHT, 1);
    const bool chosen = n->look && x->choose->compared;
    if (chosen) sheet_column(s, t, "choose", ALIGN_LEFT, 1);
    for (int o = 0; o < c->n_outcomes; o++) {
        sheet_cell(s, t, TONE_PLAIN, "%s", c->outcomes[o].text);
        sheet_cell(s, t, TONE_PLAIN, "%s", words_share(a, n->chance[o]));
        sheet_cell(s, t, TONE_PLAIN, "%s", words_share(a, n->claim_after[o]));
        if (chosen)
            sheet_cell(s, t, TONE_PLAIN, "%s", x->choose->choices[n->look->signs[o].choice].name);
    }
    if (n->look && n->look->worth.tells)
        sheet_fact(s, TONE_PLAIN, "could save", "%s",
                   words_money(a, n->look->worth.gain, x->choose->currency));
    if (n->look && n->look->swing > 0)
        sheet_fact(s, TONE_PLAIN, "could swing the bill", "by %s",
                   words_money(a, n->look->swing, x->choose->currency));
    sheet_fact(s, TONE_FAINT, "tool", "%s", c->tool);
    sheet_fact(s, TONE_FAINT, "misleads", "%s", c->misleads);
}

/* The lowest and the highest to which it could bring the claim. */
static const char *swing_words(struct arena *a, const struct identify *x,
                               const struct identify_next *n)
{
    double low = 1, high = 0;
    for (int o = 0; o < n->clue->n_outcomes; o++) {
        low = fmin(low, n->claim_after[o]);
        high = fmax(high, n->claim_after[o]);
    }
    return arena_print(a, "from %s to %s or %s", words_share(a, claim_for(x, n->of)->share),
                       words_share(a, low), words_share(a, high));
}

/* Of miles three, of numbers and origin one each: the most a minute first. */
static bool is_shown(const struct identify *x, int next, int *miles, int *identity, int *original)
{
    int *shown = x->next[next].of == CLUE_OF_IDENTITY      ? identity
                 : x->next[next].of == CLUE_OF_ORIGINALITY ? original
                                                           : miles;
    return ++*shown <= (shown == miles ? NEXT_SHOWN : 1);
}

static void show_next(struct sheet *s, const struct identify *x)
{
    struct arena *a = s->arena;
    int miles = 0, identity = 0, original = 0;
    if (x->n_next == 0) return;
    sheet_heading(s, 2, identify_next_heading);
    show_first_next(s, x, &x->next[0]);
    sheet_heading(s, 2, identify_more_heading);
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "clue", ALIGN_LEFT, 1);
    sheet_column(s, t, "takes", ALIGN_RIGHT, 1);
    sheet_column(s, t, "the odds that ...", ALIGN_LEFT, 2);
    sheet_column(s, t, "could go", ALIGN_LEFT, 1);
    const bool saves = x->choose && x->choose->any_tells;
    sheet_column(s, t, "could save", ALIGN_RIGHT, saves ? 1 : 4);
    sheet_column(s, t, "could swing the bill by", ALIGN_RIGHT, saves ? 4 : 1);
    for (int i = 0; i < x->n_next; i++) {
        const struct identify_next *n = &x->next[i];
        if (!is_shown(x, i, &miles, &identity, &original)) continue;
        sheet_cell(s, t, TONE_PLAIN, "%s", n->clue->head.name);
        sheet_cell(s, t, TONE_PLAIN, "%s", minutes_words(a, n->clue->minutes));
        sheet_cell(s, t, TONE_FAINT, "%s", claim_words(a, claim_for(x, n->of)));
        sheet_cell(s, t, TONE_PLAIN, "%s", swing_words(a, x, n));
        sheet_cell(s, t, TONE_PLAIN, "%s",
                   n->look && n->look->worth.tells
                       ? words_money(a, n->look->worth.gain, x->choose->currency)
                       : "-");
        sheet_cell(s, t, TONE_PLAIN, "%s",
                   n->look && n->look->swing > 0
                       ? words_money(a, n->look->swing, x->choose->currency)
                       : "-");
    }
}

struct sheet *show_identify(struct arena *a, const struct identify *x)
{
    struct sheet *s = sheet_new(a, arena_print(a, "%s: what it really is", x->vehicle));
    show_first(s, x);
    show_conflicts(s, x);
    show_miles(s, x);
    show_clues(s, x);
    for (int i = 0; i < x->facts->past.n_clues; i++)
        if (x->facts->past.clues[i].clue < 0)
            sheet_item(s,
                       "The clue '%s' with '%s' is kept; the trade data knows no such clue or "
                       "outcome.",
                       x->facts->past.clues[i].name, x->facts->past.clues[i].outcome_name);
    if (x->past.papers_left > 0)
        sheet_item(s, "The %d oldest papers are kept, but too many to be weighed.",
                   x->past.papers_left);
    show_next(s, x);
    if (!x->past.years_known)
        sheet_item(s,
                   "Its year or the years standing are not known, so %.0f years of use are "
                   "taken.",
                   x->past.ask.years);
    sheet_note(s, MARK_PRACTICE,
               "Odds of clues, miles a year and what clocks do are the trade's practice, not "
               "measured",
               "");
    sheet_link(s, "Tell a clue", "identify add");
    return s;
}

/* ---- JSON ---- */

static const char *story_id(enum mileage_story story)
{
    static const char *const ids[STORY_COUNT] = {"true", "changed", "stood", "no-clock"};
    return ids[story];
}

static json_t *share_json(double p)
{
    return json_real(words_round(p, 6));
}

static json_t *claim_json(struct arena *a, const struct identify_claim *c)
{
    return json_pack("{s:s, s:o, s:s, s:b}", "claim", claim_words(a, c), "probability",
                     share_json(c->share), "words", words_odds(a, c->share), "told", c->told);
}

static json_t *next_json(const struct identify *x, const struct identify_next *n)
{
    const struct choose_look *l = n->look;
    json_t *outcomes = json_array();
    for (int o = 0; o < n->clue->n_outcomes; o++)
        json_array_append_new(
            outcomes, json_pack("{s:s, s:s, s:o, s:o}", "outcome", n->clue->outcomes[o].id, "text",
                                n->clue->outcomes[o].text, "chance", share_json(n->chance[o]),
                                "claim_after", share_json(n->claim_after[o])));
    return json_pack(
        "{s:s, s:s, s:s, s:f, s:o, s:o, s:o, s:o}", "clue", n->clue->head.id, "name",
        n->clue->head.name, "of", clue_of_name(n->of), "minutes", n->clue->minutes, "bits",
        share_json(n->bits), "worth",
        l && l->worth.tells ? words_json_money(l->worth.gain, x->choose->currency) : json_null(),
        "swing", l && l->swing > 0 ? words_json_money(l->swing, x->choose->currency) : json_null(),
        "outcomes", outcomes);
}

json_t *show_identify_json(struct arena *a, const struct identify *x)
{
    json_t *mileage = json_array(), *stories = json_array(), *clues = json_array(),
           *next = json_array(), *conflicts = json_array();
    for (int i = 0; i < IDENTIFY_BINS; i++)
        if (x->bin[i] > 0)
            json_array_append_new(mileage,
                                  json_pack("{s:f, s:o}", "miles", (i + 0.5) * x->bin_width,
                                            "probability", share_json(x->bin[i])));
    for (int i = 0; i < x->n_stories; i++) {
        const struct identify_story *s = &x->stories[i];
        json_array_append_new(stories,
                              json_pack("{s:s, s:i, s:o, s:f}", "story", story_id(s->story),
                                        "turns", s->turns, "probability", share_json(s->share),
                                        "miles", words_round(s->miles, 0)));
    }
    for (int i = 0; i < x->n_clues; i++) {
        const struct identify_clue *c = &x->clues[i];
        json_array_append_new(
            clues,
            json_pack("{s:s, s:s, s:s, s:s?, s:s, s:s, s:o, s:i}", "clue", c->clue->head.id, "name",
                      c->clue->head.name, "outcome", c->outcome->id, "value", c->fact->value, "of",
                      clue_of_name(c->of), "claim", claim_words(a, claim_for(x, c->of)), "decibans",
                      json_real(words_round(c->decibans, 2)), "told_before", c->fact->before));
    }
    for (int i = 0; i < x->n_next; i++) json_array_append_new(next, next_json(x, &x->next[i]));
    for (int i = 0; i < x->n_conflicts; i++) {
        const struct identify_conflict *c = &x->conflicts[i];
        json_array_append_new(
            conflicts, c->cluster ? json_pack("{s:s}", "cluster", c->cluster->head.id)
                                  : json_pack("{s:[s,s*], s:o}", "clues", c->one->head.id,
                                              c->other ? c->other->head.id : NULL, "decibans",
                                              json_real(words_round(c->decibans, 2))));
    }
    if (x->falls >= 0)
        json_array_append_new(conflicts, json_pack("{s:[f,f]}", "papers_fall",
                                                   x->past.ask.papers[x->falls - 1].reading,
                                                   x->past.ask.papers[x->falls].reading));
    return json_pack("{s:s, s:b, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:{s:o, s:o}}", "vehicle",
                     x->vehicle, "known", x->past.known, "claim", claim_json(a, &x->claim), "miles",
                     words_json_numbers(&x->miles), "mileage", mileage, "stories", stories, "clues",
                     clues, "next", next, "conflicts", conflicts, "originality", "identity",
                     claim_json(a, &x->identity), "original", claim_json(a, &x->original));
}
