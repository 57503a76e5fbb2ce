/* /vehicle/ID/identify: what it really is; each clue told with one tap, the one worth taking next
 * first. A form's field "clue" is a clue of the trade data, or "clock", or "paper". */
#include "face/show/clue.h"
#include "face/show/show_identify.h"
#include "face/web/form.h"
#include "face/web/page_frame.h"
#include "garage/kinds.h"

#include <string.h>

/* What of a record is asked here, and how it is called in the form. */
struct asked {
    const char *what; /* value of "clue" */
    const struct record_kind *kind;
    const char *title, *button;
    const char *fields[6];
};
static const struct asked asked[] = {
    {"clock",
     &kind_clock,
     "What the clock reads",
     "Store the reading",
     {"reading", "digits", "unit", "working", NULL}},
    {"paper",
     &kind_dated_mileage,
     "A paper with a date and a mileage",
     "Store the paper",
     {"written", "reading", "unit", "paper", NULL}},
};
enum { ASKED = sizeof asked / sizeof *asked };

/* Cuts the sheet before a heading; what begins there becomes *rest. */
static bool cut(struct sheet *s, const char *heading, struct sheet *rest)
{
    struct sheet_node *before = NULL;
    for (struct sheet_node *n = s->first; n; before = n, n = n->next) {
        if (n->kind != SHEET_HEADING || !text_is(n->as.heading.text, heading)) continue;
        *rest = (struct sheet){s->arena, "", n, s->last};
        if (before)
            before->next = NULL;
        else
            s->first = NULL;
        s->last = before;
        return true;
    }
    return false;
}

static void write_cautions(struct html *h, const struct trade *t, const struct trade_clue *c)
{
    for (int i = 0; i < c->n_cautions; i++)
        render_html_caution(h, t->cautions[c->cautions[i]].text, t->cautions[c->cautions[i]].defer);
}

/* One tap tells it; a measure or a note may be put in first. */
static void write_clue(struct visit *v, const struct trade *t, const struct trade_clue *c,
                       const char *told, const char *fault)
{
    struct html *h = &v->html;
    page_form(v, "clue");
    form_hidden(h, "clue", c->head.id);
    html_open(h, "fieldset");
    html_attr_print(h, "id", "c-%s", c->head.id);
    html_leaf(h, "legend", NULL, c->head.name);
    html_leaf(h, "p", "help", c->how);
    html_leaf(h, "p", "help",
              arena_print(v->arena, "%s, %g min. Misleads: %s", c->tool, c->minutes, c->misleads));
    write_cautions(h, t, c);
    form_fault(h, fault);
    html_open(h, "div");
    html_attr(h, "class", "outcomes");
    for (int o = 0; o < c->n_outcomes; o++) {
        bool now = text_is(told, c->outcomes[o].id);
        html_open(h, "button");
        html_attr(h, "name", "outcome");
        html_attr(h, "value", c->outcomes[o].id);
        html_attr(h, "class", now ? "main" : NULL);
        html_print(h, "%s%s", now ? "✓ " : "", c->outcomes[o].text);
        html_close(h, "button");
    }
    html_close(h, "div");
    html_open(h, "details");
    html_flag(h, "open", fault != NULL);
    html_leaf(h, "summary", NULL, "with what was measured");
    static const char *const extra[] = {"value", "note"};
    for (int i = 0; i < 2; i++)
        form_write(
            h,
            &(struct form_field){
                .name = extra[i],
                .label = extra[i],
                .value = fault ? pairs_get(&v->request->form, extra[i]) : NULL,
                .declared = &kind_clue_reading.fields[record_field(&kind_clue_reading, extra[i])]});
    html_leaf(h, "p", "help", "Fill in first, then tap what it showed.");
    html_close(h, "details");
    html_close(h, "fieldset");
    html_close(h, "form");
}

static const char *told_of(const json_t *json, const char *clue)
{
    size_t i;
    const json_t *c;
    json_array_foreach(
        json_object_get(json, "clues"), i,
        c) if (text_is(json_string_value(json_object_get(c, "clue")),
                       clue)) return json_string_value(json_object_get(c, "outcome"));
    return NULL;
}

static const struct trade_clue *next_of(const struct trade *t, const json_t *json)
{
    const json_t *first = json_array_get(json_object_get(json, "next"), 0);
    int clue = trade_find(t, SUBJECT_CLUES, json_string_value(json_object_get(first, "clue")));
    return clue >= 0 ? &t->clues[clue] : NULL;
}

static void write_record(struct visit *v, const struct asked *a, bool open, const char *fault)
{
    struct html *h = &v->html;
    html_open(h, "details");
    html_attr(h, "id", a->what);
    html_flag(h, "open", open || fault);
    html_leaf(h, "summary", NULL, a->title);
    page_form(v, NULL);
    form_hidden(h, "clue", a->what);
    form_fault(h, fault);
    for (int i = 0; a->fields[i]; i++) {
        const char *typed = fault ? pairs_get(&v->request->form, a->fields[i]) : NULL;
        form_write(h, &(struct form_field){
                          .name = a->fields[i],
                          .label = a->fields[i],
                          .declared = &a->kind->fields[record_field(a->kind, a->fields[i])],
                          .value = typed});
    }
    form_button(h, a->button);
    html_close(h, "form");
    html_close(h, "details");
}

/* Every clue, cluster by cluster. */
static void write_all(struct visit *v, const struct trade *t, const json_t *json,
                      const struct trade_clue *but, const char *at, const char *fault)
{
    struct html *h = &v->html;
    html_leaf(h, "h2", NULL, "Any other clue");
    for (int k = 0; k < t->n_clusters; k++) {
        bool open = false;
        for (int i = 0; i < t->n_clues; i++)
            open |= t->clues[i].cluster == k && text_is(at, t->clues[i].head.id) && fault;
        html_open(h, "details");
        html_flag(h, "open", open);
        html_leaf(h, "summary", NULL, t->clusters[k].head.name);
        for (int i = 0; i < t->n_clues; i++) {
            const struct trade_clue *c = &t->clues[i];
            if (c->cluster == k && c != but)
                write_clue(v, t, c, told_of(json, c->head.id),
                           text_is(at, c->head.id) ? fault : NULL);
        }
        html_close(h, "details");
    }
}

static void write_stored(struct visit *v)
{
    const char *what = pairs_get(&v->request->query, "stored");
    if (!what) return;
    html_open(&v->html, "p");
    html_attr(&v->html, "role", "status");
    render_html_toned(&v->html,
                      text_is(what, "again") ? "Stored; it was told before, and the latest counts."
                                             : "Stored.",
                      TONE_GOOD);
    html_close(&v->html, "p");
}

static bool write_page(struct visit *v, const char *at, const char *fault, struct fail *f)
{
    struct record *vehicle;
    struct told told;
    struct sheet rest, more, skipped;
    const struct trade *t;
    if (!visit_vehicle(v, &vehicle, f) || !visit_trade(v, &t, f) ||
        !visit_ask(v, QUESTION_IDENTIFY, vehicle->id, &told, f))
        return false;
    const struct trade_clue *next = next_of(t, told.json);
    bool clock = json_is_true(json_object_get(told.json, "known"));
    bool cut_first = cut(told.sheet, identify_miles_heading, &rest);
    struct html *h = page_begin(v, told.sheet->title, vehicle, "identify");
    render_html_sheet(h, told.sheet, page_links_of(vehicle));
    write_stored(v);
    if (fault) form_fault(h, "Nothing was stored: see the line beside the form below.");
    for (int i = 0; i < ASKED; i++)
        write_record(v, &asked[i], i == 0 && !clock, text_is(at, asked[i].what) ? fault : NULL);
    if (next) {
        html_leaf(h, "h2", NULL, identify_next_heading);
        write_clue(v, t, next, NULL, text_is(at, next->head.id) ? fault : NULL);
    }
    if (cut_first) {
        bool has_next = cut(&rest, identify_next_heading, &skipped);
        render_html_sheet(h, &rest, page_links_of(vehicle));
        if (has_next && cut(&skipped, identify_more_heading, &more))
            render_html_sheet(h, &more, page_links_of(vehicle));
    }
    write_all(v, t, told.json, next, at, fault);
    json_decref(told.json);
    return page_end(v);
}

bool page_identify(struct visit *v, struct fail *f)
{
    return write_page(v, NULL, NULL, f);
}

/* ---- what was told ---- */

static bool store(struct visit *v, const char *vehicle, const struct asked *a, struct fail *f)
{
    struct record *r = record_new(v->arena, a->kind);
    if (!record_set(v->arena, r, "vehicle", vehicle, NULL, f)) return false;
    for (int i = 0; a->fields[i]; i++) {
        const char *typed = pairs_get(&v->request->form, a->fields[i]);
        if (typed && !record_set(v->arena, r, a->fields[i], typed, NULL, f)) return false;
    }
    if (!record_valid(r, f) || !garage_begin(v->garage, f)) return false;
    if (garage_add(v->garage, r, f) && garage_commit(v->garage, f)) return true;
    garage_rollback(v->garage);
    return false;
}

bool page_identify_tell(struct visit *v, struct fail *f)
{
    struct record *vehicle, *r;
    const struct trade *t;
    struct fail why = {0};
    const char *clue = pairs_get(&v->request->form, "clue"),
               *outcome = pairs_get(&v->request->form, "outcome");
    const struct asked *record = NULL;
    bool again = false, done;
    if (!visit_garage(v, GARAGE_WRITE, f) || !visit_vehicle(v, &vehicle, f) ||
        !visit_trade(v, &t, f))
        return false;
    for (int i = 0; i < ASKED; i++)
        if (text_is(clue, asked[i].what)) record = &asked[i];
    if (record) {
        done = store(v, vehicle->id, record, &why);
    } else {
        const struct clue_told told = {clue ? clue : "", outcome ? outcome : "",
                                       pairs_get(&v->request->form, "value"),
                                       pairs_get(&v->request->form, "note")};
        done = clue_tell(v->arena, v->garage, t, vehicle->id, &told, v->today, &r, &again, &why);
    }
    if (done)
        return visit_go(v, arena_print(v->arena, "%s?stored=%s",
                                       page_of_vehicle(v->arena, vehicle, "identify"),
                                       again ? "again" : "1"));
    if (why.kind != FAIL_INPUT) {
        *f = why;
        return false;
    }
    v->response->status = 422;
    return write_page(v, clue ? clue : "", why.text, f);
}
