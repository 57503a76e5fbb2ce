/* /vehicle/ID/session: how it was left off, what to do this evening with a form beside each job,
 * and how it is left off now. Printed without its forms it is one sheet for the bench. */
#include "face/show/log_keep.h"
#include "face/show/session_act.h"
#include "face/show/show_session.h"
#include "face/web/form.h"
#include "face/web/page_frame.h"
#include "face/web/page_photographs.h"
#include "garage/kinds.h"

#include <string.h>

enum { RUNS_QUICK = 400 };

/* What was sent and cannot be stored, for the form that it came from. */
struct sent {
    const char *act, *at; /* at: the job, care or tool */
    const char *fault;
    bool ask; /* the fault is a question that a yes answers */
};

static void write_sheet(struct html *h, const struct record *vehicle, struct sheet *s)
{
    render_html_sheet(h, s, page_links_of(vehicle));
}

static const char *fault_at(const struct sent *sent, const char *act, const char *at)
{
    return sent->fault && text_is(sent->act, act) && (!at || text_is(sent->at, at)) ? sent->fault
                                                                                    : NULL;
}

static const char *typed(const struct visit *v, const char *fault, const char *name)
{
    return fault ? pairs_get(&v->request->form, name) : NULL;
}

/* ---- a job, and what became of it ---- */

static void write_done(struct visit *v, const struct trade_job *job, const struct sent *sent)
{
    static const struct field hours = {
        .name = "spent", .type = FIELD_TEXT, .help = "2 h, 90 min, 1 h 30"};
    struct html *h = &v->html;
    const char *fault = fault_at(sent, "work", job->head.id);
    html_open(h, "details");
    html_flag(h, "open", fault != NULL);
    html_leaf(h, "summary", NULL, "Tell what became of it");
    page_form(v, NULL);
    form_hidden(h, "at", job->head.id);
    form_write(h, &(struct form_field){.name = "spent",
                                       .label = "hours on it",
                                       .declared = &hours,
                                       .value = typed(v, fault, "spent"),
                                       .fault = fault});
    if (fault && sent->ask) form_hidden(h, "sure", "yes");
    html_open(h, "div");
    html_attr(h, "class", "actions");
    form_act(h, "finished", fault && sent->ask ? "Yes, finished" : "Finished", "main");
    form_act(h, "begun", fault && sent->ask ? "Yes, not finished" : "Not finished", NULL);
    html_close(h, "div");
    html_close(h, "form");
    html_close(h, "details");
}

static void write_job(struct visit *v, const struct record *vehicle, const struct session *x,
                      const struct session_job *job, const struct sent *sent)
{
    struct html *h = &v->html;
    struct sheet *s = sheet_new(v->arena, "");
    session_show_job(s, x, job);
    html_open(h, "section");
    html_attr(h, "class", "work");
    write_sheet(h, vehicle, s);
    write_done(v, job->job, sent);
    html_close(h, "section");
}

static void write_care_button(struct visit *v, const char *id, const char *fault)
{
    struct html *h = &v->html;
    page_form(v, NULL);
    form_hidden(h, "at", id);
    form_fault(h, fault);
    form_act(h, "care", "Done today", NULL);
    html_close(h, "form");
}

static void write_short(struct visit *v, const struct record *vehicle, const struct session *x,
                        const struct sent *sent)
{
    struct html *h = &v->html;
    struct sheet *s = sheet_new(v->arena, "");
    session_show_short(s, x);
    if (!s->first) return;
    html_open(h, "section");
    html_attr(h, "class", "work");
    write_sheet(h, vehicle, s);
    if (x->short_care)
        write_care_button(v, x->short_care->head.id,
                          fault_at(sent, "care", x->short_care->head.id));
    if (x->short_job) write_done(v, x->short_job->job, sent);
    html_close(h, "section");
}

static void write_tonight(struct visit *v, const struct record *vehicle, const struct session *x,
                          const struct sent *sent)
{
    struct html *h = &v->html;
    struct sheet *s = sheet_new(v->arena, "");
    session_show_none(s, x);
    write_sheet(h, vehicle, s);
    html_open(h, "div");
    html_attr(h, "class", "tonight");
    for (int i = 0; i < x->n_jobs && x->jobs[i].role != SESSION_READY; i++)
        write_job(v, vehicle, x, &x->jobs[i], sent);
    write_short(v, vehicle, x, sent);
    html_close(h, "div");
}

/* ---- tools that nobody told of, and care ---- */

static void write_tools(struct visit *v, const struct session *x, const struct sent *sent)
{
    static const char *const have[] = {"owned", "borrowed", "missing"};
    struct html *h = &v->html;
    if (x->n_unknown_tools == 0) return;
    html_open(h, "section");
    html_attr(h, "class", "ask");
    html_leaf(h, "h2", NULL, "Have you got it?");
    html_open(h, "div");
    html_attr(h, "class", "clue due");
    for (int i = 0; i < x->n_unknown_tools; i++) {
        const struct entry *tool = &x->trade->tools[x->unknown_tools[i]].head;
        page_form(v, NULL);
        html_open(h, "fieldset");
        html_leaf(h, "legend", NULL, tool->name);
        form_hidden(h, "at", tool->id);
        form_fault(h, fault_at(sent, "tool", tool->id));
        html_open(h, "div");
        html_attr(h, "class", "actions");
        for (int k = 0; k < 3; k++) form_act(h, have[k], have[k], NULL);
        html_close(h, "div");
        html_close(h, "fieldset");
        html_close(h, "form");
    }
    html_close(h, "div");
    html_close(h, "section");
}

static void write_care(struct visit *v, const struct session *x, const struct sent *sent)
{
    struct html *h = &v->html;
    int more = x->n_care_due - (x->short_care != NULL);
    if (more <= 0) return;
    html_open(h, "section");
    html_attr(h, "class", "ask");
    html_leaf(h, "h2", NULL, "Care that is due");
    html_open(h, "div");
    html_attr(h, "class", "clue due");
    for (int i = 0; i < x->n_care_due; i++) {
        const struct trade_care *c = x->care[i].care;
        if (c == x->short_care) continue;
        html_open(h, "fieldset");
        html_leaf(h, "legend", NULL, arena_print(v->arena, "%s, %g min", c->head.name, c->minutes));
        for (int k = 0; k < c->n_cautions; k++)
            render_html_caution(h, x->trade->cautions[c->cautions[k]].text,
                                x->trade->cautions[c->cautions[k]].defer);
        html_leaf(h, "p", NULL, c->act);
        write_care_button(v, c->head.id, fault_at(sent, "care", c->head.id));
        html_close(h, "fieldset");
    }
    html_close(h, "div");
    html_close(h, "section");
}

/* ---- the end of it ---- */

static bool write_photo(struct visit *v, const char *id, struct fail *f)
{
    struct record *photo;
    struct html *h = &v->html;
    if (!garage_find(v->garage, v->arena, record_kind_find("photograph"), id, &photo, f))
        return false;
    html_open(h, "p");
    html_attr(h, "class", "shot");
    html_open(h, "a");
    html_url(h, "href", photograph_address(v->arena, photo));
    photograph_image(v, photo, PHOTOGRAPH_THUMBNAIL);
    html_close(h, "a");
    html_close(h, "p");
    return true;
}

static void write_left_off(struct visit *v, const struct sent *sent)
{
    struct html *h = &v->html;
    const char *fault = fault_at(sent, "left-off", NULL);
    static const char *const asked[] = {"note", "where"};
    static const char *const labels[] = {"how it is left off now", "where things lie"};
    html_open(h, "section");
    html_attr(h, "class", "ask");
    html_leaf(h, "h2", NULL, "Before you go");
    page_form_files(v, NULL);
    form_fault(h, fault);
    for (int i = 0; i < 2; i++)
        form_write(h, &(struct form_field){
                          .name = asked[i],
                          .label = labels[i],
                          .declared = &kind_left_off.fields[record_field(&kind_left_off, asked[i])],
                          .value = typed(v, fault, asked[i])});
    form_camera(h, "photograph", "a photograph of it");
    form_act(h, "left-off", "Store: it is shown first next time", "main");
    html_close(h, "form");
    html_close(h, "section");
}

/* Another evening than the week says, asked by the address. */
static void write_evening(struct visit *v, const struct record *vehicle, const char *fault)
{
    static const struct field fields[] = {
        {.name = "hours", .type = FIELD_TEXT, .help = "in all, with setting up and clearing up: 3"},
        {.name = "hands", .type = FIELD_TEXT, .help = "pairs of hands: 2"},
        {.name = "degrees", .type = FIELD_TEXT, .help = "how warm it is in the work place, C: 8"}};
    struct html *h = &v->html;
    html_open(h, "details");
    html_attr(h, "class", "ask");
    html_flag(h, "open", fault != NULL);
    html_leaf(h, "summary", NULL, "Other hours, hands or warmth this evening");
    html_open(h, "form");
    html_attr(h, "method", "get");
    html_url(h, "action", page_of_vehicle(v->arena, vehicle, "session"));
    for (int i = 0; i < 3; i++)
        form_write(h, &(struct form_field){
                          .name = fields[i].name,
                          .label = fields[i].name,
                          .declared = &fields[i],
                          .value = pairs_get(&v->request->query, fields[i].name),
                          .fault = fault && text_starts(
                                                fault, arena_print(v->arena, "%s:", fields[i].name))
                                       ? fault
                                       : NULL});
    form_button(h, "Reckon with it");
    html_close(h, "form");
    html_close(h, "details");
}

static bool write_page(struct visit *v, const struct record *vehicle, const struct sent *sent,
                       struct fail *f)
{
    const struct pairs *query = &v->request->query;
    struct session_ask evening = session_as_usual();
    struct session *x = ARENA_NEW(v->arena, struct session);
    struct answer_trade ignored;
    struct shop_ask ask;
    struct fail why = {0};
    const bool good = session_evening(pairs_get(query, "hours"), pairs_get(query, "hands"),
                                      pairs_get(query, "degrees"), &evening, &why);
    if (!good) evening = session_as_usual();
    if (!visit_shop_ask(v, vehicle->id, &ask, &ignored, f)) return false;
    if (ask.runs > RUNS_QUICK) ask.runs = RUNS_QUICK;
    if (!session_reckon(v->arena, &ask, &evening, x, f)) return false;
    if (!good) v->response->status = 422;
    const char *title = arena_print(v->arena, "%s: this evening", x->vehicle);
    struct sheet *left = sheet_new(v->arena, ""), *before = sheet_new(v->arena, ""),
                 *after = sheet_new(v->arena, "");
    struct html *h = page_begin(v, title, vehicle, "session");
    html_leaf(h, "h1", NULL, title);
    page_stored(v, sent->fault);
    session_show_left_off(left, x);
    write_sheet(h, vehicle, left);
    if (x->told.left_off.photo && !write_photo(v, x->told.left_off.photo, f)) return false;
    session_show_stall(before, x);
    session_show_evening(before, x);
    write_sheet(h, vehicle, before);
    write_evening(v, vehicle, good ? NULL : why.text);
    write_tonight(v, vehicle, x, sent);
    write_tools(v, x, sent);
    session_show_ready(after, x);
    session_show_held(after, x);
    write_sheet(h, vehicle, after);
    write_care(v, x, sent);
    write_left_off(v, sent);
    return page_end(v);
}

bool page_session(struct visit *v, struct fail *f)
{
    struct record *vehicle;
    return visit_vehicle(v, &vehicle, f) && write_page(v, vehicle, &(struct sent){0}, f);
}

/* ---- what was told ---- */

static bool take_work(struct visit *v, const char *vehicle, const struct trade *t, bool finished,
                      struct sent *sent, struct fail *why)
{
    const struct pairs *form = &v->request->form;
    const char *hours = pairs_get(form, "spent");
    const struct log_now now = log_now();
    struct log_reading r;
    double minutes;
    size_t length;
    bool stored;
    sent->act = "work";
    if (trade_find_job(t, sent->at) < 0)
        return fail_set(why, FAIL_INPUT, "session: there is no job '%.60s'", sent->at);
    if (hours && *hours && (!log_hours(hours, &minutes, &length) || hours[length]))
        return fail_set(why, FAIL_INPUT, "hours: '%.40s' is no time; as 2 h or 90 min", hours);
    const struct log_ask ask = {.garage = v->garage,
                                .trade = t,
                                .vehicle = vehicle,
                                .today = v->today,
                                .minute = now.minute,
                                .now = now.stamp,
                                .line = arena_print(v->arena, "%s %s%s", hours ? hours : "",
                                                    sent->at, finished ? " finished" : "")};
    if (!log_tell(v->arena, &ask, pairs_get(form, "sure") != NULL, &r, &stored, why)) return false;
    if (stored) return true;
    sent->ask = r.n_questions > 0;
    return fail_set(why, FAIL_INPUT, "%s",
                    r.n_questions > 0 ? r.questions[0] : "which job is meant is not clear");
}

static bool take_left_off(struct visit *v, const char *vehicle, struct sent *sent, struct fail *why)
{
    const struct request *q = v->request;
    const char *note = pairs_get(&q->form, "note"), *photo = NULL;
    sent->act = "left-off";
    if (!note || !*note)
        return fail_set(why, FAIL_INPUT, "note: say where to go on next time, and what to mind");
    if (q->n_files > 0) {
        struct record *r = record_new(v->arena, record_kind_find("photograph"));
        if (!record_set(v->arena, r, "vehicle", vehicle, NULL, why) ||
            !record_set(v->arena, r, "note", "how it was left off", NULL, why) ||
            !photograph_take(v->arena, v->garage, q->files[0].file, q->files[0].called, r, why))
            return false;
        photo = r->id;
    }
    return session_done(v->arena, v->garage, vehicle, note, pairs_get(&q->form, "where"), photo,
                        v->today, why);
}

static bool take(struct visit *v, const char *vehicle, struct sent *sent, struct fail *why)
{
    const char *act = sent->act;
    const struct trade *t;
    if (!visit_trade(v, &t, why)) return false;
    if (text_is(act, "finished") || text_is(act, "begun"))
        return take_work(v, vehicle, t, text_is(act, "finished"), sent, why);
    if (text_is(act, "left-off")) return take_left_off(v, vehicle, sent, why);
    if (text_is(act, "care"))
        return session_cared(v->arena, v->garage, t, vehicle, sent->at, v->today, why);
    sent->act = "tool";
    return session_tool(v->arena, v->garage, t, sent->at, act, why);
}

bool page_session_tell(struct visit *v, struct fail *f)
{
    const struct pairs *form = &v->request->form;
    struct sent sent = {.act = pairs_get(form, "act"), .at = pairs_get(form, "at")};
    struct record *vehicle;
    struct fail why = {0};
    if (!sent.act) sent.act = "";
    if (!sent.at) sent.at = "";
    if (!visit_garage(v, GARAGE_WRITE, f) || !visit_vehicle(v, &vehicle, f)) return false;
    if (take(v, vehicle->id, &sent, &why))
        return visit_go(
            v, arena_print(v->arena, "%s?stored=1", page_of_vehicle(v->arena, vehicle, "session")));
    if (why.kind != FAIL_INPUT) {
        *f = why;
        return false;
    }
    v->response->status = 422;
    sent.fault = why.text;
    return write_page(v, vehicle, &sent, f);
}
