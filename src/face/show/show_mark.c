#include "face/show/show_mark.h"

#include "base/text.h"
#include "face/show/show_originality.h"
#include "face/show/words.h"

static const char *days_between(struct arena *a, const struct date_candidate *c)
{
    if (c->from == c->to) return words_date(a, c->from);
    return arena_print(a, "%s to %s", words_date(a, c->from), words_date(a, c->to));
}

/* The times that a date can mean: those of the best verdict, the latest first, a few. */
static const char *date_words(struct arena *a, const struct date_reading *r)
{
    enum { SHOWN = 3 };
    struct text out = {.arena = a};
    int shown = 0, more = 0;
    for (int i = r->n_candidates - 1; i >= 0; i--) {
        if (r->candidates[i].verdict != r->verdict) continue;
        if (shown < SHOWN)
            text_print(&out, "%s%s", shown++ ? " or " : "", days_between(a, &r->candidates[i]));
        else
            more++;
    }
    if (more > 0) text_print(&out, " or %d earlier", more);
    for (int i = 0; i < r->n_candidates && r->verdict == DATE_LONG_BEFORE; i++) {
        if (r->candidates[i].verdict != DATE_AFTER) continue;
        text_print(&out, "; or %s, after assembly", days_between(a, &r->candidates[i]));
        break;
    }
    return text_get(&out);
}

static const char *check_words(const struct mark_read *m)
{
    return m->check == CHECK_FITS      ? "check digit fits"
           : m->check == CHECK_DIFFERS ? "check digit is wrong"
           : m->check == CHECK_INFORMATION
               ? "check digit not used or wrong (a rule of another place)"
               : "";
}

static void add(struct text *out, const char *words)
{
    if (*words) text_print(out, "%s%s", out->length ? "; " : "", words);
}

/* What a number or a date says, in a line. */
static const char *says(struct arena *a, const struct mark_read *m)
{
    struct text out = {.arena = a};
    if (m->date.n_candidates > 0) add(&out, date_words(a, &m->date));
    for (int i = 0; i < m->code.n_lines && m->n_misfits == 0; i++)
        if (m->code.lines[i].means) add(&out, m->code.lines[i].means);
    for (int i = 0; i < m->n_years; i++)
        text_print(&out, "%s%s%d", out.length ? i ? " or " : "; " : "",
                   i == 0 ? m->years_informed ? "perhaps of " : "of " : "", m->years[i]);
    add(&out, check_words(m));
    if (out.length == 0) add(&out, m->book ? "" : "no code book reads it; kept as it stands");
    return text_get(&out);
}

static const char *verdict(const struct mark_read *m, enum tone *tone)
{
    *tone = TONE_GOOD;
    if (!m->book || (m->date.n_candidates == 0 && m->code.n_lines == 0 && m->n_misfits == 0)) {
        *tone = TONE_FAINT;
        return "not judged";
    }
    if (m->n_misfits > 0 || m->check == CHECK_DIFFERS) {
        *tone = TONE_BAD;
        return "does not fit";
    }
    if (m->date.n_candidates > 0 && m->date.verdict == DATE_AFTER) {
        *tone = TONE_BAD;
        return "after assembly";
    }
    if (m->date.n_candidates > 0 && m->date.verdict == DATE_LONG_BEFORE) {
        *tone = TONE_CARE;
        return "long before: ask";
    }
    return "fits";
}

static const char *where_words(struct arena *a, const struct fact_mark *f)
{
    return arena_print(a, "%s%s%s%s%s", mark_of_name(f->what), f->where ? ", " : "",
                       f->where ? f->where : "", f->component ? ", " : "",
                       f->component ? f->component : "");
}

static void show_misfits(struct sheet *s, const char *text, const struct mark_read *m)
{
    for (int i = 0; i < m->n_misfits; i++) sheet_item(s, "%s: %s.", text, m->misfits[i]);
}

static const char *built_words(struct arena *a, const struct originality_answer *o)
{
    const struct date_candidate built = {o->built_from, o->built_to, DATE_FITS, 0};
    if (o->built_from == DAY_NONE)
        return "When it was built is not known, so no date can be held against it.";
    return arena_print(a, "Built %s%s.", days_between(a, &built),
                       o->built_told ? "" : ", by its year of making");
}

void show_marks(struct sheet *s, const struct originality_answer *o)
{
    enum tone tone;
    sheet_heading(s, 2, "Numbers and dates");
    sheet_text(s, "%s", built_words(s->arena, o));
    if (o->n_marks == 0) {
        sheet_text(s, "None was told yet. Read the plate, the stampings and the papers first, each "
                      "twice and by two people: fettle add mark what=vehicle where=plate text=...");
        return;
    }
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "what", ALIGN_LEFT, 1);
    sheet_column(s, t, "as it stands", ALIGN_LEFT, 1);
    sheet_column(s, t, "verdict", ALIGN_LEFT, 1);
    sheet_column(s, t, "it says", ALIGN_LEFT, 2);
    for (int i = 0; i < o->n_marks; i++) {
        const struct mark_read *m = &o->marks[i];
        const char *word = verdict(m, &tone);
        sheet_cell(s, t, TONE_PLAIN, "%s", where_words(s->arena, m->mark));
        sheet_cell(s, t, TONE_PLAIN, "%s", m->mark->text);
        sheet_cell(s, t, tone, "%s", word);
        sheet_cell(s, t, TONE_PLAIN, "%s", says(s->arena, m));
    }
    for (int i = 0; i < o->n_marks; i++) show_misfits(s, o->marks[i].mark->text, &o->marks[i]);
    bool cast = false;
    for (int i = 0; i < o->n_marks; i++)
        cast |=
            o->marks[i].mark->what == MARK_OF_GLASS || o->marks[i].mark->what == MARK_OF_CASTING;
    if (cast)
        sheet_text(s, "A date tells of its own part alone: when it was cast or made, not when it "
                      "came to this vehicle.");
}

struct sheet *show_mark_read(struct arena *a, const char *text, const struct mark_read *m)
{
    enum tone tone;
    struct sheet *s = sheet_new(a, arena_print(a, "%s, read", text));
    const char *word = verdict(m, &tone);
    if (m->book)
        sheet_fact(s, TONE_PLAIN, "code book", "%s (%s)%s", m->book->head.name, m->book->head.id,
                   mark_behind(a, m->book->head.mark));
    sheet_fact(s, tone, "verdict", "%s", word);
    if (m->date.n_candidates > 0) sheet_fact(s, TONE_PLAIN, "date", "%s", date_words(a, &m->date));
    for (int i = 0; i < m->code.n_lines; i++) {
        const struct code_line *l = &m->code.lines[i];
        sheet_fact(s, TONE_PLAIN, l->place->name, "%s%s%s%s", l->text, l->means ? ": " : "",
                   l->means ? l->means : "", l->means ? mark_behind(a, l->place->mark) : "");
    }
    for (int i = 0; i < m->n_years; i++)
        sheet_fact(s, TONE_PLAIN,
                   i                   ? "or year"
                   : m->years_informed ? "perhaps year"
                                       : "year",
                   "%d%s", m->years[i], mark_behind(a, m->year_mark));
    if (m->check != CHECK_NONE)
        sheet_fact(s, m->check == CHECK_DIFFERS ? TONE_BAD : TONE_PLAIN, "check", "%s: %c, %s %c",
                   check_words(m), m->code.check_stands,
                   m->check == CHECK_FITS ? "and the sum gives" : "but the sum gives",
                   m->code.check_due);
    show_misfits(s, text, m);
    sheet_caution(s, originality_caution, originality_defer);
    return s;
}

/* ---- JSON ---- */

static const char *mark_or_null(enum mark m)
{
    return m == MARK_NONE ? NULL : mark_word(m);
}

json_t *show_mark_read_json(const struct mark_read *m)
{
    static const char *const checks[] = {"none", "fits", "differs", "information"};
    static const char *const verdicts[] = {"fits", "long before", "after", "unreadable"};
    const struct fact_mark *f = m->mark;
    enum tone tone;
    json_t *misfits = json_array(), *years = json_array(), *dates = json_array(),
           *places = json_array();
    for (int i = 0; i < m->n_misfits; i++)
        json_array_append_new(misfits, json_string(m->misfits[i]));
    for (int i = 0; i < m->n_years; i++) json_array_append_new(years, json_integer(m->years[i]));
    for (int i = 0; i < m->date.n_candidates; i++) {
        const struct date_candidate *c = &m->date.candidates[i];
        json_array_append_new(
            dates, json_pack("{s:o, s:o, s:s}", "from", words_json_moment(c->from, 0), "to",
                             words_json_moment(c->to, 0), "verdict", verdicts[c->verdict]));
    }
    for (int i = 0; i < m->code.n_lines; i++) {
        const struct code_line *l = &m->code.lines[i];
        json_array_append_new(places, json_pack("{s:s, s:s, s:s?, s:s?}", "name", l->place->name,
                                                "text", l->text, "means", l->means, "mark",
                                                mark_or_null(l->place->mark)));
    }
    json_t *out = json_pack("{s:s?, s:s, s:s, s:b, s:s?, s:o, s:o, s:o, s:o}", "book",
                            m->book ? m->book->head.id : NULL, "verdict", verdict(m, &tone),
                            "check", checks[m->check], "years_informed", m->years_informed,
                            "years_mark", mark_or_null(m->year_mark), "misfits", misfits, "years",
                            years, "dates", dates, "positions", places);
    if (f) {
        json_object_set_new(out, "what", json_string(mark_of_name(f->what)));
        json_object_set_new(out, "where", f->where ? json_string(f->where) : json_null());
        json_object_set_new(out, "component",
                            f->component ? json_string(f->component) : json_null());
        json_object_set_new(out, "text", json_string(f->text));
        json_object_set_new(out, "how", f->how ? json_string(f->how) : json_null());
    }
    return out;
}
