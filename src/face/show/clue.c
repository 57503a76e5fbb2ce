#include "face/show/clue.h"

#include "garage/kinds.h"
#include "model/facts_clue.h"

static bool set_if(struct arena *a, struct record *r, const char *field, const char *text,
                   struct fail *f)
{
    return !text || !*text || record_set(a, r, field, text, NULL, f);
}

bool clue_tell(struct arena *a, struct garage *g, const struct trade *t, const char *vehicle,
               const struct clue_told *told, day today, struct record **out, bool *again,
               struct fail *f)
{
    int clue, outcome, n;
    struct record *before;
    struct text date = {.arena = a};
    if (!clue_parse(t, told->clue, &clue, f) ||
        !clue_outcome_parse(t, clue, told->outcome, &outcome, f) ||
        !garage_list(g, a, &kind_clue_reading, vehicle, &before, &n, f))
        return false;
    const char *id = t->clues[clue].head.id;
    *again = false;
    for (int i = 0; i < n; i++) *again |= text_same_word(record_text(&before[i], "clue", ""), id);
    day_print(&date, today);
    struct record *r = *out = record_new(a, &kind_clue_reading);
    if (!record_set(a, r, "vehicle", vehicle, NULL, f) || !record_set(a, r, "clue", id, NULL, f) ||
        !record_set(a, r, "outcome", t->clues[clue].outcomes[outcome].id, NULL, f) ||
        !record_set(a, r, "how", "seen", NULL, f) ||
        !record_set(a, r, "date", text_get(&date), NULL, f) ||
        !set_if(a, r, "value", told->value, f) || !set_if(a, r, "note", told->note, f) ||
        !record_valid(r, f) || !garage_begin(g, f))
        return false;
    if (garage_add(g, r, f) && garage_commit(g, f)) return true;
    garage_rollback(g);
    return false;
}
