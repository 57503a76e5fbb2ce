/* /vehicle/ID/safe: the checks of today and the gates; /vehicle/ID/safe/GATE: what one gate needs,
 * with a form beside each proof, and the two ways past it: proved, or overridden in writing. */
#include "face/show/safe_act.h"
#include "face/show/show_safe.h"
#include "face/show/show_trade.h"
#include "face/show/show_trade_gate.h"
#include "face/web/form.h"
#include "face/web/page_frame.h"
#include "garage/kinds.h"

#include <string.h>

/* What was refused, for the form that it came from. */
struct sent {
    const char *act, *at, *fault;
};

static const char *fault_of(const struct sent *sent, const char *at)
{
    return sent->fault && text_is(sent->at, at) ? sent->fault : NULL;
}

static void write_toned(struct html *h, const char *text, enum tone tone)
{
    html_open(h, "p");
    render_html_toned(h, text, tone);
    html_close(h, "p");
}

static bool begin(struct visit *v, struct record **vehicle, struct shop_ask *ask, struct safe *x,
                  struct fail *f)
{
    struct answer_trade ignored;
    return (v->garage || visit_garage(v, GARAGE_READ, f)) && visit_vehicle(v, vehicle, f) &&
           visit_shop_ask(v, (*vehicle)->id, ask, &ignored, f) && safe_reckon(v->arena, ask, x, f);
}

static void write_head(struct visit *v, const char *title, const struct record *vehicle,
                       const struct sent *sent)
{
    struct html *h = page_begin(v, title, vehicle, "safe");
    html_leaf(h, "h1", NULL, title);
    page_stored(v, sent->fault);
}

/* ---- all of it ---- */

static void write_check(struct visit *v, const struct safe *x, int check, const struct sent *sent)
{
    struct html *h = &v->html;
    const struct trade_check *c = &x->trade->checks[check];
    const bool done = x->checked[check];
    struct sheet *s = sheet_new(v->arena, "");
    html_open(h, "details");
    html_flag(h, "open", fault_of(sent, c->head.id) != NULL);
    html_open(h, "summary");
    html_open(h, "span");
    render_html_toned(
        h,
        arena_print(v->arena, "%s: %s", c->head.name, done ? "checked today" : "not checked today"),
        done ? TONE_GOOD : TONE_CARE);
    html_close(h, "span");
    html_close(h, "summary");
    show_check(s, x->trade, c);
    render_html_sheet(h, s, page_links_of(NULL));
    if (!done) {
        page_form(v, NULL);
        form_hidden(h, "at", c->head.id);
        form_fault(h, fault_of(sent, c->head.id));
        form_write(
            h,
            &(struct form_field){
                .name = "note",
                .label = "note",
                .declared = &kind_session_check.fields[record_field(&kind_session_check, "note")]});
        form_act(h, "check", "All of it is true now", "main");
        html_close(h, "form");
    }
    html_close(h, "details");
}

static bool write_safe(struct visit *v, const struct sent *sent, struct fail *f)
{
    struct record *vehicle;
    struct shop_ask ask;
    struct safe x;
    if (!begin(v, &vehicle, &ask, &x, f)) return false;
    struct html *h = &v->html;
    write_head(v, arena_print(v->arena, "Safe: %s", x.vehicle), vehicle, sent);
    html_leaf(h, "p", NULL,
              "Local law and licensed practice come first; each gate says whom to defer to.");
    html_leaf(h, "h2", NULL, "Gates, in order");
    html_open(h, "ul");
    html_attr(h, "class", "stops");
    for (int i = 0; i < x.n_gates; i++) {
        html_open(h, "li");
        html_open(h, "a");
        html_url(h, "href",
                 arena_print(v->arena, "%s/%s", page_of_vehicle(v->arena, vehicle, "safe"),
                             x.gates[i].gate->head.id));
        html_leaf(h, "b", NULL, x.gates[i].gate->head.name);
        html_open(h, "span");
        render_html_toned(h, gate_words(v->arena, &x.gates[i]), gate_tone(x.gates[i].state));
        html_close(h, "span");
        html_close(h, "a");
        html_close(h, "li");
    }
    html_close(h, "ul");
    html_leaf(h, "h2", NULL, "Asked afresh each session");
    for (int i = 0; i < x.trade->n_checks; i++) write_check(v, &x, i, sent);
    return page_end(v);
}

/* ---- one gate ---- */

static void write_fields(struct visit *v, const struct record_kind *kind,
                         const char *const (*fields)[2], bool sent)
{
    for (; (*fields)[0]; fields++)
        form_write(&v->html,
                   &(struct form_field){.name = (*fields)[0],
                                        .label = (*fields)[1],
                                        .declared = &kind->fields[record_field(kind, (*fields)[0])],
                                        .value = sent ? pairs_get(&v->request->form, (*fields)[0])
                                                      : NULL});
}

static void write_measured(struct visit *v, const struct trade_proof *p, bool sent)
{
    const char *const first[][2] = {{"value", arena_print(v->arena, "value, in %s", p->unit)},
                                    {"where", "where"},
                                    {NULL, NULL}};
    static const char *const book[][2] = {{"low", "the maker's low"},
                                          {"high", "the maker's high"},
                                          {"source", "by which page of the book"},
                                          {NULL, NULL}};
    static const char *const more[][2] = {
        {"retest", "good only until"}, {"note", "note"}, {NULL, NULL}};
    struct html *h = &v->html;
    write_fields(v, &kind_measurement, first, sent);
    if (p->book) write_fields(v, &kind_measurement, book, sent);
    html_open(h, "details");
    html_leaf(h, "summary", NULL, "for a while only, or a note");
    write_fields(v, &kind_measurement, more, sent);
    html_close(h, "details");
    form_act(h, "prove", "Store the reading", "main");
}

static void write_seen(struct visit *v, const struct trade_proof *p, bool sent)
{
    static const char *const named[][2] = {{"by", "who checked it"},
                                           {"worker", "who did the work"},
                                           {"fit", "what makes them fit to judge it"},
                                           {NULL, NULL}};
    static const char *const note[][2] = {{"note", "what was seen"}, {NULL, NULL}};
    struct html *h = &v->html;
    if (p->independent) write_fields(v, &kind_witnessed, named, sent);
    write_fields(v, &kind_witnessed, note, sent);
    html_open(h, "div");
    html_attr(h, "class", "actions");
    form_act(h, "holds", "It holds", "main");
    form_act(h, "fails", "It does not hold", NULL);
    html_close(h, "div");
}

static void write_proof(struct visit *v, const struct safe *x, const struct safe_need *n,
                        const struct sent *sent)
{
    struct html *h = &v->html;
    const struct trade_proof *p = &x->trade->proofs[n->index];
    const char *fault = fault_of(sent, p->head.id);
    html_open(h, "section");
    html_attr(h, "class", "work");
    html_leaf(h, "h3", NULL, n->name);
    write_toned(h, n->why, n->holds ? TONE_GOOD : TONE_BAD);
    html_open(h, "p");
    html_print(h, "%s. ", p->how);
    html_leaf(h, "b", NULL, arena_print(v->arena, "Limits: %s", proof_limits(v->arena, p)));
    html_text(h, " ");
    render_html_mark(h, p->head.mark);
    html_close(h, "p");
    for (int i = 0; i < p->n_cautions; i++)
        render_html_caution(h, x->trade->cautions[p->cautions[i]].text,
                            x->trade->cautions[p->cautions[i]].defer);
    if (p->defer) html_leaf(h, "p", "defer", arena_print(v->arena, "Ask: %s", p->defer));
    html_open(h, "details");
    html_flag(h, "open", fault != NULL);
    html_leaf(h, "summary", NULL,
              n->holds  ? "Tell it anew"
              : p->unit ? "Tell what was measured"
                        : "Tell what was seen");
    page_form(v, NULL);
    form_hidden(h, "at", p->head.id);
    form_fault(h, fault);
    if (p->unit)
        write_measured(v, p, fault != NULL);
    else
        write_seen(v, p, fault != NULL);
    html_close(h, "form");
    html_close(h, "details");
    html_close(h, "section");
}

static void write_needs(struct visit *v, const struct safe *x, const struct safe_gate *g,
                        const struct sent *sent)
{
    struct html *h = &v->html;
    bool jobs = false, proofs = false;
    for (int i = 0; i < g->n_needs; i++) {
        const struct safe_need *n = &g->needs[i];
        if (n->kind == NEED_PROOF) {
            proofs = true;
            continue;
        }
        if (!jobs) {
            html_leaf(h, "h2", NULL, "Gates and jobs before it");
            html_open(h, "ul");
        }
        jobs = true;
        html_open(h, "li");
        render_html_toned(h, arena_print(v->arena, "%s: %s", n->name, n->why),
                          n->holds ? TONE_GOOD : TONE_BAD);
        html_close(h, "li");
    }
    if (jobs) html_close(h, "ul");
    if (!proofs) return;
    html_leaf(h, "h2", NULL, "Proofs");
    html_open(h, "div");
    html_attr(h, "class", "proofs");
    for (int i = 0; i < g->n_needs; i++)
        if (g->needs[i].kind == NEED_PROOF) write_proof(v, x, &g->needs[i], sent);
    html_close(h, "div");
}

static void write_ways(struct visit *v, const struct safe_gate *g, const struct sent *sent)
{
    static const char *const reason[][2] = {{"reason", "why, in your own words"}, {NULL, NULL}};
    struct html *h = &v->html;
    const char *id = g->gate->head.id, *fault = fault_of(sent, id);
    const bool overrides = fault && text_is(sent->act, "override");
    if (g->state == GATE_OPEN || g->state == GATE_PROVISIONAL) return;
    html_leaf(h, "h2", NULL, "Past it");
    html_open(h, "section");
    html_attr(h, "class", "work");
    page_form(v, NULL);
    form_hidden(h, "at", id);
    if (!overrides) form_fault(h, fault);
    form_act(h, "open", "Open it: all of it holds", "main");
    html_close(h, "form");
    if (g->missing > 0) {
        html_open(h, "details");
        html_flag(h, "open", overrides);
        html_leaf(h, "summary", NULL, "Go on though it is shut");
        html_leaf(h, "p", NULL,
                  "It is never silent: the reason and what was missing stay in the history. It is "
                  "no proof, and what goes missing later shuts the gate again.");
        page_form(v, NULL);
        form_hidden(h, "at", id);
        if (overrides) form_fault(h, fault);
        write_fields(v, &kind_gate_override, reason, overrides);
        form_act(h, "override", "Override it", "loss");
        html_close(h, "form");
        html_close(h, "details");
    }
    html_close(h, "section");
}

static bool find_gate(struct visit *v, const struct trade *t, int *gate, struct fail *f)
{
    *gate = trade_find(t, SUBJECT_GATES, v->piece[1]);
    return *gate >= 0 || visit_fail(v, 404, f, "there is no such gate; the page of safe has all");
}

static bool write_gate(struct visit *v, const struct sent *sent, struct fail *f)
{
    struct record *vehicle;
    struct shop_ask ask;
    struct safe x;
    int gate;
    if (!begin(v, &vehicle, &ask, &x, f) || !find_gate(v, ask.trade, &gate, f)) return false;
    const struct safe_gate *g = &x.gates[gate];
    struct sheet *s = sheet_new(v->arena, "");
    write_head(v, arena_print(v->arena, "%s: %s", x.vehicle, g->gate->head.name), vehicle, sent);
    sheet_text(s, "%s, when all of this holds.", g->gate->act);
    safe_show_state(s, g);
    show_cautions(s, x.trade, g->gate->cautions, g->gate->n_cautions);
    render_html_sheet(&v->html, s, page_links_of(vehicle));
    write_needs(v, &x, g, sent);
    write_ways(v, g, sent);
    return page_end(v);
}

bool page_safe(struct visit *v, struct fail *f)
{
    return write_safe(v, &(struct sent){0}, f);
}

bool page_gate(struct visit *v, struct fail *f)
{
    return write_gate(v, &(struct sent){0}, f);
}

/* ---- what was told ---- */

static bool prove(struct visit *v, const struct shop_ask *ask, const struct sent *sent,
                  struct fail *f)
{
    const struct pairs *form = &v->request->form;
    const struct safe_found found = {.value = pairs_get(form, "value"),
                                     .where = pairs_get(form, "where"),
                                     .low = pairs_get(form, "low"),
                                     .high = pairs_get(form, "high"),
                                     .source = pairs_get(form, "source"),
                                     .retest = pairs_get(form, "retest"),
                                     .holds = text_is(sent->act, "holds") ? "yes" : "no",
                                     .by = pairs_get(form, "by"),
                                     .worker = pairs_get(form, "worker"),
                                     .fit = pairs_get(form, "fit"),
                                     .note = pairs_get(form, "note")};
    int proof;
    return safe_find(ask->trade, SUBJECT_PROOFS, sent->at, &proof, f) &&
           safe_prove(v->arena, ask, proof, &found, f);
}

static bool tell(struct visit *v, bool gates, struct fail *f)
{
    const struct pairs *form = &v->request->form;
    struct sent sent = {.act = pairs_get(form, "act"), .at = pairs_get(form, "at")};
    struct answer_trade ignored;
    struct record *vehicle;
    struct shop_ask ask;
    struct fail why = {0};
    int i;
    bool done;
    if (!sent.act) sent.act = "";
    if (!sent.at) sent.at = "";
    if (!visit_garage(v, GARAGE_WRITE, f) || !visit_vehicle(v, &vehicle, f) ||
        !visit_shop_ask(v, vehicle->id, &ask, &ignored, f) ||
        (gates && !find_gate(v, ask.trade, &i, f)))
        return false;
    if (!gates)
        done = safe_find(ask.trade, SUBJECT_CHECKS, sent.at, &i, &why) &&
               safe_check(v->arena, &ask, i, pairs_get(form, "note"), &why);
    else if (text_is(sent.act, "open"))
        done = safe_open(v->arena, &ask, i, &why);
    else if (text_is(sent.act, "override"))
        done = safe_override(v->arena, &ask, i, pairs_get(form, "reason"), &why);
    else
        done = prove(v, &ask, &sent, &why);
    if (done) return visit_go(v, arena_print(v->arena, "%s?stored=1", v->request->path));
    if (why.kind != FAIL_INPUT && why.kind != FAIL_NO) {
        *f = why;
        return false;
    }
    v->response->status = 422;
    sent.fault = why.text;
    return gates ? write_gate(v, &sent, f) : write_safe(v, &sent, f);
}

bool page_safe_tell(struct visit *v, struct fail *f)
{
    return tell(v, false, f);
}

bool page_gate_tell(struct visit *v, struct fail *f)
{
    return tell(v, true, f);
}
