#include "face/show/show_trade_identity.h"

#include "base/text.h"
#include "face/show/show_trade.h"
#include "library/words.h"

const char *originality_words(struct arena *a, unsigned classes)
{
    struct text out = {.arena = a};
    for (int i = 0; i < ORIGINALITY_COUNT; i++)
        if (classes >> i & 1)
            text_print(&out, "%s%s", out.length ? " or " : "",
                       originality_name((enum originality)i));
    return text_get(&out);
}

static void table_places(struct sheet *s, const struct codebook *b)
{
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "position", ALIGN_LEFT, 1);
    sheet_column(s, t, "name", ALIGN_LEFT, 1);
    sheet_column(s, t, "may be", ALIGN_LEFT, 3);
    sheet_column(s, t, "means", ALIGN_LEFT, 2);
    for (int i = 0; i < b->n_places; i++) {
        const struct code_place *p = &b->places[i];
        struct text means = {.arena = s->arena};
        for (int k = 0; k < p->n_meanings; k++)
            text_print(&means, "%s%s %s", k ? "; " : "", p->meanings[k].is, p->meanings[k].means);
        if (p->to > p->at)
            sheet_cell(s, t, TONE_PLAIN, "%d to %d", p->at, p->to);
        else
            sheet_cell(s, t, TONE_PLAIN, "%d", p->at);
        sheet_cell(s, t, TONE_PLAIN, "%s", p->name);
        sheet_cell(s, t, TONE_PLAIN, "%s", p->letters ? p->letters : "");
        sheet_cell(s, t, TONE_PLAIN, "%s%s", text_get(&means), mark_behind(s->arena, p->mark));
    }
}

static void show_check(struct sheet *s, const struct code_check *c)
{
    struct text weights = {.arena = s->arena}, values = {.arena = s->arena};
    for (int i = 0; i < c->n_weights; i++)
        text_print(&weights, "%s%d", i ? " " : "", c->weights[i]);
    for (int i = 0; i < c->n_values; i++)
        text_print(&values, "%s%d: %s", i ? ", " : "", i, c->values[i]);
    sheet_fact(s, TONE_PLAIN, "check digit", "at position %d", c->at);
    sheet_fact(s, TONE_PLAIN, "weights", "%s", text_get(&weights));
    sheet_fact(s, TONE_PLAIN, "values", "%s", text_get(&values));
    sheet_fact(s, TONE_PLAIN, "remainder", "of the sum by %d, as one of %s", c->modulus,
               c->remainders);
}

void show_codebook(struct sheet *s, const struct trade *t, const struct trade_codebook *c)
{
    struct text of = {.arena = s->arena};
    const struct codebook *b = &c->book;
    for (int i = 0; i < MARK_OF_COUNT; i++)
        if (c->what >> i & 1)
            text_print(&of, "%s%s", of.length ? ", " : "", mark_of_name((enum mark_of)i));
    sheet_text(s, "%s.", c->where);
    sheet_fact(s, TONE_PLAIN, "number or date of", "%s", text_get(&of));
    if (c->maker) sheet_fact(s, TONE_PLAIN, "maker", "%s", c->maker);
    if (c->from) sheet_fact(s, TONE_PLAIN, "made from", "%d", c->from);
    if (c->until) sheet_fact(s, TONE_PLAIN, "made until", "%d", c->until);
    if (b->length) sheet_fact(s, TONE_PLAIN, "characters", "%d", b->length);
    if (b->letters) sheet_fact(s, TONE_PLAIN, "of", "%s", b->letters);
    if (c->informed_by >= 0)
        sheet_fact(s, TONE_PLAIN, "check digit and year", "told by the book '%s', as information",
                   t->codebooks[c->informed_by].head.id);
    for (int i = 0; i < b->date.n_parts; i++)
        sheet_fact(s, TONE_PLAIN, arena_print(s->arena, "part %d", i + 1), "%s",
                   word_date_part(b->date.parts[i]));
    if (b->date.lead.high > 0)
        sheet_fact(s, TONE_PLAIN, "before assembly, as usual", "%s",
                   points_words(s->arena, b->date.lead, "days"));
    if (b->check.at) show_check(s, &b->check);
    if (b->year.at)
        sheet_fact(s, TONE_PLAIN, "year", "at position %d, as one of %s from %d on%s", b->year.at,
                   b->year.codes, b->year.first, mark_behind(s->arena, b->year.mark));
    if (b->year.decided_by)
        sheet_fact(s, TONE_PLAIN, "which cycle of years", "position %d tells", b->year.decided_by);
    if (b->n_places > 0) table_places(s, b);
}

void show_rule(struct sheet *s, const struct trade *t, const struct trade_rule *r)
{
    if (r->text) sheet_text(s, "%s.", r->text);
    sheet_fact(s, TONE_PLAIN, "place", "%s", r->place);
    sheet_fact(s, TONE_PLAIN, "dated", "%s", r->dated);
    if (r->age) sheet_fact(s, TONE_PLAIN, "age", "%d years or more", r->age);
    if (r->need > 0) sheet_fact(s, TONE_PLAIN, "needs", "%g points", r->need);
    sheet_fact(s, TONE_PLAIN, "then", "%s", r->gives);
    struct sheet_table *table = sheet_table(s, "");
    sheet_column(s, table, "part", ALIGN_LEFT, 1);
    sheet_column(s, table, "must be", ALIGN_LEFT, 1);
    sheet_column(s, table, "points", ALIGN_RIGHT, 1);
    sheet_column(s, table, "components", ALIGN_LEFT, 3);
    for (int i = 0; i < r->n_parts; i++) {
        const struct trade_rule_part *p = &r->parts[i];
        struct text kinds = {.arena = s->arena};
        for (int k = 0; k < p->n_components; k++)
            text_print(&kinds, "%s%s", k ? ", " : "", t->components[p->components[k]].head.id);
        sheet_cell(s, table, TONE_PLAIN, "%s", p->name);
        sheet_cell(s, table, TONE_PLAIN, "%s", originality_words(s->arena, p->classes));
        sheet_cell(s, table, TONE_PLAIN, "%s",
                   p->points > 0
                       ? arena_print(s->arena, "%g%s", p->points, p->needed ? ", needed" : "")
                       : "needed");
        sheet_cell(s, table, TONE_PLAIN, "%s", text_get(&kinds));
    }
    sheet_caution(s, "Law is of its place and day, and this is neither law nor advice.", r->defer);
}

void show_changes(struct sheet *s, const struct trade_direction *d)
{
    if (d->n_changes > 0) sheet_heading(s, 2, "What it does to what is original");
    for (int i = 0; i < d->n_changes; i++)
        sheet_item(s, "%s: %s%s", originality_name(d->changes[i].to), d->changes[i].what,
                   d->changes[i].can_be_undone ? " (can be undone)" : " (cannot be undone)");
}
