#include "face/show/show_find.h"

const char *find_headline(struct arena *a, const struct find *x)
{
    if (x->count == 0) return "Nothing has any of these words.";
    return arena_print(a, "%s%d found%s.", x->more ? "The best of many: " : "", x->count,
                       x->all ? "" : "; none has all of these words, these have some");
}

struct sheet *show_find(struct arena *a, const struct find *x, const char *words)
{
    struct sheet *s = sheet_new(a, arena_print(a, "Find: %s", words));
    sheet_text(s, "%s", find_headline(a, x));
    if (x->count == 0) return s;
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "what", ALIGN_LEFT, 1);
    sheet_column(s, t, "id", ALIGN_LEFT, 1);
    sheet_column(s, t, "says", ALIGN_LEFT, 1);
    sheet_column(s, t, "vehicle", ALIGN_LEFT, 2);
    for (int i = 0; i < x->count; i++) {
        const struct found *h = &x->hits[i];
        sheet_cell(s, t, TONE_PLAIN, "%s", h->record ? h->name : subject_name(h->subject));
        sheet_cell(s, t, TONE_PLAIN, "%.8s", h->record ? h->record->id : "");
        sheet_cell(s, t, TONE_PLAIN, "%s%s%s", h->record ? "" : h->name, h->record ? "" : ": ",
                   h->words);
        sheet_cell(s, t, TONE_PLAIN, "%s", h->vehicle);
    }
    return s;
}

json_t *show_find_json(const struct find *x)
{
    json_t *found = json_array();
    for (int i = 0; i < x->count; i++) {
        const struct found *h = &x->hits[i];
        json_array_append_new(
            found, h->record ? json_pack("{s:s, s:s, s:s, s:s}", "kind", h->name, "id",
                                         h->record->id, "words", h->words, "vehicle", h->vehicle)
                             : json_pack("{s:s, s:s, s:s}", "subject", subject_name(h->subject),
                                         "name", h->name, "words", h->words));
    }
    return json_pack("{s:o, s:b, s:b}", "found", found, "all_words", x->all, "more", x->more);
}
