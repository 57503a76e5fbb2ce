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

/* The best of them in full: what it could show, and what then. */
static void show_first(struct sheet *s, const struct choose *c, const struct choose_look *l)
{
    struct arena *a = s->arena;
    sheet_heading(s, 3,
                  arena_print(a, "%s, %.0f minute%s", show_choose_look_name(l), l->minutes,
                              l->minutes < 1.5 ? "" : "s"));
    if (l->how) sheet_text(s, "%s", l->how);
    if (l->clue) show_cautions(s, c->trade, l->clue->cautions, l->clue->n_cautions);
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "if it shows", ALIGN_LEFT, 1);
    sheet_column(s, t, "odds of that", ALIGN_RIGHT, 1);
    if (c->compared) sheet_column(s, t, "choose", ALIGN_LEFT, 1);
    sheet_column(s, t, arena_print(a, "bill of '%s'", c->directions[c->leading].direction->head.id),
                 ALIGN_RIGHT, 1);
    for (int k = 0; k < l->n_signs; k++) {
        const struct choose_sign *sign = &l->signs[k];
        if (sign->chance <= 0) continue;
        sheet_cell(s, t, TONE_PLAIN, "%s", sign->text);
        sheet_cell(s, t, TONE_PLAIN, "%s", words_share(a, sign->chance));
        if (c->compared) sheet_cell(s, t, TONE_PLAIN, "%s", c->choices[sign->choice].name);
        sheet_cell(s, t, TONE_PLAIN, "%s", words_money(a, sign->bill, c->currency));
    }
    if (l->clue) sheet_fact(s, TONE_FAINT, "misleads", "%s", l->clue->misleads);
}

static void list(struct sheet *s, const struct choose *c)
{
    struct arena *a = s->arena;
    struct sheet_table *t = sheet_table(s, "");
    int shown = 0;
    sheet_column(s, t, "look at", ALIGN_LEFT, 1);
    sheet_column(s, t, "minutes", ALIGN_RIGHT, 1);
    sheet_column(s, t, "could save", ALIGN_RIGHT, c->any_tells ? 1 : 4);
    sheet_column(s, t, "could swing the bill by", ALIGN_RIGHT, 1);
    sheet_column(s, t, "then choose", ALIGN_LEFT, c->any_tells ? 2 : 4);
    sheet_column(s, t, "narrows the date by", ALIGN_RIGHT, 5);
    sheet_column(s, t, "how", ALIGN_LEFT, 6);
    for (int i = 0; i < c->n_looks && shown < LOOKS_SHOWN; i++) {
        const struct choose_look *l = &c->looks[i];
        if (!is_shown(l)) continue;
        shown++;
        sheet_cell(s, t, TONE_PLAIN, "%s", show_choose_look_name(l));
        sheet_cell(s, t, TONE_PLAIN, "%.0f", l->minutes);
        sheet_cell(s, t, TONE_PLAIN, "%s",
                   l->worth.tells ? words_money(a, l->worth.gain, c->currency) : "-");
        sheet_cell(s, t, TONE_PLAIN, "%s",
                   l->swing > 0 ? words_money(a, l->swing, c->currency) : "-");
        sheet_cell(s, t, TONE_PLAIN, "%s", show_choose_then(a, c, l));
        sheet_cell(s, t, TONE_PLAIN, "%s", l->days > 0 ? words_days(a, l->days) : "-");
        sheet_cell(s, t, TONE_FAINT, "%s", l->how ? l->how : "");
    }
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
    show_first(s, c, &c->looks[0]);
    list(s, c);
    sheet_caution(s,
                  "Never go under a vehicle that stands on a jack; use stands on firm level "
                  "ground, wheels chocked.",
                  "local law and whoever is trained for it");
}
