/* /vehicle/ID/bags: what came off and where it lies, and the way back; /bag/CODE: one bag, which
 * the code on its label opens. */
#include "face/show/bag_act.h"
#include "face/show/bag_label.h"
#include "face/show/show_bags.h"
#include "face/show/show_trade.h"
#include "face/web/form.h"
#include "face/web/page_frame.h"
#include "face/web/page_photographs.h"
#include "face/web/share.h"
#include "garage/kinds.h"

struct sent {
    const char *act, *at, *fault;
};

static const char *fault_of(const struct sent *sent, const char *act, const char *at)
{
    return sent->fault && text_is(sent->act, act) && (!at || text_is(sent->at, at)) ? sent->fault
                                                                                    : NULL;
}

static void write_field(struct visit *v, const struct record_kind *kind, const char *name,
                        const char *label, bool sent)
{
    form_write(&v->html,
               &(struct form_field){.name = name,
                                    .label = label,
                                    .declared = &kind->fields[record_field(kind, name)],
                                    .value = sent ? pairs_get(&v->request->form, name) : NULL});
}

static void write_head(struct visit *v, const char *title, const struct record *vehicle,
                       const struct sent *sent)
{
    struct html *h = page_begin(v, title, vehicle, "bags");
    html_leaf(h, "h1", NULL, title);
    page_stored(v, sent->fault);
}

static void write_onward(struct html *h, const char *address, const char *text)
{
    html_open(h, "a");
    html_url(h, "href", address);
    html_text(h, text);
    html_close(h, "a");
    html_text(h, " ");
}

/* ---- all of them ---- */

static void write_list(struct visit *v, const struct bags *x)
{
    struct html *h = &v->html;
    html_open(h, "ul");
    html_attr(h, "class", "stops");
    for (int i = x->count - 1; i >= 0; i--) {
        const struct fact_bag *b = &x->all[i];
        html_open(h, "li");
        html_open(h, "a");
        html_url(h, "href", arena_print(v->arena, "/bag/%s", b->code));
        html_open(h, "span");
        html_leaf(h, "b", NULL, b->code);
        html_print(h, " %s", b->what);
        html_close(h, "span");
        html_open(h, "span");
        render_html_toned(h, bag_where(v->arena, b),
                          b->emptied == DAY_NONE ? TONE_PLAIN : TONE_GOOD);
        html_close(h, "span");
        html_close(h, "a");
        html_close(h, "li");
    }
    html_close(h, "ul");
}

static bool write_bags(struct visit *v, const struct sent *sent, struct fail *f)
{
    static const char *const asked[][2] = {{"what", "what comes off"}, {"shelf", "where it lies"}};
    static const char *const more[][2] = {{"job", "the job that takes it off"},
                                          {"component", "component"},
                                          {"code", "code, if not the next free one"},
                                          {"note", "what to mind on the way back"}};
    struct record *vehicle;
    const struct trade *t;
    struct bags x;
    if (!visit_vehicle(v, &vehicle, f) || !visit_trade(v, &t, f) ||
        !bags_read(v->arena, v->garage, t, vehicle->id, &x, f))
        return false;
    struct html *h = &v->html;
    const char *name = record_text(vehicle, "name", "?"), *fault = fault_of(sent, "new", NULL);
    write_head(v, arena_print(v->arena, "%s: bags", name), vehicle, sent);
    html_open(h, "section");
    html_attr(h, "class", "work ask");
    html_leaf(h, "h2", NULL, "Something comes off");
    page_form(v, NULL);
    form_fault(h, fault);
    for (int i = 0; i < 2; i++) write_field(v, &kind_bag, asked[i][0], asked[i][1], fault);
    html_open(h, "details");
    html_leaf(h, "summary", NULL, "more of it");
    for (int i = 0; i < 4; i++) write_field(v, &kind_bag, more[i][0], more[i][1], fault);
    html_close(h, "details");
    form_act(h, "new", "Give it a code", "main");
    html_close(h, "form");
    html_close(h, "section");
    if (x.count > 0) {
        html_leaf(h, "h2", NULL, "What lies where");
        write_list(v, &x);
    }
    if (x.n_back > 0) {
        struct sheet *s = sheet_new(v->arena, "");
        html_open(h, "p");
        html_attr(h, "class", "onward");
        const char *labels = page_of_vehicle(v->arena, vehicle, "labels.pdf");
        write_onward(h, labels, "Labels, A4");
        write_onward(h, arena_print(v->arena, "%s?paper=letter", labels), "Labels, Letter");
        html_close(h, "p");
        bags_show_kit(s, &x);
        sheet_text(s, "Back together, last off first on:");
        bags_show_way(s, &x);
        render_html_sheet(h, s, page_links_of(vehicle));
    }
    return page_end(v);
}

bool page_bags(struct visit *v, struct fail *f)
{
    return write_bags(v, &(struct sent){0}, f);
}

bool page_bags_new(struct visit *v, struct fail *f)
{
    const struct pairs *form = &v->request->form;
    static const char *const names[] = {"what", "shelf", "job", "component", "code", "note"};
    struct bag_typed typed[7] = {{NULL, NULL}};
    struct record *vehicle, *r;
    struct fail why = {0};
    for (int i = 0; i < 6; i++) typed[i] = (struct bag_typed){names[i], pairs_get(form, names[i])};
    if (!visit_garage(v, GARAGE_WRITE, f) || !visit_vehicle(v, &vehicle, f)) return false;
    if (bag_new(v->arena, v->garage, vehicle->id, typed, v->today, &r, &why))
        return visit_go(v, arena_print(v->arena, "/bag/%s?stored=1", record_text(r, "code", "")));
    if (why.kind != FAIL_INPUT) {
        *f = why;
        return false;
    }
    v->response->status = 422;
    return write_bags(v, &(struct sent){.act = "new", .fault = why.text}, f);
}

/* A label leads to where a phone can reach it, if the pages are shared. */
bool page_labels(struct visit *v, struct fail *f)
{
    struct record *vehicle;
    const struct trade *t;
    struct bags x;
    struct fail why = {0};
    const enum paper paper =
        text_is(pairs_get(&v->request->query, "paper"), "letter") ? PAPER_LETTER : PAPER_A4;
    const char *address = v->site->share ? share_url(v->arena, v->site->share, "")
                                         : arena_print(v->arena, "http://%s", v->request->host);
    if (!visit_vehicle(v, &vehicle, f) || !visit_trade(v, &t, f) ||
        !bags_read(v->arena, v->garage, t, vehicle->id, &x, f))
        return false;
    if (!bag_labels(v->arena, record_text(vehicle, "name", "?"), x.all, x.count, address, paper,
                    &v->response->body, &v->response->length, &why))
        return visit_fail(v, 404, f, why.text);
    v->response->type = "application/pdf";
    return true;
}

/* ---- one bag ---- */

static bool find(struct visit *v, struct record **vehicle, const struct trade **t, struct bags *x,
                 const struct fact_bag **out, struct fail *f)
{
    struct record *bag;
    struct fail why = {0};
    if ((!v->garage && !visit_garage(v, GARAGE_READ, f)) || !visit_trade(v, t, f)) return false;
    if (!garage_find(v->garage, v->arena, &kind_bag, v->piece[0], &bag, &why))
        return visit_fail(v, 404, f, "there is no such bag; a vehicle's page of bags has all");
    const char *of = record_text(bag, "vehicle", "");
    if (!garage_find(v->garage, v->arena, record_kind_find("vehicle"), of, vehicle, f) ||
        !bags_read(v->arena, v->garage, *t, of, x, f))
        return false;
    *out = NULL;
    for (int i = 0; i < x->count; i++)
        if (text_is(x->all[i].id, bag->id)) *out = &x->all[i];
    return *out || visit_fail(v, 404, f, "the bag has just gone; look again");
}

static void write_pieces(struct visit *v, const struct trade *t, const struct fact_bag *b,
                         const struct sent *sent)
{
    struct html *h = &v->html;
    if (b->n_pieces == 0) return;
    html_leaf(h, "h2", NULL, "What is in it");
    html_open(h, "div");
    html_attr(h, "class", "clue due");
    for (int i = 0; i < b->n_pieces; i++) {
        const struct fact_piece *p = &b->pieces[i];
        static const struct field there = {
            .name = "there", .type = FIELD_INTEGER, .help = "how many are there now"};
        const char *fault = fault_of(sent, "count", p->id);
        enum tone tone;
        const char *care = piece_care(v->arena, t, p, &tone);
        html_open(h, "fieldset");
        html_leaf(h, "legend", NULL, piece_words(v->arena, p));
        if (*care) {
            html_open(h, "p");
            render_html_toned(h, care, tone);
            html_close(h, "p");
        }
        if (p->torque || piece_lacks_torque(p)) {
            html_open(h, "p");
            render_html_toned(h,
                              p->torque ? arena_print(v->arena, "torque %s, %s", p->torque,
                                                      p->source ? p->source : "no page told")
                                        : "torque: look it up",
                              p->torque ? TONE_PLAIN : TONE_CARE);
            html_close(h, "p");
        }
        if (p->note) html_leaf(h, "p", NULL, p->note);
        page_form(v, NULL);
        form_hidden(h, "at", p->id);
        form_write(h, &(struct form_field){.name = "there",
                                           .label = "counted in",
                                           .declared = &there,
                                           .fault = fault,
                                           .value = fault ? pairs_get(&v->request->form, "there")
                                                    : p->back >= 0
                                                        ? arena_print(v->arena, "%d", p->back)
                                                        : NULL});
        form_act(h, "count", "Count", NULL);
        html_close(h, "form");
        html_close(h, "fieldset");
    }
    html_close(h, "div");
}

static void write_photographs(struct visit *v, const struct fact_bag *b)
{
    struct html *h = &v->html;
    if (b->n_photographs == 0) return;
    html_leaf(h, "h2", NULL, "How it came off, in order");
    html_open(h, "ul");
    html_attr(h, "class", "shots");
    for (int i = 0; i < b->n_photographs; i++) {
        html_open(h, "li");
        html_open(h, "a");
        html_url(h, "href", photograph_address(v->arena, b->photographs[i]));
        photograph_image(v, b->photographs[i], PHOTOGRAPH_THUMBNAIL);
        html_print(h, "%d", i + 1);
        html_close(h, "a");
        html_close(h, "li");
    }
    html_close(h, "ul");
}

static void write_full(struct visit *v, const struct sent *sent)
{
    static const char *const more[][2] = {{"thread", "thread"},
                                          {"length", "length under the head"},
                                          {"grade", "grade"},
                                          {"torque", "the book's torque"},
                                          {"source", "where that stands"},
                                          {"renew", "must it not be used again"},
                                          {"note", "which way round, shims"}};
    struct html *h = &v->html;
    const char *fault = fault_of(sent, "put", NULL);
    html_open(h, "section");
    html_attr(h, "class", "work ask");
    html_leaf(h, "h2", NULL, "Put in");
    page_form(v, NULL);
    form_fault(h, fault);
    write_field(v, &kind_bag_item, "name", "what", fault);
    write_field(v, &kind_bag_item, "count", "how many", fault);
    html_open(h, "details");
    html_flag(h, "open", fault != NULL);
    html_leaf(h, "summary", NULL, "thread, torque, whether it is used again");
    for (int i = 0; i < 7; i++) write_field(v, &kind_bag_item, more[i][0], more[i][1], fault);
    html_close(h, "details");
    form_act(h, "put", "Count it out", "main");
    html_close(h, "form");
    page_form_files(v, NULL);
    form_fault(h, fault_of(sent, "photograph", NULL));
    form_camera(h, "photograph", "a photograph of how it came off");
    form_act(h, "photograph", "Store it", NULL);
    html_close(h, "form");
    html_close(h, "section");
}

static void write_empty(struct visit *v, const struct fact_bag *b, const struct sent *sent)
{
    struct html *h = &v->html;
    const char *fault = fault_of(sent, "shelf", NULL);
    html_open(h, "section");
    html_attr(h, "class", "work ask");
    page_form(v, NULL);
    form_fault(h, fault);
    write_field(v, &kind_bag, "shelf", "lies now at", fault);
    form_act(h, "shelf", "Move it", NULL);
    html_close(h, "form");
    html_close(h, "section");
    if (b->emptied != DAY_NONE && !fault_of(sent, "empty", NULL)) return;
    page_form(v, NULL);
    form_fault(h, fault_of(sent, "empty", NULL));
    html_leaf(h, "p", "help", "What was not counted in is taken to be there.");
    form_act(h, "empty", "All of it went back: empty", "main");
    html_close(h, "form");
}

static bool write_bag(struct visit *v, const struct sent *sent, struct fail *f)
{
    struct record *vehicle;
    const struct trade *t;
    const struct fact_bag *b;
    struct bags x;
    if (!find(v, &vehicle, &t, &x, &b, f)) return false;
    struct sheet *s = sheet_new(v->arena, "");
    write_head(v, arena_print(v->arena, "%s: %s", b->code, b->what), vehicle, sent);
    if (b->trade_job >= 0)
        show_cautions(s, t, t->jobs[b->trade_job].cautions, t->jobs[b->trade_job].n_cautions);
    bag_show_facts(s, t, b);
    render_html_sheet(&v->html, s, page_links_of(vehicle));
    write_photographs(v, b);
    write_pieces(v, t, b, sent);
    if (b->emptied == DAY_NONE) write_full(v, sent);
    write_empty(v, b, sent);
    return page_end(v);
}

bool page_bag(struct visit *v, struct fail *f)
{
    return write_bag(v, &(struct sent){0}, f);
}

static bool take_photograph(struct visit *v, const struct fact_bag *b, struct fail *f)
{
    const struct request *q = v->request;
    struct record *r = record_new(v->arena, record_kind_find("photograph"));
    if (q->n_files == 0) return fail_set(f, FAIL_INPUT, "photograph: none was chosen");
    return record_set(v->arena, r, "vehicle", b->vehicle, NULL, f) &&
           record_set(v->arena, r, "bag", b->id, NULL, f) &&
           record_set(v->arena, r, "note", arena_print(v->arena, "%s: %s", b->code, b->what), NULL,
                      f) &&
           photograph_take(v->arena, v->garage, q->files[0].file, q->files[0].called, r, f);
}

static bool take(struct visit *v, const struct fact_bag *b, struct sent *sent, struct fail *why)
{
    static const char *const names[] = {"name",   "count",  "thread", "length", "grade",
                                        "torque", "source", "renew",  "note"};
    const struct pairs *form = &v->request->form;
    const char *act = sent->act;
    struct bag_typed typed[10] = {{NULL, NULL}};
    const char *said; /* the page tells it piece by piece */
    for (int i = 0; i < 9; i++) typed[i] = (struct bag_typed){names[i], pairs_get(form, names[i])};
    if (text_is(act, "put")) return bag_put(v->arena, v->garage, b->id, typed, why);
    if (text_is(act, "photograph")) return take_photograph(v, b, why);
    if (text_is(act, "shelf"))
        return bag_move(v->arena, v->garage, b->id,
                        pairs_get(form, "shelf") ? pairs_get(form, "shelf") : "", why);
    if (text_is(act, "count"))
        return bag_count(v->arena, v->garage, b->id, sent->at, pairs_get(form, "there"), why);
    sent->act = "empty";
    return bag_empty(v->arena, v->garage, b->id, v->today, &said, why);
}

bool page_bag_tell(struct visit *v, struct fail *f)
{
    const struct pairs *form = &v->request->form;
    struct sent sent = {.act = pairs_get(form, "act"), .at = pairs_get(form, "at")};
    struct record *vehicle;
    const struct trade *t;
    const struct fact_bag *b;
    struct bags x;
    struct fail why = {0};
    if (!visit_garage(v, GARAGE_WRITE, f) || !find(v, &vehicle, &t, &x, &b, f)) return false;
    if (!sent.at) sent.at = "";
    if (take(v, b, &sent, &why))
        return visit_go(v, arena_print(v->arena, "/bag/%s?stored=1", b->code));
    if (why.kind != FAIL_INPUT) {
        *f = why;
        return false;
    }
    v->response->status = 422;
    sent.fault = why.text;
    return write_bag(v, &sent, f);
}
