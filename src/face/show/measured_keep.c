#include "face/show/measured_keep.h"

#include "face/show/show_trade.h"
#include "face/show/show_trade_gate.h"
#include "garage/kinds.h"

#include <math.h>

static const char *figure(struct arena *a, double x)
{
    return arena_print(a, "%.10g", x);
}

static bool keep(struct arena *a, const struct measured_ask *ask, const char *tool,
                 const char *source, const struct measured_reading *x, struct fail *f)
{
    struct text today = {.arena = a};
    day_print(&today, ask->today);
    const char *const fields[][2] = {
        {"vehicle", ask->vehicle},
        {"what", x->what},
        {"where", x->where},
        {"value", figure(a, x->value)},
        {"unit", *x->unit ? x->unit : NULL},
        {"low", x->maker && x->limit.has_low ? figure(a, x->limit.low) : NULL},
        {"high", x->maker && x->limit.has_high ? figure(a, x->limit.high) : NULL},
        {"tool", tool},
        {"source", source},
        {"date", text_get(&today)},
        {"note", x->typed ? arena_print(a, "read as %s", x->typed) : NULL},
        {NULL, NULL},
    };
    struct record *r = record_new(a, &kind_measurement);
    for (int i = 0; fields[i][0]; i++)
        if (fields[i][1] && *fields[i][1] && !record_set(a, r, fields[i][0], fields[i][1], NULL, f))
            return false;
    return record_valid(r, f) && garage_add(ask->garage, r, f);
}

bool measured_tell(struct arena *a, const struct measured_ask *ask, const char *tool,
                   const char *source, bool sure, struct measured_reading *out, bool *stored,
                   struct fail *f)
{
    *stored = false;
    if (!garage_begin(ask->garage, f)) return false;
    const bool good = measured_read(a, ask, out, f);
    if (good && out->n_questions > 0 && !sure) {
        garage_rollback(ask->garage);
        return true;
    }
    *stored = good && keep(a, ask, tool, source, out, f) && garage_commit(ask->garage, f);
    if (!*stored) garage_rollback(ask->garage);
    return *stored;
}

/* ---- shown ---- */

static bool has_limit(const struct measured_reading *x)
{
    return x->limit.has_low || x->limit.has_high;
}

static const char *limit_words(struct arena *a, const struct measured_reading *x)
{
    const struct limit *l = &x->limit;
    if (!x->maker && x->proof)
        return arena_print(a, "%s%s", proof_limits(a, x->proof),
                           mark_behind(a, x->proof->head.mark));
    if (l->has_low && l->has_high)
        return arena_print(a, "%g to %g %s, the maker's", l->low, l->high, x->unit);
    if (l->has_low) return arena_print(a, "at least %g %s, the maker's", l->low, x->unit);
    return arena_print(a, "at most %g %s, the maker's", l->high, x->unit);
}

struct sheet *show_measured(struct arena *a, const struct trade *t,
                            const struct measured_reading *x, bool stored)
{
    static const enum tone tones[] = {TONE_GOOD, TONE_CARE, TONE_BAD, TONE_CARE};
    struct sheet *s = sheet_new(a, x->proof ? x->proof->head.name : x->what);
    sheet_text(s, stored ? "Stored:" : "This is what was understood; it is not stored yet:");
    sheet_fact(s, TONE_PLAIN, "read", "%g %s%s%s%s", x->value, x->unit,
               x->typed ? arena_print(a, ", from %s", x->typed) : "", x->where ? ", " : "",
               x->where ? x->where : "");
    if (x->look_up)
        sheet_fact(s, TONE_CARE, "verdict", "%s",
                   "look it up: only the maker's figure says, and it was not told");
    else if (has_limit(x)) {
        const bool open = x->n_questions > 0 && !stored;
        sheet_fact(s, open ? TONE_CARE : tones[x->judged.state], "verdict", "%s%s",
                   open ? "if it is right: " : "", x->words.state);
        sheet_fact(s, TONE_PLAIN, "limit", "%s", limit_words(a, x));
        if (!open) sheet_fact(s, tones[x->judged.state], "so", "%s", x->words.means);
    } else
        sheet_fact(s, TONE_CARE, "verdict", "%s", "none: no limit was told; give low= or high=");
    if (x->before > 0) {
        sheet_fact(s, TONE_PLAIN, "trend", "%s", x->words.trend);
        if (x->words.crosses) sheet_fact(s, TONE_CARE, "past the limit", "%s", x->words.crosses);
    }
    if (x->proof) show_cautions(s, t, x->proof->cautions, x->proof->n_cautions);
    if (x->proof && x->proof->defer) sheet_fact(s, TONE_PLAIN, "defer to", "%s", x->proof->defer);
    if (!stored)
        for (int i = 0; i < x->n_questions; i++) sheet_item(s, "%s", x->questions[i]);
    return s;
}

json_t *show_measured_json(const struct measured_reading *x, bool stored)
{
    json_t *questions = json_array(), *o;
    const bool judged = has_limit(x) && !x->look_up;
    for (int i = 0; i < x->n_questions; i++)
        json_array_append_new(questions, json_string(x->questions[i]));
    o = json_pack("{s:b, s:s, s:s?, s:f, s:s, s:s, s:s?, s:i, s:s, s:s?, s:o}", "stored", stored,
                  "what", x->what, "where", x->where, "value", x->value, "unit", x->unit, "verdict",
                  x->look_up ? "look it up"
                  : judged   ? measure_state_word(x->judged.state)
                             : "none",
                  "means", judged ? x->words.means : NULL, "before", x->before, "trend",
                  x->words.trend, "crosses", x->words.crosses, "questions", questions);
    return o;
}
