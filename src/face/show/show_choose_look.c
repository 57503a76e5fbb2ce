/* show_choose_look.c - what to look at next, and which clue to take: one list. */
#include "face/show/show_choose_inside.h"
#include "face/show/show_trade.h"
#include "face/show/words.h"

#include <string.h>

enum { LOOKS_SHOWN = 10 };

static bool is_shown(const struct choose_look *l)
{
    return l->worth.tells || l->swing > 0;
}

const char *show_choose_look_name(const struct choose_look *l)
{
    return l->clue ? l->clue->head.name : l->component;
}

const char *show_choose_then(struct arena *a, const struct choose *c, const struct choose_look *l)
{
    struct text t = {.arena = a};
    if (!c->compared) return "-";
    for (int k = 0; k < c->n_choices; k++) {
        int n = 0;
        if (k == c->led_by) continue;
        for (int s = 0; s < l->n_signs; s++) {
            if (l->signs[s].choice != k || l->signs[s].chance <= 0) continue;
            if (n++ == 0)
                text_print(&t, "%s'%s' if %s", t.length > 0 ? "; " : "", c->choices[k].name,
                           l->signs[s].text);
            else
                text_print(&t, " or %s", l->signs[s].text);
        }
    }
    const char *leading = c->choices[c->led_by].name;
    if (t.length == 0) return arena_print(a, "'%s' in any case", leading);
    text_print(&t, "; else '%s'", leading);
    return text_get(&t);
}

static const char *minutes_words(struct arena *a, double minutes)
{
    return arena_print(a, "%.0f minute%s", minutes, minutes < 1.5 ? "" : "s");
}

/* What each outcome of the best of them would lead to; said of one that could change the choice. */
static void show_signs(struct sheet *s, const struct choose *c, const struct choose_look *l)
{
    struct arena *a = s->arena;
    sheet_heading(s, 3, show_choose_look_name(l));
    if (l->how) sheet_text(s, "%s", l->how);
    if (l->clue) show_cautions(s, c->trade, l->clue->cautions, l->clue->n_cautions);
    for (int k = 0; k < l->n_signs; k++) {
        const struct choose_sign *sign = &l->signs[k];
        if (sign->chance <= 0) continue;
        sheet_item(s, "if %s (%s): choose '%s'", sign->text, words_share(a, sign->chance),
                   c->choices[sign->choice].name);
    }
    if (l->clue) sheet_fact(s, TONE_FAINT, "misleads", "%s", l->clue->misleads);
}

static void show_look(struct sheet *s, const struct choose *c, const struct choose_look *l)
{
    struct arena *a = s->arena;
    struct text t = {.arena = a};
    text_print(&t, "%s, %s: could ", show_choose_look_name(l), minutes_words(a, l->minutes));
    if (l->worth.tells)
        text_print(&t, "save %s%s", words_money(a, l->worth.gain, c->currency),
                   l->swing > 0 ? ", and " : "");
    if (l->swing > 0) text_print(&t, "swing the bill by %s", words_money(a, l->swing, c->currency));
    if (l->worth.tells) text_print(&t, "; %s", show_choose_then(a, c, l));
    sheet_item(s, "%s.", text_get(&t));
}

void show_choose_looks(struct sheet *s, const struct choose *c)
{
    sheet_heading(s, 2, "What to look at next");
    if (c->n_looks == 0) {
        sheet_text(s, "Everything has been seen.");
        return;
    }
    const char *leading = c->directions[c->leading].direction->head.id;
    if (!is_shown(&c->looks[0])) {
        sheet_text(s,
                   "No single look or clue changes the choice, or swings the bill of '%s', as far "
                   "as %d runs can tell.",
                   leading, c->runs);
        return;
    }
    if (!c->any_tells)
        sheet_text(s,
                   "No single look or clue changes the choice that we can tell. These could swing "
                   "the bill of '%s' the most for their minutes:",
                   leading);
    else
        sheet_text(s, "Ten minutes can be worth more than a week's work. Looks and clues, in order "
                      "of what they could save for their minutes:");
    for (int i = 0, shown = 0; i < c->n_looks && shown < LOOKS_SHOWN; i++) {
        if (!is_shown(&c->looks[i])) continue;
        show_look(s, c, &c->looks[i]);
        shown++;
    }
    if (c->looks[0].worth.tells) show_signs(s, c, &c->looks[0]);
    sheet_caution(s,
                  "Never go under a vehicle that stands on a jack; use stands on firm level "
                  "ground, wheels chocked.",
                  "local law and whoever is trained for it");
}
