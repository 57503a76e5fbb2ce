#include "face/show/show_survey.h"

#include "face/show/words.h"

const char survey_caution[] = "Look before you touch; photograph dirt before you clean; never go "
                              "under a vehicle that stands on a jack.";
const char survey_defer[] = "whoever is trained for it";

const char *survey_title(struct arena *a, const char *vehicle)
{
    return arena_print(a, "%s: what is here, and in what state", vehicle);
}

static enum tone tone_of(enum condition c)
{
    return c == COND_SOUND  ? TONE_GOOD
           : c == COND_WORN ? TONE_PLAIN
           : c == COND_POOR ? TONE_CARE
                            : TONE_BAD;
}

/* What a finding leaves open, in a few words: the two likeliest conditions. */
static const char *odds_words(struct arena *a, const double odds[COND_COUNT])
{
    int first = 0, second = -1;
    for (int c = 1; c < COND_COUNT; c++)
        if (odds[c] > odds[first]) first = c;
    for (int c = 0; c < COND_COUNT; c++)
        if (c != first && (second < 0 || odds[c] > odds[second])) second = c;
    return arena_print(a, "%s %s, %s %s", condition_name((enum condition)first),
                       words_share(a, odds[first]), condition_name((enum condition)second),
                       words_share(a, odds[second]));
}

static void table_place(struct sheet *s, const struct survey *v, int from, int to)
{
    struct arena *a = s->arena;
    sheet_heading(s, 2, v->lines[from].lap->head.name);
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "component", ALIGN_LEFT, 1);
    sheet_column(s, t, "condition", ALIGN_LEFT, 1);
    sheet_column(s, t, "how one sees it", ALIGN_LEFT, 4);
    for (int i = from; i < to; i++) {
        const struct survey_line *l = &v->lines[i];
        sheet_cell(s, t, TONE_PLAIN, "%s", l->id);
        if (l->seen)
            sheet_cell(s, t, tone_of(l->condition), "%s", condition_name(l->condition));
        else if (l->inferred)
            sheet_cell(s, t, TONE_FAINT, "inferred: %s", condition_name(l->condition));
        else
            sheet_cell(s, t, TONE_FAINT, "unseen: %s", odds_words(a, l->odds));
        sheet_cell(s, t, TONE_FAINT, "%s", l->seen || !l->kind->seen_by ? "" : l->kind->seen_by);
    }
}

/* Where the looks are still missing, and where the bad news was: the whole vehicle at a glance. */
static void table_lap(struct sheet *s, const struct survey *v)
{
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "place", ALIGN_LEFT, 1);
    sheet_column(s, t, "seen", ALIGN_RIGHT, 1);
    sheet_column(s, t, "to see", ALIGN_RIGHT, 1);
    sheet_column(s, t, "found poor or worse", ALIGN_RIGHT, 2);
    for (int from = 0, to; from < v->n_lines; from = to) {
        int seen = 0, bad = 0;
        for (to = from; to < v->n_lines && v->lines[to].lap == v->lines[from].lap; to++) {
            seen += v->lines[to].seen;
            bad += v->lines[to].seen && v->lines[to].condition >= COND_POOR;
        }
        sheet_cell(s, t, TONE_PLAIN, "%s", v->lines[from].lap->head.name);
        sheet_cell(s, t, TONE_PLAIN, "%d", seen);
        sheet_cell(s, t, TONE_PLAIN, "%d", to - from - seen);
        sheet_cell(s, t, bad > 0 ? TONE_CARE : TONE_PLAIN, "%d", bad);
    }
}

struct sheet *show_survey(struct arena *a, const struct survey *v)
{
    struct sheet *s = sheet_new(a, survey_title(a, v->vehicle));
    sheet_text(s, "%d of %d components seen.", v->seen, v->n_lines);
    for (int i = 0; i < v->n_notes; i++) sheet_item(s, "%s", v->notes[i]);
    table_lap(s, v);
    for (int from = 0; from < v->n_lines;) {
        int to = from;
        while (to < v->n_lines && v->lines[to].lap == v->lines[from].lap) to++;
        table_place(s, v, from, to);
        from = to;
    }
    for (int i = 0; i < v->n_loose; i++)
        sheet_item(s, "The finding on '%s' is kept; the trade data knows no such component.",
                   v->loose[i]);
    sheet_caution(s, survey_caution, survey_defer);
    sheet_note(s, MARK_PRACTICE,
               "Odds of the unseen follow age, storage and what was found elsewhere", "");
    sheet_link(s, "Go round it in one lap", "survey lap");
    return s;
}

json_t *show_survey_json(const struct survey *v)
{
    json_t *findings = json_array(), *unseen = json_array(), *loose = json_array();
    for (int i = 0; i < v->n_lines; i++) {
        const struct survey_line *l = &v->lines[i];
        if (!l->seen) {
            json_array_append_new(unseen, json_pack("{s:s, s:s, s:s, s:b, s:o}", "component", l->id,
                                                    "name", l->kind->head.name, "place",
                                                    l->place->head.id, "inferred", l->inferred,
                                                    "odds", words_json_odds(l->odds)));
            continue;
        }
        json_array_append_new(
            findings,
            json_pack("{s:s, s:s, s:s, s:s, s:o}", "component", l->id, "name", l->kind->head.name,
                      "place", l->place->head.id, "condition", condition_name(l->condition), "date",
                      l->date == DAY_NONE ? json_null() : words_json_moment(l->date, 0)));
    }
    for (int i = 0; i < v->n_loose; i++) json_array_append_new(loose, json_string(v->loose[i]));
    return json_pack("{s:s, s:o, s:o, s:o}", "vehicle", v->vehicle, "findings", findings, "unseen",
                     unseen, "unknown", loose);
}
