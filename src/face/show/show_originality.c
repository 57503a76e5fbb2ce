#include "face/show/show_originality.h"

#include "base/text.h"
#include "face/show/show_mark.h"
#include "face/show/show_trade.h"
#include "face/show/words.h"

const char originality_caution[] =
    "Leave plates, rivets and stamped numbers alone: no cleaning, grinding, stamping or taking "
    "off, "
    "even for repair. Numbers and dates are evidence, not proof; rules are of their place and day, "
    "and this is not legal advice.";
const char originality_defer[] = "the registration authority, in writing, before anything is cut";

static const char stop_caution[] = "What does not agree comes first: spend nothing more, and touch "
                                   "no number, before it is cleared.";
static const char stop_defer[] =
    "the registration authority, and the police where it may be stolen";

static const char *verdict_word(enum rule_verdict v)
{
    return v == RULE_MEETS ? "holds" : v == RULE_OPEN ? "open" : "does not hold";
}

static enum tone verdict_tone(enum rule_verdict v)
{
    return v == RULE_MEETS ? TONE_GOOD : v == RULE_OPEN ? TONE_CARE : TONE_BAD;
}

static void show_conflicts(struct sheet *s, const struct originality_answer *o)
{
    bool stop = false;
    if (o->n_conflicts == 0) return;
    sheet_heading(s, 2, "What does not agree");
    for (int i = 0; i < o->n_conflicts; i++) {
        sheet_item(s, "%s", o->conflicts[i].text);
        stop |= o->conflicts[i].stop;
    }
    if (stop) sheet_caution(s, stop_caution, stop_defer);
}

static void show_areas(struct sheet *s, const struct originality_answer *o)
{
    int told = 0, total = 0, count[ORIGINALITY_COUNT] = {0};
    int untold = 0;
    for (int i = 0; i < o->n_areas; i++) {
        const struct area *area = &o->areas[i];
        total += area->total;
        told += area->total - area->untold;
        for (int c = 0; c < ORIGINALITY_COUNT; c++) count[c] += area->count[c];
        untold += area->untold == area->total;
    }
    sheet_heading(s, 2, "How much of it is its own");
    sheet_text(s,
               "Told of %d of %d components: %d original to this vehicle, %d of its period, %d "
               "reproductions, %d modern, %d not known.",
               told, total, count[ORIGINAL], count[ORIGINAL_PERIOD], count[ORIGINAL_REPRODUCTION],
               count[ORIGINAL_MODERN], count[ORIGINAL_UNKNOWN]);
    if (told > 0) {
        struct sheet_table *t = sheet_table(s, "");
        sheet_column(s, t, "area", ALIGN_LEFT, 1);
        for (int c = 0; c < ORIGINALITY_COUNT; c++)
            sheet_column(s, t, originality_name((enum originality)c), ALIGN_RIGHT, 1 + c);
        sheet_column(s, t, "not told", ALIGN_RIGHT, 2);
        for (int i = 0; i < o->n_areas; i++) {
            const struct area *area = &o->areas[i];
            if (area->untold == area->total) continue;
            sheet_cell(s, t, TONE_PLAIN, "%s", area->system->head.name);
            for (int c = 0; c < ORIGINALITY_COUNT; c++)
                sheet_cell(s, t, area->count[c] ? TONE_PLAIN : TONE_FAINT, "%d", area->count[c]);
            sheet_cell(s, t, TONE_FAINT, "%d", area->untold);
        }
    }
    if (untold > 0 && told > 0) sheet_text(s, "Nothing told yet of %d other areas.", untold);
    for (int i = 0; i < o->n_loose; i++)
        sheet_item(s, "What was told of '%s' is kept; the trade data knows no such component.",
                   o->loose[i]);
}

/* Directions that change nothing are not shown beside "as it is". */
static bool alters(const struct originality_answer *o, int direction)
{
    return o->directions[direction].n_changes > 0;
}

static void direction_columns(struct sheet *s, struct sheet_table *t,
                              const struct originality_answer *o)
{
    sheet_column(s, t, "as it is", ALIGN_LEFT, 1);
    for (int d = 0; d < o->n_directions; d++)
        if (alters(o, d))
            sheet_column(s, t,
                         arena_print(s->arena, "after %s", o->directions[d].direction->head.id),
                         ALIGN_LEFT, 2);
}

static void show_unaltered(struct sheet *s, const struct originality_answer *o)
{
    struct text names = {.arena = s->arena};
    for (int d = 0; d < o->n_directions; d++)
        if (!alters(o, d))
            text_print(&names, "%s%s", names.length ? ", " : "",
                       o->directions[d].direction->head.id);
    if (names.length > 0) sheet_text(s, "Nothing is changed by: %s.", text_get(&names));
}

static void rule_cell(struct sheet *s, struct sheet_table *t, const struct trade_rule *r,
                      const struct rule_state *state)
{
    if (r->need <= 0)
        sheet_cell(s, t, verdict_tone(state->verdict), "%s", verdict_word(state->verdict));
    else if (state->sure == state->possible)
        sheet_cell(s, t, verdict_tone(state->verdict), "%s: %g of %g", verdict_word(state->verdict),
                   state->sure, r->need);
    else
        sheet_cell(s, t, verdict_tone(state->verdict), "%s: %g to %g, needs %g",
                   verdict_word(state->verdict), state->sure, state->possible, r->need);
}

static void why_rule(struct sheet *s, const struct originality_answer *o, const struct rule_read *r)
{
    static const char *const words[] = {"suits", "not told yet", "does not suit",
                                        "this vehicle has none"};
    const struct trade_rule *rule = r->rule;
    struct sheet_why *w = sheet_why(s, arena_print(s->arena, "Why: %s?", rule->head.name),
                                    rule->text ? rule->text : "", rule->head.mark,
                                    trade_source_words(s->arena, o->trade, rule->head.source));
    sheet_why_input(s, w, "place", "%s", rule->place);
    sheet_why_input(s, w, "dated", "%s", rule->dated);
    if (r->years_to_go > 0)
        sheet_why_input(s, w, "age", "%d years to go", r->years_to_go);
    else if (rule->age > 0)
        sheet_why_input(s, w, "age", "%d years or more", rule->age);
    for (int i = 0; i < rule->n_parts; i++)
        sheet_why_input(s, w, rule->parts[i].name, "%s", words[r->parts[i]]);
    sheet_why_input(s, w, "then", "%s", rule->gives);
    sheet_why_input(s, w, "who decides", "%s", rule->defer);
}

static void show_rules(struct sheet *s, const struct originality_answer *o)
{
    sheet_heading(s, 2, "Rules of some place and day");
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "rule", ALIGN_LEFT, 1);
    direction_columns(s, t, o);
    for (int i = 0; i < o->n_rules; i++) {
        const struct rule_read *r = &o->rules[i];
        if (r->rule->scheme) continue;
        sheet_cell(s, t, TONE_PLAIN, "%s (%s)", r->rule->head.name, r->rule->place);
        rule_cell(s, t, r->rule, &r->now);
        for (int d = 0; d < o->n_directions; d++)
            if (alters(o, d)) rule_cell(s, t, r->rule, &r->after[d]);
    }
    show_unaltered(s, o);
    for (int i = 0; i < o->n_rules; i++)
        if (!o->rules[i].rule->scheme) why_rule(s, o, &o->rules[i]);
}

static void scheme_cell(struct sheet *s, struct sheet_table *t, const struct originality_answer *o,
                        const int *rules, int count)
{
    struct text names = {.arena = s->arena};
    for (int i = 0; i < count; i++)
        text_print(&names, "%s%s", i ? " or " : "", o->rules[rules[i]].rule->head.name);
    sheet_cell(s, t, count == 1 ? TONE_PLAIN : TONE_FAINT, "%s",
               count ? text_get(&names) : "none of them");
}

static void show_schemes(struct sheet *s, const struct originality_answer *o)
{
    sheet_heading(s, 2, "In the public terms of the technical code");
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "by", ALIGN_LEFT, 1);
    direction_columns(s, t, o);
    for (int i = 0; i < o->n_schemes; i++) {
        const struct scheme_read *scheme = &o->schemes[i];
        sheet_cell(s, t, TONE_PLAIN, "%s", scheme->name);
        scheme_cell(s, t, o, scheme->now, scheme->n_now);
        for (int d = 0; d < o->n_directions; d++)
            if (alters(o, d)) scheme_cell(s, t, o, scheme->after[d], scheme->n_after[d]);
    }
    sheet_text(s, "What each asks: fettle trade show type-a. The scrutineers of the club decide.");
}

static void show_losses(struct sheet *s, const struct originality_answer *o)
{
    sheet_heading(s, 2, "What cannot be undone");
    for (int d = 0; d < o->n_directions; d++) {
        const struct originality_direction *to = &o->directions[d];
        for (int i = 0; i < to->n_changes; i++) {
            const struct direction_change *c = &to->changes[i];
            if (c->change->can_be_undone || c->originals + c->untold == 0) continue;
            sheet_item(s, "%s: %s (%d told as original, %d that nobody has told of).",
                       to->direction->head.id, c->change->what, c->originals, c->untold);
        }
    }
    sheet_text(s, "Before any of it: photographs, measurements, and every part that comes off kept "
                  "and labelled with the vehicle.");
}

void show_originality_into(struct sheet *s, const struct originality_answer *o)
{
    show_conflicts(s, o);
    show_marks(s, o);
    show_areas(s, o);
    show_rules(s, o);
    show_schemes(s, o);
    show_losses(s, o);
    sheet_caution(s, originality_caution, originality_defer);
}

struct sheet *show_originality(struct arena *a, const struct originality_answer *o)
{
    struct sheet *s =
        sheet_new(a, arena_print(a, "%s: which one it is, and how much is its own", o->vehicle));
    show_originality_into(s, o);
    sheet_link(s, "What each direction costs and what it is worth", "choose");
    return s;
}

/* ---- JSON ---- */

static json_t *json_state(const struct trade_rule *r, const struct rule_state *state)
{
    json_t *out = json_pack("{s:s}", "verdict", verdict_word(state->verdict));
    if (r->need > 0) {
        json_object_set_new(out, "points", json_real(state->sure));
        json_object_set_new(out, "possible", json_real(state->possible));
        json_object_set_new(out, "need", json_real(r->need));
    }
    return out;
}

static json_t *json_rules(const struct originality_answer *o)
{
    json_t *out = json_array();
    for (int i = 0; i < o->n_rules; i++) {
        const struct rule_read *r = &o->rules[i];
        if (r->rule->scheme) continue;
        json_t *after = json_object(), *unknown = json_array();
        for (int d = 0; d < o->n_directions; d++)
            json_object_set_new(after, o->directions[d].direction->head.id,
                                json_state(r->rule, &r->after[d]));
        for (int k = 0; k < r->rule->n_parts; k++)
            if (r->parts[k] == PART_UNTOLD)
                json_array_append_new(unknown, json_string(r->rule->parts[k].name));
        json_array_append_new(out, json_pack("{s:s, s:s, s:s, s:s, s:s, s:s, s:o, s:o, s:o}",
                                             "rule", r->rule->head.id, "name", r->rule->head.name,
                                             "place", r->rule->place, "dated", r->rule->dated,
                                             "mark", mark_word(r->rule->head.mark), "defer",
                                             r->rule->defer, "unknown", unknown, "now",
                                             json_state(r->rule, &r->now), "after", after));
    }
    return out;
}

static json_t *json_names(const struct originality_answer *o, const int *rules, int count)
{
    json_t *out = json_array();
    for (int i = 0; i < count; i++)
        json_array_append_new(out, json_string(o->rules[rules[i]].rule->head.id));
    return out;
}

static json_t *json_schemes(const struct originality_answer *o)
{
    json_t *out = json_array();
    for (int i = 0; i < o->n_schemes; i++) {
        const struct scheme_read *s = &o->schemes[i];
        json_t *after = json_object();
        for (int d = 0; d < o->n_directions; d++)
            json_object_set_new(after, o->directions[d].direction->head.id,
                                json_names(o, s->after[d], s->n_after[d]));
        json_array_append_new(out, json_pack("{s:s, s:o, s:o}", "scheme", s->name, "now",
                                             json_names(o, s->now, s->n_now), "after", after));
    }
    return out;
}

static json_t *json_areas(const struct originality_answer *o)
{
    json_t *out = json_array();
    for (int i = 0; i < o->n_areas; i++) {
        const struct area *area = &o->areas[i];
        json_t *row = json_pack("{s:s, s:i, s:i}", "system", area->system->head.id, "components",
                                area->total, "not_told", area->untold);
        for (int c = 0; c < ORIGINALITY_COUNT; c++)
            json_object_set_new(row, originality_name((enum originality)c),
                                json_integer(area->count[c]));
        json_array_append_new(out, row);
    }
    return out;
}

static json_t *json_losses(const struct originality_answer *o)
{
    json_t *out = json_array();
    for (int d = 0; d < o->n_directions; d++)
        for (int i = 0; i < o->directions[d].n_changes; i++) {
            const struct direction_change *c = &o->directions[d].changes[i];
            json_array_append_new(out,
                                  json_pack("{s:s, s:s, s:s, s:b, s:i, s:i}", "direction",
                                            o->directions[d].direction->head.id, "what",
                                            c->change->what, "to", originality_name(c->change->to),
                                            "can_be_undone", c->change->can_be_undone, "original",
                                            c->originals, "not_told", c->untold));
        }
    return out;
}

json_t *show_originality_json(const struct originality_answer *o)
{
    json_t *marks = json_array(), *conflicts = json_array(), *loose = json_array();
    for (int i = 0; i < o->n_marks; i++)
        json_array_append_new(marks, show_mark_read_json(&o->marks[i]));
    for (int i = 0; i < o->n_conflicts; i++)
        json_array_append_new(conflicts, json_pack("{s:s, s:b}", "text", o->conflicts[i].text,
                                                   "stop", o->conflicts[i].stop));
    for (int i = 0; i < o->n_loose; i++) json_array_append_new(loose, json_string(o->loose[i]));
    return json_pack("{s:s, s:o, s:o, s:o, s:o, s:o, s:o, s:o}", "vehicle", o->vehicle, "marks",
                     marks, "conflicts", conflicts, "areas", json_areas(o), "rules", json_rules(o),
                     "schemes", json_schemes(o), "changes", json_losses(o), "unknown", loose);
}
