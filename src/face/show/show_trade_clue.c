#include "face/show/show_trade_clue.h"

#include "face/show/show_trade.h"

static const char *column_name(struct arena *a, enum clue_of of, int column)
{
    if (of == CLUE_OF_MILES)
        return arena_print(a, "%.0f,000 miles", clue_band_miles[column] / 1000);
    static const char *const names[CLUE_OF_COUNT][2] = {
        [CLUE_OF_CLOCK] = {"clock never touched", "clock touched"},
        [CLUE_OF_IDENTITY] = {"it is what it says", "it is not"},
        [CLUE_OF_ORIGINALITY] = {"as it left the works", "it is not"},
    };
    return names[of][column];
}

void show_trade_cluster(struct sheet *s, const struct trade *t, int index)
{
    const struct trade_cluster *k = &t->clusters[index];
    sheet_fact(s, TONE_PLAIN, "bears on", "%s", clue_of_name(k->of));
    double none = 1;
    for (int i = 0; i < k->n_causes; i++) {
        const struct trade_cause *c = &k->causes[i];
        none -= c->chance;
        if (k->of == CLUE_OF_MILES)
            sheet_fact(s, TONE_PLAIN, c->id, "%s: %.0f %%; then it looks like %g times its miles",
                       c->text, c->chance * 100, c->looks);
        else
            sheet_fact(s, TONE_PLAIN, c->id, "%s: %.0f %%", c->text, c->chance * 100);
    }
    sheet_fact(s, TONE_PLAIN, "none of these", "%.0f %%", none * 100);
    for (int i = 0; i < t->n_clues; i++)
        if (t->clues[i].cluster == index)
            sheet_item(s, "%s (%s)", t->clues[i].head.name, t->clues[i].head.id);
}

void show_trade_clue(struct sheet *s, const struct trade *t, int index)
{
    const struct trade_clue *c = &t->clues[index];
    const struct trade_cluster *k = &t->clusters[c->cluster];
    sheet_fact(s, TONE_PLAIN, "bears on", "%s, with others of %s", clue_of_name(k->of),
               k->head.name);
    sheet_fact(s, TONE_PLAIN, "place", "%s", t->places[c->place].head.name);
    sheet_fact(s, TONE_PLAIN, "how", "%s", c->how);
    sheet_fact(s, TONE_PLAIN, "tool", "%s, %g minutes", c->tool, c->minutes);
    sheet_fact(s, TONE_CARE, "misleads when", "%s", c->misleads);
    show_cautions(s, t, c->cautions, c->n_cautions);
    struct sheet_table *table = sheet_table(s, "");
    sheet_column(s, table, "outcome", ALIGN_LEFT, 1);
    for (int b = 0; b < clue_columns(k->of); b++)
        sheet_column(s, table, column_name(s->arena, k->of, b), ALIGN_RIGHT, 1);
    for (int o = 0; o < c->n_outcomes; o++) {
        sheet_cell(s, table, TONE_PLAIN, "%s: %s", c->outcomes[o].id, c->outcomes[o].text);
        for (int b = 0; b < c->outcomes[o].n_odds; b++)
            sheet_cell(s, table, TONE_PLAIN, "%.0f %%", c->outcomes[o].odds[b] * 100);
    }
}
