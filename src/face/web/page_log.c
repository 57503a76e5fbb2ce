/* /vehicle/ID/log: one line is typed, read back, and stored with one tap; and the clock of a job.
 */
#include "face/show/log_keep.h"
#include "face/show/measured_keep.h"
#include "face/show/show_log.h"
#include "face/web/form.h"
#include "face/web/page_frame.h"

enum { PICKS_MOST = 8, LAST_SHOWN = 5 };

static void write_line(struct visit *v, const char *line)
{
    static const struct field declared = {
        .name = "line",
        .type = FIELD_TEXT,
        .help = "Hours, jobs, what went wrong: 4 h, front brakes, left cylinder stuck. Also done, "
                "yesterday, 19:00-21:30."};
    struct html *h = &v->html;
    page_form(v, NULL);
    form_write(h,
               &(struct form_field){
                   .name = "line", .label = "What was done", .declared = &declared, .value = line});
    html_open(h, "button");
    html_attr(h, "name", "act");
    html_attr(h, "value", "read");
    html_text(h, "Read it");
    html_close(h, "button");
    html_close(h, "form");
}

/* A piece that may be several jobs: one tap for each. */
static void write_picks(struct visit *v, const struct log_reading *r, int from)
{
    struct html *h = &v->html;
    for (int i = 0; i < r->n_open; i++) {
        html_open(h, "fieldset");
        html_leaf(h, "legend", NULL, arena_print(v->arena, "Which is '%s'?", r->open[i].words));
        html_open(h, "div");
        html_attr(h, "class", "tiles");
        for (int k = 0; k < r->open[i].jobs.count; k++) {
            const struct entry *e = &r->trade->jobs[r->open[i].jobs.best[k]].head;
            html_open(h, "label");
            html_open(h, "input");
            html_attr(h, "type", "radio");
            html_attr_print(h, "name", "pick%d", from + i);
            html_attr(h, "value", e->id);
            html_flag(h, "required", true);
            html_text(h, " ");
            html_text(h, e->name);
            html_close(h, "label");
        }
        html_close(h, "div");
        html_close(h, "fieldset");
    }
}

static void write_reading(struct visit *v, const struct record *vehicle,
                          const struct log_reading *r, const struct log_ask *ask)
{
    struct html *h = &v->html;
    struct log_reading shown = *r;
    shown.n_open = 0; /* asked by buttons instead */
    html_open(h, "div");
    html_attr(h, "class", "said");
    render_html_sheet(h, show_log(v->arena, &shown, false), page_links_of(vehicle));
    page_form(v, NULL);
    form_hidden(h, "line", r->line);
    for (int i = 0; i < ask->n_picks; i++)
        form_hidden(h, arena_print(v->arena, "pick%d", i), ask->picks[i]);
    write_picks(v, r, ask->n_picks);
    html_open(h, "button");
    html_attr(h, "name", "act");
    html_attr(h, "value", r->n_open > 0 ? "read" : r->n_questions > 0 ? "sure" : "store");
    html_text(h, r->n_open > 0        ? "That one"
                 : r->n_questions > 0 ? "Yes, it is so: store it"
                                      : "Store it");
    html_close(h, "button");
    html_close(h, "form");
    html_close(h, "div");
}

static bool write_clock(struct visit *v, const struct record *vehicle, struct fail *f)
{
    static const struct field hours = {.name = "hours",
                                       .type = FIELD_TEXT,
                                       .help = "Only if it ran too long: how long it was, 2 h"};
    static const struct field job = {
        .name = "job", .type = FIELD_TEXT, .help = "Words for it, or its id: brakes-open"};
    const struct pairs *typed = &v->request->form;
    struct html *h = &v->html;
    struct record *timer;
    if (!timer_running(v->arena, v->garage, vehicle->id, &timer, f)) return false;
    html_leaf(h, "h2", NULL, "The clock");
    page_form(v, NULL);
    if (timer) {
        html_leaf(h, "p", NULL,
                  arena_print(v->arena, "It runs for %s since %s, %s.",
                              record_text(timer, "job", ""), record_text(timer, "from", ""),
                              record_text(timer, "date", "")));
        form_write(h, &(struct form_field){.name = "hours",
                                           .label = "hours",
                                           .declared = &hours,
                                           .value = pairs_get(typed, "hours")});
        html_open(h, "div");
        html_attr(h, "class", "actions");
        form_act(h, "stop", "Stop", NULL);
        form_act(h, "finish", "Stop, the job is done", NULL);
        form_act(h, "drop", "Count nothing", NULL);
        html_close(h, "div");
    } else {
        form_write(h, &(struct form_field){.name = "job",
                                           .label = "job",
                                           .declared = &job,
                                           .value = pairs_get(typed, "job")});
        form_act(h, "start", "Start the clock", NULL);
    }
    html_close(h, "form");
    return true;
}

/* ---- what was measured ---- */

/* As typed, and how it was judged; x NULL: nothing was. */
struct measuring {
    struct measured_ask ask;
    const struct measured_reading *x;
    bool stored;
    const char *fault;
};

static void write_judged(struct visit *v, const struct record *vehicle, const struct measuring *m)
{
    struct html *h = &v->html;
    html_open(h, "div");
    html_attr(h, "class", "said");
    render_html_sheet(h, show_measured(v->arena, m->ask.trade, m->x, m->stored),
                      page_links_of(vehicle));
    if (!m->stored) {
        page_form(v, NULL);
        const char *const kept[][2] = {{"what", m->ask.what},   {"value", m->ask.value},
                                       {"where", m->ask.where}, {"low", m->ask.low},
                                       {"high", m->ask.high},   {NULL, NULL}};
        for (int i = 0; kept[i][0]; i++)
            if (kept[i][1]) form_hidden(h, kept[i][0], kept[i][1]);
        form_act(h, m->x->n_questions > 0 ? "measured-sure" : "measured",
                 m->x->n_questions > 0 ? "Yes, it is right: store it" : "Store the reading", NULL);
        html_close(h, "form");
    }
    html_close(h, "div");
}

static void write_measure(struct visit *v, const struct trade *t, const struct measuring *m)
{
    static const struct field
        what = {.name = "what", .type = FIELD_TEXT, .help = "What was measured"},
        value = {.name = "value", .type = FIELD_TEXT, .help = "With its unit: 12.4 V, 2 bar, 78 %"},
        where = {.name = "where",
                 .type = FIELD_TEXT,
                 .help = "Cylinder 3, front-left; empty if there is one only"},
        low = {.name = "low", .type = FIELD_TEXT, .help = "The maker's figure: at least"},
        high = {.name = "high", .type = FIELD_TEXT, .help = "The maker's figure: at most"};
    struct html *h = &v->html;
    struct form_choice *choices = ARENA_ARRAY(v->arena, struct form_choice, t->n_proofs + 1);
    int n = 0;
    for (int i = 0; i < t->n_proofs; i++)
        if (t->proofs[i].unit)
            choices[n++] = (struct form_choice){
                t->proofs[i].head.id,
                arena_print(v->arena, "%s, %s", t->proofs[i].head.name, t->proofs[i].unit), NULL};
    choices[n] = (struct form_choice){NULL, NULL, NULL};
    html_leaf(h, "h2", NULL, "Measured");
    page_form(v, NULL);
    form_write(h, &(struct form_field){.name = "what",
                                       .label = "What",
                                       .declared = &what,
                                       .value = m ? m->ask.what : NULL,
                                       .choices = choices});
    form_write(h, &(struct form_field){.name = "value",
                                       .label = "It read",
                                       .declared = &value,
                                       .value = m ? m->ask.value : NULL,
                                       .fault = m ? m->fault : NULL});
    form_write(h, &(struct form_field){.name = "where",
                                       .label = "Where",
                                       .declared = &where,
                                       .value = m ? m->ask.where : NULL});
    form_write(h, &(struct form_field){.name = "low",
                                       .label = "At least",
                                       .declared = &low,
                                       .value = m ? m->ask.low : NULL});
    form_write(h, &(struct form_field){.name = "high",
                                       .label = "At most",
                                       .declared = &high,
                                       .value = m ? m->ask.high : NULL});
    form_act(h, "judge", "Judge it", NULL);
    html_close(h, "form");
}

static bool write_last(struct visit *v, const struct record *vehicle, struct fail *f)
{
    struct record *works;
    int n;
    if (!garage_list(v->garage, v->arena, record_kind_find("work"), vehicle->id, &works, &n, f))
        return false;
    struct sheet *s = sheet_new(v->arena, "");
    sheet_heading(s, 2, "Logged last");
    if (n == 0) sheet_text(s, "Nothing yet.");
    for (int i = n - 1; i >= 0 && i >= n - LAST_SHOWN; i--)
        sheet_item(s, "%s: %s, %s%s%s", record_text(&works[i], "date", "no day"),
                   record_text(&works[i], "job", ""), record_text(&works[i], "hours", "no hours"),
                   record_integer(&works[i], "finished", 0) ? ", finished" : "",
                   record_text(&works[i], "setback", NULL)
                       ? arena_print(v->arena, "; met: %s", record_text(&works[i], "setback", ""))
                       : "");
    sheet_link(s, "Your hours against the estimates", "pace");
    render_html_sheet(&v->html, s, page_links_of(vehicle));
    return true;
}

static bool write_page(struct visit *v, const struct record *vehicle, const char *line,
                       const struct log_reading *r, const struct log_ask *ask, const char *fault,
                       const struct measuring *m, struct fail *f)
{
    const struct trade *t;
    if (!visit_trade(v, &t, f)) return false;
    struct html *h = page_begin(v, "Log", vehicle, "log");
    html_leaf(h, "h1", NULL, "Log");
    form_fault(h, fault);
    if (r) write_reading(v, vehicle, r, ask);
    if (m && m->x) write_judged(v, vehicle, m);
    write_line(v, line);
    if (!write_clock(v, vehicle, f)) return false;
    write_measure(v, t, m);
    return write_last(v, vehicle, f) && page_end(v);
}

bool page_log(struct visit *v, struct fail *f)
{
    struct record *vehicle;
    return visit_vehicle(v, &vehicle, f) && write_page(v, vehicle, NULL, NULL, NULL, NULL, NULL, f);
}

/* *r is filled where something is left to be answered. */
static bool act(struct visit *v, struct log_ask *ask, struct log_reading *r, bool *open,
                struct fail *f)
{
    const struct pairs *form = &v->request->form;
    const char *what = pairs_get(form, "act"), *hours = pairs_get(form, "hours"), *said;
    struct record *timer;
    *open = false;
    if (!what) what = "read";
    if (text_is(what, "start"))
        return timer_start(v->arena, ask, pairs_get(form, "job") ? pairs_get(form, "job") : "",
                           &timer, f);
    if (text_is(what, "stop") || text_is(what, "finish") || text_is(what, "drop"))
        return timer_stop(v->arena, ask, hours && *hours ? hours : NULL, text_is(what, "finish"),
                          text_is(what, "drop"), &said, f);
    const bool stores = text_is(what, "store") || text_is(what, "sure");
    bool stored = false;
    if (!(stores ? log_tell(v->arena, ask, text_is(what, "sure"), r, &stored, f)
                 : log_read(v->arena, ask, r, f)))
        return false;
    *open = !stored;
    return true;
}

static bool measure(struct visit *v, const struct record *vehicle, const struct log_ask *log,
                    const char *act, struct fail *f)
{
    const struct pairs *form = &v->request->form;
    struct measured_reading x;
    struct fail why = {0};
    struct measuring m = {.ask = {.garage = v->garage,
                                  .trade = log->trade,
                                  .vehicle = vehicle->id,
                                  .today = v->today,
                                  .what = pairs_get(form, "what"),
                                  .value = pairs_get(form, "value"),
                                  .where = pairs_get(form, "where"),
                                  .low = pairs_get(form, "low"),
                                  .high = pairs_get(form, "high")}};
    if (!m.ask.what || !*m.ask.what)
        m.ask.what = "", m.fault = "what was measured? Choose it above";
    if (!m.ask.value) m.ask.value = "";
    const bool good =
        !m.fault &&
        (text_is(act, "judge") ? measured_read(v->arena, &m.ask, &x, &why)
                               : measured_tell(v->arena, &m.ask, NULL, NULL,
                                               text_is(act, "measured-sure"), &x, &m.stored, &why));
    if (good)
        m.x = &x;
    else if (!m.fault && why.kind != FAIL_INPUT) {
        *f = why;
        return false;
    } else {
        v->response->status = 422;
        if (!m.fault) m.fault = why.text;
    }
    if (m.stored) m.ask.value = NULL;
    return write_page(v, vehicle, NULL, NULL, NULL, NULL, &m, f);
}

bool page_log_tell(struct visit *v, struct fail *f)
{
    const struct pairs *form = &v->request->form;
    const struct log_now now = log_now();
    const char *picks[PICKS_MOST];
    struct record *vehicle;
    struct log_reading r;
    struct fail why = {0};
    bool open;
    struct log_ask ask = {.today = v->today,
                          .minute = now.minute,
                          .now = now.stamp,
                          .line = pairs_get(form, "line"),
                          .picks = picks};
    if (!visit_garage(v, GARAGE_WRITE, f) || !visit_vehicle(v, &vehicle, f) ||
        !visit_trade(v, &ask.trade, f))
        return false;
    ask.garage = v->garage;
    ask.vehicle = vehicle->id;
    if (!ask.line) ask.line = "";
    while (ask.n_picks < PICKS_MOST) {
        const char *pick = pairs_get(form, arena_print(v->arena, "pick%d", ask.n_picks));
        if (!pick) break;
        picks[ask.n_picks++] = pick;
    }
    const char *what = pairs_get(form, "act");
    if (what && (text_is(what, "judge") || text_starts(what, "measured")))
        return measure(v, vehicle, &ask, what, f);
    if (act(v, &ask, &r, &open, &why))
        return open ? write_page(v, vehicle, ask.line, &r, &ask, NULL, NULL, f)
                    : visit_go(v, page_of_vehicle(v->arena, vehicle, "log"));
    if (why.kind != FAIL_INPUT) {
        *f = why;
        return false;
    }
    v->response->status = 422;
    return write_page(v, vehicle, ask.line, NULL, NULL, why.text, NULL, f);
}
